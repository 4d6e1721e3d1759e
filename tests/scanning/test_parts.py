"""Light, pale ink, paper, beads and likeness, each by itself."""

import numpy as np
import pytest
from PIL import Image, ImageFilter

from bookmaker.classroom.review import Reviewed
from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.scanning.beads import find_beads
from bookmaker.scanning.clean import Lens, even_out, whiten
from bookmaker.scanning.codes import find_missing, read_codes
from bookmaker.scanning.compare import better, has_lost_colour, likeness, same_drawing
from bookmaker.scanning.drop import drop_pale, pale_cover, pale_shade
from bookmaker.scanning.light import Light, find_light
from bookmaker.scanning.pale import PaleMarks
from bookmaker.scanning.sheet_plan import PALE_INK, PALE_STROKE, sheet_plan
from bookmaker.scanning.warp import flat_warp, flatten
from tests.scanning.drawings import drawing
from tests.scanning.trial import finished, layer, marks_of

DPI = 127.0  # five pixels a millimetre
PLAN = sheet_plan("a4")
STRAIGHT = flat_warp(np.diag([5.0, 5.0, 1.0]), (PLAN.width, PLAN.height))
MARKS = PaleMarks(
    (PlacedSpot("a", 30, 30, 10), PlacedSpot("b", 90, 40, 10)),
    (PlacedLink("a-b", ((40, 30), (55, 20), (70, 30), (80, 40))),),
    (PlacedTag("a-b", Box(52, 22, 15, 12)),),
)


def page(sheet: int = 1) -> Image.Image:
    return finished(sheet, DPI)


def lit(light: np.ndarray, sheet: int = 1) -> Image.Image:
    return Image.fromarray((np.asarray(page(sheet)) * light).clip(0, 255).astype(np.uint8))


@pytest.mark.parametrize("sheet", [1, 3])
def test_light_is_evened_out_under_a_slope_and_a_shadow(sheet: int) -> None:
    width, height = page(sheet).size
    slope = np.linspace(1.0, 0.6, width)[None, :, None] * np.ones((height, 1, 3))
    shadow = np.zeros((height, width), np.uint8)
    shadow[height // 3 :] = 255
    soft = np.asarray(Image.fromarray(shadow).filter(ImageFilter.GaussianBlur(20)), float) / 255
    picture = lit(slope * (1 - 0.35 * soft[..., None]) * [1.0, 0.95, 0.85], sheet)
    flat = flatten(picture, STRAIGHT, _area(PLAN.frame), 5.0)
    even = even_out(flat, find_light(picture, STRAIGHT, PLAN, flat), PLAN.frame)
    wanted = flatten(page(sheet), STRAIGHT, _area(PLAN.frame), 5.0)
    bare = wanted.min(2) > 250
    assert np.abs(even[bare].astype(float) - 255).mean() < 2
    assert np.abs(even.astype(float) - wanted).mean() < 5


@pytest.mark.parametrize("box", [PLAN.frame, PLAN.name_strip, Box(0, 0, PLAN.width, PLAN.height)])
def test_gain_lies_between_the_blocks_as_pillow_s_bilinear_resize_has_it(box: Box) -> None:
    rng = np.random.default_rng(5)
    light = Light(rng.uniform(120, 255, (119, 84, 3)).astype(np.float32), 2.5, 0.01)
    size = (round(box.width * 3.1), round(box.height * 3.1))
    bands = list(light.gain(box, size))
    assert [rows.start for rows, _ in bands][1:] == [rows.stop for rows, _ in bands][:-1]
    gain = np.concatenate([band for _, band in bands])
    area = tuple(side / 2.5 for side in (box.x, box.y, box.right, box.bottom))
    for channel in range(3):
        small = Image.fromarray(np.ascontiguousarray(255 / light.paper[..., channel]))
        wanted = small.resize(size, Image.Resampling.BILINEAR, area)
        assert np.abs(gain[..., channel] - np.asarray(wanted)).max() < 1e-5


def test_a_yellow_patch_is_not_taken_for_yellow_light() -> None:
    pixels = np.asarray(page()).copy()
    pixels[400:900, 200:800] = (250, 220, 90)
    picture = Image.fromarray(pixels)
    flat = flatten(picture, STRAIGHT, _area(PLAN.frame), 5.0)
    light = find_light(picture, STRAIGHT, PLAN, flat)
    bands = list(light.gain(Box(60, 100, 80, 50), (80, 50)))
    assert sum(len(gain) for _, gain in bands) == 50
    assert max(np.abs(gain - 1).max() for _, gain in bands) < 0.05


def test_pale_lines_cover_what_they_should() -> None:
    rows, columns, cover = pale_cover(MARKS, (400, 600), 5.0, 0.05)
    lines = 2 * 2 * np.pi * 10 + (2 * 15 + 2 * 12 - 8 * 2 + 2 * np.pi * 2) + 45 - 16
    assert cover.sum() / 25 == pytest.approx(PALE_STROKE * lines, rel=0.04)
    far = np.hypot(columns / 5 - 30, rows / 5 - 30)
    assert cover[np.abs(far - 10) < 0.1].min() > 0.95


@pytest.mark.parametrize("blur", [0.1, 0.25])
def test_pale_ink_goes_and_pencil_crayon_and_paper_stay(blur: float) -> None:
    clean = np.full((400, 600, 3), 255, np.uint8)
    clean[200:210, :] = (170, 170, 172)  # pencil, straight through the spots
    clean[100:140, 100:500] = (250, 225, 120)  # yellow crayon, under everything
    rows, columns, cover = pale_cover(MARKS, (400, 600), 5.0, 0.02)
    printed = clean.astype(float)
    printed[rows, columns] *= 1 - cover * (1 - np.array(PALE_INK) / 255)
    seen = Image.fromarray(printed.round().astype(np.uint8)).filter(
        ImageFilter.GaussianBlur(blur * 5)
    )
    wanted = np.asarray(Image.fromarray(clean).filter(ImageFilter.GaussianBlur(blur * 5)), float)
    got = drop_pale(np.asarray(seen), MARKS, 5.0, blur, 0.005)
    assert np.abs(got[rows, columns] - wanted[rows, columns]).mean() < 2.5
    untouched = np.ones((400, 600), bool)
    untouched[rows, columns] = False
    assert (got[untouched] == np.asarray(seen)[untouched]).all()


@pytest.mark.parametrize("scale", [5.9, 7.9, 11.8])
def test_a_pale_ring_of_black_dots_goes_as_well(scale: float) -> None:
    # A laser printer that knows black alone: dots some 0.24 mm apart (common practice, no source).
    fine, ring = 47.2, PaleMarks((PlacedSpot("a", 15, 15, 10),))
    y, x = np.indices((1416, 1416)) / fine
    inked = np.abs(np.hypot(x - 15, y - 15) - 10) < PALE_STROKE / 2
    turn = 2 * np.pi / 0.24 / 2**0.5
    dots = inked & (np.cos((x + y) * turn) + np.cos((x - y) * turn) > 1.15)
    side = round(30 * scale)
    page = Image.fromarray(np.where(dots, 30, 255).astype(np.uint8)).convert("RGB")
    seen = np.asarray(page.resize((side, side), Image.Resampling.BOX))
    got = drop_pale(seen, ring, scale, 0.06, 0.004)
    assert seen[round(15 * scale)].min() < 235
    assert got.mean() > 254.5 and got[round(15 * scale)].min() > 235


def test_a_link_is_not_looked_for_under_its_tag() -> None:
    rows, columns, cover = pale_cover(MARKS, (400, 600), 5.0, 0.1)
    inside = (np.abs(columns / 5 - 59.5) < 6) & (np.abs(rows / 5 - 28) < 4.5)
    assert inside.any() and cover[inside].max() < 0.01


def test_the_pale_ink_is_measured_where_nobody_drew() -> None:
    ink = np.array(PALE_INK, np.float32) / 255
    seen = np.tile(ink, (1000, 1))
    seen[:600] *= (0.98, 0.9, 0.65)
    paper = np.where(np.arange(1000)[:, None] < 600, (0.98, 0.9, 0.65), (1, 1, 1))
    assert pale_shade(seen, np.ones((1000, 1)), paper) == pytest.approx(1 - ink, abs=0.01)


def test_the_pale_ink_is_measured_even_where_somebody_drew_over_all_of_it() -> None:
    ink, wax = np.array(PALE_INK, np.float32) / 255, np.array([0.75, 0.75, 0.77])
    shade = pale_shade(np.tile(ink * wax, (500, 1)), np.ones((500, 1)), np.tile(wax, (500, 1)))
    assert shade == pytest.approx(1 - ink, abs=0.01)


def test_the_pale_ink_is_measured_even_where_the_copier_made_it_grey() -> None:
    cover = np.ones((500, 1), np.float32)
    seen = np.full((500, 3), 0.86, np.float32)
    assert pale_shade(seen, cover, np.ones((500, 3))) == pytest.approx(np.full(3, 0.14), abs=0.01)


def test_a_sheet_without_pale_marks_is_left_alone() -> None:
    even = np.asarray(page())
    assert drop_pale(even, PaleMarks(), 5.0, 0.1, 0.01) is even


def test_noise_goes_to_white_and_a_faint_stroke_stays() -> None:
    rng = np.random.default_rng(3)
    even = 254 + 2 * rng.standard_normal((200, 300, 3))
    even[90:95, 50:250] -= 25
    got = whiten(even.clip(0, 255).astype(np.uint8), Lens(5.0, 0.15, 0.009))
    got = np.asarray(got, float)
    assert got[:70].mean() > 254.5
    assert got[91:94, 60:240].mean() == pytest.approx(227, abs=3)


@pytest.mark.parametrize("sigma", [0.12, 0.2, 0.35])
def test_beads_tell_how_far_a_picture_is_blurred(sigma: float) -> None:
    grey = page().convert("L").filter(ImageFilter.GaussianBlur(sigma * 5))
    beads = find_beads(grey, STRAIGHT, PLAN, 1.5)
    assert all(beads.seen)
    assert beads.blur == pytest.approx(sigma, abs=0.07)


@pytest.fixture(scope="module")
def fine() -> Image.Image:
    return finished(1, 508).convert("L")


@pytest.mark.parametrize("scale", [3.7, 5.0, 7.3])
@pytest.mark.parametrize("reach", [1.5, 5.0])
def test_beads_are_found_where_they_are(fine: Image.Image, scale: float, reach: float) -> None:
    """Patches are of whole pixels, which must not shift what is found in them. (The disc as it
    is drawn is out by half a pixel of 0.05 mm.)"""
    size = (round(PLAN.width * scale), round(PLAN.height * scale))
    grey = fine.resize(size, Image.Resampling.BOX)
    off = 0.3 * reach
    shifted = np.array([[scale, 0, off * scale], [0, scale, -0.8 * off * scale], [0, 0, 1]])
    beads = find_beads(grey, flat_warp(shifted, STRAIGHT.size), PLAN, reach)
    miss = beads.picture * (PLAN.width, PLAN.height) / size - beads.sheet
    assert all(beads.seen)
    assert np.abs(miss).max() < 0.05
    assert np.abs(miss.mean(0)).max() < 0.022


def test_a_code_that_one_colour_hides_is_read_in_another() -> None:
    picture, code = page().copy(), PLAN.codes[2]
    pixels = np.asarray(picture).copy()
    rows = slice(round(code.y * 5), round(code.bottom * 5))
    columns = slice(round(code.x * 5), round(code.right * 5))
    dark = pixels[rows, columns].mean(2) < 128
    pixels[rows, columns] = np.where(dark[..., None], (30, 30, 30), (230, 40, 40))
    picture = Image.fromarray(pixels)
    import zxingcpp

    found = read_codes(np.asarray(picture.convert("L")), zxingcpp.Binarizer.GlobalHistogram)
    found = [each for each in found if each.payload.mark != 2]
    views = [picture.getchannel(channel) for channel in range(3)]
    assert len(find_missing(views, tuple(found), PLAN)) == 4


def test_drawings_are_told_apart() -> None:
    one, other = drawn(1), drawn(5)
    soft = one.filter(ImageFilter.GaussianBlur(1.5)).resize((500, 540))
    assert same_drawing(one, soft)
    assert not same_drawing(one, other)
    assert likeness(one, other) < 0.3 < 0.8 < likeness(one, soft)


def test_two_empty_frames_are_alike_and_no_drawing_is_like_one() -> None:
    empty = Image.new("RGB", (180, 210), "white")
    assert same_drawing(empty, empty)
    assert not same_drawing(empty, drawn(1))


@pytest.mark.parametrize("kind", ["crayon", "felt", "yellow"])
def test_a_copy_in_grey_or_in_black_and_white_has_lost_the_colours(kind: str) -> None:
    coloured = Image.fromarray((drawing(kind, (360, 420), 3, DPI) * 255).astype(np.uint8))
    for mode in ("L", "1"):
        copy = coloured.convert(mode).convert("RGB")
        assert has_lost_colour(copy, coloured)
        assert not has_lost_colour(coloured, copy)
    assert not has_lost_colour(coloured.filter(ImageFilter.GaussianBlur(2)), coloured)


def test_a_pencil_drawing_has_no_colours_to_lose() -> None:
    pencil = Image.fromarray((drawing("pencil", (360, 420), 3, DPI) * 255).astype(np.uint8))
    assert not has_lost_colour(pencil.convert("L").convert("RGB"), pencil)


def drawn(sheet: int) -> Image.Image:
    return Image.fromarray((layer(sheet, DPI) * 255).astype(np.uint8))


def test_the_better_picture_has_fewer_faults_then_less_blur() -> None:
    def taken(dpi: float, blur: float, *faults: str) -> Reviewed:
        return Reviewed("1", faults=faults, blur=blur, dpi=dpi)

    assert better(taken(150, 0.3), taken(300, 0.1, "corner-covered"))
    assert better(taken(120, 0.4, "coarse", "blurred"), taken(300, 0.1, "corner-covered"))
    assert better(taken(120, 0.4, "coarse", "blurred"), taken(300, 0.1, "edge-covered"))
    assert better(taken(300, 0.1, "coarse"), taken(300, 0.1, "coarse", "dark"))
    assert better(taken(200, 0.1), taken(200, 0.2))
    assert better(taken(300, 0.1), taken(100, 0.1))
    assert not better(taken(200, 0.1), taken(200, 0.1))


def _area(box: Box) -> tuple[float, float, float, float]:
    return box.x, box.y, box.width, box.height


def test_marks_of_the_trial_stand_inside_the_frame() -> None:
    for sheet in range(1, 13):
        plan = sheet_plan("a4" if sheet % 2 else "letter")
        for spot in marks_of(sheet).spots:
            assert spot.radius < spot.x < plan.frame.width - spot.radius
            assert spot.radius < spot.y < plan.frame.height - spot.radius
