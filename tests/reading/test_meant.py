"""What is plainly meant is taken, however it is written; what is not is told with its mend."""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Book, Number, Problem, write_like
from bookmaker.reading import read
from tests.benchmarks.reading import FORMS

CHAPTER = """title = "The pool"
[[page]]
name = "Newt"
art = "newt.svg"
links = ["nose-back", "back-tail"]
[page.spots]
nose = [12, 40]
back = [45, 35.5]
tail = [88, 52]
"""
ACCENTED = CHAPTER.replace("back =", '"r\u00fccken" =').replace("back", "r\u00fccken")


def found(folder: Path, chapter: str = CHAPTER, said: str = "") -> tuple[Book, tuple[Problem, ...]]:
    (folder / "newt.svg").write_text("<svg/>", "utf-8")
    (folder / "one.toml").write_text(chapter, "utf-8")
    manifest = folder / "book.toml"
    manifest.write_text(f'title = "x"\nchapters = ["one.toml"]\n{said}\n', "utf-8")
    reading = read(manifest)
    assert reading.book is not None
    return reading.book, reading.problems


def told(folder: Path, chapter: str = CHAPTER, said: str = "") -> str:
    (problem,) = found(folder, chapter, said)[1]
    return str(problem)


@pytest.mark.parametrize(
    ("said", "key", "taken"),
    [
        ('language = "French"', "language", "fr"),
        ('language = "Français"', "language", "fr"),
        ('language = "Spanish"', "language", "es"),
        ('language = "EN"', "language", "en"),
        ('language = "fr-FR"', "language", "fr"),
        ("grade = 2", "grade", "2"),
        ('grade = "k"', "grade", "K"),
        ('grade = " 4 "', "grade", "4"),
        ('paper = "A4"', "paper", "a4"),
        ('paper = "Letter"', "paper", "letter"),
        ('order = "As-Written"', "order", "as-written"),
        ('climb_to = "Sheer"', "climb_to", "sheer"),
    ],
)
def test_other_ways_to_write_a_choice_are_taken(
    said: str, key: str, taken: str, tmp_path: Path
) -> None:
    book, problems = found(tmp_path, said=said)
    assert problems == ()
    assert getattr(book, key) == taken


@pytest.mark.parametrize(
    ("word", "band"),
    [("easy", "gentle"), ("Medium", "steady"), ("hard", "steep"), ("very hard", "sheer")],
)
def test_a_word_for_how_hard_a_page_is_is_told_its_band(
    word: str, band: str, tmp_path: Path
) -> None:
    links = 'links = ["nose-back", "back-tail"]'
    chapter = CHAPTER.replace(links, f'links = "auto"\nband = "{word}"')
    assert f'Did you mean "{band}"?' in told(tmp_path, chapter)
    assert f'Did you mean "{band}"?' in told(tmp_path, said=f'climb_to = "{word}"')


def test_a_band_in_capitals_is_wished_for(tmp_path: Path) -> None:
    links = 'links = ["nose-back", "back-tail"]'
    book, problems = found(tmp_path, CHAPTER.replace(links, 'links = "auto"\nband = "Steep"'))
    assert problems == ()
    assert book.pages[0].wish is not None and book.pages[0].wish.band == "steep"


@pytest.mark.parametrize("spots", ["NFC", "NFD"])
@pytest.mark.parametrize("links", ["NFC", "NFD"])
@pytest.mark.parametrize("given_", ["NFC", "NFD"])
def test_an_accent_in_one_code_point_or_in_two_is_the_same_letter(
    spots: str, links: str, given_: str, tmp_path: Path
) -> None:
    head, places = ACCENTED.split("[page.spots]")
    head = unicodedata.normalize(links, head)
    given_line = unicodedata.normalize(given_, 'given = { "r\u00fccken" = 1 }\n')
    chapter = head + given_line + "[page.spots]" + unicodedata.normalize(spots, places)
    book, problems = found(tmp_path, chapter)
    assert problems == ()
    (page,) = book.pages
    name = unicodedata.normalize(spots, "r\u00fccken")
    assert page.spot_names == ("nose", name, "tail")
    assert [link.ends for link in page.links] == [("nose", name), (name, "tail")]
    assert [spot for spot, _ in page.given] == [name]


def test_two_spots_that_differ_only_in_how_their_accents_are_coded_are_told(
    tmp_path: Path,
) -> None:
    twice = ACCENTED + unicodedata.normalize("NFD", '"r\u00fccken" = [20, 20]\n')
    assert any("two spots have the name" in str(each) for each in found(tmp_path, twice)[1])


def test_a_picture_is_found_however_the_disk_codes_its_accents(tmp_path: Path) -> None:
    chapter = CHAPTER.replace("newt.svg", "b\u00e9.svg")
    (tmp_path / unicodedata.normalize("NFD", "b\u00e9.svg")).write_text("<svg/>", "utf-8")
    book, problems = found(tmp_path, chapter)
    assert problems == ()
    art = book.pages[0].art
    assert art is not None and art.exists()


@pytest.mark.parametrize(
    ("place", "mend"),
    [
        ("[45 35.5]", "Write [45, 35.5]."),
        ("[45; 35]", "Write [45, 35]."),
        ("45, 35", "Write [45, 35]."),
        ("(45, 35)", "Write [45, 35]."),
        ("[45%, 35%]", "Write the number alone"),
        ('["45%", "35%"]', "no quotation marks and no per cent sign"),
    ],
)
def test_a_place_written_in_another_way_is_told_how_to_write_it(
    place: str, mend: str, tmp_path: Path
) -> None:
    assert mend in told(tmp_path, CHAPTER.replace("[45, 35.5]", place))


def test_places_in_fractions_are_told_in_per_cent(tmp_path: Path) -> None:
    fractions = CHAPTER.replace("[12, 40]", "[0.12, 0.4]").replace("[45, 35.5]", "[0.45, 0.355]")
    fractions = fractions.replace("[88, 52]", "[0.88, 0.52]")
    assert "Write per cent, not fractions: [12, 40]." in told(tmp_path, fractions)


def test_a_single_place_in_the_corner_is_warned_of_and_kept(tmp_path: Path) -> None:
    book, problems = found(tmp_path, CHAPTER.replace("[45, 35.5]", "[0.25, 0.25]"))
    (problem,) = problems
    assert problem.severity == "warning"
    assert "write [25, 25]" in problem.mend
    assert len(book.pages) == 1


@pytest.mark.parametrize("place", ["[0, 0]", "[0, 50]", "[1, 1]", "[0.5, 50]", "[100, 100]"])
def test_a_place_at_the_edge_is_no_fraction(place: str, tmp_path: Path) -> None:
    assert found(tmp_path, CHAPTER.replace("[45, 35.5]", place))[1] == ()


@pytest.mark.parametrize(
    ("text", "value"),
    [("1 1/4", Fraction(5, 4)), ("-2 1/2", Fraction(-5, 2)), ("0 3/4", Fraction(3, 4))],
)
def test_a_mixed_number_is_read_and_written_as_it_is(text: str, value: Fraction) -> None:
    assert Number.parse(text) == Number(value, text)


@pytest.mark.parametrize("text", ["1 1/0", "1 1", "1/4 1", "1 -1/4", "1 1.5", "1 1/00"])
def test_what_is_no_mixed_number_is_none(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not a|by nought"):
        Number.parse(text)


@given(st.fractions(-50, 50, max_denominator=12))
def test_what_is_written_like_a_mixed_number_is_read_back(value: Fraction) -> None:
    written = write_like(value, (Number.parse("1 1/4"),))
    assert Number.parse(written.text).value == value
    assert written.is_mixed == (abs(value) > 1 and value.denominator > 1)


def test_a_minus_may_be_written_as_one(tmp_path: Path) -> None:
    book, problems = found(tmp_path, said='numbers = { start = "\u22123", step = 2 }')
    assert problems == ()
    assert [number.text for number in book.pages[0].numbers] == ["-3", "-1", "1"]


@pytest.mark.parametrize("letter", [chr(code) for code in range(ord("a"), ord("z") + 1)])
@pytest.mark.parametrize("capital", [False, True])
@pytest.mark.parametrize("rest", ["ewt.svg", "1234.svg", "00e9beef"])
def test_a_path_as_windows_writes_it_is_told_whichever_letter_follows(
    letter: str, capital: bool, rest: str, tmp_path: Path
) -> None:
    letter = letter.upper() if capital else letter
    said = told(tmp_path, CHAPTER.replace("newt.svg", f"pics\\{letter}{rest}"))
    assert ":4: Newt: " in said
    assert "write / between folders, and \\\\ for \\." in said.lower()


@pytest.mark.parametrize("path", ["C:\\Users\\me\\x.svg", "\\\\server\\share\\x.svg", "pics\\"])
def test_other_paths_of_windows_are_told_the_same(path: str, tmp_path: Path) -> None:
    assert "Write / between folders" in told(tmp_path, CHAPTER.replace("newt.svg", path))
    assert "Write / between folders" in told(tmp_path, said=f'cover = "{path}"')


@pytest.mark.parametrize("key", ["art", "mark", "cover", "ornament"])
def test_a_missing_picture_is_told_once_and_by_its_own_key(key: str, tmp_path: Path) -> None:
    chapter = CHAPTER.replace('"newt.svg"', '"none.svg"') if key == "art" else CHAPTER
    if key == "mark":
        chapter = CHAPTER.replace("links", 'mark = "none.svg"\nlinks')
    if key == "ornament":
        chapter = 'ornament = "none.svg"\n' + CHAPTER
    book, problems = found(tmp_path, chapter, 'cover = "none.svg"' if key == "cover" else "")
    (problem,) = problems
    assert problem.code == "art-missing"
    assert book.cover is None
    assert all(chapter.ornament is None for chapter in book.chapters)


@pytest.mark.parametrize("form", FORMS)
def test_a_manifest_of_any_form_is_told_and_not_choked_on(form: str, tmp_path: Path) -> None:
    (tmp_path / "one.toml").write_text(FORMS[form](2000), "utf-8")
    assert read(tmp_path / "one.toml").problems


@pytest.mark.parametrize(
    ("lines", "grade", "curriculum"),
    [
        ('grade = "CE2"\nlanguage = "fr"', "3", "france"),
        ('grade = "Year 4"\ncurriculum = "England"', "4", "england"),
        ('grade = "P2"\ncurriculum = "singapore"', "2", "singapore"),
        ('grade = "Foundation"\ncurriculum = "australia"', "K", "australia"),
        ('grade = "Klasse 3"\ncurriculum = "germany"', "3", "germany"),
        ('grade = "5.º de Primaria"\nlanguage = "es"', "5", "spain"),
        ('grade = "3"\ncurriculum = "ontario"', "3", "ontario"),
        ('grade = "grade 3"', "3", "us"),
    ],
)
def test_grades_are_written_as_teachers_there_do(
    lines: str, grade: str, curriculum: str, tmp_path: Path
) -> None:
    (tmp_path / "one.toml").write_text('title = "One"\n[[page]]\n', "utf-8")
    (tmp_path / "book.toml").write_text(f'title = "B"\nchapters = ["one.toml"]\n{lines}\n', "utf-8")
    reading = read(tmp_path / "book.toml")
    assert reading.book is not None
    assert (reading.book.grade, reading.book.curriculum) == (grade, curriculum)
    assert not [p for p in reading.problems if p.file.endswith("book.toml")]


def test_a_grade_of_another_curriculum_is_told_with_that_curriculum(tmp_path: Path) -> None:
    (tmp_path / "one.toml").write_text('title = "One"\n[[page]]\n', "utf-8")
    (tmp_path / "book.toml").write_text(
        'title = "B"\nchapters = ["one.toml"]\ngrade = "CE2"\n', "utf-8"
    )
    (told,) = [p for p in read(tmp_path / "book.toml").problems if p.file.endswith("book.toml")]
    assert told.code == "bad-value" and 'curriculum = "france"' in told.mend
