"""Proposals for a page: they lay out clean, or there are fewer of them."""

from __future__ import annotations

from pathlib import Path

import networkx as nx
import pytest
from PIL import Image, ImageDraw

from bookmaker.cache import MemoryCache
from bookmaker.linking.choose import choose
from bookmaker.linking.page_trees import PageTrees
from bookmaker.linking.proposing import propose_spots, shortest_tree
from bookmaker.linking.spotting import with_spots
from bookmaker.model import Number, Page, Spot, Wish, progression
from bookmaker.placement import arrange, faults, page_sizes
from tests.linking.animals import SEA, animal, png
from tests.pictures.makers import picture


def wanting(count: int) -> Page:
    spots = tuple(Spot(f"spot_{i}", 0, 0) for i in range(1, count + 1))
    numbers = progression(Number.parse("1"), Number.parse("2"), count)
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=Wish())


@pytest.mark.parametrize("paper", ["a4", "a5"])
@pytest.mark.parametrize("seed", range(4))
def test_proposed_spots_can_be_joined_and_laid_out(seed: int, paper: str, tmp_path: Path) -> None:
    art, cache = picture(tmp_path, png(animal(seed)), "animal.png"), MemoryCache()
    proposal = propose_spots(wanting(6), art, paper, cache)
    assert proposal.clean
    assert len(proposal.spots) == 6
    joined = choose(with_spots(wanting(6), proposal.spots), art, paper, cache, 1).page
    places, frame = PageTrees(joined, art, paper, MemoryCache()).laid
    spots = [(name, *at) for name, at in zip(joined.spot_names, places, strict=True)]
    sizes = page_sizes(joined, paper)
    tree = arrange(spots, [link.ends for link in joined.links], frame, sizes)
    assert not faults(tree, frame, sizes)


def test_a_thin_creature_gets_fewer_spots(tmp_path: Path) -> None:
    image = Image.new("RGB", (900, 60), SEA)
    ImageDraw.Draw(image).line((20, 30, 880, 30), fill=(90, 60, 30), width=16)
    proposal = propose_spots(
        wanting(12), picture(tmp_path, png(image), "worm.png"), "a4", MemoryCache()
    )
    assert proposal.clean
    assert 2 <= len(proposal.spots) < 12


@pytest.mark.parametrize("kind", ["one colour", "noise", "narrow"])
def test_pictures_that_tell_nothing_get_spots_about_the_middle(kind: str, tmp_path: Path) -> None:
    sizes = {"narrow": (40, 900)}
    image = Image.new("RGB", sizes.get(kind, (600, 450)), SEA)
    if kind == "noise":
        image = Image.effect_noise((600, 450), 90).convert("RGB")
    proposal = propose_spots(
        wanting(5), picture(tmp_path, png(image), "grey.png"), "a4", MemoryCache()
    )
    assert not proposal.told
    assert proposal.clean
    assert all(0 < x < 100 and 0 < y < 100 for x, y in proposal.spots)


def test_what_was_proposed_once_is_remembered(tmp_path: Path) -> None:
    cache = MemoryCache()
    art = picture(tmp_path, png(animal(1)), "animal.png")
    assert propose_spots(wanting(5), art, "a4", cache) == propose_spots(
        wanting(5), art, "a4", cache
    )


@pytest.mark.parametrize("seed", range(10))
def test_the_shortest_tree_is_as_short_as_networkx_finds(seed: int) -> None:
    import random

    rng = random.Random(seed)
    places = [(rng.uniform(0, 200), rng.uniform(0, 200)) for _ in range(rng.randint(2, 14))]
    graph = nx.Graph()
    for a in range(len(places)):
        for b in range(a):
            length = (
                (places[a][0] - places[b][0]) ** 2 + (places[a][1] - places[b][1]) ** 2
            ) ** 0.5
            graph.add_edge(a, b, weight=length)
    best = nx.minimum_spanning_tree(graph).size("weight")
    ours = shortest_tree(places)
    assert nx.is_tree(nx.Graph(list(ours)))
    assert sum(graph[a][b]["weight"] for a, b in ours) == pytest.approx(best)
