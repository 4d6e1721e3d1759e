"""A class's drawings looked through: each yes and no written at once, nothing of them kept."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bookmaker.cache import FolderCache
from bookmaker.classroom.review import read_review
from bookmaker.place import ReviewCounter, Tools, app_of
from tests.place.asking import HOST, TOKEN, Asker, made


class ClassAsker(Asker):
    """A run of the app on a class."""

    def __init__(self, manifest: Path) -> None:
        self.faults = []
        self.cache = manifest.parent.parent / "cache"
        kept = FolderCache(self.cache)
        tools = Tools(kept, kept, made, lambda: "today", self.faults.append)
        counter = ReviewCounter(manifest, tools)
        self.app = app_of(counter, TOKEN, frozenset({HOST}))

    @property
    def revision(self) -> int:
        return 0


@pytest.fixture
def manifest(project: Path, tmp_path: Path) -> Path:
    """The demo's class, and its book with two of its pages."""
    for part in ("heron-class", "river-term"):
        shutil.copytree(project / "chapters" / part, tmp_path / "chapters" / part)
    (tmp_path / "art").symlink_to(project / "art")
    return tmp_path / "chapters" / "heron-class" / "class.toml"


def said(manifest: Path) -> dict[str, str]:
    return {row.drawing: row.use for row in read_review(manifest.parent)}


def test_each_drawing_is_shown_on_its_page_and_a_no_is_written_at_once(manifest: Path) -> None:
    asker = ClassAsker(manifest)
    row = asker.get("drawings").json
    assert [each["drawing"] for each in row["drawings"]] == ["1", "2", "3", "4", "5", "6"]
    assert row["title"] == "Heron Class, spring term"
    shown = asker.get("drawing/1").json
    assert shown["pupil"] == "Imani"
    assert 'data-spot="shoulder"' in shown["svg"]
    assert asker.post("said", drawing="1", use="no").json["drawing"]["use"] == "no"
    assert said(manifest)["1"] == "no"
    assert asker.post("undo").json["drawing"]["use"] == "yes"
    assert said(manifest)["1"] == "yes"
    asker.post("redo")
    assert said(manifest)["1"] == "no"


def test_what_a_spreadsheet_wrote_meanwhile_stays(manifest: Path) -> None:
    asker = ClassAsker(manifest)
    asker.get("drawings")
    review = manifest.parent / "review.csv"
    text = review.read_text("utf-8")
    review.write_text(text.replace("2,Tomek,dipper,yes", "2,Tomek,dipper,no"), encoding="utf-8")
    asker.post("said", drawing="3", use="")
    assert said(manifest) == {"1": "yes", "2": "no", "3": "", "4": "yes", "5": "yes", "6": "yes"}


def test_a_review_that_can_not_be_read_is_not_written_over(manifest: Path) -> None:
    asker = ClassAsker(manifest)
    review = manifest.parent / "review.csv"
    review.write_text("drawing,use\n1,perhaps\n", encoding="utf-8")
    before = review.read_bytes()
    answer = asker.post("said", drawing="1", use="no")
    assert (answer.status, answer.json["error"]) == (422, "refused")
    assert review.read_bytes() == before


@pytest.mark.parametrize(
    "asked",
    [
        {"drawing": "1", "use": "maybe"},
        {"drawing": "99", "use": "no"},
        {"drawing": "../../secret", "use": "no"},
        {"drawing": 1, "use": "no"},
        {"use": "no"},
    ],
)
def test_nothing_else_can_be_said(manifest: Path, asked: dict[str, object]) -> None:
    asker = ClassAsker(manifest)
    before = said(manifest)
    assert 400 <= asker.post("said", **asked).status < 500
    assert said(manifest) == before
    assert asker.faults == []


def test_nothing_of_a_drawing_lies_in_a_cache_afterwards(manifest: Path) -> None:
    """Not in ours, and not in the browser's."""
    asker = ClassAsker(manifest)
    shown = asker.get("drawing/2").json
    for address in (f"picture/{shown['picture']}", "little/2"):
        answer = asker.get(address)
        assert answer.status == 200
        assert answer.headers["cache-control"] == "no-store"
    asker.post("said", drawing="2", use="no")
    known = b"".join(file.read_bytes() for file in asker.cache.rglob("*") if file.is_file())
    assert shown["picture"].encode() not in known
    assert b"Tomek" not in known
    assert asker.get("picture/../../roster.csv").status == 404
    assert asker.get("book").status == 404
