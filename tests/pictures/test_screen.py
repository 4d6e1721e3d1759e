"""Strangers' SVG is made safe before it is drawn."""

from __future__ import annotations

import gzip
import zlib
from xml.etree.ElementTree import tostring

import pytest

from bookmaker.pictures.limits import Limits, Unfit
from bookmaker.pictures.screen import screen
from tests.pictures.makers import BOX, SVG

RECT = '<rect width="9" height="9"/>'
DOCTYPE = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/svg11.dtd">'


def screened(body: str, before: str = "") -> tuple[str, tuple[str, ...]]:
    root, notes = screen(f"{before}{BOX}{body}</svg>".encode(), Limits())
    return tostring(root, encoding="unicode"), notes


def refusal(data: bytes) -> Unfit:
    with pytest.raises(Unfit) as refused:
        screen(data, Limits())
    return refused.value


OUTSIDE = [
    ('<image href="http://example.org/a.png"/>', "http://example.org/a.png"),
    ('<image xlink:href="file:///etc/hostname"/>', "file:///etc/hostname"),
    ('<image xlink:href="river.png"/>', "river.png"),
    ('<use href="other.svg#newt"/>', "other.svg#newt"),
    ('<rect fill="url(http://example.org/a.svg#g)"/>', "http://example.org/a.svg#g"),
    ('<rect style="fill:url(a.svg#g)"/>', "a.svg#g"),
    ("<style>@import url(http://example.org/a.css);</style>", "http://example.org/a.css"),
    ('<linearGradient id="g" href="b.svg#g"/>', "b.svg#g"),
]


@pytest.mark.parametrize(("body", "target"), OUTSIDE)
def test_what_lies_outside_the_file_is_left_out_and_told(body: str, target: str) -> None:
    text, notes = screened(RECT + body)
    assert target not in text
    assert notes == (f"points to something outside its own file ({target}), which is left out",)


UNWANTED = [
    ("<script>alert(1)</script>", "alert", "script"),
    ('<g onclick="alert(1)"/>', "alert", None),
    ("<foreignObject><p>pond</p></foreignObject>", "pond", "no SVG"),
    ("<animate attributeName='x' to='pond'/>", "pond", "moves"),
    ("<metadata>a pupil's name</metadata>", "pupil", None),
    ("<title>a pupil's name</title><desc>a pupil's name</desc>", "pupil", None),
    ('<g xmlns:i="urn:i" i:path="/home/pupil"/>', "pupil", None),
    ('<g data-name="pupil" aria-label="pupil"/>', "pupil", None),
    ("<!-- a pupil's name -->", "pupil", None),
    ("<?xml-stylesheet href='pupil.css'?>", "pupil", None),
    ("<i:x xmlns:i='urn:i'>pupil</i:x>", "pupil", None),
    ('<g filter="url(#blur)"/>', "blur", "filters"),
    ('<g style="mix-blend-mode:multiply"/>', "multiply", "filters"),
]


@pytest.mark.parametrize(("body", "secret", "note"), UNWANTED)
def test_scripts_metadata_and_effects_go(body: str, secret: str, note: str | None) -> None:
    text, notes = screened(RECT + body)
    assert secret not in text
    assert [word for word in notes if note and note in word] == list(notes)
    assert bool(notes) is (note is not None)


def test_what_is_drawn_stays() -> None:
    text, notes = screened(
        '<defs><linearGradient id="g"><stop offset="0" stop-color="red"/></linearGradient></defs>'
        '<g transform="scale(2)"><path d="M0 0L5 5" fill="url(#g)" stroke="teal"/></g>'
        '<text xml:space="preserve" x="5">a <tspan>newt</tspan> swims</text>'
    )
    assert notes == ()
    for kept in ("linearGradient", "stop-color", 'fill="url(#g)"', "scale(2)", "> swims<", "a <"):
        assert kept in text


def test_a_link_becomes_a_group_and_a_switch_its_plain_branch() -> None:
    text, _ = screened(
        f'<a href="http://example.org">{RECT}</a>'
        '<switch><g systemLanguage="nl"><circle r="1"/></g><g><ellipse rx="1"/></g></switch>'
    )
    assert "example.org" not in text
    assert "circle" not in text
    assert "ellipse" in text


@pytest.mark.parametrize("name", ["opacity", "fill-opacity", "stroke-opacity", "stop-opacity"])
def test_opacities_in_per_cent_become_numbers(name: str) -> None:
    text, _ = screened(f'<rect width="9" {name}="50%"/>')
    assert f'{name}="0.5"' in text


def test_a_doctype_without_entities_is_harmless() -> None:
    assert screened(RECT, DOCTYPE)[1] == ()


@pytest.mark.parametrize(
    "entity",
    ['a "aaaa"', 'a SYSTEM "file:///etc/hostname"', '% a "aaaa"', 'a PUBLIC "x" "http://e.org"'],
)
def test_entities_are_refused(entity: str) -> None:
    data = f"<!DOCTYPE svg [<!ENTITY {entity}>]>{BOX}{RECT}</svg>".encode()
    assert "entities" in refusal(data).reason


def test_a_thousand_million_laughs_are_refused_at_the_first() -> None:
    laughs = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12))
    data = f'<!DOCTYPE svg [<!ENTITY a0 "ha">{laughs}]>{BOX}<text>&a11;</text></svg>'
    assert "entities" in refusal(data.encode()).reason


def test_a_packed_svg_that_swells_to_gigabytes_is_left_alone() -> None:
    packer = zlib.compressobj(9, wbits=31)
    head = packer.compress(BOX.encode()) + packer.flush(zlib.Z_FULL_FLUSH)
    million = packer.compress(b" " * 1_000_000) + packer.flush(zlib.Z_FULL_FLUSH)
    data = head + million * 4000
    assert len(data) < 6_000_000
    assert refusal(data).code == "art-too-large"


def test_a_packed_svg_is_read_and_one_that_breaks_off_is_refused() -> None:
    data = gzip.compress(f"{BOX}{RECT * 2000}</svg>".encode())
    assert screen(data, Limits())[0].tag == "svg"
    assert "cut off" in refusal(data[:-20]).reason
    assert "unpacked" in refusal(data[:12] + b"\xff\xff\xff\xff" + data[16:]).reason


TOO_MUCH = {
    "5,000 groups, one in the other": "<g>" * 5000 + "</g>" * 5000,
    "a hundred thousand elements": RECT * 100_000,
    "a style sheet of a megabyte": "<style>" + "g{fill:red}" * 100_000 + "</style>",
    "twenty megabytes of nothing": " " * 21_000_000,
}


@pytest.mark.parametrize("name", sorted(TOO_MUCH))
def test_too_much_of_anything_is_refused(name: str) -> None:
    assert refusal(f"{BOX}{TOO_MUCH[name]}</svg>".encode()).code == "art-too-large"


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (f"{BOX}<rect".encode(), "no well-formed SVG"),
        (f"{BOX}{RECT}".encode(), "no well-formed SVG"),
        (f"{BOX}<text>Kröte</text></svg>".encode("latin-1"), "no well-formed SVG"),
        (b'<?xml version="1.0" encoding="klingon"?><svg/>', "no well-formed SVG"),
        (b"<book><svg/></book>", "without an svg element around it all"),
        (f"{BOX}<defs>{'<g/>' * 5}</defs></svg>".encode(), "draws nothing"),
    ],
)
def test_what_is_no_drawing_is_told(data: bytes, reason: str) -> None:
    assert reason in refusal(data).reason


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "iso-8859-1"])
def test_other_encodings_are_read_as_declared(encoding: str) -> None:
    declared = encoding.removesuffix("-sig")
    text = f'<?xml version="1.0" encoding="{declared}"?>{SVG}><text>Kröte</text></svg>'
    root, _ = screen(text.encode(encoding), Limits())
    assert root[0].text == "Kröte"
