"""Rasters of every kind: decoded with Pillow, turned upright, laid on white."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace

from PIL import Image, ImageChops, ImageCms, ImageOps

from bookmaker.model import Picture
from bookmaker.pictures import jpeg, png
from bookmaker.pictures.kinds import Kind
from bookmaker.pictures.limits import FETCH_AGAIN, SAVE_AGAIN, Limits, Unfit, too_large
from bookmaker.pictures.lost import lost_notes
from bookmaker.pictures.packing import make
from bookmaker.pictures.stored import Opened, put_together
from bookmaker.pictures.trim import blank_notes, trim_box

QUALITY = 90
LONGEST_REDRAWN = 7000
"""Pixels along the longer side that are kept of a picture that must be redrawn anyway: 450 dpi
over the width of an A3 page."""

_LOOK = 400
_SAMPLE = 1000
_DRAWING_BYTES_PER_PIXEL = 0.7
_STRIP = 256
_PHOTOMETRIC = 262
_PILLOW_NAMES: dict[Kind, str] = {
    "jpeg": "JPEG",
    "png": "PNG",
    "gif": "GIF",
    "webp": "WEBP",
    "tiff": "TIFF",
    "bmp": "BMP",
    "avif": "AVIF",
}
_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


def take_raster(file: Opened, kind: Kind, limits: Limits) -> Picture:
    """The picture in ``file``; raises Unfit where it can't be decoded or is too large."""
    data = file.data
    with _told():
        if kind == "jpeg":
            return _take_jpeg(file, limits)
        if kind == "png":
            return _take_png(file, limits)
        image = open_raster(data, kind, limits)
        return redraw(image, lossy=_is_lossy(data, kind) or image.info.get("compression") == "jpeg")


def open_raster(data: bytes, kind: Kind, limits: Limits) -> Image.Image:
    """An image whose size has been judged and whose pixels have not yet been decoded."""
    if kind == "heif":
        image = _open_heif(data, limits)
    else:
        image = Image.open(io.BytesIO(data), formats=[_PILLOW_NAMES[kind]])
    too_large(*image.size, limits)
    return image


def redraw(image: Image.Image, *, lossy: bool) -> Picture:
    """An opened image as a picture that is upright, opaque and free of everything else."""
    image.load()
    longest = max(image.size)
    ImageOps.exif_transpose(image, in_place=True)
    if image.mode.startswith("I") or image.mode == "F":
        image = eight_bits(image)
    flat = _flat(image)
    as_jpeg = lossy or (longest > LONGEST_REDRAWN and is_photograph(flat))
    data = encode_jpeg(flat) if as_jpeg else encode_png(flat)
    bare = make("jpeg" if as_jpeg else "png", *flat.size, data)
    notes = blank_notes(flat)
    return replace(bare, trim=trim_box(flat), colours=len(flat.getbands()), notes=notes)


def upright(image: Image.Image, orientation: int) -> Image.Image:
    """Turn pixels that lie as EXIF's ``orientation`` says."""
    return image.transpose(_UPRIGHT[orientation]) if orientation in _UPRIGHT else image


def is_photograph(image: Image.Image) -> bool:
    """Whether the middle of the picture hardly deflates: photographs have noise, drawings none."""
    across, down = (min(side, _SAMPLE) for side in image.size)
    left, top = (image.width - across) // 2, (image.height - down) // 2
    deflated = encode_png(image.crop((left, top, left + across, top + down)))
    return len(deflated) > _DRAWING_BYTES_PER_PIXEL * across * down


def encode_jpeg(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()


def encode_png(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def to_srgb(profile: bytes, mode: str) -> Callable[[Image.Image], Image.Image] | None:
    """What turns pixels of ``mode`` from ``profile`` into sRGB; None where nothing need be done.

    A profile that is broken, or is none for this mode, counts as none.
    """
    if not profile or mode not in ("RGB", "CMYK"):
        return None
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if "srgb" in ImageCms.getProfileDescription(source).lower():
            return None
        target = ImageCms.createProfile("sRGB")
        transform = ImageCms.buildTransform(source, target, mode, "RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return None
    return transform.apply


def _take_jpeg(file: Opened, limits: Limits) -> Picture:
    bare = jpeg.clean(file.data)
    too_large(bare.width, bare.height, limits)
    image = Image.open(io.BytesIO(bare.data), formats=["JPEG"])
    if not bare.prints_as_it_is:
        if bare.icc:
            image.info["icc_profile"] = bare.icc
        return redraw(upright(image, bare.orientation), lossy=True)
    scale = next(by for by in (8, 4, 2, 1) if by == 1 or max(image.size) >= by * _LOOK)
    image.draft(None, (image.width // scale, image.height // scale))
    image.load()
    look = upright(image if image.mode in ("L", "RGB") else image.convert("RGB"), bare.orientation)
    width, height = bare.width, bare.height
    if bare.orientation >= 5:
        width, height = height, width
    return replace(
        make("jpeg", width, height, bare.data),
        stored=file.lying(bare.parts),
        trim=trim_box(look),
        orientation=bare.orientation,
        colours=bare.colours,
        inverted=bare.colours == 4,  # Adobe's way is every program's, whether it says so or not
        icc=bare.icc,
        glance=_glance(look, bare.icc) if scale > 1 else b"",
        notes=(*blank_notes(look), *lost_notes(bare)),
    )


def _glance(look: Image.Image, icc: bytes) -> bytes:
    """What was decoded to find the border, in sRGB, for whoever looks at the picture again."""
    convert = to_srgb(icc, look.mode)
    return encode_jpeg(convert(look) if convert else look)


def _take_png(file: Opened, limits: Limits) -> Picture:
    data = file.data
    facts = png.read(data)
    too_large(facts.width, facts.height, limits)
    image = open_raster(data, "png", limits)
    lifted = None if max(image.size) > LONGEST_REDRAWN else png.lift(data, facts)
    if lifted is None:
        return redraw(image, lossy=False)
    image.load()
    look = image if image.mode in ("L", "RGB") else image.convert("L")
    bare = make("png", facts.width, facts.height, put_together(lifted, data))
    stored, colours = file.lying(lifted), len(look.getbands())
    notes = blank_notes(look)
    return replace(bare, stored=stored, trim=trim_box(look), colours=colours, notes=notes)


def _flat(image: Image.Image) -> Image.Image:
    """Grey or RGB in sRGB over white, strip by strip so that large pictures fit in memory."""
    first = _opaque(image.crop((0, 0, 1, 1)))
    factor = -(-max(image.size) // LONGEST_REDRAWN)
    convert = to_srgb(image.info.get("icc_profile", b""), first.mode)
    mode = "L" if first.mode == "L" else "RGB"
    size = (-(-image.width // factor), -(-image.height // factor))
    flat = Image.new(mode, size)
    for top in range(0, image.height, _STRIP * factor):
        bottom = min(top + _STRIP * factor, image.height)
        strip = _opaque(image.crop((0, top, image.width, bottom)))
        strip = convert(strip) if convert else strip.convert(mode)
        flat.paste(strip.reduce(factor) if factor > 1 else strip, (0, top // factor))
    return flat


def _opaque(image: Image.Image) -> Image.Image:
    """The same in mode "L", "RGB" or "CMYK", with white where it is see-through."""
    if image.mode == "LAB":
        return _from_lab(image)
    if image.has_transparency_data:
        grey = image.mode in ("L", "LA", "La")
        layered = image.convert("RGBA")
        paper = Image.new("RGBA", image.size, "white")
        return Image.alpha_composite(paper, layered).convert("L" if grey else "RGB")
    if image.mode == "1":
        return image.convert("L")
    return image if image.mode in ("L", "RGB", "CMYK") else image.convert("RGB")


def eight_bits(image: Image.Image) -> Image.Image:
    """Grey of 16 or 32 bits, or of floats, in eight. Floats run from 0 to 1, or, where some are
    larger, to the end of eight or of sixteen bits. TIFF may count from white (TIFF 6.0, 262)."""
    import numpy as np  # slow to import, and hardly ever wanted

    values = np.asarray(image)
    if values.dtype.kind == "f":
        finite = np.nan_to_num(values, posinf=0.0, neginf=0.0)
        most = next((end for end in (1.0, 255.0) if finite.max() <= end), 65535.0)
        eight = np.clip(finite / most, 0.0, 1.0) * 255.0 + 0.5
    else:
        eight = (values if values.dtype == np.uint16 else np.clip(values, 0, 65535)) >> 8
    grey = Image.fromarray(eight.astype(np.uint8))
    from_white = getattr(image, "tag_v2", {}).get(_PHOTOMETRIC) == 0
    return ImageChops.invert(grey) if from_white and values.dtype.kind != "f" else grey


def _from_lab(image: Image.Image) -> Image.Image:
    lab, srgb = ImageCms.createProfile("LAB"), ImageCms.createProfile("sRGB")
    return ImageCms.buildTransform(lab, srgb, "LAB", "RGB").apply(image)


def _open_heif(data: bytes, limits: Limits) -> Image.Image:
    try:
        from pillow_heif import open_heif
    except ImportError:
        raise Unfit(
            "is a HEIC photograph, and the package pillow-heif that reads those is missing",
            "Install it (python -m pip install pillow-heif), or save the photograph as JPEG.",
        ) from None
    photograph = open_heif(io.BytesIO(data), convert_hdr_to_8bit=True)
    width, height = photograph.size
    too_large(width, height, limits)
    image: Image.Image = photograph.to_pillow()
    return image


def _is_lossy(data: bytes, kind: Kind) -> bool:
    """Whether the pixels had been squeezed before, so that no lossless copy is due to them."""
    if kind == "webp":
        return b"VP8 " in data[12:65536] and b"VP8L" not in data[12:64]
    return kind in ("heif", "avif")


@contextmanager
def _told() -> Iterator[None]:
    """Turn all that a decoder may raise on strangers' bytes into Unfit."""
    try:
        yield
    except Image.DecompressionBombError:
        raise Unfit(
            "has more pixels than can be printed",
            "Scale it down to 5,000 pixels along its longer side: that is enough for any paper.",
            "art-too-large",
        ) from None
    except MemoryError:
        raise Unfit(
            "is too large for this machine's memory",
            "Scale it down to 5,000 pixels along its longer side.",
            "art-too-large",
        ) from None
    except Unfit:
        raise
    except Exception as error:  # decoders raise anything at all on damaged files
        reason = str(error)
        if "truncated" in reason.lower():
            raise Unfit("is cut off before its end", FETCH_AGAIN) from error
        raise Unfit("is damaged and can't be decoded", SAVE_AGAIN) from error
