"""``join`` writes links into a manifest and leaves everything else as it is."""

import json
from pathlib import Path

import pytest

from bookmaker.cli.exits import run
from tests.cli.little_book import PLACES, write_book

Capture = pytest.CaptureFixture[str]

HEAD = """# our pond
title = "The pond"   # to be found

[[page]]
name  = "Newt"
art   = "newt.svg"
links = "auto"   # you choose
{wish}
[page.spots]     # eyes and paws
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_book(tmp_path / "little-book").parent


def write(folder: Path, wish: str) -> Path:
    spots = "".join(f"{name} = [{x}, {y}]\n" for name, (x, y) in PLACES.items())
    chapter = folder / "pond.toml"
    chapter.write_text(HEAD.format(wish=wish) + spots, "utf-8")
    return chapter


@pytest.mark.parametrize("band", ["gentle", "steady"])
def test_links_in_the_band_are_chosen_and_written(band: str, folder: Path, capsys: Capture) -> None:
    chapter = write(folder, f'band = "{band}"')
    assert run(["join", str(chapter)]) == 0
    text = chapter.read_text("utf-8")
    assert "# our pond" in text
    assert "# eyes and paws" in text
    assert "auto" not in text
    assert "band" not in text
    capsys.readouterr()
    assert run(["check", str(chapter), "--json"]) == 0
    (page,) = json.loads(capsys.readouterr().out)["pages"]
    assert page["band"] == band


def test_a_wish_for_rarity_is_met_within_a_quarter(folder: Path, capsys: Capture) -> None:
    chapter = write(folder, "one_in = 30")
    assert run(["check", str(chapter), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert 24 <= told["pages"][0]["one_in"] <= 37.5
    assert "links-chosen" in {problem["code"] for problem in told["problems"]}


def test_a_band_out_of_reach_is_said_and_the_nearest_is_taken(
    folder: Path, capsys: Capture
) -> None:
    chapter = write(folder, 'band = "sheer"')
    assert run(["check", str(chapter), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["pages"][0]["band"] == "steady"
    assert "wish-not-reached" in {problem["code"] for problem in told["problems"]}


def test_a_chapter_with_all_its_links_is_left_alone(folder: Path) -> None:
    before = (folder / "one.toml").read_bytes()
    assert run(["join", str(folder / "one.toml")]) == 0
    assert (folder / "one.toml").read_bytes() == before
    assert run(["join", str(folder / "book.toml")]) == 0
    assert (folder / "one.toml").read_bytes() == before


def test_a_faulty_chapter_is_told_and_left_alone(folder: Path, capsys: Capture) -> None:
    chapter = write(folder, 'band = "stepe"')
    before = chapter.read_bytes()
    assert run(["join", str(chapter)]) == 1
    assert "steep" in capsys.readouterr().err
    assert chapter.read_bytes() == before


def test_a_page_has_the_same_links_on_any_paper(folder: Path, capsys: Capture) -> None:
    """A key on one paper goes with a book on another."""
    chapter = write(folder, 'band = "steady"')
    places = "a = [20, 20]\nb = [50, 18]\nc = [80, 25]\nd = [25, 80]\ne = [55, 75]\nf = [82, 70]\n"
    text = chapter.read_text("utf-8").partition("[page.spots]")[0]
    chapter.write_text(f"{text}[page.spots]\n{places}", "utf-8")
    found = []
    for paper in ("a4", "a5", "board"):
        assert run(["check", str(chapter), "--json", "--paper", paper]) == 0
        found.append(json.loads(capsys.readouterr().out)["pages"][0]["links"])
    assert found[0] == found[1] == found[2]


def test_spots_that_are_only_counted_are_proposed_and_written(
    folder: Path, capsys: Capture
) -> None:
    chapter = folder / "pond.toml"
    text = (
        'title = "Pond"\n\n[[page]]\nname = "Newt"\nspots = 4 # or five\nart = "newt.svg"\n# end\n'
    )
    chapter.write_text(text, "utf-8")
    assert run(["check", str(chapter), "--json"]) == 0
    before = json.loads(capsys.readouterr().out)
    assert "spots-proposed" in {problem["code"] for problem in before["problems"]}
    assert run(["join", str(chapter)]) == 0
    written = chapter.read_text("utf-8")
    assert "spot_1 = [" in written
    assert "# or five" in written
    assert written.endswith("# end\n") or "# end" in written
    capsys.readouterr()
    assert run(["check", str(chapter), "--json"]) == 0
    after = json.loads(capsys.readouterr().out)
    assert not {"spots-proposed", "links-chosen"} & {each["code"] for each in after["problems"]}
    assert after["pages"][0]["spots"] == before["pages"][0]["spots"]
    assert after["pages"][0]["links"] == before["pages"][0]["links"]
