"""As somebody would who looks for a child: all that was made of a class is searched for every
word of every name that may not be printed.

Classes are made at random: titles, credits, swaps and file names that hold other pupils' names with
endings, capitals and hyphens. A sample runs each time, more as ``slow``, two hundred
as ``patient``.
"""

from __future__ import annotations

import os
import random
import re
from pathlib import Path

import pytest
from PIL import Image

from bookmaker.classroom.names import words_of
from bookmaker.classroom.register import read_register
from bookmaker.cli.exits import run
from tests.classroom.classes import write_class
from tests.cli.editions import everything_in, text_of

NAMES = (
    *("Qabil Zyxwv", "Olivia B", "Wanjiru", "José-Luis", "Łucja", "Zoë", "Thandeka", "Björn"),
    *("Xochitl M", "Ngaio", "Vytautas", "Ximena", "Jukka", "Fflur"),
)
JOINED = "Red{}"
"""Where two words are written as one, the second is known by its capital."""
SHAPES = (
    *("{} and me", "{}'s dragon", "{}s Drache", "the {}-beast", "MY {}", JOINED, "for {}ito", "x"),
)
LETTERS = 4
"""Of a word that is looked for in bytes: fewer come about by chance."""


def a_class(folder: Path, seed: int) -> tuple[Path, set[str]]:
    """A class with drawings that all have a yes; and the words of its hidden names."""
    chance = random.Random(seed)
    names = chance.sample(NAMES, 5)
    rows = ["pupil;page;drawing;name;creature;credit"]
    shown: set[str] = set()
    for name in names:
        drawing = chance.choice(("class", "class", "own", "no"))
        named = chance.choice(("yes", "no"))
        said = [_said(chance, names) for _ in range(2)]
        rows.append(
            f"{name};;{drawing};{named};{said[0]};{said[1] if chance.random() < 0.5 else ''}"
        )
        if drawing == "class" and named == "yes":
            shown |= words_of(name)
    manifest = write_class(folder, "\n".join(rows) + "\n")
    swap = f'[swap.path]\npicture = "mine.png"\nname = "{_said(chance, names)}"\n'
    swap += f'artist = "{_said(chance, names)}"\n'
    title = f'title = "{_said(chance, names)}"'
    text = re.sub(r'title = ".*"', title, manifest.read_text("utf-8"))
    manifest.write_text(text + swap, "utf-8")
    Image.new("RGB", (900, 1050), "tan").save(manifest.parent / "mine.png")
    return manifest, {word for name in names for word in words_of(name)} - shown


def _said(chance: random.Random, names: list[str]) -> str:
    word = chance.choice(chance.choice(names).replace("-", " ").split())
    shape = chance.choice(SHAPES)
    if shape != JOINED:
        word = chance.choice((word, word.upper(), word.lower()))
    return shape.format(word)


def made_of(manifest: Path, folder: Path) -> None:
    """Everything that the commands make of it, in ``out``."""
    out = folder / "out"
    assert run(["sheets", str(manifest), "--out", str(folder / "sheets")]) == 0
    (manifest.parent / "drawings").mkdir()
    said = ["drawing,use"]
    for row in read_register(manifest.parent / "register.csv"):
        shade = (40 * row.sheet % 256, 120, 90)
        picture = Image.new("RGB", (900, 1050), "white")
        picture.paste(shade, (200, 200, 600, 700))
        picture.save(manifest.parent / "drawings" / f"{row.sheet}.png")
        said.append(f"{row.sheet},yes")
    (manifest.parent / "review.csv").write_text("\n".join(said), "utf-8")
    of = ["--class", str(manifest), "--out", str(out)]
    assert run(["build", *of, "--svg", str(out / "svg")]) == 0
    assert run(["key", *of]) == 0
    assert run(["loose", *of]) == 0


def found_in(files: list[Path], words: set[str]) -> list[tuple[str, str]]:
    """Each file that holds one of ``words``, with the word: in its name, its bytes, its text."""
    found = []
    for file in files:
        data = file.read_bytes()
        texts = [file.name, data.decode("latin-1"), data.decode("utf-8", "replace")]
        if file.suffix == ".pdf":
            texts = [file.name, text_of(file), everything_in(file).decode("utf-8", "replace")]
        folded = [" ".join(words_of(text)) if file.suffix != ".png" else "" for text in texts]
        for word in sorted(words):
            if len(word) >= LETTERS and any(word in text for text in folded):
                found.append((file.name, word))
    return found


def attacked(folder: Path, seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    for variable in ("XDG_CACHE_HOME", "TMPDIR"):
        (folder / variable).mkdir()
        monkeypatch.setenv(variable, str(folder / variable))
    monkeypatch.setattr("tempfile.tempdir", str(folder / "TMPDIR"))
    manifest, hidden = a_class(folder, seed)
    made_of(manifest, folder)
    assert (folder / "out" / "little-book-heron-class.pdf").exists()
    rooms = (folder / "out", folder / "XDG_CACHE_HOME", folder / "TMPDIR")
    files = [file for room in rooms for file in sorted(room.rglob("*")) if file.is_file()]
    assert found_in(files, hidden) == [], seed
    records = [manifest.parent / "made.csv", folder / "sheets" / "heron-class-sheets.pdf"]
    assert found_in(records, hidden) == [], seed
    assert os.sep + "tmp" not in records[0].read_text("utf-8-sig")


@pytest.mark.parametrize("seed", range(2))
def test_no_hidden_name_is_in_anything_that_leaves_the_class(
    seed: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    attacked(tmp_path, seed, monkeypatch)


@pytest.mark.parametrize(
    "seed",
    [
        *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(2, 12)),
        *(pytest.param(seed, marks=pytest.mark.patient) for seed in range(12, 200)),
    ],
)
def test_no_hidden_name_is_in_anything_of_two_hundred_classes(
    seed: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    attacked(tmp_path, seed, monkeypatch)


def test_the_search_would_find_a_name(tmp_path: Path) -> None:
    (tmp_path / "a.json").write_text('{"name": "QABILs owl"}', "utf-8")
    (tmp_path / "b-wanjiru.svg").write_text("", "utf-8")
    words = {"qabil", "wanjiru"}
    assert found_in(sorted(tmp_path.iterdir()), words) == [
        ("a.json", "qabil"),
        ("b-wanjiru.svg", "wanjiru"),
    ]
