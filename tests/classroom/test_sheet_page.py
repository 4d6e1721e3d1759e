"""The printed sheet: its pale ink is the one that intake drops, its codes can be read."""

from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from PIL import Image

from bookmaker.cache import MemoryCache
from bookmaker.classroom.sheet_page import rings_of, sheet_page
from bookmaker.model import Frame, Line, PlacedLink, PlacedSpot, PlacedTag, SheetEntry
from bookmaker.pdf import INKS, Circle, Document, Rect, check_pdf, draw, press
from bookmaker.pdf import Path as InkPath
from bookmaker.scanning.pale import PaleMarks, write_pale
from bookmaker.scanning.sheet_plan import (
    PALE_INK,
    PALE_STROKE,
    PAPERS,
    TAG_CORNER,
    read_payload,
    sheet_plan,
)
from bookmaker.words import languages, load
from tests.scanning.prints import some_marks
from tests.scanning.rendering import rendered

HEATHER = "#{:02x}{:02x}{:02x}".format(*PALE_INK)


def entry(paper: str = "a4", page: str = "newt", sheet: int = 31) -> SheetEntry:
    marks = PaleMarks() if ":" in page else some_marks(sheet_plan(paper).frame, 3)
    return SheetEntry(sheet, "Amina", page, paper, "01234567", write_pale(marks), 1)


def test_pale_marks_have_exactly_the_ink_and_the_stroke_that_intake_drops() -> None:
    page = sheet_page(entry(), load("en"))
    pale = {"spot": Circle, "tag": Rect, "link": InkPath}
    seen = set()
    for group in draw(page, INKS["full"]):
        if group.kind in pale:
            (mark,) = group.marks
            assert isinstance(mark, pale[group.kind])
            assert (mark.paint.stroke, mark.paint.width) == (HEATHER, PALE_STROKE)
            seen.add(group.kind)
            if isinstance(mark, Rect):
                assert mark.corner == TAG_CORNER
    assert seen == set(pale)


def test_marks_stand_in_the_frame_where_the_register_has_them() -> None:
    row = entry("letter")
    frame = sheet_plan("letter").frame
    page = sheet_page(row, load("en"))
    marks = some_marks(frame, 3)
    spots = [item for item in page.items if isinstance(item, PlacedSpot)]
    assert [(round(s.x - frame.x, 2), round(s.y - frame.y, 2)) for s in spots] == [
        (round(s.x, 2), round(s.y, 2)) for s in marks.spots
    ]
    kinds = (PlacedSpot, PlacedLink, PlacedTag)
    assert all(item.pale for item in page.items if isinstance(item, kinds))


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_the_four_lines_and_the_notice_keep_to_their_boxes(paper: str, language: str) -> None:
    plan = sheet_plan(paper)
    for page in ("newt", "free:6"):
        placed = sheet_page(entry(paper, page), load(language))
        lines = [item for item in placed.items if isinstance(item, Line)]
        below = [line for line in lines if line.y > plan.frame.bottom]
        assert len(below) >= 5
        assert all(plan.instructions.y < line.y < plan.notice.bottom for line in below)
        told = [line for line in below if line.role == "body"]
        assert all(line.y < plan.instructions.bottom for line in told)
        assert len(told) == 4
        assert all(line.size >= 12 for line in told)
        frames = [item.box for item in placed.items if isinstance(item, Frame)]
        assert frames == [plan.frame]


def test_no_name_is_on_a_sheet() -> None:
    page = sheet_page(entry(), load("en"))
    said = " ".join(item.text for item in page.items if isinstance(item, Line))
    assert "Amina" not in said + str(page.bookmark) + page.name + page.label


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_the_pressed_sheet_has_its_codes_in_their_corners(paper: str, tmp_path: Path) -> None:
    """Read by zxing-cpp from pypdfium2's picture at 150 dpi: neither has printed it."""
    page = sheet_page(entry(paper), load("en"))
    pdf = bytes(press([page], INKS["full"], {}, Document("Heron Class", "en"), MemoryCache()))
    check_pdf(pdf, [page])
    picture = rendered(pdf, 0, 150)
    found = {}
    for code in zxingcpp.read_barcodes(np.asarray(picture.convert("L"))):
        payload = read_payload(code.text)
        assert payload is not None
        assert (payload.class_code, payload.sheet) == ("01234567", 31)
        found[payload.mark] = code.position.top_left
    plan = sheet_plan(paper)
    assert sorted(found) == [0, 1, 2, 3]
    for mark, box in enumerate(plan.codes):
        near = [found[mark].x * 25.4 / 150 - box.x, found[mark].y * 25.4 / 150 - box.y]
        assert all(-1 < far < box.width + 1 for far in near)


def test_pale_ink_reaches_the_paper_as_it_is(tmp_path: Path) -> None:
    page = sheet_page(entry(), load("en"))
    pdf = bytes(press([page], INKS["full"], {}, Document("Heron Class", "en"), MemoryCache()))
    picture = rendered(pdf, 0, 300)
    spot = next(item for item in page.items if isinstance(item, PlacedSpot))
    at = (round((spot.x + spot.radius) * 300 / 25.4), round(spot.y * 300 / 25.4))
    assert _pixel(picture, at) == PALE_INK


def test_only_a_free_sheet_asks_for_rings() -> None:
    assert rings_of("free:6") == 6
    assert rings_of("newt") == 0
    assert rings_of("free") == 0


def _pixel(picture: Image.Image, at: tuple[int, int]) -> tuple[int, ...]:
    pixel = picture.getpixel(at)
    assert isinstance(pixel, tuple)
    return pixel
