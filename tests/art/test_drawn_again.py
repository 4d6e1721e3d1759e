"""The kit draws the kept files again, byte for byte."""

from __future__ import annotations

import pytest

from art.kit import children, gallery
from tests.art.pictures import ART


@pytest.mark.parametrize("name", [*gallery.names(), *gallery.scene_names()])
def test_the_kit_draws_the_kept_files_again(name: str) -> None:
    for file, svg in gallery.drawn(name).items():
        kept = (ART / file).read_bytes()
        assert svg.encode() == kept, f"run python -m art.kit {name} cover, and look at {file}"


def test_a_childs_drawing_comes_out_the_same_twice() -> None:
    assert children.drawn(4) == children.drawn(4)
