"""Widths and letters of the book's faces."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from bookmaker.model import Face
from bookmaker.typeset import FACES, POINT, fit_size, missing_letters, width, wrap

FACE_NAMES: list[Face] = ["text", "strong", "italic", "title"]
PLAIN = st.text("abcdefghij ABC 0123456789,.", max_size=60)


@pytest.mark.parametrize("face", FACE_NAMES)
def test_widths_are_those_of_a_general_font_renderer(face: Face) -> None:
    """Reference: FreeType through Pillow, basic layout, at 1000 pixels to the em."""
    text = "Kingfisher 1Il 69"
    font = ImageFont.truetype(FACES[face].path, 1000, layout_engine=ImageFont.Layout.BASIC)
    reference = sum(font.getlength(letter) for letter in text) / 1000 * 12 * POINT
    assert width(text, face, 12) == pytest.approx(reference, rel=0.003)


@pytest.mark.parametrize("face", FACE_NAMES)
def test_the_faces_have_the_letters_of_three_languages(face: Face) -> None:
    assert missing_letters("áéíóúüñ¿¡ àâçèêëîïôùûœ ÁÉÑÀÇŒ «»’–…×", face) == ()


def test_letters_that_a_face_lacks_are_named_once_each() -> None:
    assert missing_letters("ab 蛙 c 蛙", "text") == ("蛙",)


@pytest.mark.parametrize("pair", ["1I", "1l", "Il", "69", "O0"])
def test_letters_that_children_mistake_have_different_shapes(pair: str) -> None:
    font = ImageFont.truetype(FACES["text"].path, 60)
    one, other = (font.getmask(letter) for letter in pair)
    assert one.size != other.size or bytes(one) != bytes(other)


@given(PLAIN, st.floats(20, 200))
def test_wrapping_keeps_every_word_and_no_line_is_too_wide(text: str, measure: float) -> None:
    lines = wrap(text, "text", 16, measure)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width(line, "text", 16) <= measure or len(line) == 1 for line in lines)


def test_a_word_wider_than_the_measure_is_broken() -> None:
    assert len(wrap("a" * 80, "text", 16, 50)) > 1


def test_a_short_title_gets_the_largest_size_and_a_long_one_is_never_cut() -> None:
    assert fit_size("Frog", "title", (30, 20, 10), 100, 1) == (30, ("Frog",))
    long = "A very long name for a very small fish " * 8
    size, lines = fit_size(long, "title", (30, 20, 10), 100, 2)
    assert size == 10
    assert " ".join(lines).split() == long.split()
