"""A class edition from the sheets to the book."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image
from pypdf import PdfReader

from bookmaker.classroom.register import read_register
from bookmaker.classroom.review import read_review
from bookmaker.cli.exits import run
from bookmaker.scanning.batch import Outcome, take_all
from tests.classroom.classes import copied, printed, with_rings, write_class
from tests.cli.editions import book_of, built, out_of, say, text_of
from tests.cli.little_book import ART
from tests.scanning.measuring import spots_of
from tests.scanning.rendering import rendered

Capture = pytest.CaptureFixture[str]


def test_sheets_come_in_as_drawings_and_others_are_told(edition: Path, capsys: Capture) -> None:
    again = run(["intake", str(edition), str(edition.parent.parent / "scans")])
    told = capsys.readouterr().out
    assert again == 0
    assert [row.drawing for row in read_review(edition.parent)] == ["1", "2", "3"]
    assert "film.mov: a film" in told
    assert "other.txt: no picture" in told
    assert "not kept: the roster says no" in told
    assert "Kept 0 of 6" in told
    assert sorted(p.name for p in (edition.parent / "drawings").iterdir()) == [
        "1.png",
        "2.png",
        "3.png",
    ]


def test_nothing_enters_a_book_before_it_has_a_yes(edition: Path, capsys: Capture) -> None:
    assert built(edition) == 0
    assert "2 drawings wait" in capsys.readouterr().err  # the third is for the child's own copy
    certificate = out_of(edition) / "little-book-heron-class.certificate.json"
    names = [page["name"] for page in json.loads(certificate.read_text("utf-8"))["pages"]]
    assert names == ["Path", "Fork", "Star"]


def test_the_class_s_book_has_the_drawings_where_the_pages_were(edition: Path) -> None:
    say(edition, "1", "yes")
    say(edition, "2", "yes")
    assert built(edition) == 0
    pdf = out_of(edition) / "little-book-heron-class.pdf"
    certificate = json.loads(pdf.with_suffix(".certificate.json").read_text("utf-8"))
    pages = {page["id"]: page for page in certificate["pages"]}
    assert [page["name"] for page in certificate["pages"]] == ["Path", "Creature 2", "Dragon"]
    assert pages["star"]["solutions"] == 12
    said = text_of(pdf)
    assert "Heron Class" in said
    assert "Picture: Amina" in said
    assert "Artist 2" in said
    assert "Star" not in said
    reader = PdfReader(pdf)
    assert reader.metadata is not None
    assert reader.metadata.title == "Heron Class"


def test_spots_stand_on_the_page_where_the_sheet_had_them(edition: Path, tmp_path: Path) -> None:
    """Worked out here from the register's millimetres and the SVG's box, within 0.03 mm."""
    assert built(edition, "--use-all", "--svg", str(tmp_path / "svg")) == 0
    rows = {row.page: row for row in read_register(edition.parent / "register.csv")}
    for page in ("star", "fork"):
        (svg,) = (tmp_path / "svg").rglob(f"{page}.svg")
        box, spots = spots_of(svg)
        frame = (180.0, 210.0)  # of an A4 sheet
        for name, x, y, radius in json.loads(rows[page].marks)["spots"]:
            scale = box[2] / frame[0]
            wanted = (box[0] + x * scale, box[1] + y * scale, radius * scale)
            assert np.allclose(spots[name], wanted, atol=0.03)
            assert 2 * spots[name][2] >= 20 - 0.05


def test_own_drawings_stand_in_the_child_s_own_copy_alone(edition: Path) -> None:
    assert built(edition, "--use-all") == 0
    out = out_of(edition)
    assert "Moss beast" not in text_of(out / "little-book-heron-class.pdf")
    assert built(edition, "--use-all", "--pupil", "chidi") == 0
    mine = text_of(out / "little-book-heron-class-3.pdf")
    assert "Moss beast" in mine
    assert "Chidi the brave" in mine
    assert "Key" not in mine.splitlines()


def test_a_copy_that_may_not_be_made_is_refused_with_its_reason(
    edition: Path, capsys: Capture
) -> None:
    assert built(edition, "--pupil", "Dora") == 1
    assert "roster.csv:5: Dora: the roster says no" in capsys.readouterr().err
    assert built(edition, "--pupil", "Chidi") == 1
    assert "no drawing with a yes" in capsys.readouterr().err
    assert built(edition, "--pupil", "Chidy") == 2
    assert "'Chidi'" in capsys.readouterr().err
    assert run(["build", book_of(edition), "--pupil", "Bruno"]) == 2


@pytest.mark.parametrize(
    ("encoding", "delimiter"), [("utf-16", ";"), ("utf-16", "\t"), ("cp1252", ","), ("utf-8", ";")]
)
def test_the_review_keeps_the_form_that_the_teacher_s_spreadsheet_wrote(
    encoding: str, delimiter: str, edition: Path
) -> None:
    review = edition.parent / "review.csv"
    text = review.read_text("utf-8-sig")
    assert text.startswith("drawing;pupil;page;use")  # as the roster has it
    text = text.replace("1;Amina;star;", "1;Amina;star;Yes").replace(";", delimiter)
    review.write_text(text, encoding)
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    assert [row.use for row in read_review(edition.parent)] == ["yes", "", ""]
    assert review.read_text("utf-8-sig").startswith(delimiter.join(("drawing", "pupil", "page")))
    assert built(edition) == 0
    assert "Dragon" in text_of(out_of(edition) / "little-book-heron-class.pdf")


def test_a_teacher_s_own_picture_goes_in_without_a_sheet(edition: Path, capsys: Capture) -> None:
    Image.new("RGB", (1500, 1800), "tan").save(edition.parent / "mine.jpg")
    edition.write_text(edition.read_text("utf-8") + '[swap]\npath = "mine.jpg"\n', "utf-8")
    assert built(edition) == 0
    assert "Path" in text_of(out_of(edition) / "little-book-heron-class.pdf")
    edition.write_text(edition.read_text("utf-8").replace("path =", "pth ="), "utf-8")
    assert built(edition) == 1
    assert "class.toml:5: the book has no page 'pth'" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("head = [50, 12]", "head = [85, 15]"),
        ('"heart-head", "heart-wing"', '"heart-head", "wing-head"'),
    ],
)
def test_the_sheet_s_own_spots_hold_when_the_book_changes(
    old: str, new: str, edition: Path, capsys: Capture
) -> None:
    chapter = Path(book_of(edition)).parent / "two.toml"
    changed = chapter.read_text("utf-8").replace(old, new)
    assert changed != chapter.read_text("utf-8")
    chapter.write_text(changed, "utf-8")
    assert built(edition, "--use-all") == 0
    assert "have changed since sheet 1 was printed" in capsys.readouterr().err
    certificate = out_of(edition) / "little-book-heron-class.certificate.json"
    pages = {p["id"]: p for p in json.loads(certificate.read_text("utf-8"))["pages"]}
    links = {frozenset(link) for link in pages["star"]["links"]}
    assert links == {frozenset({"heart", name}) for name in ("head", "wing", "back")}


def test_the_cover_shows_a_drawing_whole_and_credits_it_to_its_pupil(edition: Path) -> None:
    """Four strips along the drawing's edges, of colours that nothing else on a cover has."""
    book = Path(book_of(edition))
    (book.parent / "front.svg").write_text(ART.format("Front", "#333333"), "utf-8")
    with book.open("a", encoding="utf-8") as file:
        file.write('artist = "the club"\nlicence = "CC0-1.0"\ncover = "front.svg"\n')
    for name, inside in (("1", "white"), ("3", "aqua")):
        drawing = Image.new("RGB", (900, 1050), inside)
        drawing.paste("red", (0, 0, 900, 30))
        drawing.paste("lime", (0, 1020, 900, 1050))
        drawing.paste("blue", (0, 0, 30, 1050))
        drawing.paste("fuchsia", (870, 0, 900, 1050))
        drawing.save(edition.parent / "drawings" / f"{name}.png")
    say(edition, "2", "no")
    out = out_of(edition)
    assert run(["build", book_of(edition), "--out", str(out)]) == 0
    assert "the club\nthe cover" in text_of(out / "little-book.pdf")
    assert built(edition, "--use-all") == 0
    pdf = out / "little-book-heron-class.pdf"
    assert (255, 0, 255) not in _colours_of_cover(pdf)  # nobody chose a drawing
    edition.write_text("cover = 1\n" + edition.read_text("utf-8"), "utf-8")
    assert built(edition, "--use-all") == 0
    assert "the club" not in text_of(pdf)
    assert "the cover" not in text_of(pdf)
    edges = {(255, 0, 0), (0, 255, 0), (0, 0, 255), (255, 0, 255)}
    assert edges <= _colours_of_cover(pdf)
    assert (0, 255, 255) not in _colours_of_cover(pdf)
    assert built(edition, "--use-all", "--pupil", "Chidi") == 0
    assert (0, 255, 255) in _colours_of_cover(out / "little-book-heron-class-3.pdf")


def _colours_of_cover(pdf: Path) -> set[object]:
    cover = rendered(pdf.read_bytes(), 0, 40)
    return {colour for _, colour in cover.getcolors(cover.width * cover.height)}


def test_bad_words_on_the_command_line_are_told(edition: Path, capsys: Capture) -> None:
    out = str(out_of(edition))
    assert run(["sheets", str(edition), "--out", out, "--assign", "31"]) == 2
    assert run(["sheets", str(edition), "--out", out, "--assign", "31=Kofi"]) == 2
    assert "no sheet 31" in capsys.readouterr().err
    assert run(["sheets", str(edition), "--out", out, "--paper", "a5"]) == 2
    assert run(["intake", str(edition), "nowhere.jpg"]) == 2
    assert run(["sheets", str(edition.parent / "no.toml")]) == 2


def test_a_register_of_another_book_is_a_problem_and_stays_as_it_is(
    edition: Path, capsys: Capture
) -> None:
    register = edition.parent / "register.csv"
    text = register.read_text("utf-8-sig")
    for page in ("star", "fork", "path"):
        text = text.replace(f",{page},", f",x-{page},")
    register.write_text(text, "utf-8")
    assert run(["sheets", str(edition), "--out", str(out_of(edition))]) == 1
    assert "of another book" in capsys.readouterr().err
    assert built(edition, "--use-all") == 1
    assert register.read_text("utf-8") == text


def test_intake_without_printed_sheets_says_what_comes_first(
    tmp_path: Path, capsys: Capture
) -> None:
    manifest = write_class(tmp_path)
    (tmp_path / "a.jpg").write_bytes(b"")
    assert run(["intake", str(manifest), str(tmp_path / "a.jpg")]) == 1
    assert "bookmaker sheets" in capsys.readouterr().err


def test_a_free_sheet_asks_for_two_rings_at_least(edition: Path, capsys: Capture) -> None:
    register = edition.parent / "register.csv"
    before = register.read_bytes()
    assert run(["sheets", str(edition), "--out", str(out_of(edition)), "--free", "1"]) == 2
    assert "two spots at least" in capsys.readouterr().err
    assert register.read_bytes() == before


def test_a_free_sheet_becomes_a_page_of_its_own(edition: Path, capsys: Capture) -> None:
    out = out_of(edition)
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8") + "Kofi;;class;;Ring beast;\n", "utf-8")
    more = ["--spare", "2", "--free", "4", "--assign", "5=Kofi"]
    assert run(["sheets", str(edition), "--out", str(out), *more]) == 0
    assert run(["sheets", str(edition), "--out", str(out), "--assign", "6=Kofi"]) == 0
    rings = [(50, 50), (130, 60), (60, 140), (135, 160)]
    page = printed(out / "heron-class-sheets.pdf", 6)
    scan = edition.parent.parent / "free.jpg"
    scan.write_bytes(copied(with_rings(page, rings), 0))
    capsys.readouterr()
    assert run(["intake", str(edition), str(scan)]) == 0
    row = next(row for row in read_review(edition.parent) if row.sheet == 6)
    found = sorted(row.rings, key=lambda at: (at[1] > 100, at[0]))
    assert np.allclose(found, rings, atol=1.0), capsys.readouterr().out
    say(edition, "6", "yes")
    assert built(edition) == 0
    certificate = json.loads((out / "little-book-heron-class.certificate.json").read_text("utf-8"))
    last = certificate["pages"][-1]
    assert (last["name"], len(last["spots"]), len(last["links"])) == ("Ring beast", 4, 3)
    assert "Creatures of our own" in text_of(out / "little-book-heron-class.pdf")


def test_a_free_sheet_with_too_few_rings_waits_for_the_teacher(
    edition: Path, capsys: Capture
) -> None:
    out = out_of(edition)
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8") + "Kofi;;class;;Ring beast;\n", "utf-8")
    run(["sheets", str(edition), "--out", str(out), "--assign", "5=Kofi"])
    run(["sheets", str(edition), "--out", str(out), "--spare", "1", "--free", "4"])
    run(["sheets", str(edition), "--out", str(out), "--assign", "6=Kofi"])
    scan = edition.parent.parent / "free.jpg"
    page = printed(out / "heron-class-sheets.pdf", 6)
    scan.write_bytes(copied(with_rings(page, [(50, 50), (130, 60)]), 0))
    capsys.readouterr()
    assert run(["intake", str(edition), str(scan)]) == 0
    assert "are missing" in capsys.readouterr().out
    say(edition, "6", "yes")
    assert built(edition) == 0
    assert "2 of its 4 rings are known" in capsys.readouterr().err
    review = edition.parent / "review.csv"
    lines = review.read_text("utf-8").splitlines()
    lines[-1] = lines[-1].partition(';"')[0] + ';"50 50; 130 60; 60 140; 135 160"'
    review.write_text("\n".join(lines), "utf-8")
    assert built(edition) == 0
    assert "Ring beast" in text_of(out / "little-book-heron-class.pdf")


def test_a_long_pdf_of_something_else_is_told_on_one_line(edition: Path, capsys: Capture) -> None:
    pdf = pikepdf.new()
    for _ in range(200):
        pdf.add_blank_page(page_size=(595, 842))
    pdf.save(edition.parent.parent / "guide.pdf")
    assert run(["intake", str(edition), str(edition.parent.parent / "guide.pdf")]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[0] == "guide.pdf, pages 1-200: no picture in it."
    assert told[1] == "Kept 0 of 200 pictures."


def test_a_run_that_breaks_off_keeps_what_was_done_and_can_be_run_again(
    edition: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, scans = edition.parent, str(edition.parent.parent / "scans")
    for name in ("drawings", "names"):
        shutil.rmtree(folder / name)
    (folder / "review.csv").unlink()

    def broken_off(*sources: object) -> Iterator[Outcome]:
        yield next(take_all(*sources))  # type: ignore[arg-type]
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr("bookmaker.classroom.take_scans.take_all", broken_off)
        assert run(["intake", str(edition), scans]) == 130
    assert [row.drawing for row in read_review(folder)] == ["1"]
    assert not list(folder.rglob("*.part"))
    assert run(["intake", str(edition), scans]) == 0
    assert [row.drawing for row in read_review(folder)] == ["1", "2", "3"]
