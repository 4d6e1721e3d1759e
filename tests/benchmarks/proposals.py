"""Judge proposed spots: `python -m tests.benchmarks.proposals`.

On pictures that nobody here has chosen: the animal drawings of Debian's package openclipart-svg
(public domain) and whatever ``--photographs`` names; and on the demo's creatures, whose spots were
placed by hand. Measured at 5, 6 and 7 spots: how many proposals lay out clean on A4, how many
spots' middles lie on the creature, and evenness: the mean way from the creature's points to the
nearest spot, against the best of fifty k-medoid runs. Ways are found anew here, by scipy's Dijkstra
on a grid of its own. ``--sheets DIR`` writes contact sheets, the worst first.
"""

from __future__ import annotations

import argparse
import math
import random
import statistics
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from bookmaker.cache import Cache, FolderCache, MemoryCache
from bookmaker.linking.looking import look_over
from bookmaker.linking.proposing import Proposal, propose_spots
from bookmaker.linking.scene import Scene
from bookmaker.model import Number, Page, Picture, Point, Spot, Wish, progression
from bookmaker.pictures import PictureFault, look, take_in, trimmed
from bookmaker.reading import open_manifest

DRAWINGS = Path("/usr/share/openclipart/svg/animals")
COUNTS = (5, 6, 7)
GRID = 48
"""Longer side of the judge's grid."""
SAMPLE = 250
RUNS = 50
GROUND = 3.0
TILE = 230


@dataclass(frozen=True)
class Case:
    path: Path
    picture: Picture
    scene: Scene


@dataclass(frozen=True)
class Verdict:
    case: Case
    count: int
    proposal: Proposal
    on: float
    evenness: float


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", type=int, default=0, help="so many drawings, taken at random")
    parser.add_argument("--counts", type=int, nargs="*", default=COUNTS)
    parser.add_argument("--cache", type=Path, default=Path("~/.cache/bookmaker-proposals"))
    parser.add_argument("--sheets", type=Path, help="a folder for contact sheets")
    parser.add_argument("--photographs", type=Path, nargs="*", default=[])
    parser.add_argument("--no-drawings", action="store_true")
    asked = parser.parse_args()
    cache = FolderCache(asked.cache.expanduser())
    paths = [] if asked.no_drawings else drawings(asked.only)
    cases = list(read([*paths, *asked.photographs], cache))
    judge = Judge(cases, cache)
    print(f"{len(cases)} pictures; {sum(not case.scene.told for case in cases)} without a figure")
    print("spots  clean   on the creature  evenness: mean  95%   ms a proposal")
    for count in asked.counts:
        start = time.process_time()
        proposals = [
            propose_spots(wanting(count), case.picture, "a4", MemoryCache()) for case in cases
        ]
        spent = 1000 * (time.process_time() - start) / max(len(cases), 1)
        found = [judge.verdict(*pair, count) for pair in zip(cases, proposals, strict=True)]
        told(count, found, spent)
        if asked.sheets:
            sheets(count, found, asked.sheets)
    beside_hands(cache, asked.sheets)


def drawings(only: int) -> list[Path]:
    every = sorted({path.resolve() for path in DRAWINGS.rglob("*.svg")})
    return sorted(random.Random(1).sample(every, only)) if only else every


def read(paths: Sequence[Path], cache: Cache) -> Iterator[Case]:
    seen = set()
    for path, picture in take_in(paths, cache=cache).items():
        if isinstance(picture, PictureFault) or picture.digest in seen:
            continue
        seen.add(picture.digest)
        yield Case(path, picture, look_over(picture))


def told(count: int, found: Sequence[Verdict], spent: float) -> None:
    clean = statistics.mean(v.proposal.clean and len(v.proposal.spots) == count for v in found)
    on = [v.on for v in found if v.case.scene.told]
    even = sorted(v.evenness for v in found if v.case.scene.told)
    print(
        f"{count:5}  {clean:6.1%} {statistics.mean(on):12.1%} {statistics.mean(even):18.2f} "
        f"{even[len(even) * 95 // 100]:5.2f} {spent:10.0f}"
    )


def wanting(count: int) -> Page:
    """A page that wants so many spots, wherever they are."""
    spots = tuple(Spot(f"spot_{i}", 0, 0) for i in range(1, count + 1))
    numbers = progression(Number.parse("1"), Number.parse("2"), count)
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=Wish())


class Judge:
    """Ways over each creature, and the best of the k-medoid runs on it."""

    def __init__(self, cases: Sequence[Case], cache: Cache) -> None:
        self.cache = cache

    def verdict(self, case: Case, proposal: Proposal, count: int) -> Verdict:
        spots = [(x / 100, y / 100) for x, y in proposal.spots]
        trim, scene = case.scene.trim, case.scene
        cells = scene.rows(scene.figure)
        pixels = [
            (
                min(max(int((y - trim.y) / trim.height * scene.height), 0), scene.height - 1),
                min(max(int((x - trim.x) / trim.width * scene.width), 0), scene.width - 1),
            )
            for x, y in spots
        ]
        on = statistics.mean(bool(cells[pixel]) for pixel in pixels) if pixels else 0.0
        return Verdict(case, count, proposal, on, self.evenness(case, pixels, count))

    def evenness(self, case: Case, pixels: Sequence[tuple[int, int]], count: int) -> float:
        if not case.scene.told or not pixels:
            return math.inf
        grid, shape = coarse(case.scene)
        points = sample(grid)
        high, wide = case.scene.height, case.scene.width
        at = [int(r * shape[0] / high) * shape[1] + int(c * shape[1] / wide) for r, c in pixels]
        ways = dijkstra(grid_graph(grid), indices=at)[:, points].min(axis=0).mean()
        return float(ways / max(self.best(case, grid, points, count), 1e-9))

    def best(self, case: Case, grid: np.ndarray, points: np.ndarray, count: int) -> float:
        key = f"k-medoid 2 {count} {case.picture.digest} {hash_of(grid)}"
        kept = self.cache.get(key)
        if kept is None:
            ways = dijkstra(grid_graph(grid), indices=points)[:, points]
            kept = repr(k_medoid(ways, count)).encode()
            self.cache.put(key, kept)
        return float(kept)


def hash_of(grid: np.ndarray) -> str:
    import hashlib

    return hashlib.sha256(grid.tobytes()).hexdigest()


def coarse(scene: Scene) -> tuple[np.ndarray, tuple[int, int]]:
    figure = Image.fromarray(scene.rows(scene.figure) * 255)
    figure.thumbnail((GRID, GRID), Image.Resampling.BOX)
    grid = np.asarray(figure) >= 96
    return grid, (grid.shape[0], grid.shape[1])


def sample(grid: np.ndarray) -> np.ndarray:
    points = np.flatnonzero(grid)
    if len(points) > SAMPLE:
        points = np.sort(np.random.default_rng(1).choice(points, SAMPLE, replace=False))
    return points


def grid_graph(grid: np.ndarray) -> coo_array:
    """Every pixel with its eight neighbours; a step to or from ground counts three times."""
    high, wide = grid.shape
    number = np.arange(high * wide).reshape(high, wide)
    cost = np.where(grid, 1.0, GROUND)
    rows, columns, lengths = [], [], []
    for down, across in ((0, 1), (1, 0), (1, 1), (1, -1)):
        left = slice(max(0, -across), wide - max(0, across))
        right = slice(max(0, across), wide + min(0, across))
        one, other = number[: high - down, left], number[down:, right]
        worse = np.maximum(cost[: high - down, left], cost[down:, right])
        rows.append(one.ravel())
        columns.append(other.ravel())
        lengths.append((worse * math.hypot(down, across)).ravel())
    ends = (np.concatenate(rows), np.concatenate(columns))
    both = (np.concatenate([ends[0], ends[1]]), np.concatenate([ends[1], ends[0]]))
    size = high * wide
    return coo_array((np.tile(np.concatenate(lengths), 2), both), shape=(size, size)).tocsr()


def k_medoid(ways: np.ndarray, count: int) -> float:
    """The least mean way to the nearest of ``count`` medoids, of fifty runs from random ones."""
    rng = np.random.default_rng(0)
    best = math.inf
    for _ in range(RUNS):
        medoids = rng.choice(len(ways), min(count, len(ways)), replace=False)
        for _ in range(30):
            owner = ways[medoids].argmin(axis=0)
            new = medoids.copy()
            for k in range(len(medoids)):
                mine = np.flatnonzero(owner == k)
                if len(mine):
                    new[k] = mine[ways[np.ix_(mine, mine)].sum(axis=0).argmin()]
            if (new == medoids).all():
                break
            medoids = new
        best = min(best, float(ways[medoids].min(axis=0).mean()))
    return best


def beside_hands(cache: Cache, folder: Path | None) -> None:
    """The demo's creatures: how far from a hand's spots the nearest proposed one is."""
    manifest = Path(__file__).parents[2] / "chapters/river-term/book.toml"
    book = open_manifest(manifest).book
    assert book
    pages = [page for page in book.pages if page.art]
    pictures = take_in([page.art for page in pages if page.art], cache=cache)
    far, found = [], []
    for page in pages:
        picture = pictures[page.art] if page.art else None
        assert isinstance(picture, Picture)
        case = Case(Path(page.id), picture, look_over(picture))
        proposal = propose_spots(page, picture, "a4", MemoryCache())
        hand = [(spot.x, spot.y) for spot in page.spots]
        far += [nearest(place, proposal, picture) for place in hand]
        found.append(Verdict(case, len(hand), proposal, 0.0, nearest(hand[0], proposal, picture)))
        if folder:
            found[-1] = replace(found[-1], evenness=statistics.mean(far[-len(hand) :]))
    print(f"beside hand-placed spots: {statistics.mean(far):.2f} spot widths in the mean")
    if folder:
        sheets(0, found, folder)


def nearest(place: Point, proposal: Proposal, picture: Picture) -> float:
    """Spot widths (20 mm on A4) from a place to the nearest proposed."""
    scale = min(186 / picture.width, 222 / picture.height)
    wide, high = picture.width * scale / 100, picture.height * scale / 100
    ways = [math.hypot((x - place[0]) * wide, (y - place[1]) * high) for x, y in proposal.spots]
    return min(ways, default=math.inf) / 20


def sheets(count: int, found: Sequence[Verdict], folder: Path) -> None:
    """Contact sheets, those first that are not clean, then the least even."""
    folder.mkdir(parents=True, exist_ok=True)
    worst = sorted(found, key=lambda v: (v.proposal.clean, -v.evenness if v.case.scene.told else 0))
    for start in range(0, len(worst), 40):
        sheet = Image.new("RGB", (8 * TILE, 5 * (TILE + 12)), "grey")
        for i, verdict in enumerate(worst[start : start + 40]):
            sheet.paste(tile(verdict), (i % 8 * TILE, i // 8 * (TILE + 12)))
        sheet.save(folder / f"proposals-{count}-{start // 40}.png")


def tile(verdict: Verdict) -> Image.Image:
    case, side = verdict.case, TILE - 4
    shown = trimmed(look(case.picture, "RGB", 400), case.picture)
    shown = shown.resize([max(round(x * side / max(shown.size)), 1) for x in shown.size])
    mask = Image.fromarray(case.scene.rows(case.scene.figure) * 255).resize(shown.size)
    red = Image.new("RGB", shown.size, (255, 60, 60))
    made = Image.new("RGB", (side, side + 12), "white")
    made.paste(Image.blend(shown, red, 0.2), (0, 0), mask)
    made.paste(shown, (0, 0), Image.eval(mask, lambda value: 255 - value))
    draw, trim = ImageDraw.Draw(made), case.picture.trim
    wide = case.picture.width * trim.width
    radius = 10 / min(186 / wide, 222 / (case.picture.height * trim.height)) / wide * shown.width
    for number, (x, y) in enumerate(verdict.proposal.spots, 1):
        at = (x / 100 - trim.x) / trim.width * shown.width
        down = (y / 100 - trim.y) / trim.height * shown.height
        ring = (at - radius, down - radius, at + radius, down + radius)
        draw.ellipse(ring, outline="blue", width=2)
        draw.text((at - 3, down - 5), str(number), fill="blue")
    ink = "black" if verdict.proposal.clean else "red"
    draw.text((0, side), f"{verdict.evenness:.2f} {case.path.stem[:26]}", fill=ink)
    return made


if __name__ == "__main__":
    main()
