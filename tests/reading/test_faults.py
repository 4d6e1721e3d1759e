"""Every fault of the table is told at its line, and its mend makes it go."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from bookmaker.reading import read
from tests.reading.faults import FAULTS, GOOD, Fault, write

CODES = {  # those that reading can find
    "loop",
    "disconnected",
    "unknown-spot",
    "self-link",
    "repeated-link",
    "too-few-spots",
    "too-many-spots",
    "spot-off-art",
    "spots-too-close",
    "art-missing",
    "unknown-key",
    "missing-key",
    "bad-value",
    "bad-toml",
    "bad-encoding",
    "repeated-name",
    "chapter-missing",
}

each_fault = pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)


@each_fault
def test_a_fault_is_told_at_its_line_and_nothing_else_is(fault: Fault, tmp_path: Path) -> None:
    told = read(write(fault.files, tmp_path)).problems
    assert tuple((each.line, each.code) for each in told) == fault.expected
    assert {each.file for each in told} == {str(tmp_path / fault.told_in)}


@each_fault
def test_a_mended_fault_is_gone(fault: Fault, tmp_path: Path) -> None:
    reading = read(write(fault.mended_files, tmp_path))
    assert reading.problems == ()
    assert reading.book and len(reading.book.pages) >= 1


@each_fault
def test_a_fault_is_told_in_sentences(fault: Fault, tmp_path: Path) -> None:
    for told in read(write(fault.files, tmp_path)).problems:
        assert told.message == told.message.strip() and told.mend == told.mend.strip()
        assert not told.message.endswith("."), "the line puts the full stop"
        assert re.search(r"[.?]$", told.mend), told.mend
        assert told.mend[0].isupper() or told.mend.startswith(("[", '"'))
        assert "\n" not in str(told) and len(str(told)) < 500


def test_the_good_book_has_no_fault(tmp_path: Path) -> None:
    reading = read(write(GOOD, tmp_path))
    assert reading.problems == ()
    assert reading.book and [page.id for page in reading.book.pages] == ["newt", "heron"]


def test_the_table_has_every_code_that_reading_can_find() -> None:
    assert {code for fault in FAULTS for _, code in fault.expected} == CODES


def test_the_table_has_no_name_twice() -> None:
    assert max(Counter(fault.name for fault in FAULTS).values()) == 1


def test_faults_of_all_files_are_told_together(tmp_path: Path) -> None:
    faulty = {
        **GOOD,
        "book.toml": str(GOOD["book.toml"])
        .replace('"a4"', '"a9"')
        .replace('["01.toml"]', '["01.toml", "02.toml", "03.toml"]'),
        "01.toml": str(GOOD["01.toml"]).replace("[12, 40]", "[12, -40]"),
        "02.toml": "title = The brook\n",
        "03.toml": b"title = \xff\n",
    }
    told = read(write(faulty, tmp_path)).problems
    assert [(Path(each.file).name, each.line, each.code) for each in told] == [
        ("book.toml", 4, "bad-value"),
        ("01.toml", 16, "spot-off-art"),
        ("02.toml", 1, "bad-toml"),
        ("02.toml", 1, "missing-key"),
        ("03.toml", 1, "bad-encoding"),
    ]


def test_a_page_with_a_fault_is_left_out_and_the_others_stay(tmp_path: Path) -> None:
    faulty = {**GOOD, "01.toml": str(GOOD["01.toml"]).replace('"Heron"', "Heron")}
    book = read(write(faulty, tmp_path)).book
    assert book and [page.name for page in book.pages] == ["Newt"]


def test_a_thousand_unknown_keys_are_all_told_each_with_the_nearest_known_one(
    tmp_path: Path,
) -> None:
    keys = "".join(f"key{place} = {place}\n" for place in range(1000))
    told = read(write({**GOOD, "01.toml": keys + str(GOOD["01.toml"])}, tmp_path)).problems
    assert [(each.line, each.code) for each in told] == [
        (line, "unknown-key") for line in range(1, 1001)
    ]
    assert all("nearest is page" in each.mend for each in told)
