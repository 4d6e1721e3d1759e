"""Tables of words are read as another reader of the same format reads them."""

from __future__ import annotations

import io

import pytest
from babel.messages.pofile import read_po as babel_reads
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.words import FOLDER, languages
from bookmaker.words.po import read_po

HEAD = 'msgid ""\nmsgstr ""\n"Language: en\\n"\n"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'


def by_babel(text: str) -> dict[str, tuple[str, ...]]:
    """The same table, read by Babel."""
    table = {}
    for entry in babel_reads(io.BytesIO(text.encode())):
        key = entry.id if isinstance(entry.id, str) else entry.id[0]
        if key:
            table[key] = (entry.string,) if isinstance(entry.string, str) else entry.string
    return table


def without_head(table: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    return {key: forms for key, forms in table.items() if key}


@pytest.mark.parametrize("language", languages())
def test_our_tables_read_as_babel_reads_them(language: str) -> None:
    text = (FOLDER / f"{language}.po").read_text(encoding="utf-8")
    assert without_head(read_po(text)) == by_babel(text)


def quoted(text: str) -> str:
    escaped = (
        text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    )
    return f'"{escaped}"'


said = st.text(st.characters(exclude_categories=("C",)) | st.sampled_from('\n\t"\\'), min_size=1)


@given(st.lists(st.lists(said, min_size=1, max_size=2), min_size=1), st.booleans())
def test_any_texts_come_back_in_one_piece_or_several(forms: list[list[str]], split: bool) -> None:
    lines = [HEAD]
    for number, each in enumerate(forms):
        lines.append(f"# a comment\nmsgid {quoted(f'key.{number}')}")
        if len(each) == 2:
            lines.append(f"msgid_plural {quoted(f'key.{number}')}")
        for place, text in enumerate(each):
            name = f"msgstr[{place}]" if len(each) == 2 else "msgstr"
            pieces = ["", *text] if split else [text]
            lines.append("\n".join((f"{name} {quoted(pieces[0])}", *map(quoted, pieces[1:]))))
    text = "\n".join(lines) + "\n"
    expected = {f"key.{number}": tuple(each) for number, each in enumerate(forms)}
    assert without_head(read_po(text)) == expected == by_babel(text)


@pytest.mark.parametrize("line", ['msgstr "open', "msgid bare", 'word "text"', 'msgid "a" "b"'])
def test_a_line_that_is_no_entry_is_an_error(line: str) -> None:
    with pytest.raises(ValueError, match="line 6"):
        read_po(f"{HEAD}{line}\n")
