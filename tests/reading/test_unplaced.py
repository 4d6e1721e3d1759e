"""Pages that leave the places of their spots to us."""

import json
from pathlib import Path

import networkx as nx
import pytest

from bookmaker.cli.exits import run
from bookmaker.model import Page
from bookmaker.reading import read
from bookmaker.reading.unplaced import SHAPES

HEAD = 'title = "Free"\n[[page]]\nname = "Dragon"\n'


def page(folder: Path, lines: str) -> Page:
    file = folder / "free.toml"
    file.write_text(HEAD + lines, "utf-8")
    found = read(file)
    assert found.problems == ()
    assert found.book is not None
    return found.book.pages[0]


@pytest.mark.parametrize("count", range(2, 13))
@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_is_a_tree_of_as_many_spots_as_asked_for(
    shape: str, count: int, tmp_path: Path
) -> None:
    found = page(tmp_path, f'spots = {count}\nshape = "{shape}"\n')
    assert len(found.spots) == count
    assert nx.is_tree(nx.Graph(found.edges))


def test_links_alone_name_the_spots(tmp_path: Path) -> None:
    found = page(tmp_path, 'links = ["nose-back", "back-tail"]\n')
    assert found.spot_names == ("nose", "back", "tail")
    assert found.unplaced


@pytest.mark.parametrize("links", ["", 'links = "auto"\n'])
def test_art_and_a_number_of_spots_leave_places_and_links_to_us(links: str, tmp_path: Path) -> None:
    (tmp_path / "newt.svg").write_text("<svg/>")
    found = page(tmp_path, f'art = "newt.svg"\nspots = 4\n{links}')
    assert found.unplaced
    assert found.wish is not None
    assert found.links == ()
    assert found.spot_names == ("spot_1", "spot_2", "spot_3", "spot_4")


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("spots = 1\n", "can't have 1 spots"),
        ("spots = 90\n", "from 2 to 35"),
        ('spots = 6\nshape = "stra"\n', '"star"'),
        ('spots = 6\nart = "missing.svg"\n', "missing.svg"),
        ('links = ["a-b", "b-a"]\n', "repeated-link"),
    ],
)
def test_what_can_not_be_placed_is_told(lines: str, words: str, tmp_path: Path) -> None:
    file = tmp_path / "free.toml"
    file.write_text(HEAD + lines, "utf-8")
    told = read(file).problems
    assert told
    assert any(words in f"{problem} {problem.code}" for problem in told)


def test_such_a_page_is_certified_and_laid_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page(tmp_path, 'spots = 7\nshape = "comb"\n')
    assert run(["check", str(tmp_path / "free.toml"), "--json"]) == 0
    (found,) = json.loads(capsys.readouterr().out)["pages"]
    assert found["spots"] == [f"s{i}" for i in range(1, 8)]
