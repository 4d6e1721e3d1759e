"""Pictures as objects of a PDF: each stands in the file once, however many pages show it.

A raster is only a placeholder here; it is put into the file at the very end (``pressed``).
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Final

from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream

from bookmaker.cache import Cache
from bookmaker.model import Picture
from bookmaker.pdf.inks import Ink
from bookmaker.pdf.marks import ArtMark
from bookmaker.pdf.painting import Matrix
from bookmaker.pdf.pressed import Raster
from bookmaker.pictures import at_size, png_stream, small

FADE = "Fade"
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
    of its small copy (True). ``rasters`` are what the placeholders stand for, by their names on
    the pages.
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

    def shown(self, mark: ArtMark) -> tuple[str, Matrix] | None:
        """The picture's name on pages, and how its object is turned upright; None for no picture
        of that digest."""
        if mark.picture not in self._pictures:
            return None
        name, _, turn = self._object(mark)
        return name, turn

    def fade(self, mark: ArtMark) -> str:
        """Paper over a picture that is too dark for the ink; as thin as the ink allows."""
        if mark.picture not in self._pictures:
            return ""
        per_cent = round(100 * self._ink.fade(mark.paled, mark.ornament))
        return f"{FADE}{per_cent}" if per_cent else ""

    def resources(self, marks: Sequence[ArtMark]) -> dict[str, Object]:
        """What a page with ``marks`` names: its pictures, and how they are faded."""
        known = [mark for mark in marks if mark.picture in self._pictures]
        objects = {f"/{name}": found for name, found, _ in map(self._object, known)}
        fades = {state for state in map(self.fade, known) if state}
        states = {
            f"/{state}": Dictionary(ca=int(state.removeprefix(FADE)) / 100)
            for state in sorted(fades)
        }
        found = {"/XObject": Dictionary(objects), "/ExtGState": Dictionary(states)}
        return {kind: entries for kind, entries in found.items() if len(entries)}

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
        name = f"Art{len(self._objects) + 1}"
        if picture.format == "svg":
            return (name, *_form(self._pdf, picture))
        image, self.rasters[f"/{name}"] = _raster(self._pdf, picture)
        return name, image, TURNS[picture.orientation]

    def _sized(self, mark: ArtMark) -> Picture:
        picture, longest = self._pictures[mark.picture], self._longest[mark.picture, mark.small]
        if mark.small:
            return small(picture, round(longest / 25.4 * SMALL_DPI), cache=self._cache)
        width = longest * min(picture.width / picture.height, 1.0)
        return at_size(picture, width, cache=self._cache)


def _form(pdf: Pdf, picture: Picture) -> tuple[Object, Matrix]:
    """The picture's own one-page PDF as a form, to be scaled to the unit square."""
    with Pdf.open(io.BytesIO(picture.pdf)) as own:
        page = own.pages[0]
        page.contents_coalesce()  # a page may hold its content in parts
        content = page.obj.Contents
        deflated = content.get("/Filter") == Name.FlateDecode and "/DecodeParms" not in content
        form = Stream(
            pdf,
            content.read_raw_bytes() if deflated else content.read_bytes(),
            Type=Name.XObject,
            Subtype=Name.Form,
            BBox=Array(page.mediabox),
            Resources=pdf.copy_foreign(own.make_indirect(page.resources)),
            Group=Dictionary(S=Name.Transparency, CS=Name(_SPACES[picture.colours])),
        )
        if deflated:
            form.Filter = Name.FlateDecode
    left, bottom, right, top = (float(value) for value in form.BBox)
    width, height = right - left, top - bottom
    return pdf.make_indirect(form), (1 / width, 0, 0, 1 / height, -left / width, -bottom / height)


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
