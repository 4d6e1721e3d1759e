"""What else lands in a folder of scans: each is told in a word, and the sheets are taken in."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest
from PIL import Image, ImageDraw

from bookmaker.classroom.register import read_register
from bookmaker.classroom.review import read_review
from bookmaker.cli.exits import run
from bookmaker.scanning.pale import read_pale
from bookmaker.scanning.sheet_plan import FORMAT, sheet_plan
from tests.classroom.classes import DPI, copied, drawn_on, photo, printed
from tests.cli.editions import book_of, out_of
from tests.scanning.prints import print_sheet

Capture = pytest.CaptureFixture[str]


@pytest.mark.parametrize("place", ["drawings", "drawings/2.png", "names/sub"])
def test_no_scan_is_taken_from_where_a_drawing_would_overwrite_it(
    place: str, edition: Path, capsys: Capture
) -> None:
    scan = edition.parent / place
    if scan.suffix:
        scan.write_bytes(b"a scan")
    else:
        scan.mkdir(exist_ok=True)
    before = {file: file.read_bytes() for file in edition.parent.rglob("*.*")}
    assert run(["intake", str(edition), str(scan)]) == 2
    assert "a folder of their own" in capsys.readouterr().err
    assert {file: file.read_bytes() for file in edition.parent.rglob("*.*")} == before


def test_each_is_told_and_the_rest_of_the_batch_is_done(edition: Path, capsys: Capture) -> None:
    folder, scans = edition.parent, edition.parent.parent / "strange"
    scans.mkdir()
    first = drawn_on(printed(out_of(edition) / "heron-class-sheets.pdf", 1), 1)
    before = {row.drawing: _drawing(edition, row.drawing) for row in read_review(folder)}
    for kind in ("drawings", "names"):
        (folder / kind / "1.png").unlink()
    _screen().save(scans / "a-screenshot.png")
    (scans / "b-film.mp4").write_bytes(b"\0\0\0\x18ftypmp42" + bytes(3000))
    _handbook(200).save(scans / "c-handbook.pdf")
    (scans / "d-older.jpg").write_bytes(_older(edition))
    (scans / "e-cut.jpg").write_bytes(copied(first, 0)[:30_000])
    (scans / "f-empty.jpg").write_bytes(b"")
    (scans / "g-good.jpg").write_bytes(copied(first, 0))
    capsys.readouterr()
    assert run(["intake", str(edition), str(scans)]) == 0
    told = capsys.readouterr().out.splitlines()
    for start, said in (
        ("a-screenshot.png: ", "no marks of a drawing sheet can be read"),
        ("b-film.mp4: ", "a film. Take photographs instead"),
        ("c-handbook.pdf, pages 1-200: ", "no marks of a drawing sheet can be read"),
        ("e-cut.jpg: ", "the file is damaged"),
        ("f-empty.jpg: ", "no picture in it"),
    ):
        (line,) = (line for line in told if line.startswith(start))
        assert said in line
    (older,) = (line for line in told if "d-older.jpg" in line)
    assert "printed by an older version. Print a new one" in older
    (good,) = (line for line in told if "g-good.jpg" in line)
    assert "usable" in good
    assert "Kept 1 of 206 pictures." in told
    assert [row.drawing for row in read_review(folder)] == ["1", "2", "3"]
    assert all(_drawing(edition, name) == before[name] for name in ("2", "3"))


@pytest.mark.parametrize("kind", ["screenshot", "photograph"])
def test_a_picture_of_a_photograph_replaces_no_better_one(
    kind: str, edition: Path, capsys: Capture
) -> None:
    """A telephone's screen with the photograph on it, or a print of it, copied."""
    taken = Image.open(io.BytesIO(_first_photo(edition)))
    if kind == "screenshot":
        picture = Image.new("RGB", (2532, 1700), "black")
        picture.paste(taken.resize((1900, 1425)), (300, 100))
    else:
        picture = Image.new("RGB", (1700, 2339), "white")
        picture.paste(taken.transpose(Image.Transpose.ROTATE_90).resize((1400, 1867)), (90, 90))
    file = edition.parent.parent / f"{kind}.png"
    picture.save(file)
    before = _drawing(edition, "1")
    assert run(["intake", str(edition), str(file)]) == 0
    assert "which is kept: this picture is no better" in capsys.readouterr().out
    assert _drawing(edition, "1") == before
    assert read_review(edition.parent)[0].others == (file.name,)
    assert run(["forget", str(edition), "Amina"]) == 0
    assert file.name in capsys.readouterr().out


def test_a_picture_of_a_photograph_alone_is_taken_with_its_fault(
    edition: Path, capsys: Capture
) -> None:
    for kind in ("drawings", "names"):
        (edition.parent / kind / "1.png").unlink()
    picture = Image.new("RGB", (1300, 1000), "black")
    picture.paste(Image.open(io.BytesIO(_first_photo(edition))).resize((1200, 900)), (50, 50))
    file = edition.parent.parent / "screenshot.png"
    picture.save(file)
    assert run(["intake", str(edition), str(file)]) == 0
    told = capsys.readouterr().out
    assert "usable (few dots an inch): go nearer, or scan at 200 dpi or more" in told


def test_a_spare_sheet_for_somebody_who_is_not_in_the_roster_is_warned_of(
    edition: Path, capsys: Capture
) -> None:
    out = str(out_of(edition))
    assert run(["sheets", str(edition), "--out", out, "--assign", "5=Kofi"]) == 0
    assert "Kofi: warning: sheet 5 is given to a pupil who is not in" in capsys.readouterr().err


def test_a_page_that_is_like_none_is_answered_with_those_there_are(
    edition: Path, capsys: Capture
) -> None:
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8") + "Kofi;zzz;class;;;\nMaya;strar;class;;;\n")
    assert run(["sheets", str(edition), "--out", str(out_of(edition))]) == 1
    told = capsys.readouterr().err
    assert "roster.csv:6: Kofi: the book has no page 'zzz'" in told
    assert "Its pages are " in told
    assert "The nearest is 'star'." in told


def test_the_class_s_own_folder_may_be_looked_through(edition: Path, capsys: Capture) -> None:
    """A teacher who drops the scans beside class.toml: what bookmaker put there is no scan."""
    for name in ("monday", "tuesday"):
        (edition.parent / name).mkdir()
        _screen().save(edition.parent / name / "screen.png")
    assert run(["intake", str(edition), str(edition.parent)]) == 0
    told = capsys.readouterr().out.splitlines()
    assert told[0].startswith("screen.png (2 files): no marks of a drawing sheet")
    assert told[1] == "Kept 0 of 2 pictures."
    _screen().save(edition.parent / "drawings" / "screen.png")  # some drop their scans there
    assert run(["intake", str(edition), str(edition.parent)]) == 0
    assert "Kept 0 of 3 pictures." in capsys.readouterr().out


@pytest.mark.parametrize("left", [0, 20_000])
def test_a_kept_drawing_that_was_spoilt_is_taken_in_again(
    left: int, edition: Path, capsys: Capture
) -> None:
    """A shared folder that was full, or a hand that saved something else."""
    whole, folder = _drawing(edition, "2"), edition.parent
    (folder / "drawings" / "2.png").write_bytes(whole[:left])
    (folder / "drawings" / "3.png").write_bytes(whole[:left])
    assert run(["intake", str(edition), str(edition.parent.parent / "scans" / "b.jpg")]) == 0
    assert "replaces the picture from before" in capsys.readouterr().out
    assert _drawing(edition, "2") == whole
    assert len(list((folder / "drawings").glob("2*"))) == 1
    assert (folder / "review.pdf").exists()


def test_a_copy_without_its_colours_never_takes_the_place_of_one_with_them(
    edition: Path, capsys: Capture
) -> None:
    """A fine copy in black and white (ITU-T T.6, as copiers send it) and a plain one in colour."""
    page = drawn_on(printed(out_of(edition) / "heron-class-sheets.pdf", 1), 1)
    folder, before = edition.parent, _drawing(edition, "1")
    dull, bright = folder.parent / "dull.tif", folder.parent / "bright.jpg"
    white = page.convert("L").point([255 * (value > 150) for value in range(256)]).convert("1")
    white.save(dull, compression="group4", dpi=(150, 150))
    bright.write_bytes(photo(page, 1))
    assert run(["intake", str(edition), str(dull)]) == 0
    assert "this picture is no better" in capsys.readouterr().out
    assert _drawing(edition, "1") == before
    for kind in ("drawings", "names"):
        (folder / kind / "1.png").unlink()
    assert run(["intake", str(edition), str(dull)]) == 0
    assert run(["intake", str(edition), str(bright)]) == 0
    assert "replaces the picture from before" in capsys.readouterr().out
    assert read_review(folder)[0].scan == "bright.jpg"


def test_whose_sheet_it_is_that_can_not_be_used_is_said(edition: Path, capsys: Capture) -> None:
    scan = edition.parent.parent / "bare.jpg"
    scan.write_bytes(copied(printed(out_of(edition) / "heron-class-sheets.pdf", 2), 0))
    assert run(["intake", str(edition), str(scan)]) == 0
    (row,) = (line for line in capsys.readouterr().out.splitlines() if "bare.jpg" in line)
    assert row.split()[:2] == ["2", "Bruno"]
    assert "nothing is drawn on it" in row


def test_nothing_to_take_in_is_said_so(edition: Path, tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "empty" / ".hidden").write_bytes(b"")
    assert run(["intake", str(edition), str(tmp_path / "empty")]) == 2
    assert "There is nothing to take in: no file in" in capsys.readouterr().err


def test_drawings_of_pupils_who_left_the_roster_are_told_of(edition: Path, capsys: Capture) -> None:
    roster = edition.parent / "roster.csv"
    roster.write_text(roster.read_text("utf-8").replace("Bruno;", "Bruno K;"), "utf-8")
    assert run(["intake", str(edition), str(edition.parent.parent / "scans")]) == 0
    told = capsys.readouterr().out
    assert "Not in the roster any more: 2 (Bruno)." in told
    assert "not kept: its pupil is not in the roster; add a row" in told


def test_a_manifest_of_another_kind_is_told_with_what_to_write(
    edition: Path, capsys: Capture
) -> None:
    assert run(["build", str(edition), "--out", str(out_of(edition))]) == 2
    assert f"bookmaker build --class {edition}" in capsys.readouterr().err
    for command in (["intake", book_of(edition), str(edition)], ["sheets", book_of(edition)]):
        assert run(command) == 2
        assert "is the manifest of a book or a chapter. Name the class's" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["build", "key"])
def test_a_class_names_its_book_itself(command: str, edition: Path) -> None:
    assert run([command, "--class", str(edition), "--use-all", "--out", str(out_of(edition))]) == 0
    end = "-key" if command == "key" else ""
    assert (out_of(edition) / f"little-book-heron-class{end}.pdf").exists()


def _drawing(edition: Path, name: str) -> bytes:
    return (edition.parent / "drawings" / f"{name}.png").read_bytes()


def _first_photo(edition: Path) -> bytes:
    return photo(drawn_on(printed(out_of(edition) / "heron-class-sheets.pdf", 1), 1), 1)


def _screen() -> Image.Image:
    """A desktop with windows, see-through at its corners as screenshots are."""
    picture = Image.new("RGBA", (1200, 800), (40, 70, 90, 255))
    pen = ImageDraw.Draw(picture)
    for place in range(12):
        x, y = 60 + place % 4 * 280, 60 + place // 4 * 240
        pen.rectangle([x, y, x + 220, y + 180], fill=(230, 228, 220, 255), outline=(20, 20, 20))
        pen.text((x + 12, y + 12), f"file {place}", fill=(20, 20, 20))
    picture.putpixel((0, 0), (0, 0, 0, 0))
    return picture


def _handbook(count: int) -> pikepdf.Pdf:
    """Pages of which each is one scanned picture, of a kind that is no drawing sheet."""
    picture = Image.new("RGB", (300, 420), (250, 249, 246))
    pen = ImageDraw.Draw(picture)
    for line in range(20):
        pen.text((20, 15 + 19 * line), "what to do when the boiler knocks", fill=(40, 40, 40))
    out = io.BytesIO()
    picture.save(out, "JPEG")
    pdf = pikepdf.new()
    image = pdf.make_stream(
        out.getvalue(),
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Image,
        Width=300,
        Height=420,
        ColorSpace=pikepdf.Name.DeviceRGB,
        BitsPerComponent=8,
        Filter=pikepdf.Name.DCTDecode,
    )
    for _ in range(count):
        page = pdf.add_blank_page(page_size=(595, 842))
        page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Scan=image))
        page.Contents = pdf.make_stream(b"q 595 0 0 842 0 0 cm /Scan Do Q")
    return pdf


def _older(edition: Path) -> bytes:
    """Sheet 1 as a version before this one would have printed it."""
    entry = read_register(edition.parent / "register.csv")[0]
    plan, marks = sheet_plan(entry.paper), read_pale(entry.marks)
    page = print_sheet(plan, entry.class_code, entry.sheet, marks, DPI, format=FORMAT - 1)
    return copied(drawn_on(page, 1), 0)
