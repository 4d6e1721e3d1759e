"""Where a picture's creature lies: against shapely, and against what is drawn here."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from shapely import LineString, Polygon
from shapely import Point as Dot

from bookmaker.cache import Cache, MemoryCache
from bookmaker.linking import Figure, figure, find_figure
from bookmaker.model import Picture
from tests.pictures.makers import encoded, picture

WIDE, HIGH = 400, 300
BODY = Polygon([(80, 60), (320, 60), (320, 110), (140, 110)]).union(
    Polygon([(80, 60), (140, 110), (140, 190), (320, 190), (320, 240), (80, 240)])
)
"""A creature like a bracket: its mouth is open to the right."""


def drawn(ground: tuple[int, int, int] = (255, 255, 255), grain: float = 0.0) -> Image.Image:
    """The bracket in brown with straw patches, before an even ground, with a camera's noise."""
    pixels = np.full((HIGH, WIDE, 3), ground, np.float64)
    for y in range(HIGH):
        for x in range(WIDE):
            if BODY.contains(Dot(x + 0.5, y + 0.5)):
                pixels[y, x] = (235, 200, 140) if (x // 20 + y // 20) % 5 == 0 else (110, 60, 20)
    pixels += np.random.default_rng(3).normal(0, grain, pixels.shape)
    return Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8))


@pytest.fixture(scope="module")
def bracket() -> Image.Image:
    return drawn()


def found_in(folder: Path, data: bytes, name: str = "newt.png") -> Figure | None:
    return find_figure(picture(folder, data, name), MemoryCache())


@pytest.mark.parametrize(
    ("ground", "grain"), [((255, 255, 255), 0), ((120, 170, 220), 0), ((120, 170, 220), 8)]
)
def test_the_share_of_a_line_over_the_creature_is_the_one_shapely_finds(
    tmp_path: Path, ground: tuple[int, int, int], grain: float
) -> None:
    """Reference: shapely. The look is 96 pixels long, and one beside the creature still counts:
    no less counts than the creature itself, nor more than two and a half pixels beside it."""
    found = found_in(tmp_path, encoded(drawn(ground, grain), "PNG"))
    assert found is not None
    pixel = 250 / 96 if ground[0] == 255 else WIDE / 96  # paper is trimmed away, water is not
    most = BODY.buffer(2.5 * pixel, join_style="mitre")
    rng = np.random.default_rng(5)
    for x, y, to_x, to_y in rng.uniform((0, 0, 0, 0), (WIDE, HIGH, WIDE, HIGH), (200, 4)):
        line = LineString([(x, y), (to_x, to_y)])
        share = found.share((x / WIDE, y / HIGH), (to_x / WIDE, to_y / HIGH))
        slack = pixel / line.length
        assert share >= line.intersection(BODY).length / line.length - slack
        assert share <= line.intersection(most).length / line.length + slack


def test_a_line_across_the_open_mouth_is_not_over_the_creature(
    tmp_path: Path, bracket: Image.Image
) -> None:
    found = found_in(tmp_path, encoded(bracket, "PNG"))
    assert found is not None
    assert found.share((0.7, 85 / 300), (0.7, 215 / 300)) < 0.5
    assert found.share((0.25, 85 / 300), (0.25, 215 / 300)) == 1.0
    assert found.share((0.25, 85 / 300), (0.75, 85 / 300)) == 1.0


def test_patches_of_the_grounds_own_colour_inside_the_creature_are_the_creature(
    tmp_path: Path,
) -> None:
    image = Image.new("RGB", (300, 300), (150, 190, 220))
    image.paste((60, 40, 30), (60, 60, 240, 240))
    image.paste((150, 190, 220), (110, 110, 190, 190))
    found = found_in(tmp_path, encoded(image, "PNG"))
    assert found is not None
    assert found.has((0.5, 0.5))
    assert not found.has((0.1, 0.5))


def test_a_sky_that_fades_is_ground_from_top_to_bottom(tmp_path: Path) -> None:
    fading = np.linspace((60, 110, 200), (240, 240, 250), 300)[:, None, :].repeat(400, axis=1)
    image = Image.fromarray(fading.astype(np.uint8))
    image.paste((90, 30, 30), (150, 60, 250, 240))
    found = found_in(tmp_path, encoded(image, "PNG"))
    assert found is not None
    assert all(not found.has((0.1, down / 10)) for down in range(1, 10))
    assert found.share((0.5, 0.25), (0.5, 0.75)) == 1.0


def test_a_leg_that_is_cut_off_by_the_edge_stays_with_the_creature(tmp_path: Path) -> None:
    image = Image.new("RGB", (400, 400), (150, 190, 220))
    image.paste((60, 40, 30), (100, 80, 300, 250))
    image.paste((60, 40, 30), (180, 250, 220, 400))
    found = found_in(tmp_path, encoded(image, "PNG"))
    assert found is not None
    assert found.share((0.5, 0.3), (0.5, 0.95)) == 1.0


def test_waves_and_stars_are_no_creature(tmp_path: Path) -> None:
    image = Image.new("RGB", (400, 400), (150, 190, 220))
    image.paste((60, 40, 30), (100, 80, 300, 250))
    for at in range(20, 380, 40):
        image.paste((255, 255, 255), (at, 320, at + 22, 326))
    found = found_in(tmp_path, encoded(image, "PNG"))
    assert found is not None
    assert found.share((0.05, 323 / 400), (0.95, 323 / 400)) == 0.0


def test_what_is_trimmed_away_is_ground(tmp_path: Path) -> None:
    page = Image.new("RGB", (800, 600), "white")
    blue = Image.new("RGB", (300, 300), (120, 170, 220))
    blue.paste((60, 40, 30), (100, 50, 200, 250))
    page.paste(blue, (60, 260))
    scan = picture(tmp_path, encoded(page, "PNG"))
    assert scan.trim.width < 0.5
    found = find_figure(scan, MemoryCache())
    assert found is not None
    assert found.has((210 / 800, 410 / 600))  # the creature
    assert not found.has((100 / 800, 300 / 600))  # its sky
    assert not found.has((0.9, 0.1))  # the paper


@pytest.mark.parametrize("value", range(1, 9))
def test_a_photograph_that_lies_on_its_side_is_looked_at_upright(
    tmp_path: Path, value: int
) -> None:
    """Stored pixels of each EXIF orientation (Exif 2.32, tag 274) turned as Pillow turns them."""
    image = Image.new("RGB", (200, 120), (150, 190, 220))
    image.paste((60, 40, 30), (10, 10, 80, 110))
    exif = Image.Exif()
    exif[274] = value
    back = {6: 8, 8: 6}.get(value, value)
    turns = (None, None, *(Image.Transpose(turn) for turn in (0, 3, 1, 5, 4, 6, 2)))
    turn = turns[back]
    stored = image if turn is None else image.transpose(turn)
    found = found_in(tmp_path, encoded(stored, "JPEG", quality=95, exif=exif), "newt.jpg")
    assert found is not None
    assert found.has((45 / 200, 0.5))
    assert not found.has((0.75, 0.5))
    assert not found.has((0.97, 0.9))


def test_vector_art_is_looked_at_like_its_raster(tmp_path: Path) -> None:
    path = " ".join(f"{x},{y}" for x, y in BODY.exterior.coords)
    svg = f"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}">
        <rect width="{WIDE}" height="{HIGH}" fill="#78aadc"/>
        <polygon points="{path}" fill="#6e3c14"/></svg>"""
    vector = found_in(tmp_path, svg.encode(), "newt.svg")
    raster = found_in(tmp_path, encoded(drawn((120, 170, 220)), "PNG"))
    assert vector is not None
    assert raster is not None
    for at in ((0.25, 0.5), (0.7, 0.5), (0.5, 0.28), (0.05, 0.9)):
        assert vector.has(at) == raster.has(at)


def noise(seed: int, grey: bool) -> Image.Image:
    shape = (240, 320) if grey else (240, 320, 3)
    return Image.fromarray(np.random.default_rng(seed).integers(0, 256, shape).astype(np.uint8))


@pytest.mark.parametrize(
    "image",
    [
        Image.new("RGB", (300, 200), "white"),
        Image.new("RGB", (300, 200), (40, 90, 60)),
        Image.new("L", (20, 300), 128),
        *(noise(seed, grey) for seed in range(3) for grey in (True, False)),
    ],
)
def test_a_plain_picture_and_one_of_noise_say_nothing(tmp_path: Path, image: Image.Image) -> None:
    assert found_in(tmp_path, encoded(image, "PNG")) is None


def test_a_picture_is_looked_at_once(
    tmp_path: Path, bracket: Image.Image, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache: Cache = MemoryCache()
    taken: Picture = picture(tmp_path, encoded(bracket, "PNG"))
    first = find_figure(taken, cache)

    def never(*_: object) -> None:
        raise AssertionError("looked again")

    monkeypatch.setattr(figure, "look", never)
    assert first is not None
    assert find_figure(taken, cache) == first
