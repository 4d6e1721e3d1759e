"""Pictures as PDF objects: each stands in the file once and is laid under the pages' ink.

A raster is only a placeholder here; it is put into the file at the very end (``pressed``).
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Final

from pikepdf import Array, Dictionary, Name, Object, Page, Pdf, Stream

from bookmaker.cache import Cache
from bookmaker.drawing import ArtMark, Ink, faded
from bookmaker.model import Box, Picture
from bookmaker.pictures import at_size, png_stream, small
from bookmaker.press.pressed import Raster
from bookmaker.press.units import MM

Matrix = tuple[float, float, float, float, float, float]
SMALL_DPI = 220
"""Pixels to the inch of a small copy, where it is printed largest."""

_SPACES: Final[Mapping[int, str]] = {1: "/DeviceGray", 3: "/DeviceRGB", 4: "/DeviceCMYK"}

TURNS: Final[Mapping[int, Matrix]] = {
    1: (1, 0, 0, 1, 0, 0),
    2: (-1, 0, 0, 1, 1, 0),
    3: (-1, 0, 0, -1, 1, 1),
    4: (1, 0, 0, -1, 0, 1),
    5: (0, -1, -1, 0, 1, 1),
    6: (0, -1, 1, 0, 0, 1),
    7: (0, 1, 1, 0, 0, 0),
    8: (0, 1, -1, 0, 1, 0),
}
"""EXIF orientation (JEITA CP-3451) to the matrix that turns the unit square upright in a PDF."""


class ArtStore:
    """Puts pictures into one PDF, each at most once in full and once small.

    ``longest`` is the longer side in millimetres of the largest print of each picture in full, and
    of its small copy (True).
    ``rasters`` are what the placeholders stand for, by their names on the pages.
    """

    def __init__(
        self,
        pdf: Pdf,
        pictures: Mapping[str, Picture],
        ink: Ink,
        longest: Mapping[tuple[str, bool], float],
        cache: Cache,
    ) -> None:
        self._pdf = pdf
        self._pictures = pictures
        self._ink = ink
        self._longest = longest
        self._cache = cache
        self._objects: dict[str, tuple[str, Object, Matrix]] = {}
        self._shown: dict[tuple[str, bool], str] = {}
        self.rasters: dict[str, Raster] = {}

    def lay_under(
        self, page: Page, height: float, art: Sequence[ArtMark], tags: Sequence[str]
    ) -> None:
        """Lay ``art`` under the ink of ``page``, which is ``height`` millimetres high.

        ``tags`` are the operators that open the marked content of each picture.
        """
        tag = dict(zip(map(id, art), tags, strict=True))
        known = [mark for mark in art if mark.picture in self._pictures]
        if not known:
            return
        objects = _part(page, "/XObject")
        pieces = ["q"]
        for mark in known:
            name, found, turn = self._object(mark)
            objects[name] = found
            pieces.append(f"{tag[id(mark)]} {_placed(mark, name, turn, height)} EMC")
        pieces += [piece for mark in known for piece in self._faded(page, mark, height)]
        page.contents_add("\n".join([*pieces, "Q\n"]).encode(), prepend=True)

    def _faded(self, page: Page, mark: ArtMark, height: float) -> list[str]:
        """Paper over a picture that is too dark for the ink; as thin as the ink allows."""
        cover = self._pictures[mark.picture].cover
        per_cent = round(100 * self._ink.fade(cover, mark.paled, mark.ornament))
        if not per_cent:
            return []
        name = f"/Fade{per_cent}"
        _part(page, "/ExtGState")[name] = Dictionary(ca=per_cent / 100)
        return [f"/Artifact BMC {name} gs 1 g {_area(faded(mark.window), height)} f EMC"]

    def _object(self, mark: ArtMark) -> tuple[str, Object, Matrix]:
        """The picture's name on pages, its object, and how that is turned upright."""
        shown = (mark.picture, mark.small)
        if shown not in self._shown:
            sized = self._sized(mark)
            if sized.digest not in self._objects:  # small art is its own small copy
                self._objects[sized.digest] = self._put(sized)
            self._shown[shown] = sized.digest
        return self._objects[self._shown[shown]]

    def _put(self, picture: Picture) -> tuple[str, Object, Matrix]:
        name = f"/Art{len(self._objects) + 1}"
        if picture.format == "svg":
            return (name, *_form(self._pdf, picture))
        image, self.rasters[name] = _raster(self._pdf, picture)
        return name, image, TURNS[picture.orientation]

    def _sized(self, mark: ArtMark) -> Picture:
        picture, longest = self._pictures[mark.picture], self._longest[mark.picture, mark.small]
        if mark.small:
            return small(picture, round(longest / 25.4 * SMALL_DPI), cache=self._cache)
        width = longest * min(picture.width / picture.height, 1.0)
        return at_size(picture, width, cache=self._cache)


def _placed(mark: ArtMark, name: str, turn: Matrix, height: float) -> str:
    box = mark.box
    place = (box.width * MM, 0, 0, box.height * MM, box.x * MM, (height - box.bottom) * MM)
    clip = f"q {_area(mark.window, height)} W n"
    return f"{clip} {_numbers(place)} cm {_numbers(turn)} cm {name} Do Q"


def _area(box: Box, height: float) -> str:
    measures = (box.x * MM, (height - box.bottom) * MM, box.width * MM, box.height * MM)
    return f"{_numbers(measures)} re"


def _numbers(values: Sequence[float]) -> str:
    return " ".join(f"{value:.5f}".rstrip("0").rstrip(".") for value in values)


def _part(page: Page, name: str) -> Object:
    """A part of the page's resources, made where it is missing."""
    resources = page.obj.Resources
    if name not in resources:
        resources[name] = Dictionary()
    return resources[name]


def _form(pdf: Pdf, picture: Picture) -> tuple[Object, Matrix]:
    """The picture's own one-page PDF as a form, to be scaled to the unit square."""
    with Pdf.open(io.BytesIO(picture.pdf)) as own:
        page = own.pages[0]
        content = page.obj.Contents  # one stream, as cairo writes it, deflated already
        form = Stream(
            pdf,
            content.read_raw_bytes(),
            Type=Name.XObject,
            Subtype=Name.Form,
            BBox=Array(page.mediabox),
            Resources=pdf.copy_foreign(own.make_indirect(page.obj.Resources)),
            Group=Dictionary(S=Name.Transparency, CS=Name(_SPACES[picture.colours])),
            Filter=content.Filter,
        )
    _, _, width, height = (float(value) for value in form.BBox)
    return pdf.make_indirect(form), (1 / width, 0, 0, 1 / height, 0, 0)


def _raster(pdf: Pdf, picture: Picture) -> tuple[Object, Raster]:
    """A placeholder for a raster, and the raster as it is: a JPEG's or a PNG's own bytes."""
    width, height = _stored_pixels(picture)
    facts = {"/Type": Name.XObject, "/Subtype": Name.Image, "/Width": width, "/Height": height}
    if picture.format == "jpeg":
        stored, colours, bits = picture.stored, picture.colours, 8
        facts["/Filter"] = Name.DCTDecode
        if picture.inverted:
            facts["/Decode"] = Array([1, 0] * colours)
    else:
        samples = png_stream(picture)
        stored, colours, bits = samples.stored, samples.colours, samples.bits
        rows = Dictionary(Predictor=15, Colors=colours, BitsPerComponent=bits, Columns=width)
        facts |= {"/Filter": Name.FlateDecode, "/DecodeParms": rows}
    facts["/BitsPerComponent"] = bits
    # The digest, so that the file's identifier speaks of its pictures, too.
    space = _colour_space(pdf, picture, colours)
    placeholder = Stream(pdf, picture.digest.encode(), ColorSpace=space)
    return pdf.make_indirect(placeholder), Raster(stored, facts)


def _stored_pixels(picture: Picture) -> tuple[int, int]:
    """Width and height of a raster as its bytes hold it, before it is turned upright."""
    width, height = round(picture.width), round(picture.height)
    return (height, width) if picture.orientation >= 5 else (width, height)


def _colour_space(pdf: Pdf, picture: Picture, colours: int) -> Object:
    if not picture.icc:
        return Name(_SPACES[colours])
    return Array([Name.ICCBased, Stream(pdf, picture.icc, N=colours)])
