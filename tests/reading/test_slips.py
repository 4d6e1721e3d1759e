"""What the reader of TOML says of a whole file, in plain words and at its line."""

from __future__ import annotations

import pytest

from bookmaker.reading.slips import slip_of_document


@pytest.mark.parametrize(
    ("said", "line", "what"),
    [
        ("Cannot overwrite a value (at line 7, column 2)", 7, "(Cannot overwrite a value)"),
        ("Unclosed array (at end of document)", 1, "(Unclosed array)"),
        ("Cannot declare twice", 1, "(Cannot declare twice)"),
        ("", 1, "(ValueError)"),
    ],
)
def test_a_slip_of_the_whole_file_is_told_at_the_line_that_the_reader_names(
    said: str, line: int, what: str
) -> None:
    slip = slip_of_document(ValueError(said))
    assert slip.line == line
    assert slip.message.endswith(f"from here on {what}")
