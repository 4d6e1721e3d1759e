"""``begin``: a book of a folder of pictures, and nothing that is there is ever lost."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bookmaker import begin as engine
from bookmaker.cli.exits import run
from bookmaker.linking import propose_spots
from bookmaker.model import InputProblems, Problem
from tests.linking.animals import animal, png

Capture = pytest.CaptureFixture[str]
NAMES = ("red_fox-02.png", "brown bear.png", "Newt 10.png", "newt 9.png", "zander.png")


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("drawn")
    for seed, name in enumerate(NAMES):
        (folder / name).write_bytes(png(animal(seed)))
    return folder


@pytest.fixture
def folder(drawn: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(drawn, tmp_path / "our_zoo"))


def pages(folder: Path, capsys: Capture) -> list[dict[str, object]]:
    capsys.readouterr()
    assert run(["check", str(folder / "book.toml"), "--json"]) == 0
    found: list[dict[str, object]] = json.loads(capsys.readouterr().out)["pages"]
    return found


def test_a_folder_becomes_a_book_with_two_commands(
    folder: Path, tmp_path: Path, capsys: Capture
) -> None:
    assert run(["begin", str(folder)]) == 0
    told = capsys.readouterr()
    assert told.out.split() == [str(folder / "pages.toml"), str(folder / "book.toml")]
    assert f"bookmaker build {folder / 'book.toml'}" in told.err
    assert run(["build", str(folder / "book.toml"), "--out", str(tmp_path / "out")]) == 0
    assert (tmp_path / "out" / "our_zoo.pdf").exists()
    names = {page["name"] for page in pages(folder, capsys)}
    assert names == {"Brown bear", "Newt 9", "Newt 10", "Red fox 2", "Zander"}


def test_pages_stand_in_the_order_of_names_and_their_spots_rise(folder: Path) -> None:
    assert run(["begin", str(folder)]) == 0
    text = (folder / "pages.toml").read_text("utf-8")
    places = [text.index(f'"{name}"') for name in ("Brown bear", "Newt 9", "Newt 10", "Red fox 2")]
    assert places == sorted(places)
    counts = [page.count("spot_") for page in text.split("[[page]]")[1:]]
    assert counts == sorted(counts)
    assert (counts[0], counts[-1]) == (4, 7)


def test_what_is_asked_for_stands_in_the_book(folder: Path, capsys: Capture) -> None:
    asked = ["--title", 'A "zoo"', "--grade", "5", "--language", "fr", "--weeks", "9"]
    assert run(["begin", str(folder), *asked, "--spots", "5"]) == 0
    text = (folder / "book.toml").read_text("utf-8")
    for line in (
        '"A \\"zoo\\""',
        'grade    = "5"',
        'language = "fr"',
        "weeks = 9",
        "climb    = true",
    ):
        assert line in text
    assert {len(page["spots"]) for page in pages(folder, capsys)} == {5}  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "words",
    [
        ["--grade", "13"],
        ["--language", "xx"],
        ["--weeks", "0"],
        ["--spots", "1"],
        ["--spots", "36"],
    ],
)
def test_what_can_not_be_is_a_fault_of_the_command_line(folder: Path, words: list[str]) -> None:
    assert run(["begin", str(folder), *words]) == 2
    assert not (folder / "book.toml").exists()


def test_a_folder_that_is_none_is_a_fault_of_the_command_line(folder: Path) -> None:
    assert run(["begin", str(folder / "nowhere")]) == 2
    assert run(["begin", str(folder / NAMES[0])]) == 2


def test_new_pictures_are_added_and_every_byte_before_them_stays(
    folder: Path, capsys: Capture
) -> None:
    assert run(["begin", str(folder), "--spots", "4"]) == 0
    chapter, book = folder / "pages.toml", folder / "book.toml"
    mine = chapter.read_bytes().replace(b"\n", b"\r\n").replace(b'"Zander"', b'"Zander" # mine')
    chapter.write_bytes(mine.rstrip())
    before, kept = chapter.read_bytes(), book.read_bytes()
    (folder / "zander 2.png").write_bytes(png(animal(7)))
    (folder / "Zander.PNG").write_bytes(png(animal(8)))
    assert run(["begin", str(folder), "--title", "Other"]) == 0
    err = capsys.readouterr().err
    assert "Two pages" in err or "2 pages" in err
    assert "stays as it is" in err
    after = chapter.read_bytes()
    assert after.startswith(before)
    assert b"\n" not in after.replace(b"\r\n", b"")
    assert book.read_bytes() == kept
    assert len({page["id"] for page in pages(folder, capsys)}) == 7


def test_run_again_without_new_pictures_it_changes_nothing(folder: Path, capsys: Capture) -> None:
    assert run(["begin", str(folder)]) == 0
    before = {file.name: file.read_bytes() for file in folder.iterdir()}
    assert run(["begin", str(folder)]) == 0
    assert "Nothing was changed" in capsys.readouterr().err
    assert {file.name: file.read_bytes() for file in folder.iterdir()} == before


def test_a_manifest_with_problems_is_left_alone(folder: Path, capsys: Capture) -> None:
    (folder / "pages.toml").write_text("title = 'mine'\n[[page]\n")
    assert run(["begin", str(folder)]) == 1
    assert "pages.toml:2" in capsys.readouterr().err
    assert (folder / "pages.toml").read_text() == "title = 'mine'\n[[page]\n"
    assert not (folder / "book.toml").exists()


def test_a_list_of_pages_in_one_value_can_not_be_added_to(folder: Path, capsys: Capture) -> None:
    assert run(["begin", str(folder), "--spots", "4"]) == 0
    art = NAMES[0]
    text = (
        f'title = "Zoo"\npage = [{{ name = "Fox", art = "{art}", links = ["a-b"], '
        "spots = { a = [30, 40], b = [70, 60] } }]\n"
    )
    (folder / "pages.toml").write_text(text)
    assert run(["begin", str(folder)]) == 1
    assert "[[page]]" in capsys.readouterr().err
    assert (folder / "pages.toml").read_text() == text


def test_a_book_of_ones_own_is_told_to_list_the_chapter(folder: Path, capsys: Capture) -> None:
    (folder / "own.toml").write_text(
        'title = "Own"\n[[page]]\nname = "Two"\nspots = 2\nshape = "path"\n'
    )
    own = 'title = "Own"\nchapters = ["own.toml"]\n'
    (folder / "book.toml").write_text(own)
    assert run(["begin", str(folder)]) == 0
    assert 'add "pages.toml" to its chapters' in capsys.readouterr().err
    assert (folder / "book.toml").read_text() == own


def test_what_can_not_be_read_is_listed_and_the_rest_begun(folder: Path, capsys: Capture) -> None:
    (folder / "broken.png").write_bytes(png(animal(1))[:900])
    (folder / "empty.jpg").write_bytes(b"")
    (folder / "notes.txt").write_text("hello")
    assert run(["begin", str(folder)]) == 0
    err = capsys.readouterr().err
    assert "broken.png: is cut off" in err
    assert "empty.jpg" in err
    assert "notes.txt" in err
    assert len(pages(folder, capsys)) == len(NAMES)


def test_no_pictures_and_pictures_in_folders_inside_are_told(
    tmp_path: Path, drawn: Path, capsys: Capture
) -> None:
    (tmp_path / "zoo").mkdir()
    assert run(["begin", str(tmp_path / "zoo")]) == 1
    shutil.copytree(drawn, tmp_path / "zoo" / "inside")
    capsys.readouterr()
    assert run(["begin", str(tmp_path / "zoo")]) == 1
    assert "--deep" in capsys.readouterr().err
    assert run(["begin", str(tmp_path / "zoo"), "--deep"]) == 0
    assert 'art   = "inside/zander.png"' in (tmp_path / "zoo" / "pages.toml").read_text()


def test_ten_thousand_pictures_are_refused_at_once(tmp_path: Path, capsys: Capture) -> None:
    for number in range(10_000):
        (tmp_path / f"{number}.jpg").touch()
    start = time.monotonic()
    assert run(["begin", str(tmp_path)]) == 1
    assert time.monotonic() - start < 60
    assert "10,000" in capsys.readouterr().err
    assert not list(tmp_path.glob("*.toml"))


def test_a_picture_that_changes_meanwhile_is_listed(
    folder: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    changed = Problem("x", 0, "", "art-unreadable", "the picture was changed", "Do it again.")

    def propose(page: object, picture: object, *rest: object) -> object:
        if picture.width == 601:  # type: ignore[attr-defined]
            raise InputProblems([changed])
        return propose_spots(page, picture, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(engine, "propose_spots", propose)
    (folder / "odd.png").write_bytes(png(animal(1, 601)))
    assert run(["begin", str(folder)]) == 0
    assert "odd.png: the picture was changed" in capsys.readouterr().err
    assert len(pages(folder, capsys)) == len(NAMES)


@pytest.mark.skipif(os.name == "nt" or os.getuid() == 0, reason="root may write anywhere")
def test_a_folder_that_can_not_be_written_is_told(folder: Path) -> None:
    folder.chmod(0o555)
    try:
        assert run(["begin", str(folder)]) == 3
    finally:
        folder.chmod(0o755)


def test_a_manifest_that_came_to_be_there_meanwhile_is_left(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def propose(*asked: object) -> object:
        (folder / "pages.toml").write_text("# mine\n")
        return propose_spots(*asked)  # type: ignore[arg-type]

    monkeypatch.setattr(engine, "propose_spots", propose)
    assert run(["begin", str(folder)]) == 3
    assert (folder / "pages.toml").read_text() == "# mine\n"
    assert not [file for file in folder.iterdir() if file.name.endswith(".part")]


def test_proofs_written_beside_the_pictures_become_no_pages(
    folder: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run(["begin", str(folder)]) == 0
    assert run(["proof", str(folder / "book.toml"), "zander", "--out", str(folder)]) == 0
    assert run(["begin", str(folder)]) == 0
    assert len(pages(folder, capsys)) == len(NAMES)


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="signals")
@pytest.mark.parametrize("step", range(8))
def test_broken_off_at_any_moment_it_leaves_whole_manifests_or_none(
    folder: Path, step: int
) -> None:
    assert run(["begin", str(folder), "--spots", "4"]) == 0
    chapter = folder / "pages.toml"
    before = chapter.read_bytes()
    for seed in range(3):
        (folder / f"more {seed}.png").write_bytes(png(animal(20 + seed)))
    command = [sys.executable, "-m", "bookmaker", "begin", str(folder)]
    running = subprocess.Popen(command, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    time.sleep(0.15 + 0.2 * step)
    running.send_signal(signal.SIGKILL if step % 2 else signal.SIGTERM)
    running.wait()
    after = chapter.read_bytes()
    assert after.startswith(before)
    assert after == before or after.count(b"[[page]]") == len(NAMES) + 3
    assert run(["begin", str(folder)]) == 0
    assert chapter.read_bytes().count(b"[[page]]") == len(NAMES) + 3
