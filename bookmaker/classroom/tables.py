"""Tables as every spreadsheet reads them: rows in, the bytes of a CSV file out."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Final

BYTE_ORDER_MARK = "\ufeff"
"""By which a spreadsheet knows UTF-8."""


_RUN: Final = re.compile(r"[=+\-@\t\r]")
"""What a cell begins with that a spreadsheet would run as a formula."""
_NUMBER: Final = re.compile(r"[+-]?\d[\d.,; +-]*")


def table_bytes(
    columns: Sequence[str], rows: Iterable[Sequence[object]], delimiter: str = ","
) -> bytes:
    """A header and its rows (RFC 4180, but for ``delimiter``), in UTF-8 with its mark."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=delimiter, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([_harmless(cell) for cell in row] for row in rows)
    return (BYTE_ORDER_MARK + stream.getvalue()).encode("utf-8")


def _harmless(cell: object) -> str:
    """The cell with an apostrophe before what would be run; ``read_table`` takes it off again."""
    text = str(cell)
    return f"'{text}" if _RUN.match(text) and not _NUMBER.fullmatch(text) else text
