"""The commands, as a teacher and her scripts meet them."""

import hashlib
import json
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from bookmaker.cli.exits import run
from bookmaker.cli.tell import table
from tests.cli.little_book import write_book

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "little-book")


def test_build_writes_the_book_and_the_certificate_that_belongs_to_it(
    book: Path, tmp_path: Path, capsys: Capture
) -> None:
    assert run(["build", str(book), "--out", str(tmp_path / "new" / "out")]) == 0
    pdf = tmp_path / "new" / "out" / "little-book.pdf"
    certificate = json.loads((pdf.parent / "little-book.certificate.json").read_text("utf-8"))
    assert certificate["sha256"] == hashlib.sha256(pdf.read_bytes()).hexdigest()
    assert [page["id"] for page in certificate["pages"]] == ["path", "fork", "star"]
    told = capsys.readouterr()
    assert str(pdf) in told.out
    assert "teacher" in told.out


def test_two_builds_of_the_same_input_give_the_same_bytes(book: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        assert run(["build", str(book), "--out", str(tmp_path / name)]) == 0
        assert run(["key", str(book), "--out", str(tmp_path / name)]) == 0
    for name in ("little-book.pdf", "little-book-key.pdf", "little-book.certificate.json"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_cache_changes_no_byte(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Image.effect_noise((1800, 2400), 40).convert("RGB").save(book.parent / "newt.jpg", quality=80)
    chapter = book.parent / "one.toml"
    chapter.write_text(chapter.read_text("utf-8").replace("newt.svg", "newt.jpg"), "utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cold"))
    for name in ("cold", "warm"):
        assert run(["build", str(book), "--out", str(tmp_path / name)]) == 0
    cold, warm = (tmp_path / name / "little-book.pdf" for name in ("cold", "warm"))
    assert cold.read_bytes() == warm.read_bytes()


def test_the_pdf_says_what_it_is(book: Path, tmp_path: Path) -> None:
    run(["build", str(book), "--out", str(tmp_path)])
    reader = PdfReader(tmp_path / "little-book.pdf")
    assert reader.metadata is not None
    assert reader.metadata.title == "A little book"
    assert reader.trailer["/Root"]["/Lang"] == "en"  # type: ignore[index]
    titles = [entry["/Title"] for entry in reader.outline if not isinstance(entry, list)]
    assert {"The pool", "The reeds"} <= set(titles)
    inner = [
        entry["/Title"] for group in reader.outline if isinstance(group, list) for entry in group
    ]
    assert {"Path", "Fork", "Star"} <= set(inner)


@pytest.mark.parametrize(
    ("paper", "millimetres"),
    [
        ("a4", (210, 297)),
        ("a5", (148, 210)),
        ("a3", (297, 420)),
        ("letter", (8.5 * 25.4, 11 * 25.4)),
        ("half-letter", (5.5 * 25.4, 8.5 * 25.4)),
    ],
)
def test_papers_have_their_exact_size(
    paper: str, millimetres: tuple[float, float], book: Path, tmp_path: Path
) -> None:
    """ISO 216:2007 for the A series; letter is 8.5 x 11 inches (ANSI/ASME Y14.1)."""
    assert run(["build", str(book), "--out", str(tmp_path), "--paper", paper]) == 0
    name = "little-book.pdf" if paper == "a4" else f"little-book-{paper}.pdf"
    for page in PdfReader(tmp_path / name).pages:
        size = (float(page.mediabox.width), float(page.mediabox.height))
        assert size == pytest.approx([side * 72 / 25.4 for side in millimetres], abs=0.01)


def test_check_prints_a_table_and_writes_nothing(
    book: Path, tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    before = sorted(tmp_path.rglob("*"))
    assert run(["check", str(book)]) == 0
    assert "Fork" in capsys.readouterr().out
    assert sorted(tmp_path.rglob("*")) == before


def test_in_a_table_figures_stand_to_the_right_and_names_to_the_left() -> None:
    rows = [("page", "chapter", "work", "over a ten"), ("Eel", "01-mouth", "84~", "0.9 of 5")]
    told = table([*rows, ("Newt", "02-pond", "1041", "-")]).splitlines()
    assert told[1] == "Eel   01-mouth   84~    0.9 of 5"
    assert told[2] == "Newt  02-pond   1041           -"


TOLD = "a good word or two on what is wrong with it and what mends it"


@pytest.mark.parametrize(
    ("most", "lines"),
    [
        (None, ["sheet  picture  verdict", f"    1  a.jpg    {TOLD}"]),
        (200, ["sheet  picture  verdict", f"    1  a.jpg    {TOLD}"]),
        (
            60,
            [
                "sheet  picture  verdict",
                "    1  a.jpg    a good word or two on what is wrong with it",
                "                and what mends it",
            ],
        ),
        (
            40,
            [
                "sheet  picture",
                "       verdict",
                "    1  a.jpg",
                "       a good word or two on what is",
                "       wrong with it and what mends it",
            ],
        ),
    ],
)
def test_the_last_column_is_broken_where_the_terminal_is_narrow(
    most: int | None, lines: list[str]
) -> None:
    rows = [("sheet", "picture", "verdict"), ("1", "a.jpg", TOLD)]
    assert table(rows, most).splitlines() == lines


def test_check_tells_everything_as_one_json_object(book: Path, capsys: Capture) -> None:
    (book.parent / "two.toml").write_text('title = "The reeds"\ntitel = 1\n', encoding="utf-8")
    assert run(["check", str(book), "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert [page["id"] for page in told["pages"]] == ["path", "fork"]
    fork = told["pages"][1]
    assert fork["letters"] == dict(zip(fork["spots"], "ABCDEF", strict=True))
    for link, difference in fork["differences"].items():
        one, other = (int(fork["solution"][spot]) for spot in link.split("-"))
        assert int(difference) == abs(one - other)
    assert len(set(fork["differences"].values())) == len(fork["links"])
    assert {"file", "line", "page", "code", "severity", "message", "mend"} == set(
        told["problems"][0]
    )


def test_a_chapter_works_wherever_a_book_does(book: Path, tmp_path: Path) -> None:
    assert run(["build", str(book.parent / "one.toml"), "--out", str(tmp_path)]) == 0
    assert (tmp_path / "one.pdf").exists()
    assert run(["check", str(book.parent / "two.toml")]) == 0


def test_parts_say_so_in_their_names_and_leave_the_book_alone(book: Path, tmp_path: Path) -> None:
    out = ["--out", str(tmp_path)]
    run(["build", str(book), *out])
    whole = (tmp_path / "little-book.pdf").read_bytes()
    assert run(["build", str(book), *out, "--only", "Fork"]) == 0
    assert run(["build", str(book), *out, "--chapter", "two.toml", "--no-key"]) == 0
    assert run(["key", str(book), *out, "--only", "star", "--paper", "letter"]) == 0
    names = {file.name for file in tmp_path.glob("*.pdf")}
    assert {"little-book-fork.pdf", "little-book-two-no-key.pdf"} <= names
    assert "little-book-star-letter-key.pdf" in names
    assert (tmp_path / "little-book.pdf").read_bytes() == whole


def test_without_its_key_the_book_holds_no_answers(book: Path, tmp_path: Path) -> None:
    run(["build", str(book), "--out", str(tmp_path)])
    run(["build", str(book), "--out", str(tmp_path), "--no-key"])
    labels = PdfReader(tmp_path / "little-book.pdf").page_labels
    assert "A1" in labels
    assert "A1" not in PdfReader(tmp_path / "little-book-no-key.pdf").page_labels


def test_pages_are_written_as_svg_where_asked(book: Path, tmp_path: Path) -> None:
    svg = tmp_path / "svg"
    assert run(["build", str(book), "--out", str(tmp_path), "--svg", str(svg)]) == 0
    assert {file.name for file in svg.iterdir()} == {"fork.svg", "path.svg", "star.svg"}


def test_no_page_as_svg_overwrites_a_picture_of_the_book(book: Path, tmp_path: Path) -> None:
    art = book.parent / "newt.svg"
    art.rename(book.parent / "fork.svg")
    chapter = book.parent / "one.toml"
    two = book.parent / "two.toml"
    for each in (chapter, two):
        each.write_text(each.read_text("utf-8").replace("newt.svg", "fork.svg"), "utf-8")
    before = (book.parent / "fork.svg").read_bytes()
    assert run(["build", str(book), "--out", str(tmp_path), "--svg", str(book.parent)]) == 0
    assert (book.parent / "fork.svg").read_bytes() == before
    assert "data-spot" in (book.parent / "fork--page.svg").read_text("utf-8")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["build", "missing.toml"], "missing.toml is not there"),
        (["check", "."], "is a folder"),
        (["build", "BOOK", "--paper", "a44"], "The nearest is 'a4'"),
        (["build", "BOOK", "--only", "Forc"], "The nearest is 'Fork'"),
        (["build", "BOOK", "--chapter", "tow"], "no chapter 'tow'"),
        (["build", "BOOK", "--week", "40"], "Its weeks are 1 to 12"),
        (["build"], "Name a book's or a chapter's manifest"),
        (["bild"], "No such command"),
        (["build", "BOOK", "--papier", "a4"], "No such option"),
    ],
)
def test_a_wrong_command_line_is_told_and_ends_with_two(
    arguments: list[str], words: str, book: Path, tmp_path: Path, capsys: Capture
) -> None:
    out = ["--out", str(tmp_path)] if arguments[0] == "build" else []
    told = [str(book) if word == "BOOK" else word for word in arguments]
    assert run([*told, *out]) == 2
    assert words in capsys.readouterr().err
    assert not list(tmp_path.glob("*.pdf"))


def test_input_with_problems_writes_nothing_and_keeps_the_last_good_book(
    book: Path, tmp_path: Path, capsys: Capture
) -> None:
    run(["build", str(book), "--out", str(tmp_path)])
    good = (tmp_path / "little-book.pdf").read_bytes()
    manifest = book.parent / "one.toml"
    manifest.write_text(manifest.read_text("utf-8").replace('"head-heart"', '"haed-heart"', 1))
    capsys.readouterr()
    assert run(["build", str(book), "--out", str(tmp_path)]) == 1
    told = capsys.readouterr()
    assert "one.toml:" in told.err
    assert "haed" in told.err
    assert told.out == ""
    assert (tmp_path / "little-book.pdf").read_bytes() == good


def test_output_that_can_not_be_written_ends_with_three(
    book: Path, tmp_path: Path, capsys: Capture
) -> None:
    (tmp_path / "file").write_text("in the way")
    assert run(["build", str(book), "--out", str(tmp_path / "file")]) == 3
    assert "--out" in capsys.readouterr().err


def test_help_and_version_load_no_library_that_takes_its_time() -> None:
    code = (
        "import sys; from bookmaker.cli.exits import run; "
        "assert run(['--help']) == 0; assert run(['--version']) == 0; "
        "heavy = {'cairosvg', 'cairocffi', 'pikepdf', 'pypdf', 'PIL', 'numpy', 'fontTools'}; "
        "sys.exit(sorted(heavy & set(sys.modules)) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_the_module_is_the_command(book: Path) -> None:
    command = [sys.executable, "-W", "error", "-m", "bookmaker", "check", str(book)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "Fork" in done.stdout
