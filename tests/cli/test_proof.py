"""Proofs: a page as it will print, and a grid before there are any spots."""

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bookmaker.cli.exits import run
from tests.cli.little_book import write_book


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "little-book")


def picture(file: Path) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(file.read_bytes())).convert("RGB"), dtype=int)


def test_a_proof_has_the_papers_size_at_150_dots_an_inch(book: Path, tmp_path: Path) -> None:
    assert run(["proof", str(book), "Fork", "--out", str(tmp_path)]) == 0
    height, width, _ = picture(tmp_path / "fork.png").shape
    assert (width, height) == pytest.approx((210 / 25.4 * 150, 297 / 25.4 * 150), abs=1)


def test_clearances_are_marked_over_the_same_page(book: Path, tmp_path: Path) -> None:
    manifest = book.parent / "tight.toml"
    near = "[page.spots]\na = [30, 40]\nb = [70, 40]\nc = [42, 36]\n"
    head = 'title = "Near"\n[[page]]\nname = "Near"\nart = "newt.svg"\n'
    manifest.write_text(head + 'links = ["a-b", "b-c"]\n' + near, "utf-8")
    assert run(["proof", str(manifest), "near", "--out", str(tmp_path / "plain")]) == 0
    marked = ["--out", str(tmp_path / "marked"), "--clearances"]
    assert run(["proof", str(manifest), "near", *marked]) == 0
    before = picture(tmp_path / "plain" / "near.png")
    after = picture(tmp_path / "marked" / "near-clearances.png")
    changed = np.abs(before - after).max(axis=2) > 60
    assert 0 < changed.mean() < 0.02


def test_a_page_without_a_tight_gap_is_told_so(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A picture without a mark might else be taken for one that was not measured."""
    assert run(["proof", str(book), "path", "--out", str(tmp_path), "--clearances"]) == 0
    assert "No gap on this page is tight." in capsys.readouterr().err
    assert run(["proof", str(book), "path", "--out", str(tmp_path)]) == 0
    assert "tight" not in capsys.readouterr().err


def test_a_grid_can_be_had_before_the_page_has_spots(book: Path, tmp_path: Path) -> None:
    manifest = book.parent / "new.toml"
    manifest.write_text('title = "New"\n[[page]]\nname = "Newt"\nart = "newt.svg"\n', "utf-8")
    assert run(["proof", str(manifest), "newt", "--grid", "--out", str(tmp_path)]) == 0
    assert (tmp_path / "newt-grid.png").exists()


def test_a_page_that_is_not_there_names_the_nearest(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for more in ([], ["--grid"]):
        assert run(["proof", str(book), "Forc", "--out", str(tmp_path), *more]) == 2
        assert "'Fork'" in capsys.readouterr().err


def test_a_page_with_a_problem_is_told(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    manifest = book.parent / "one.toml"
    manifest.write_text(manifest.read_text("utf-8").replace('"head-heart"', '"haed-heart"', 1))
    assert run(["proof", str(manifest), "Fork", "--out", str(tmp_path)]) == 1
    assert "haed" in capsys.readouterr().err


@pytest.mark.parametrize("asked", ["elan-vital", "Élan vital!", "élan vital"])
@pytest.mark.parametrize("command", [["proof"], ["mark", "nose=1"]])
def test_a_page_with_a_fault_is_told_by_its_fault_whatever_it_is_called(
    command: list[str], asked: str, book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    chapter = book.parent / "two.toml"
    text = chapter.read_text("utf-8").replace('"Star"', '"Élan vital!"')
    chapter.write_text(text.replace('"heart-wing"', '"heart-wing", "head-wing"'), "utf-8")
    name, *rest = command
    assert run([name, str(book), asked, *rest]) == 1
    assert "Élan vital!: the links form a loop" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("kind", "usual", "told_apart"),
    [
        (["--paper", "letter"], "fork-letter.png", "fork--letter.png"),
        (["--grid"], "fork-grid.png", "fork--grid.png"),
        (["--clearances"], "fork-clearances.png", "fork--clearances.png"),
    ],
)
def test_no_proof_overwrites_that_of_another_page(
    kind: list[str], usual: str, told_apart: str, book: Path, tmp_path: Path
) -> None:
    proof = ["proof", str(book), "--out", str(tmp_path)]
    assert run([*proof, "fork", *kind]) == 0
    assert (tmp_path / usual).exists()
    chapter = book.parent / "two.toml"
    other = f'[[page]]\nname = "{usual[:-4]}"\nspots = 3\n'
    chapter.write_text(chapter.read_text("utf-8") + other, "utf-8")
    assert run([*proof, usual[:-4]]) == 0
    before = (tmp_path / usual).read_bytes()
    assert run([*proof, "fork", *kind]) == 0
    assert (tmp_path / usual).read_bytes() == before
    assert (tmp_path / told_apart).exists()


@pytest.mark.parametrize("kind", [[], ["--clearances"], ["--grid"]])
def test_no_proof_overwrites_a_picture_of_the_book(
    kind: list[str], book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Pictures, chapter and proofs all lie in one folder, as they do for whoever works there."""
    name = "fork" + "".join(kind).replace("--", "-")
    art = book.parent / f"{name}.png"
    Image.new("RGB", (900, 1100), "green").save(art)
    before = art.read_bytes()
    for chapter in book.parent.glob("*.toml"):
        chapter.write_text(chapter.read_text("utf-8").replace("newt.svg", art.name), "utf-8")
    assert run(["proof", str(book), "fork", *kind, "--out", str(book.parent)]) == 0
    assert art.read_bytes() == before
    assert capsys.readouterr().out.strip().endswith(f"{name}--page.png")
    assert (book.parent / f"{name}--page.png").exists()


def test_a_whole_book_is_proofed_page_by_page_or_on_one_sheet(book: Path, tmp_path: Path) -> None:
    assert run(["proof", str(book), "--out", str(tmp_path / "pages")]) == 0
    pages = sorted(file.name for file in (tmp_path / "pages").iterdir())
    assert "fork.png" in pages
    assert run(["proof", str(book), "Fork", "--out", str(tmp_path / "one")]) == 0
    whole, alone = (tmp_path / folder / "fork.png" for folder in ("pages", "one"))
    assert (picture(whole) == picture(alone)).all()
    assert run(["proof", str(book), "--sheet", "--out", str(tmp_path / "sheet")]) == 0
    (sheet,) = (tmp_path / "sheet").iterdir()
    assert sheet.name == "little-book-sheet.png"
    height, width, _ = picture(sheet).shape
    assert height > 320
    assert width > 226 * min(len(pages), 2)


def test_a_grid_shows_the_spots_that_are_set(book: Path, tmp_path: Path) -> None:
    manifest = book.parent / "set.toml"
    head = 'title = "New"\n[[page]]\nname = "Newt"\nart = "newt.svg"\n'
    manifest.write_text(head, "utf-8")
    assert run(["proof", str(manifest), "newt", "--grid", "--out", str(tmp_path / "bare")]) == 0
    manifest.write_text(head + '[page.spots]\nnose = [20, 40]\nbad = "x"\n', "utf-8")
    assert run(["proof", str(manifest), "--grid", "--out", str(tmp_path / "set")]) == 0
    bare, marked = (picture(tmp_path / kind / "newt-grid.png") for kind in ("bare", "set"))
    rows, columns = np.nonzero(np.abs(bare - marked).max(axis=2) > 60)
    size = 20 / 25.4 * 150
    assert (rows.max() - rows.min(), columns.max() - columns.min()) == pytest.approx(
        (size, size), abs=14
    )


def test_a_book_with_a_problem_is_not_proofed_whole(book: Path, tmp_path: Path) -> None:
    manifest = book.parent / "set.toml"
    manifest.write_text('title = "New"\n[[page]]\nname = "Newt"\nart = "newt.svg"\n', "utf-8")
    assert run(["proof", str(manifest), "--out", str(tmp_path / "none")]) == 1
    assert not (tmp_path / "none").exists()
