"""The book's faces as fonts of a PDF: each face once, with the letters that are printed alone."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from functools import lru_cache

from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream

from bookmaker.cache import Cache
from bookmaker.model import Face
from bookmaker.pdf.truetype import Measures, subset_font
from bookmaker.typeset import FACES

VERSION = 1
"""Raised whenever the same letters of the same face are to give another subset."""
_INSTEAD = "?"
"""What is printed for a letter that a face lacks; none comes this far (``missing_letters``)."""
_SYMBOLIC = 4
"""Its own encoding (ISO 32000-1, table 123)."""


@dataclass(frozen=True, slots=True)
class Subset:
    """Some letters of a face: the code of each is its place in ``letters``, from 1 on.

    ``widths`` are the letters' advances in thousandths of its size; ``file`` is the TrueType font,
    deflated, ``size`` its length before that.
    """

    face: Face
    letters: str
    widths: tuple[float, ...]
    measures: Measures
    file: bytes
    size: int

    def encoded(self, text: str) -> str:
        """``text`` in hexadecimal, two bytes a letter."""
        codes = _codes(self.letters)
        return "".join([codes.get(letter) or codes[_INSTEAD] for letter in text])


def subset(face: Face, letters: Iterable[str], cache: Cache) -> Subset:
    """Those of ``letters`` that ``face`` has, from its file or from the ``cache``."""
    wanted = "".join(sorted({*letters, _INSTEAD}))
    source = FACES[face].path.read_bytes()
    key = f"subset {VERSION} {hashlib.sha256(source).hexdigest()} {wanted}"
    known = _unpacked(cache.get(key))
    if known is None:
        made = subset_font(source, wanted)
        packed = zlib.compress(made.file, 9)
        known = Subset(face, made.letters, made.widths, made.measures, packed, len(made.file))
        cache.put(key, _packed(known))
    return known


def font(pdf: Pdf, found: Subset) -> Object:
    """``found`` as a font of ``pdf`` (9.7): its codes are the numbers of its glyphs."""
    measures = found.measures
    name = Name(f"/{_tag(found)}+{measures.name}")
    system = Dictionary(Registry=b"Adobe", Ordering=b"Identity", Supplement=0)
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=name,
        Flags=_SYMBOLIC,
        FontBBox=Array(measures.box),
        ItalicAngle=measures.slant,
        Ascent=measures.ascent,
        Descent=measures.descent,
        CapHeight=measures.capital,
        StemV=80,
        FontFile2=Stream(pdf, found.file, Filter=Name.FlateDecode, Length1=found.size),
    )
    glyphs = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType2,
        BaseFont=name,
        CIDSystemInfo=system,
        FontDescriptor=pdf.make_indirect(descriptor),
        CIDToGIDMap=Name.Identity,
        DW=1000,
        W=Array([1, Array([_exact(width) for width in found.widths])]),
    )
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.Type0,
            BaseFont=name,
            Encoding=Name("/Identity-H"),
            DescendantFonts=Array([pdf.make_indirect(glyphs)]),
            ToUnicode=Stream(pdf, _to_unicode(found.letters)),
        )
    )


def _exact(width: float) -> float | int:
    return int(width) if width == int(width) else round(width, 3)


def _tag(found: Subset) -> str:
    """Six capitals that differ from subset to subset (9.6.4)."""
    digest = hashlib.sha256(found.file).digest()
    return "".join(chr(ord("A") + byte % 26) for byte in digest[:6])


def _to_unicode(letters: str) -> bytes:
    """The map from codes to letters (9.10.3)."""
    numbered = _numbered(letters)
    rows = [f"<{code:04X}> <{letter.encode('utf-16-be').hex()}>" for code, letter in numbered]
    blocks = [rows[start : start + 100] for start in range(0, len(rows), 100)]
    mapped = "\n".join(
        line for block in blocks for line in (f"{len(block)} beginbfchar", *block, "endbfchar")
    )
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{mapped}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    ).encode("ascii")


def _numbered(letters: str) -> Iterable[tuple[int, str]]:
    return enumerate(letters, 1)


@lru_cache(maxsize=64)
def _codes(letters: str) -> Mapping[str, str]:
    return {letter: f"{code:04x}" for code, letter in _numbered(letters)}


def _packed(found: Subset) -> bytes:
    """A line of JSON, and the font file."""
    facts = {key: value for key, value in asdict(found).items() if key != "file"}
    return json.dumps(facts).encode() + b"\n" + found.file


def _unpacked(packed: bytes | None) -> Subset | None:
    """What was packed; None where it is not there, or was packed in another way."""
    if packed is None:
        return None
    line, _, file = packed.partition(b"\n")
    try:
        facts = json.loads(line)
        measures = Measures(**facts.pop("measures"))
        return Subset(**{**facts, "widths": tuple(facts["widths"])}, measures=measures, file=file)
    except (ValueError, KeyError, TypeError):
        return None
