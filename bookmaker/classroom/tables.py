"""Tables as every spreadsheet reads them: rows in, the bytes of a CSV file out."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

BYTE_ORDER_MARK = "\ufeff"
"""By which a spreadsheet knows UTF-8."""


def table_bytes(
    columns: Sequence[str], rows: Iterable[Sequence[object]], delimiter: str = ","
) -> bytes:
    """A header and its rows (RFC 4180, but for ``delimiter``), in UTF-8 with its mark."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=delimiter, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return (BYTE_ORDER_MARK + stream.getvalue()).encode("utf-8")
