"""What is said of a class's drawings, whose they are, and what is made of them."""

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from bookmaker.classroom.made import read_made
from bookmaker.classroom.register import read_register, write_register
from bookmaker.classroom.review import read_review
from bookmaker.cli.exits import run
from bookmaker.locking import LOCK, held
from tests.classroom.classes import copied, drawn_on, printed
from tests.cli.editions import book_of, built, out_of, say, text_of

Capture = pytest.CaptureFixture[str]


def test_each_pupil_who_may_have_a_copy_gets_one_that_opens_with_the_pupil_s_page(
    edition: Path, capsys: Capture
) -> None:
    for drawing in ("1", "2", "3"):
        say(edition, drawing, "yes")
    assert built(edition, "--pupil-copies") == 0
    assert "3 files" in capsys.readouterr().out
    out = out_of(edition)
    for sheet, title in ((1, "Dragon"), (2, "Creature 2"), (3, "Moss beast")):
        pdf = out / f"little-book-heron-class-{sheet}.pdf"
        pages = json.loads(pdf.with_suffix(".certificate.json").read_text("utf-8"))["pages"]
        assert pages[0]["name"] == title
        assert len(pages) == 3
        assert "Moss beast" in text_of(pdf) or sheet != 3
        assert "Moss beast" not in text_of(pdf) or sheet == 3
    copy = (out / "little-book-heron-class-1.pdf").read_bytes()
    assert built(edition, "--pupil", "Amina") == 0
    assert (out / "little-book-heron-class-1.pdf").read_bytes() == copy
    assert run(["build", book_of(edition), "--pupil-copies"]) == 2


def test_yes_is_said_to_all_but_some_at_once(edition: Path, capsys: Capture) -> None:
    say(edition, "1", "no")
    roster = edition.parent / "roster.csv"
    assert run(["review", str(edition), "--yes-but", "2"]) == 0
    told = capsys.readouterr().out
    assert "3 drawings: 1 yes, 2 no, 0 not said yet." in told
    assert [row.use for row in read_review(edition.parent)] == ["no", "no", "yes"]
    assert run(["review", str(edition), "--yes", "1", "--no", "3"]) == 0
    assert [row.use for row in read_review(edition.parent)] == ["yes", "no", "no"]
    assert run(["review", str(edition), "--yes-but", "9"]) == 2
    roster.write_text(roster.read_text("utf-8") + "Kofi;;class;yes;;\n", "utf-8")
    assert run(["sheets", str(edition), "--out", str(out_of(edition)), "--assign", "5=Kofi"]) == 0
    capsys.readouterr()
    assert run(["review", str(edition)]) == 0
    assert "Still missing: 5 (Kofi)." in capsys.readouterr().out
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    assert "Missing so far: 5 (Kofi)." in capsys.readouterr().err


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
