"""Names, and what a family did not permit, never leave the class's folder."""

import shutil
import zlib
from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from bookmaker.classroom.register import read_register
from bookmaker.classroom.review import read_review
from bookmaker.cli.exits import run
from tests.classroom.classes import copied, drawn_on, printed
from tests.cli.editions import built, everything_in, out_of, say, text_of

Capture = pytest.CaptureFixture[str]
NAMES = ("Amina", "Bruno", "Chidi", "Dora")
SECRET = ("Dora", "Secret newt")


def test_no_name_is_in_a_code_a_file_s_name_or_a_pdf_s_own_data(edition: Path) -> None:
    built(edition, "--use-all", "--pupil", "Chidi")
    built(edition, "--use-all")
    out = out_of(edition)
    made = [*out.rglob("*"), *edition.parent.rglob("*")]
    assert not [file for file in made for name in NAMES if name.lower() in file.name.lower()]
    for pdf in [*out.glob("*.pdf"), edition.parent / "review.pdf"]:
        reader = PdfReader(pdf)
        said = str(reader.metadata) + str(reader.xmp_metadata) + str(reader.outline)
        assert not [name for name in NAMES if name in said], pdf
    for sheet in (1, 3):
        pixels = np.asarray(printed(out / "heron-class-sheets.pdf", sheet).convert("L"))
        codes = [code.text for code in zxingcpp.read_barcodes(pixels)]
        assert len(codes) == 4
        assert all(len(text) == 16 and text.isdigit() for text in codes)
    assert not [n for n in NAMES if n.encode() in everything_in(out / "heron-class-sheets.pdf")]


def test_what_is_not_permitted_is_in_no_book_key_outline_or_certificate(edition: Path) -> None:
    say(edition, "3", "yes")
    assert built(edition, "--use-all") == 0
    assert built(edition, "--use-all", command="key") == 0
    out = out_of(edition)
    for name in ("little-book-heron-class.pdf", "little-book-heron-class-key.pdf"):
        everything = everything_in(out / name)
        for word in (*SECRET, "Bruno", "Chidi", "Moss beast", "Chidi the brave"):
            assert word.encode() not in everything
            assert word.encode("utf-16-be") not in everything
        assert b"Dragon" in everything
    certificate = (out / "little-book-heron-class.certificate.json").read_text("utf-8")
    assert not [word for word in (*NAMES, "Secret newt", "Moss beast") if word in certificate]


def test_no_drawing_says_where_or_with_what_it_was_taken(edition: Path) -> None:
    """PNG chunks of ISO/IEC 15948: the picture itself and its size on paper, nothing else."""
    for file in [*edition.parent.glob("drawings/*"), *edition.parent.glob("names/*")]:
        data = file.read_bytes()
        assert _chunks(data) <= {b"IHDR", b"IDAT", b"IEND", b"pHYs"}
        with Image.open(file) as picture:
            assert not picture.getexif()
    assert built(edition, "--use-all") == 0
    # Positions are within EXIF (JEITA CP-3451, 4.6.3). Words of three letters come about by chance.
    telltales = (b"Telltale", b"Telephone of", b"Exif\0\0", b"tiff:Make", b"GPSLatitude")
    for pdf in out_of(edition).glob("*.pdf"):
        data = pdf.read_bytes() + everything_in(pdf)
        assert not [word for word in telltales if word in data]


def _chunks(png: bytes) -> set[bytes]:
    kinds, at = set(), 8
    while at < len(png):
        size = int.from_bytes(png[at : at + 4], "big")
        assert (
            zlib.crc32(png[at + 4 : at + 8 + size]).to_bytes(4, "big")
            == (png[at + 8 + size : at + 12 + size])
        )
        kinds.add(png[at + 4 : at + 8])
        at += 12 + size
    return kinds


def test_a_class_leaves_nothing_in_the_cache(
    edition: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    assert built(edition, "--use-all") == 0
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    kept = tmp_path / "cache" / "bookmaker" / "kept"
    assert not kept.exists() or not list(kept.iterdir())


def test_a_drawing_goes_when_the_roster_comes_to_say_no(edition: Path) -> None:
    roster = edition.parent / "roster.csv"
    roster.write_text(
        roster.read_text("utf-8").replace("Bruno;fork;class", "Bruno;fork;no"), "utf-8"
    )
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    assert [row.drawing for row in read_review(edition.parent)] == ["1", "3"]
    assert not (edition.parent / "names" / "2.png").exists()


def test_nothing_shows_a_refused_drawing_even_where_the_run_breaks_off(
    edition: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8").replace(";fork;class", ";fork;no"), "utf-8")

    def broken_off(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("bookmaker.classroom.take_scans.take_all", broken_off)
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 130
    for file in ("drawings/2.png", "names/2.png", "review.pdf"):
        assert not (edition.parent / file).exists()
    assert "Bruno" not in (edition.parent / "review.csv").read_text("utf-8-sig")


def test_a_pupil_is_forgotten_with_every_file_and_row(edition: Path, capsys: Capture) -> None:
    assert built(edition, "--use-all") == 0
    capsys.readouterr()
    assert run(["forget", str(edition), "amina"]) == 0
    told = capsys.readouterr().out
    assert "little-book-heron-class.pdf" in told
    assert "amina.jpg" in told
    folder = edition.parent
    for file in folder.rglob("*"):
        assert file.is_dir() or b"Amina" not in file.read_bytes(), file
    assert not list(folder.glob("*/1.png"))
    assert "Amina" not in text_of(folder / "review.pdf")
    assert [row.sheet for row in read_register(folder / "register.csv")] == [2, 3, 4, 5]
    roster = (folder / "roster.csv").read_text("utf-8")
    assert roster.splitlines()[1].startswith("Bruno;fork")
    assert run(["sheets", str(edition), "--out", str(out_of(edition)), "--spare", "2"]) == 0
    assert [row.sheet for row in read_register(folder / "register.csv")][-1] == 6
    assert run(["forget", str(edition), "Amina"]) == 2


def test_books_certificates_lists_and_cells_are_cleared_where_that_is_asked_for(
    edition: Path, capsys: Capture
) -> None:
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8").replace("Moss beast", "Moss, for Amina"), "utf-8")
    assert built(edition, "--use-all") == 0
    out = out_of(edition)
    capsys.readouterr()
    assert run(["forget", str(edition), "Amina", "--look", str(out)]) == 0
    told = capsys.readouterr().out
    assert f"{roster}:3: creature" in told
    assert "say it again with --clear" in told
    assert (out / "little-book-heron-class.pdf").exists()
    assert "Moss, for Amina" in roster.read_text("utf-8")
    scans = ["--look", str(out.parent / "scans")]
    assert run(["forget", str(edition), "Amina", "--look", str(out), *scans, "--clear"]) == 0
    told = capsys.readouterr().out
    assert "Removed" not in told
    assert sorted(path.name for path in out.iterdir()) == ["heron-class-sheets.pdf"]
    assert "Amina" not in roster.read_text("utf-8")
    assert (out.parent / "scans" / "amina.jpg").exists()  # the teacher's own


def test_scans_of_those_who_said_no_are_named(edition: Path, capsys: Capture) -> None:
    capsys.readouterr()
    assert run(["forget", str(edition), "Dora"]) == 0
    told = capsys.readouterr().out
    assert "No drawing was kept" in told
    assert "d.jpg" in told


def test_the_year_is_ended_with_all_drawings_and_names(edition: Path, capsys: Capture) -> None:
    assert run(["forget", str(edition), "Amina", "--all"]) == 2
    assert run(["forget", str(edition)]) == 2
    assert run(["forget", str(edition), "--all", "--look", str(out_of(edition)), "--clear"]) == 0
    folder = edition.parent
    assert not list(folder.glob("*/*.png")) and not (folder / "review.pdf").exists()
    for file in (*folder.rglob("*"), *out_of(edition).rglob("*")):
        assert file.is_dir() or not [n for n in NAMES if n.encode() in file.read_bytes()], file


@pytest.mark.parametrize("name", ["", " "])
def test_nobody_s_sheets_are_forgotten_for_an_empty_name(
    name: str, edition: Path, capsys: Capture
) -> None:
    before = (edition.parent / "register.csv").read_bytes()
    assert run(["forget", str(edition), name]) == 2
    assert (edition.parent / "register.csv").read_bytes() == before


def test_a_lost_review_is_made_again_with_the_register_s_names(edition: Path) -> None:
    (edition.parent / "review.csv").unlink()
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    rows = read_review(edition.parent)
    assert [(row.drawing, row.pupil, row.page) for row in rows] == [
        ("1", "Amina", "star"),
        ("2", "Bruno", "fork"),
        ("3", "Chidi", "path"),
    ]
    assert "Bruno" in text_of(edition.parent / "review.pdf")


def test_a_name_that_may_not_be_printed_is_not_printed_as_a_title(edition: Path) -> None:
    roster = edition.parent / "roster.csv"
    text = roster.read_text("utf-8").replace("Bruno;fork;class;no;", "Bruno;fork;class;no;Bruno II")
    roster.write_text(text, "utf-8")
    assert built(edition, "--use-all") == 0
    assert b"Bruno" not in everything_in(out_of(edition) / "little-book-heron-class.pdf")
    certificate = out_of(edition) / "little-book-heron-class.certificate.json"
    assert "Bruno" not in certificate.read_text("utf-8")


def test_a_pupil_can_be_forgotten_when_the_book_has_gone(edition: Path) -> None:
    shutil.rmtree(edition.parent.parent / "little-book")
    edition.write_text(edition.read_text("utf-8") + '[swap]\npath = "gone.jpg"\n', "utf-8")
    assert run(["forget", str(edition), "Amina"]) == 0
    assert not (edition.parent / "drawings" / "1.png").exists()
    assert "Amina" not in (edition.parent / "roster.csv").read_text("utf-8")
    assert "Bruno" in text_of(edition.parent / "review.pdf")


def test_pages_that_were_written_as_svg_are_named_when_their_pupil_is_forgotten(
    edition: Path, capsys: Capture
) -> None:
    pages = out_of(edition) / "pages"
    assert built(edition, "--use-all", "--svg", str(pages)) == 0
    capsys.readouterr()
    assert run(["forget", str(edition), "Amina"]) == 0
    assert "pages" in capsys.readouterr().out.split()


def test_what_a_killed_run_left_half_written_goes_with_the_pupil(edition: Path) -> None:
    folder = edition.parent
    left = [folder / ".review.pdf.x1.part", folder / "drawings" / ".1.png.x2.part"]
    for file in left:
        file.write_bytes(b"Amina")
    assert run(["forget", str(edition), "Amina"]) == 0
    assert not [file for file in left if file.exists()]


def test_a_name_without_letters_in_the_book_s_type_stops_nothing(
    edition: Path, capsys: Capture
) -> None:
    roster = edition.parent / "roster.csv"
    row = "\u674e\u5a1c;;class;yes;\u9f99;\n"
    roster.write_text(roster.read_text("utf-8") + row, "utf-8")
    out = out_of(edition)
    assert run(["sheets", str(edition), "--out", str(out), "--assign", "5=\u674e\u5a1c"]) == 0
    assert "the name has letters that the book's type lacks" in capsys.readouterr().err
    assert "Sheet 5" in text_of(out / "heron-class-sheets-list.pdf")
    scan = out.parent / "li.jpg"
    scan.write_bytes(copied(drawn_on(printed(out / "heron-class-sheets.pdf", 5), 5), 0))
    assert run(["intake", str(edition), str(scan)]) == 0
    say(edition, "5", "yes")
    assert built(edition) == 0
    assert "the creature has letters" in capsys.readouterr().err
    told = text_of(out / "little-book-heron-class.pdf")
    assert "Creature 5" in told and "Artist 5" in told
