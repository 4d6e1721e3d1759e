"""Pages that no teacher means: each is done, or refused with words that say what to change."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest
from PIL import Image

from bookmaker.cli.exits import run

Capture = pytest.CaptureFixture[str]
Places = Mapping[str, tuple[float, float]]
ROW = {name: (10 + 16 * i, 50) for i, name in enumerate("abcdef")}
ROWS = {f"s{i}": (6 + 14 * (i % 7), 10 + 20 * (i // 7)) for i in range(35)}
CORNERS = {"a": (0, 0), "b": (100, 0), "c": (50, 50), "d": (100, 100)}
PATH = ["a-b", "b-c", "c-d", "d-e", "e-f"]
STAR = ["a-b", "a-c", "a-d", "a-e", "a-f"]


def chain(count: int) -> list[str]:
    return [f"s{i}-s{i + 1}" for i in range(count - 1)]


@dataclass(frozen=True)
class Odd:
    """A page and its problem: the code, and what the words hold. Without a code it is done."""

    spots: Places
    links: list[str]
    paper: str
    code: str = ""
    words: str = ""


ODD = {
    "on one place": Odd(
        {"a": (40, 40), "b": (40, 40), "c": (70, 70)}, PATH[:2], "a4", "spots-too-close", "a and b"
    ),
    "nearly on one place": Odd(
        {"a": (40, 40), "b": (41, 40), "c": (70, 70)}, PATH[:2], "a4", "spots-too-close", "a or b"
    ),
    "a path along a line": Odd(ROW, PATH, "a4"),
    "a star along a line": Odd(ROW, STAR, "a4"),
    "on the very corners": Odd(CORNERS, ["a-c", "b-c", "c-d"], "a5"),
    "on the very edge": Odd({"a": (0, 50), "b": (60, 50)}, ["a-b"], "half-letter"),
    "thirty-five on A5": Odd(ROWS, chain(35), "a5", "spots-too-close", "Move s"),
    "thirty-five on A3": Odd(ROWS, chain(35), "a3"),
    "forty on A5": Odd(
        {f"s{i}": (i * 2, i * 2) for i in range(40)},
        chain(40),
        "a5",
        "too-many-spots",
        "Take 5 out",
    ),
}


@pytest.mark.parametrize("odd", ODD.values(), ids=ODD)
def test_odd_places_are_laid_out_or_refused_with_what_to_change(
    odd: Odd, tmp_path: Path, capsys: Capture
) -> None:
    art = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 800 1000"><circle r="9"/></svg>'
    (tmp_path / "art.svg").write_text(art, "utf-8")
    found = problems(odd, "art.svg", tmp_path, capsys)
    assert [problem["code"] for problem in found] == ([odd.code] if odd.code else [])
    assert all(odd.words in f"{problem['message']} {problem['mend']}" for problem in found)


@pytest.mark.parametrize("size", [(1, 600), (600, 1), (1, 1)])
def test_a_picture_one_pixel_wide_is_refused_with_what_to_use(
    size: tuple[int, int], tmp_path: Path, capsys: Capture
) -> None:
    Image.new("RGB", size, (90, 90, 40)).save(tmp_path / "art.png")
    odd = Odd({"a": (50, 10), "b": (50, 90)}, ["a-b"], "a4")
    (problem,) = problems(odd, "art.png", tmp_path, capsys)
    assert problem["code"] == "art-unreadable"
    assert "pixels" in problem["mend"]


def problems(odd: Odd, art: str, folder: Path, capsys: Capture) -> list[dict[str, str]]:
    """What ``check`` finds wrong, warnings left out; the page is laid out if it is nothing."""
    places = "".join(f"{name} = [{x}, {y}]\n" for name, (x, y) in odd.spots.items())
    page = f'[[page]]\nname = "Newt"\nart = "{art}"\nlinks = {json.dumps(odd.links)}\n'
    chapter = folder / "odd.toml"
    chapter.write_text(f'title = "Odd"\n{page}[page.spots]\n{places}', "utf-8")
    exit_code = run(["check", str(chapter), "--json", "--paper", odd.paper])
    told = json.loads(capsys.readouterr().out)["problems"]
    found = [problem for problem in told if problem["severity"] == "problem"]
    assert exit_code == (1 if found else 0)
    return found
