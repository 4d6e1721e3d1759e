"""The sheet that papers are glued on, and the SVG that comes of it.

Three layers, from the back: ``habitat``, ``creature``, ``front``. A paper with a lift throws a
hard-edged shadow, which is what tells one layer from the next; nothing has an outline.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from html import escape
from random import Random

from art.kit.curves import Curve, Point, paths, polygon
from art.kit.cutouts import grain
from art.kit.palette import INK, PALETTE

LAYERS = ("habitat", "creature", "front")
SHADOW = "0.2"


@dataclass(frozen=True)
class Glued:
    """One paper of the creature, or many glued as one, as it lies on the sheet.

    ``edge`` is the shape at which it is cut off, if at any.
    """

    pieces: tuple[Curve, ...]
    colour: str
    lift: float
    edge: Curve | None = None


class Sheet:
    """Collects papers; ``svg()`` writes them. Colours must be of the palette."""

    def __init__(self, name: str, width: int = 1000, height: int = 1200) -> None:
        self.name, self.width, self.height = name, width, height
        self._parts: dict[str, list[str]] = {layer: [] for layer in LAYERS}
        self._clips: list[str] = []
        self._glued: list[Glued] = []
        self._edge: Curve | None = None
        self._layer = "habitat"
        self._pose: tuple[float, Point, float] | None = None

    @property
    def size(self) -> tuple[int, int]:
        return self.width, self.height

    @property
    def creature(self) -> tuple[Glued, ...]:
        """The creature's papers from the back."""
        return tuple(self._glued)

    def layer(self, name: str) -> None:
        """What follows goes into this layer."""
        self._layer = LAYERS[LAYERS.index(name)]

    def ground(self, colour: str, fibres: str, seed: int = 1, count: int = 150) -> None:
        """Covers the sheet with one paper and its grain."""
        w, h = self.width, self.height
        self.paper(polygon((0, 0), (w, 0), (w, h), (0, h)), colour)
        hairs = [g for g in grain(w, h, count, Random(seed)) if g.box[0] > 0 and g.box[1] > 0]
        self.paper(hairs, fibres)

    def paper(self, shapes: Curve | Iterable[Curve], colour: str, lift: float = 0) -> None:
        """Glues one shape, or many as one piece; ``lift`` 1 to 4 sets the depth of its shadow."""
        if colour not in PALETTE.values():
            raise ValueError(f"{colour} is no paper of the palette")
        pieces = self._set(shapes)
        if lift:
            fallen = paths(piece.moved(3.2 * lift, 5 * lift) for piece in pieces)
            self._add(f'<path fill="{INK}" fill-opacity="{SHADOW}" d="{fallen}"/>')
        self._add(f'<path fill="{colour}" d="{paths(pieces)}"/>')
        if self._layer == "creature":
            self._glued.append(Glued(tuple(pieces), colour, lift, self._edge))

    def papers(self, shapes: Iterable[Curve], colours: Iterable[str], lift: float = 0) -> None:
        """Glues shapes one over the other, each with its own shadow; colours come in turn."""
        turn = list(colours)
        for i, shape in enumerate(shapes):
            self.paper(shape, turn[i % len(turn)], lift)

    @contextmanager
    def inside(self, shape: Curve) -> Iterator[None]:
        """What is glued meanwhile is cut off at the edge of ``shape``."""
        mark = f"{self.name}-{len(self._clips) + 1}"
        (edge,) = self._set(shape)
        self._clips.append(f'<clipPath id="{mark}"><path d="{edge.d}"/></clipPath>')
        self._add(f'<g clip-path="url(#{mark})">')
        before, self._edge = self._edge, edge
        yield
        self._edge = before
        self._add("</g>")

    @contextmanager
    def posed(self, angle: float, about: Point, size: float = 1) -> Iterator[None]:
        """What is glued meanwhile is turned and scaled first: a body's pose, set in one place."""
        before, self._pose = self._pose, (angle, about, size)
        yield
        self._pose = before

    def svg(self, title: str, description: str) -> str:
        """The whole picture; the same papers give the same bytes."""
        groups = [
            f'<g id="{self.name}-{layer}">\n' + "\n".join(parts) + "\n</g>"
            for layer, parts in self._parts.items()
            if parts
        ]
        clips = ["<defs>\n" + "\n".join(self._clips) + "\n</defs>"] if self._clips else []
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{self.width}" height="{self.height}" '
            f'viewBox="0 0 {self.width} {self.height}" role="img">'
        )
        words = [f"<title>{escape(title)}</title>", f"<desc>{escape(description)}</desc>"]
        return "\n".join([head, *words, *clips, *groups, "</svg>"]) + "\n"

    def _set(self, shapes: Curve | Iterable[Curve]) -> list[Curve]:
        pieces = [shapes] if isinstance(shapes, Curve) else list(shapes)
        if self._pose is None:
            return pieces
        angle, about, size = self._pose
        return [piece.scaled(size, about=about).turned(angle, about) for piece in pieces]

    def _add(self, part: str) -> None:
        self._parts[self._layer].append(part)
