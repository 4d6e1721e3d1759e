"""Links chosen for a page: no better choice is found by trying every one."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import networkx as nx
import pytest
from shapely import LineString, Point

from bookmaker.cache import MemoryCache
from bookmaker.linking import find_figure, page_trees, shapes
from bookmaker.linking.choose import choose
from bookmaker.linking.page_trees import PageTrees
from bookmaker.linking.shapes import shape_of
from bookmaker.model import Number, Page, Picture, Spot, Wish, progression
from bookmaker.pictures import take_in
from bookmaker.placement import arrange
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.tree_placement import NoCleanLayout
from bookmaker.puzzle import Tree, certify, rarity
from tests.layout import sets

Edge = tuple[int, int]
Edges = tuple[Edge, ...]
Places = list[tuple[float, float]]
CACHE = MemoryCache()
KNOWN: dict[int, float] = {}
SIZES = Sizes.of("a4", 2)
FLOORS = {"gentle": (0, 15), "steady": (15, 40), "steep": (40, 70), "sheer": (70, math.inf)}
"""Where the bands begin and end, typed in afresh."""


def page(number: int, band: str) -> Page:
    """A page of eight spots (of the judged sets), its links left to us."""
    cases = [case for case in sets.anatomical(120, "a4", seed=21) if len(case.spots) == 8]
    case, box = cases[number], cases[number].frame
    spots = tuple(
        Spot(name, 100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height)
        for name, x, y in case.spots
    )
    numbers = progression(Number.parse("1"), Number.parse("2"), len(spots))
    wish = Wish(band=band)
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=wish)


@pytest.mark.parametrize(("number", "band"), [(0, "gentle"), (1, "steep"), (2, "steady")])
def test_no_tree_in_the_band_that_can_be_laid_out_costs_less(number: int, band: str) -> None:
    """Reference: every spanning tree without crossings, these told by shapely."""
    wished = page(number, band)
    places, area = PageTrees(wished, None, "a4", CACHE).laid
    choice = choose(wished, None, "a4", CACHE, 1)
    assert choice.reached
    chosen = tuple(sorted(tuple(sorted(edge)) for edge in choice.page.edges))
    fitting = [tree for tree in every_plane_tree(places) if is_in(band, tree)]
    assert chosen in fitting
    spots = [(spot.name, *at) for spot, at in zip(wished.spots, places, strict=True)]
    least = cost(places, chosen)  # type: ignore[arg-type]
    better = [tree for tree in fitting if cost(places, tree) < least - 1e-6]
    for tree in better:
        links = [(wished.spots[a].name, wished.spots[b].name) for a, b in tree]
        with pytest.raises(NoCleanLayout):
            arrange(spots, links, area, SIZES)


def crowded(wish: Wish, spots: int = 10) -> Page:
    (case,), box = sets.many(1, spots), sets.frame("a4")
    per_cent = [
        (100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height) for _, x, y in case.spots
    ]
    return on([(x * 2.1, y * 3) for x, y in per_cent], wish)


def test_ten_spots_can_be_easy_though_their_shortest_tree_is_far_from_it() -> None:
    """A star's 2 * 9! solutions have the smallest or the largest number in its middle."""
    choice = choose(crowded(Wish(band="steady")), None, "a4", CACHE, 1)
    assert choice.reached
    assert choice.certificate is not None
    assert choice.certificate.solutions == 2 * math.factorial(9)
    assert 15 <= choice.certificate.work < 40


@pytest.mark.parametrize("one_in", [50, 1000])
def test_no_shape_of_ten_spots_is_nearer_to_the_rarity_that_is_wished(one_in: float) -> None:
    """Reference for the shapes: networkx. Each can be laid on any spots."""
    numbers = tuple(Number.parse(str(2 * k + 1)).value for k in range(10))
    trees = [tuple(tree.edges()) for tree in nx.nonisomorphic_trees(10)]
    rare = [rarity(Tree(10, tree), numbers, cache=CACHE) for tree in trees]
    nearest = min(abs(math.log(each / one_in)) for each in rare if each)
    found = choose(crowded(Wish(one_in=one_in)), None, "a4", CACHE, 1).certificate
    assert found is not None and found.one_in
    assert abs(math.log(found.one_in / one_in)) <= max(nearest, math.log(1.25)) + 1e-9


def test_what_is_not_wished_is_not_worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work takes by far the most time, and nearly all of it for trees that are not chosen."""
    asked: list[Tree] = []

    def certified(tree: Tree, *of: object, **more: object) -> object:
        asked.append(tree)
        return certify(tree, *of, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(shapes, "certify", certified)
    for wish in (Wish(), Wish(one_in=50)):
        asked.clear()
        assert choose(crowded(wish), None, "a4", MemoryCache(), 1).certificate is not None
        assert len(asked) == 1


def every_plane_tree(places: Places) -> Iterator[Edges]:
    edges = list(combinations(range(len(places)), 2))
    lines = [LineString([places[a], places[b]]) for a, b in edges]
    crossing = [
        {
            j
            for j in range(len(edges))
            if not set(edges[i]) & set(edges[j]) and lines[i].intersects(lines[j])
        }
        for i in range(len(edges))
    ]

    def grown(start: int, taken: tuple[int, ...], piece: tuple[int, ...]) -> Iterator[Edges]:
        if len(taken) == len(places) - 1:
            yield tuple(edges[i] for i in taken)
            return
        for i in range(start, len(edges)):
            a, b = (piece[end] for end in edges[i])
            if a != b and not crossing[i] & set(taken):
                merged = tuple(a if p == b else p for p in piece)
                yield from grown(i + 1, (*taken, i), merged)

    return grown(0, (), tuple(range(len(places))))


def is_in(band: str, tree: Edges) -> bool:
    least, most = FLOORS[band]
    return least <= work(shape_of(len(tree) + 1, tree), tree) < most


def work(shape: int, tree: Edges) -> float:
    """The work of a tree; trees of one ``shape`` share it, and so few are worked out."""
    if shape not in KNOWN:
        numbers = tuple(Number.parse(str(2 * k + 1)).value for k in range(len(tree) + 1))
        KNOWN[shape] = certify(Tree(len(numbers), tree), numbers, {}, cache=CACHE, seed=1).work
    return KNOWN[shape]


def cost(places: Places, tree: Edges) -> float:
    """Millimetres of link; 60 more for one too short for its tag, 80 for each spot that it passes
    too near, 60 for two that leave a spot at less than 25 degrees."""
    total = 0.0
    for a, b in tree:
        line = LineString([places[a], places[b]])
        near = sum(line.distance(Point(p)) < 13 for k, p in enumerate(places) if k not in (a, b))
        total += line.length + 60 * (line.length < 20 + 15 + 6) + 80 * near
    for one, other in combinations(tree, 2):
        for middle in set(one) & set(other):
            turns = [_turn(places, middle, edge) for edge in (one, other)]
            off = abs((turns[0] - turns[1] + math.pi) % (2 * math.pi) - math.pi)
            total += 60 * (off < math.radians(25))
    return total


def _turn(places: Places, middle: int, edge: Edge) -> float:
    (x, y), (fx, fy) = places[middle], places[sum(edge) - middle]
    return math.atan2(fy - y, fx - x)


TURNS = [math.radians(25 + 62 * k) for k in range(6)]
WAY = [(105 + 75 * math.cos(turn), 150 + 75 * math.sin(turn)) for turn in TURNS]
"""Six spots along a creature that bends round until its ends nearly meet, in user units: from one
to the next it is 77 of them, from the last to the first 63."""
BENT = LineString([(105 + 75 * math.cos(math.radians(t)), 150 + 75 * math.sin(math.radians(t)))
                   for t in range(25, 336)]).buffer(13)  # fmt: skip


def drawing(folder: Path, inside: str) -> Picture:
    """A picture of 210 x 300 user units."""
    file = folder / "art.svg"
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 210 300">'
    file.write_text(f"{head}{inside}</svg>")
    picture = take_in([file], cache=CACHE)[file]
    assert isinstance(picture, Picture), picture
    return picture


def bent(folder: Path) -> Picture:
    outline = " ".join(f"{x:.1f},{y:.1f}" for x, y in BENT.exterior.coords)
    pond = '<rect width="210" height="300" fill="#bcd8e0"/>'
    return drawing(folder, f'{pond}<polygon points="{outline}" fill="#40602a"/>')


def noise() -> str:
    rng = random.Random(4)
    return "".join(
        f'<rect x="{x}" y="{y}" width="3" height="3" fill="#{rng.randrange(1 << 24):06x}"/>'
        for x in range(0, 210, 3)
        for y in range(0, 300, 3)
    )


def on(places: Places, wish: Wish) -> Page:
    """A page with its spots at these user units of a ``drawing``, its links left to us."""
    spots = tuple(
        Spot(chr(97 + k), x / 210 * 100, y / 300 * 100) for k, (x, y) in enumerate(places)
    )
    numbers = progression(Number.parse("1"), Number.parse("2"), len(spots))
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=wish)


def chosen(page: Page, picture: Picture | None) -> set[Edge]:
    edges = choose(page, picture, "a4", CACHE, 1).page.edges
    return {(min(edge), max(edge)) for edge in edges}


def shortest(page: Page, picture: Picture) -> set[Edge]:
    """What is chosen with nobody looking at the picture."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(page_trees, "find_figure", lambda *_: None)
        return chosen(page, picture)


def test_links_go_along_a_creature_and_not_across_its_gap(tmp_path: Path) -> None:
    page = on(WAY, Wish())
    along = {(k, k + 1) for k in range(5)}
    assert (0, 5) in chosen(page, None)
    assert chosen(page, bent(tmp_path)) == along


def test_a_plain_picture_and_one_of_noise_change_no_links(tmp_path: Path) -> None:
    plain = '<rect width="210" height="300" fill="{}"/>'
    for inside in (plain.format("white"), plain.format("#bcd8e0"), noise()):
        for band in ("gentle", "steady"):
            page = on(WAY, Wish(band=band))
            picture = drawing(tmp_path, inside)
            assert find_figure(picture, CACHE) is None
            assert chosen(page, picture) == shortest(page, picture)


def test_a_creature_that_the_spots_lie_beside_changes_no_links(tmp_path: Path) -> None:
    """What was taken for it is something else: a sun, a frame's ornament."""
    sun = '<rect width="210" height="300" fill="#bcd8e0"/><circle cx="105" cy="150" r="45"/>'
    picture = drawing(tmp_path, sun)
    page = on(WAY, Wish())
    assert find_figure(picture, CACHE) is not None
    assert chosen(page, picture) == shortest(page, picture)


@pytest.mark.parametrize("band", ["gentle", "steady"])
def test_no_tree_in_the_band_costs_less_where_links_over_the_ground_cost_more(
    tmp_path: Path, band: str
) -> None:
    """Reference: every spanning tree without crossings. A millimetre over the ground counts three;
    how much of a link lies there is told by the figure, whose own tests hold it to shapely."""
    picture = bent(tmp_path)
    page = on(WAY, Wish(band=band))
    places, area = PageTrees(page, picture, "a4", CACHE).laid
    found = find_figure(picture, CACHE)
    assert found is not None

    def dear(tree: Edges) -> float:
        ends = [[(page.spots[k].x / 100, page.spots[k].y / 100) for k in edge] for edge in tree]
        lengths = [math.dist(places[a], places[b]) for a, b in tree]
        over = [found.share(*pair) for pair in ends]
        more = sum(2 * (1 - share) * length for share, length in zip(over, lengths, strict=True))
        return cost(places, tree) + more

    tree = tuple(sorted(chosen(page, picture)))
    spots = [(spot.name, *at) for spot, at in zip(page.spots, places, strict=True)]
    for other in every_plane_tree(places):
        if is_in(band, other) and dear(other) < dear(tree) - 1e-6:
            links = [(page.spots[a].name, page.spots[b].name) for a, b in other]
            with pytest.raises(NoCleanLayout):
                arrange(spots, links, area, SIZES)
