"""The whole of it: spots and links in, a clean placing out, or the reason why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bookmaker.model import Box
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.tree_placement import TreePlacement


def arrange(
    spots: Sequence[tuple[str, float, float]],
    links: Sequence[tuple[str, str]],
    bounds: Box,
    sizes: Sizes,
    *,
    fixed: bool = False,
) -> TreePlacement:
    """Place spots (name, x, y), the links between them and their tags inside ``bounds``; all in mm.

    Spots move as little as they must, at most ``sizes.reach`` and not at all where ``fixed``. Links
    start and end on the spots' outlines. The result depends neither on the order of spots and
    links nor on the direction in which a link is written. Raises NoCleanLayout.
    """
    # The search stands on numpy, which takes long to load, and most placings are remembered.
    from bookmaker.placement.lay import Refused, lay
    from bookmaker.placement.normal_form import Form

    form = Form.of(spots, links, bounds)
    reach = 0.0 if fixed else sizes.reach
    try:
        laid = lay(form.places, form.edges, form.bounds, replace(sizes, reach=reach))
    except Refused as refused:
        raise form.refusal(refused.code, refused.breach) from None
    return form.placement(laid, sizes)
