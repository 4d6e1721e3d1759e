"""A class edition from the sheets to the book."""

import json
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image
from pypdf import PdfReader

from bookmaker.classroom.made import read_made
from bookmaker.classroom.register import read_register, write_register
from bookmaker.classroom.review import read_review
from bookmaker.cli.exits import run
from bookmaker.locking import LOCK, held
from bookmaker.scanning.batch import Outcome, take_all
from tests.classroom.classes import copied, drawn_on, printed, with_rings, write_class
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


def test_another_drawing_on_one_sheet_is_kept_beside_the_first(
    edition: Path, capsys: Capture
) -> None:
    pdf = out_of(edition) / "heron-class-sheets.pdf"
    scan = edition.parent.parent / "again.jpg"
    scan.write_bytes(copied(drawn_on(printed(pdf, 1), 77), 0))
    before = (edition.parent / "drawings" / "1.png").read_bytes()
    assert run(["intake", str(edition), str(scan)]) == 0
    assert "ANOTHER drawing on this sheet" in capsys.readouterr().out
    assert (edition.parent / "drawings" / "1.png").read_bytes() == before
    assert (edition.parent / "drawings" / "1_2.png").exists()
    assert built(edition, "--use-all") == 0
    assert "sheet 1 has several drawings (1, 1_2)" in capsys.readouterr().err
    say(edition, "1_2", "yes")
    assert built(edition) == 0
    assert "Dragon" in text_of(out_of(edition) / "little-book-heron-class.pdf")


def test_a_drawing_on_a_copied_sheet_is_given_to_its_pupil(edition: Path, capsys: Capture) -> None:
    roster, out = edition.parent / "roster.csv", out_of(edition)
    roster.write_text(roster.read_text("utf-8") + "Kofi;;class;yes;Night heron;\n", "utf-8")
    scan = edition.parent.parent / "again.jpg"
    scan.write_bytes(copied(drawn_on(printed(out / "heron-class-sheets.pdf", 1), 77), 0))
    assert run(["intake", str(edition), str(scan)]) == 0
    assert "sheets --assign 1_2=NAME" in capsys.readouterr().out.replace("\n", " ")
    assert run(["sheets", str(edition), "--out", str(out), "--assign", "1_9=Kofi"]) == 2
    assert run(["sheets", str(edition), "--out", str(out), "--assign", "1_2=Kofi"]) == 0
    assert "Drawing 1_2 is Kofi's now, as sheet 6" in capsys.readouterr().out
    rows = {row.drawing: row for row in read_review(edition.parent)}
    assert sorted(rows) == ["1", "2", "3", "6"]
    assert (rows["6"].pupil, rows["6"].scan, rows["6"].copied) == ("Kofi", "again.jpg", 1)
    assert run(["intake", str(edition), str(scan)]) == 0  # known again, though it says sheet 1
    assert sorted(row.drawing for row in read_review(edition.parent)) == ["1", "2", "3", "6"]
    say(edition, "1", "yes")
    say(edition, "6", "yes")
    assert built(edition) == 0
    told = text_of(out / "little-book-heron-class.pdf")
    assert "Night heron" in told and "Dragon" in told
    assert len(PdfReader(out / "heron-class-sheets.pdf").pages) == 5


def test_new_sheets_alone_are_printed_where_that_is_asked_for(
    edition: Path, capsys: Capture
) -> None:
    out, roster = out_of(edition), edition.parent / "roster.csv"
    assert run(["sheets", str(edition), "--out", str(out), "--new"]) == 0
    assert "None is new" in capsys.readouterr().out
    assert not (out / "heron-class-sheets-new.pdf").exists()
    roster.write_text(roster.read_text("utf-8") + "Kofi;;class;yes;Night heron;\n", "utf-8")
    assert run(["sheets", str(edition), "--out", str(out), "--new"]) == 0
    assert len(PdfReader(out / "heron-class-sheets-new.pdf").pages) == 1
    assert len(PdfReader(out / "heron-class-sheets.pdf").pages) == 5


def test_what_answers_questions_of_a_book_answers_them_of_a_class_s(
    edition: Path, capsys: Capture
) -> None:
    say(edition, "1", "yes")
    book, out = book_of(edition), out_of(edition)
    of = ["--class", str(edition)]
    capsys.readouterr()
    assert run(["check", *of, "--json"]) == 0
    names = [page["name"] for page in json.loads(capsys.readouterr().out)["pages"]]
    assert "Dragon" in names and "Star" not in names
    assert run(["plan", *of]) == 0
    assert "Dragon" in capsys.readouterr().out
    answer = ["heart=1", "head=3", "wing=5", "back=7"]
    assert run(["mark", book, "dragon", *answer, *of, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["page"] == "star"
    assert run(["mark", book, "dragon", *answer]) == 2
    assert run(["loose", *of, "--out", str(out)]) == 0
    assert (out / "little-book-heron-class-loose.pdf").exists()
    assert run(["proof", book, "Dragon", *of, "--out", str(out)]) == 0
    assert (out / "star-heron-class.png").exists()
    made = {one.file for one in read_made(edition.parent) if 1 in one.sheets}
    assert {"star-heron-class.png", "little-book-heron-class-loose.pdf"} <= made


def test_a_better_picture_of_one_drawing_replaces_it_and_the_yes_is_taken_back(
    edition: Path, capsys: Capture
) -> None:
    say(edition, "1", "yes")
    pdf = out_of(edition) / "heron-class-sheets.pdf"
    scan = edition.parent.parent / "better.jpg"
    scan.write_bytes(copied(drawn_on(printed(pdf, 1), 1), 0))
    before = (edition.parent / "drawings" / "1.png").read_bytes()
    assert run(["intake", str(edition), str(scan)]) == 0
    told = capsys.readouterr().out
    assert "replaces the picture from before" in told
    assert "your yes is taken back" in told
    assert (edition.parent / "drawings" / "1.png").read_bytes() != before
    row = read_review(edition.parent)[0]
    assert (row.drawing, row.use, row.scan) == ("1", "", "better.jpg")


def test_a_yes_holds_for_the_pixels_that_were_seen_and_for_no_others(
    edition: Path, capsys: Capture
) -> None:
    say(edition, "1", "yes")
    say(edition, "2", "no")
    for drawing in ("1", "2"):
        file = edition.parent / "drawings" / f"{drawing}.png"
        with Image.open(file) as picture:
            changed = picture.convert("RGB")
        changed.paste("red", (40, 40, 300, 90))
        changed.save(file)
    assert built(edition) == 0
    assert "1 is another picture than the one that has the yes" in capsys.readouterr().err
    assert "Dragon" not in text_of(out_of(edition) / "little-book-heron-class.pdf")
    blank = edition.parent.parent / "none.png"
    Image.new("RGB", (400, 600), "white").save(blank)
    assert run(["intake", str(edition), str(blank)]) == 0
    assert "Taken back: the yes to 1" in capsys.readouterr().err
    assert [row.use for row in read_review(edition.parent)] == ["", "no", ""]
    say(edition, "1", "yes")
    assert built(edition) == 0
    assert "Dragon" in text_of(out_of(edition) / "little-book-heron-class.pdf")


def test_a_no_stays_when_a_better_picture_comes_in(edition: Path, capsys: Capture) -> None:
    say(edition, "1", "no")
    scan = edition.parent.parent / "better.jpg"
    page = printed(out_of(edition) / "heron-class-sheets.pdf", 1)
    scan.write_bytes(copied(drawn_on(page, 1), 0))
    assert run(["intake", str(edition), str(scan)]) == 0
    assert "your no stays" in capsys.readouterr().out
    assert read_review(edition.parent)[0].use == "no"


def test_each_drawing_with_a_yes_whose_file_is_gone_is_told(edition: Path, capsys: Capture) -> None:
    for drawing in ("1", "2"):
        say(edition, drawing, "yes")
    shutil.rmtree(edition.parent / "drawings")
    assert built(edition) == 0
    told = capsys.readouterr().err
    assert "the drawing 1 has a yes, and its file is not there" in told
    assert "the drawing 2 has a yes, and its file is not there" in told
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    assert [row.use for row in read_review(edition.parent)] == ["yes", "yes", ""]  # same pixels


def test_a_register_of_another_class_is_refused_and_nothing_is_relabelled(
    edition: Path, capsys: Capture
) -> None:
    register = edition.parent / "register.csv"
    rows = read_register(register)
    others = [replace(row, class_code="00000007", pupil="Chidi") for row in rows]
    register.write_bytes(write_register(others))
    before = (edition.parent / "review.csv").read_bytes()
    scans, out = str(edition.parent.parent / "scans"), str(out_of(edition))
    assert run(["intake", str(edition), scans]) == 1
    assert "of another class" in capsys.readouterr().err
    assert built(edition, "--use-all") == 1
    assert run(["sheets", str(edition), "--out", out]) == 1
    assert (edition.parent / "review.csv").read_bytes() == before
    register.write_bytes(write_register([*rows[:-1], others[-1]]))
    assert run(["intake", str(edition), scans]) == 1
    assert "its sheets are of 2 classes" in capsys.readouterr().err


@pytest.mark.parametrize("rings", ["nan 5", "inf 5", "5 1e308", "500 500", "-1 5"])
def test_rings_that_are_on_no_sheet_are_a_problem(
    rings: str, edition: Path, capsys: Capture
) -> None:
    row = f"drawing,use,rings\n1,yes,{rings}\n"
    (edition.parent / "review.csv").write_text(row, "utf-8")
    assert built(edition) == 1
    assert "review.csv:2: rings can't be" in capsys.readouterr().err


def test_a_class_without_a_roster_has_no_sheets(edition: Path, capsys: Capture) -> None:
    text = edition.read_text("utf-8").replace('roster = "roster.csv"\n', "")
    Image.new("RGB", (1500, 1800), "tan").save(edition.parent / "mine.jpg")
    edition.write_text(text + '[swap]\npath = "mine.jpg"\n', "utf-8")
    assert run(["sheets", str(edition), "--out", str(out_of(edition))]) == 1
    assert "the class has no roster" in capsys.readouterr().err


def test_of_two_runs_on_one_class_the_second_waits_or_says_so(
    edition: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bookmaker.cli.surroundings.PATIENCE", 0.3)
    with held(edition.parent / LOCK):
        assert run(["forget", str(edition), "Amina"]) == 3
    told = capsys.readouterr().err
    assert "Another run is at work" in told
    assert (edition.parent / "drawings" / "1.png").exists()
    assert run(["forget", str(edition), "Amina"]) == 0


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
