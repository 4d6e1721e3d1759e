"""Whatever is put in: read or told, never choked on; and what is taken is printed as it is meant.

A few hundred cases of each kind in every run, a few thousand in the slow one.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.model import InputProblems, Picture
from bookmaker.pictures import take_in
from bookmaker.reading import read, read_table
from tests import fuzz
from tests.pictures.against import apart, by_pillow, by_resvg, printed
from tests.reading.faults import GOOD, write

SEEDS = range(3)
MANY = pytest.param(10, marks=pytest.mark.slow)
NEAR = 8.0
"""Mean difference of levels of 255 that edges, hairlines and other ways to blur may come to."""


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("times", [1, MANY])
def test_any_manifest_is_read_or_told(seed: int, times: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    manifest = write(dict(GOOD), tmp_path)
    files = [name for name in GOOD if name.endswith(".toml")]
    for _ in range(80 * times):
        name = rng.choice(files)
        text = fuzz.toml(str(GOOD[name]), rng)
        (tmp_path / name).write_bytes(text.encode("utf-8", "surrogatepass"))
        reading = read(manifest)
        assert reading.book or reading.problems, text
        for told in reading.problems:
            assert str(told).isprintable() and len(str(told)) < 900 + 3 * len(str(tmp_path)), text
        (tmp_path / name).write_text(str(GOOD[name]), "utf-8")


ROWS = [
    ["pupil", "page", "drawing", "name"],
    ["Amina", "Newt", "class", "yes"],
    ['"Bo, the second"', "", "own", "no"],
    ["Čeněk", "Heron", "no", ""],
]


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("times", [1, MANY])
def test_any_table_is_read_or_told(seed: int, times: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    for _ in range(100 * times):
        data = fuzz.csv(ROWS, rng)
        (tmp_path / "roster.csv").write_bytes(data)
        try:
            table = read_table(tmp_path / "roster.csv", needed=("pupil",))
        except InputProblems as told:
            assert told.problems and all(str(each).isprintable() for each in told.problems), data
        else:
            assert all(set(row.cells) == set(table.columns) for row in table.rows), data


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("times", [1, MANY])
def test_any_drawing_is_printed_as_another_renderer_draws_it(
    seed: int, times: int, tmp_path: Path
) -> None:
    rng = random.Random(seed)
    drawings = {tmp_path / f"{n}.svg": fuzz.svg(rng) for n in range(40 * times)}
    for path, data in drawings.items():
        path.write_bytes(data)
    taken = take_in(drawings, cache=MemoryCache())
    accepted = {path: found for path, found in taken.items() if isinstance(found, Picture)}
    assert len(accepted) > 0.9 * len(drawings)
    for path, found in accepted.items():
        shown = printed(found)
        assert apart(shown, by_resvg(drawings[path], shown.size)) < NEAR, drawings[path]


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("times", [1, MANY])
def test_any_raster_is_printed_as_it_is_decoded(seed: int, times: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    rasters = {}
    for n in range(40 * times):
        data, ending = fuzz.raster(rng)
        rasters[tmp_path / f"{n}.{ending}"] = data
    for path, data in rasters.items():
        path.write_bytes(data)
    for path, found in take_in(rasters, cache=MemoryCache()).items():
        assert isinstance(found, Picture), found
        if found.colours != 4:
            expected = by_pillow(rasters[path])
            assert (found.width, found.height) == expected.size
            assert apart(printed(found), expected) < NEAR, path


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("times", [1, MANY])
def test_any_damaged_picture_is_taken_or_told(seed: int, times: int, tmp_path: Path) -> None:
    rng = random.Random(seed)
    spoilt = {}
    for n in range(60 * times):
        data, ending = fuzz.raster(rng) if rng.random() < 0.6 else (fuzz.svg(rng), "svg")
        spoilt[tmp_path / f"{n}.{ending}"] = fuzz.damaged(data, rng)
    for path, data in spoilt.items():
        path.write_bytes(data)
    for found in take_in(spoilt, cache=MemoryCache()).values():
        if isinstance(found, Picture):
            assert found.width > 0 and found.height > 0
        else:
            assert found.message and found.mend and str(found.message).isprintable()
