"""Rasters inside a PDF in greys, of any depth and colour space (ISO 32000-1, 8.9.5)."""

from __future__ import annotations

import io
import zlib
from typing import Any

import numpy as np
from pikepdf import Array, Name, Object, Stream

from bookmaker.pdf.grey_space import NoGrey, channels_of


def grey_image(image: Object) -> None:
    """Turn the samples of an image XObject into greys, where they are not yet."""
    if image.get("/ImageMask", False) or "/ColorSpace" not in image:
        return
    space = image.ColorSpace
    if _is_grey(space):
        return
    if "/Mask" in image and isinstance(image.Mask, Array):
        raise NoGrey("a picture in which a colour is see-through")
    wide, high = int(image.Width), int(image.Height)
    levels = _levels(image, space, wide, high)
    facts = ("/Decode", "/DecodeParms")
    for key in facts:
        if key in image:
            del image[key]
    image.ColorSpace, image.BitsPerComponent = Name.DeviceGray, 8
    image.write(zlib.compress(levels.tobytes(), 9), filter=Name.FlateDecode)


def _is_grey(space: Any) -> bool:
    base = space[1] if isinstance(space, Array) and str(space[0]) == "/Indexed" else space
    return channels_of(base) == 1 and base is space


def _levels(image: Object, space: Any, wide: int, high: int) -> Any:
    """The grey of each pixel, a byte each, row by row."""
    indexed = isinstance(space, Array) and str(space[0]) == "/Indexed"
    base = space[1] if indexed else space
    channels = channels_of(base)
    if not channels:
        raise NoGrey(f"a picture in the colour space {base[0]}")
    if image.get("/Filter") == Name.DCTDecode:
        samples = _jpeg(image, channels)
    else:
        bits = int(image.BitsPerComponent)
        samples = _unpacked(image.read_bytes(), (high, wide, 1 if indexed else channels), bits)
    if indexed:
        table = space[3].read_bytes() if isinstance(space[3], Stream) else bytes(space[3])
        colours = np.frombuffer(table, np.uint8).astype(float) / 255
        colours = colours[: len(colours) // channels * channels].reshape(-1, channels)
        places = np.minimum(samples[..., 0], len(colours) - 1).astype(int)
        values = colours[places]
    else:
        most = 255 if image.get("/Filter") == Name.DCTDecode else (1 << bits) - 1
        values = _decoded(samples / most, image)
    return np.clip(np.rint(_grey(values) * 255), 0, 255).astype(np.uint8)


def _jpeg(image: Object, channels: int) -> Any:
    from PIL import Image

    with Image.open(io.BytesIO(image.read_raw_bytes())) as opened:
        mode = {1: "L", 3: "RGB", 4: "CMYK"}[channels]
        return np.asarray(opened.convert(mode), float).reshape(opened.height, opened.width, -1)


def _unpacked(data: bytes, shape: tuple[int, int, int], bits: int) -> Any:
    """Samples of ``bits`` each; rows begin on whole bytes."""
    high, wide, channels = shape
    row = (wide * channels * bits + 7) // 8
    lines = np.frombuffer(data[: row * high], np.uint8).reshape(high, row)
    if bits == 16:
        whole = lines.reshape(high, -1, 2).astype(float)
        return (whole[..., 0] * 256 + whole[..., 1]).reshape(shape)
    if bits < 8:
        single = np.unpackbits(lines, axis=1)[:, : wide * channels * bits]
        weights = 1 << np.arange(bits - 1, -1, -1)
        lines = single.reshape(high, wide * channels, bits) @ weights
    return lines.astype(float).reshape(shape)


def _decoded(values: Any, image: Object) -> Any:
    """Through the image's own Decode array, where it has one."""
    if "/Decode" not in image:
        return values
    ends = np.array([float(each) for each in image.Decode]).reshape(-1, 2)
    return ends[:, 0] + values * (ends[:, 1] - ends[:, 0])


def _grey(values: Any) -> Any:
    """The greys that are as light (``colour.grey_level``), of channels from 0 to 1."""
    channels = values.shape[-1]
    if channels == 1:
        return values[..., 0]
    if channels == 4:
        values = (1 - values[..., :3]) * (1 - values[..., 3:])
    linear = np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
    light = linear @ np.array([0.2126, 0.7152, 0.0722])
    return np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
