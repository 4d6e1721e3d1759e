"""Pictures as PDF objects: each stands in the file once and is laid under the pages' ink."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Final, cast

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    IndirectObject,
    NameObject,
    NumberObject,
    StreamObject,
)

from bookmaker.drawing import ArtMark, Ink, faded
from bookmaker.model import Box, Picture
from bookmaker.pictures import at_size, png_stream, small

MM = 72 / 25.4
Matrix = tuple[float, float, float, float, float, float]
SMALL_PIXELS = 320
"""Longer side of a small copy: 30 mm at about 270 dpi."""

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
    """Puts pictures into one PDF, each at most once in full and once small."""

    def __init__(
        self,
        writer: PdfWriter,
        pictures: Mapping[str, Picture],
        ink: Ink,
        widest: Mapping[str, float],
    ) -> None:
        self._writer = writer
        self._pictures = pictures
        self._ink = ink
        self._widest = widest
        self._objects: dict[tuple[str, bool], tuple[IndirectObject, Matrix]] = {}

    def lay_under(self, page: PageObject, height: float, art: Sequence[ArtMark]) -> None:
        """Lay ``art`` under the ink of ``page``, which is ``height`` millimetres high."""
        known = [mark for mark in art if mark.picture in self._pictures]
        if not known:
            return
        objects = _part(page, "/XObject")
        pieces = ["q"]
        for mark in known:
            name, turn = self._name(objects, mark)
            pieces.append(_placed(mark, name, turn, height))
        pieces += [piece for mark in known for piece in self._faded(page, mark, height)]
        under = StreamObject()
        under.set_data("\n".join([*pieces, "Q\n"]).encode())
        ink = page["/Contents"]
        over = ink if isinstance(ink, ArrayObject) else ArrayObject([page.raw_get("/Contents")])
        page[NameObject("/Contents")] = ArrayObject([self._writer._add_object(under), *over])

    def _faded(self, page: PageObject, mark: ArtMark, height: float) -> list[str]:
        """Paper over a picture that is too dark for the ink; as thin as the ink allows."""
        per_cent = round(100 * self._ink.fade(self._pictures[mark.picture].cover))
        if not per_cent:
            return []
        name = f"/Fade{per_cent}"
        state = DictionaryObject({NameObject("/ca"): FloatObject(per_cent / 100)})
        _part(page, "/ExtGState")[NameObject(name)] = state
        return [f"{name} gs 1 g", f"{_area(faded(mark.window), height)} f"]

    def _name(self, objects: DictionaryObject, mark: ArtMark) -> tuple[str, Matrix]:
        reference, turn = self._object(mark.picture, mark.small)
        name = f"/Art{reference.idnum}"
        objects[NameObject(name)] = reference
        return name, turn

    def _object(self, digest: str, as_small: bool) -> tuple[IndirectObject, Matrix]:
        picture = self._pictures[digest]
        key = (digest, as_small and picture.format != "svg")
        if key not in self._objects:
            if picture.format == "svg":
                form, turn = _form(self._writer, picture)
                self._objects[key] = self._writer._add_object(form), turn
            else:
                sized = small(picture, SMALL_PIXELS) if key[1] else self._at_size(digest)
                image = _image(self._writer, sized)
                self._objects[key] = self._writer._add_object(image), TURNS[sized.orientation]
        return self._objects[key]

    def _at_size(self, digest: str) -> Picture:
        return at_size(self._pictures[digest], self._widest[digest])


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


def _part(page: PageObject, name: str) -> DictionaryObject:
    """A part of the page's resources, made where it is missing."""
    resources = cast(DictionaryObject, page["/Resources"].get_object())
    part = resources.setdefault(NameObject(name), DictionaryObject())
    return cast(DictionaryObject, part.get_object())


def _form(writer: PdfWriter, picture: Picture) -> tuple[StreamObject, Matrix]:
    """The picture's own one-page PDF as a form, scaled to the unit square."""
    page = PdfReader(io.BytesIO(picture.pdf)).pages[0]
    form = StreamObject()
    form.set_data(page.get_contents().get_data())  # type: ignore[union-attr]
    box = page.mediabox
    form.update(
        {
            NameObject("/Type"): NameObject("/XObject"),
            NameObject("/Subtype"): NameObject("/Form"),
            NameObject("/BBox"): ArrayObject([FloatObject(value) for value in box]),
            NameObject("/Resources"): cast(DictionaryObject, page["/Resources"]).clone(writer),
            NameObject("/Group"): DictionaryObject(
                {
                    NameObject("/S"): NameObject("/Transparency"),
                    NameObject("/CS"): NameObject(_SPACES[picture.colours]),
                }
            ),
        }
    )
    return form.flate_encode(), (1 / float(box.width), 0, 0, 1 / float(box.height), 0, 0)


def _image(writer: PdfWriter, picture: Picture) -> StreamObject:
    """A raster as it is: a JPEG's or a PNG's own compressed bytes."""
    image = StreamObject()
    if picture.format == "jpeg":
        image._data = picture.data
        colours, bits = picture.colours, 8
        image[NameObject("/Filter")] = NameObject("/DCTDecode")
        if picture.inverted:
            image[NameObject("/Decode")] = ArrayObject([NumberObject(v) for v in [1, 0] * colours])
    else:
        image._data, colours, bits = png_stream(picture)
        image[NameObject("/Filter")] = NameObject("/FlateDecode")
        image[NameObject("/DecodeParms")] = DictionaryObject(
            {
                NameObject("/Predictor"): NumberObject(15),
                NameObject("/Colors"): NumberObject(colours),
                NameObject("/BitsPerComponent"): NumberObject(bits),
                NameObject("/Columns"): NumberObject(_stored_pixels(picture)[0]),
            }
        )
    width, height = _stored_pixels(picture)
    image.update(
        {
            NameObject("/Type"): NameObject("/XObject"),
            NameObject("/Subtype"): NameObject("/Image"),
            NameObject("/Width"): NumberObject(width),
            NameObject("/Height"): NumberObject(height),
            NameObject("/BitsPerComponent"): NumberObject(bits),
            NameObject("/ColorSpace"): _colour_space(writer, picture, colours),
        }
    )
    return image


def _stored_pixels(picture: Picture) -> tuple[int, int]:
    """Width and height of a raster as its bytes hold it, before it is turned upright."""
    width, height = round(picture.width), round(picture.height)
    return (height, width) if picture.orientation >= 5 else (width, height)


def _colour_space(writer: PdfWriter, picture: Picture, colours: int) -> NameObject | ArrayObject:
    if not picture.icc:
        return NameObject(_SPACES[colours])
    profile = StreamObject()
    profile.set_data(picture.icc)
    profile[NameObject("/N")] = NumberObject(colours)
    return ArrayObject([NameObject("/ICCBased"), writer._add_object(profile.flate_encode())])
