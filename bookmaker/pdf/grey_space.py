"""Colour spaces, and functions that give colours, in greys (ISO 32000-1, 7.10 and 8.6)."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any, Final

from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream

from bookmaker.colour import grey_level

STEPS: Final = 32
"""Pieces of a fade between two colours: in between it is not as light as a mix of their greys."""
_DEVICE: Final = {
    "/DeviceGray": 1,
    "/DeviceRGB": 3,
    "/DeviceCMYK": 4,
    "/G": 1,
    "/RGB": 3,
    "/CMYK": 4,
}
_CALIBRATED: Final = {"/CalGray": 1, "/CalRGB": 3}


class NoGrey(Exception):
    """Something in a picture that can't be turned into greys; the message says what."""


def channels_of(space: Any) -> int:
    """How many numbers a colour in ``space`` has; 0 where they are no colour of its own (an index,
    a tint, a pattern)."""
    if isinstance(space, Name):
        return _DEVICE.get(str(space), 0)
    kind = str(space[0])
    if kind == "/ICCBased":
        return int(space[1].N)
    if kind == "/Lab":
        raise NoGrey("a colour space Lab")
    return _CALIBRATED.get(kind, _DEVICE.get(kind, 0))


def grey_of(values: Sequence[float]) -> float:
    """The level of the grey that is as light as a grey, an RGB or a CMYK colour."""
    if len(values) == 1:
        return float(values[0])
    if len(values) == 4:
        cyan, magenta, yellow, black = (min(max(float(each), 0), 1) for each in values)
        values = [(1 - ink) * (1 - black) for ink in (cyan, magenta, yellow)]
    red, green, blue = (min(max(float(each), 0), 1) for each in values)
    return round(grey_level(red, green, blue), 4)


def grey_space(pdf: Pdf, space: Any) -> Any:
    """``space`` in greys: a colour of one channel, an index of greys, a tint that gives a grey."""
    if isinstance(space, Name):
        return Name.DeviceGray if _DEVICE.get(str(space), 1) > 1 else space
    kind = str(space[0])
    if kind in ("/Indexed", "/I"):
        return _grey_index(space)
    if kind in ("/Separation", "/DeviceN") and channels_of(space[2]) > 1:
        tint = grey_function(pdf, space[3])
        return Array([space[0], space[1], Name.DeviceGray, tint])
    if kind == "/Pattern" and len(space) == 2:
        return Array([space[0], grey_space(pdf, space[1])])
    return Name.DeviceGray if channels_of(space) else space


def _grey_index(space: Any) -> Any:
    base, table = space[1], space[3]
    wide = channels_of(base)
    if wide < 2:
        return space
    data = table.read_bytes() if isinstance(table, Stream) else bytes(table)
    colours = (data[at : at + wide] for at in range(0, len(data) - wide + 1, wide))
    levels = bytes(round(255 * grey_of([byte / 255 for byte in each])) for each in colours)
    return Array([space[0], Name.DeviceGray, space[2], levels])


def grey_function(pdf: Pdf, function: Any) -> Object:
    """A function of one output where ``function``, or an array of functions, gives a colour."""
    if isinstance(function, Array):
        function = function[0] if len(function) == 1 else _joined(pdf, list(function))
    kind = int(function.FunctionType)
    make = {0: _sampled, 2: _exponential, 3: _stitched, 4: _calculated}[kind]
    made: Object = pdf.make_indirect(make(pdf, function))
    return made


def _exponential(pdf: Pdf, function: Any) -> Any:
    """Type 2: from one colour to another (7.10.3)."""
    first = [float(each) for each in function.get("/C0", Array([0.0]))]
    last = [float(each) for each in function.get("/C1", Array([1.0]))]
    exponent = float(function.N)
    if exponent == 1 and all(len(set(ends)) == 1 for ends in (first, last)):
        ends = {"/C0": Array([grey_of(first)]), "/C1": Array([grey_of(last)])}
        return Dictionary({**dict(function.items()), **ends})
    low, high = (float(each) for each in function.Domain)
    places = (low + (high - low) * step / STEPS for step in range(STEPS + 1))
    levels = [
        grey_of([a + place**exponent * (b - a) for a, b in zip(first, last, strict=True)])
        for place in places
    ]
    return _table(pdf, [STEPS + 1], function.Domain, levels)


def _table(pdf: Pdf, size: Sequence[int], domain: Any, levels: Sequence[float]) -> Stream:
    """Type 0 with two bytes a level."""
    data = b"".join(round(65535 * min(max(each, 0), 1)).to_bytes(2, "big") for each in levels)
    return Stream(
        pdf,
        data,
        FunctionType=0,
        Domain=domain,
        Range=Array([0, 1]),
        Size=Array(size),
        BitsPerSample=16,
    )


def _stitched(pdf: Pdf, function: Any) -> Any:
    """Type 3: one function behind the other (7.10.4)."""
    parts = Array([grey_function(pdf, part) for part in function.Functions])
    kept = {key: value for key, value in function.items() if key != "/Range"}
    return Dictionary({**kept, "/Functions": parts})


def _sampled(pdf: Pdf, function: Any) -> Any:
    """Type 0: a table of colours (7.10.2), each turned into its grey."""
    ends = [float(each) for each in function.get("/Decode", function.Range)]
    bits, wide = int(function.BitsPerSample), len(ends) // 2
    size = [int(each) for each in function.Size]
    count = wide
    for each in size:
        count *= each
    whole = int.from_bytes(function.read_bytes(), "big")
    length = 8 * len(function.read_bytes())
    most = (1 << bits) - 1
    samples = [(whole >> (length - bits * (place + 1))) & most for place in range(count)]
    values = [
        ends[2 * (place % wide)]
        + sample / most * (ends[2 * (place % wide) + 1] - ends[2 * (place % wide)])
        for place, sample in enumerate(samples)
    ]
    colours: Sequence[Sequence[float]] = [values[at : at + wide] for at in range(0, count, wide)]
    encode = [float(each) for each in function.get("/Encode", Array())]
    if len(size) == 1 and size[0] <= STEPS:
        colours, size = _finer(colours), [(size[0] - 1) * STEPS + 1]
        encode = [place * STEPS for place in encode]
    table = _table(pdf, size, function.Domain, [grey_of(each) for each in colours])
    if encode:
        table.Encode = Array(encode)
    return table


def _finer(colours: Sequence[Sequence[float]]) -> list[Sequence[float]]:
    """The same with what is reckoned between two of them (7.10.2: linear)."""
    found: list[Sequence[float]] = [
        [a + step / STEPS * (b - a) for a, b in zip(first, last, strict=True)]
        for first, last in pairwise(colours)
        for step in range(STEPS)
    ]
    return [*found, colours[-1]]


_LINEAR = "dup 0.04045 le {12.92 div} {0.055 add 1.055 div 2.4 exp} ifelse"
_GREY: Final = (
    f"{_LINEAR} 0.0722 mul exch {_LINEAR} 0.7152 mul add exch {_LINEAR} 0.2126 mul add "
    "dup 0.0031308 le {12.92 mul} {1 2.4 div exp 1.055 mul 0.055 sub} ifelse"
)
"""Red, green and blue on the stack to the grey as light (``colour.grey_level``), in PostScript."""


def _calculated(pdf: Pdf, function: Any) -> Any:
    """Type 4: what is reckoned (7.10.5), and the grey of it behind."""
    wide = len(function.Range) // 2
    code = function.read_bytes().strip()
    if wide == 1:
        return function
    if wide != 3 or not code.startswith(b"{") or not code.endswith(b"}"):
        raise NoGrey(f"a function of type 4 with {wide} outputs")
    made = b"{%s %s}" % (code[1:-1], _GREY.encode())
    return Stream(pdf, made, FunctionType=4, Domain=function.Domain, Range=Array([0, 1]))


def _joined(pdf: Pdf, functions: Sequence[Any]) -> Any:
    """Functions of one output each as one of as many."""
    kinds = {int(each.FunctionType) for each in functions}
    first = functions[0]
    if kinds == {2} and len({float(each.N) for each in functions}) == 1:
        ends = {
            key: Array([float(each.get(key, Array([end]))[0]) for each in functions])
            for key, end in (("/C0", 0.0), ("/C1", 1.0))
        }
        return Dictionary({**dict(first.items()), **ends})
    if kinds == {3} and len({str(each.Bounds) + str(each.Encode) for each in functions}) == 1:
        parts = zip(*(each.Functions for each in functions), strict=True)
        joined = Array([pdf.make_indirect(_joined(pdf, list(part))) for part in parts])
        return Dictionary({**dict(first.items()), "/Functions": joined})
    if kinds == {4} and len(first.Domain) == 2:
        codes = [each.read_bytes().strip()[1:-1] for each in functions]
        made = b" ".join(b"dup %s exch" % code for code in codes[:-1])
        ranges = Array([end for each in functions for end in each.Range])
        data = b"{%s %s}" % (made, codes[-1])
        return Stream(pdf, data, FunctionType=4, Domain=first.Domain, Range=ranges)
    raise NoGrey("functions of several types for one colour")
