"""The page in a real browser: made by mouse, by finger and by keyboard alone; seen by all."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from xml.etree import ElementTree

import pytest

from bookmaker.cli.exits import run
from bookmaker.words import load
from tests.cli.little_book import write_book
from tests.pictures.makers import encoded, photograph
from tests.place.browser import Screen, chromium, findings, placing

SVG = "{http://www.w3.org/2000/svg}"
BUTTONS = ("save", "undo", "redo", "add", "link", "remove", "propose", "choose", "make", "pictures")
NEAR = 0.5
"""Millimetres by which a printed spot may miss the place where it was put."""


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_book(tmp_path_factory.mktemp("first") / "book")


@pytest.fixture
def little(first: Path, tmp_path: Path) -> Path:
    shutil.copytree(first.parent, tmp_path / "book")
    return tmp_path / "book" / "book.toml"


def printed(manifest: Path, page: str) -> dict[str, tuple[float, float]]:
    """The spots of a page as ``build --svg`` prints it, in millimetres from its picture's box."""
    out = manifest.parent / "out"
    assert run(["build", str(manifest), "--out", str(out), "--svg", str(out / "svg")]) == 0
    root = ElementTree.parse(out / "svg" / f"{page}.svg").getroot()
    groups = [group for group in root.iter(f"{SVG}g") if group.get("class") in ("spot", "art")]
    art = next(g for g in groups if g.get("class") == "art")
    left, top, _, _ = map(float, str(art.get("data-box")).split())
    circles = {str(g.get("data-spot")): g.find(f"{SVG}circle") for g in groups if g is not art}
    return {
        name: (float(c.get("cx", 0)) - left, float(c.get("cy", 0)) - top)
        for name, c in circles.items()
        if c is not None
    }


def shown(screen: Screen) -> dict[str, tuple[float, float]]:
    """The spots on the screen, in millimetres from the picture's box."""
    left, top = screen.page.evaluate("() => ['x', 'y'].map(k => Number(picture.getAttribute(k)))")
    return {name: (x - left, y - top) for name, (x, y) in screen.spots().items()}


def agree(one: dict[str, tuple[float, float]], other: dict[str, tuple[float, float]]) -> bool:
    return one.keys() == other.keys() and all(
        abs(one[n][0] - other[n][0]) <= NEAR and abs(one[n][1] - other[n][1]) <= NEAR for n in one
    )


def drag(screen: Screen, name: str, to: tuple[float, float]) -> None:
    mouse = screen.page.mouse
    mouse.move(*screen.at(screen.spots()[name]))
    mouse.down()
    x, y = screen.at(to)
    mouse.move(x - 30, y - 20, steps=4)
    mouse.move(x, y, steps=4)
    mouse.up()


def test_a_page_is_made_by_mouse_saved_and_printed_where_its_spots_were_put(
    browser: Any, little: Path
) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport={"width": 1440, "height": 900})
        screen = Screen(context, address)
        screen.open("Star")
        drag(screen, "wing", (60.0, 150.0))
        screen.until("() => document.body.dataset.unsaved === 'yes'")
        screen.settled(4)
        x, y = screen.spots()["wing"]
        assert (x, y) == pytest.approx((60.0, 150.0), abs=0.6)
        screen.button("Add a spot").click()
        screen.settled(5)
        screen.page.mouse.click(*screen.at((150.0, 200.0)))
        screen.settled(5)
        screen.until_verdict("mend")
        screen.button("Link").click()
        screen.page.mouse.click(*screen.at(screen.spots()["spot_5"]))
        screen.page.mouse.click(*screen.at(screen.spots()["heart"]))
        screen.until_verdict("good")
        assert frozenset({"spot_5", "heart"}) in screen.links()
        screen.button("Undo").click()
        screen.until_verdict("mend")
        screen.button("Redo").click()
        screen.until_verdict("good")
        screen.save()
        there = shown(screen)
        assert screen.page.get_by_role("status").count() == 1
        assert screen.wrong == []
        own = urlsplit(address).netloc
        assert {urlsplit(url).netloc for url in screen.asked if url.startswith("http")} == {own}
        context.close()
    assert agree(there, printed(little, "star"))


def test_a_page_is_made_by_keyboard_alone(browser: Any, little: Path) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport={"width": 1024, "height": 768})
        screen = Screen(context, address)
        keyboard = screen.page.keyboard

        def to(found: Any) -> None:
            """Tab until what is wanted has the focus."""
            for _ in range(60):
                if found.evaluate("e => e === document.activeElement"):
                    return
                keyboard.press("Tab")
            raise AssertionError("the keyboard does not lead there")

        to(screen.page.locator("#pages button", has_text="Star"))
        keyboard.press("Enter")
        screen.until("() => document.querySelector('#sheet').ariaLabel === 'Star'")
        to(screen.spot("wing"))
        x, y = screen.spots()["wing"]
        keyboard.press("ArrowRight")
        screen.settled(4)
        assert screen.spots()["wing"] == pytest.approx((x + 1, y), abs=0.06)
        keyboard.press("Shift+ArrowDown")
        screen.until("() => document.body.dataset.unsaved === 'yes'")
        screen.settled(4)
        assert screen.spots()["wing"] == pytest.approx((x + 1, y + 0.2), abs=0.06)
        to(screen.button("Add a spot"))
        keyboard.press("Enter")
        screen.settled(5)
        assert screen.page.evaluate("() => document.activeElement.dataset.spot") == "spot_5"
        keyboard.press("l")
        to(screen.spot("back"))
        keyboard.press("Enter")
        screen.until_verdict("good")
        to(screen.spot("spot_5"))
        keyboard.press("Delete")
        screen.settled(4)
        keyboard.press("Control+z")
        screen.settled(5)
        keyboard.press("Control+s")
        screen.until("() => document.body.dataset.unsaved === 'no'")
        there = shown(screen)
        context.close()
    assert agree(there, printed(little, "star"))


def test_a_page_is_made_by_finger(browser: Any, little: Path) -> None:
    with placing(little) as address:
        tablet = {"width": 768, "height": 1024}
        context = browser.new_context(viewport=tablet, has_touch=True, is_mobile=True)
        screen = Screen(context, address)
        screen.page.locator("#pages button", has_text="Star").tap()
        screen.until("() => document.querySelector('#sheet').ariaLabel === 'Star'")
        screen.button("Add a spot").tap()
        screen.settled(5)
        screen.page.touchscreen.tap(*screen.at((60.0, 190.0)))
        screen.settled(5)
        screen.button("Link").tap()
        screen.spot("spot_5").tap()
        screen.spot("heart").tap()
        screen.until_verdict("good")
        screen.save()
        there = shown(screen)
        context.close()
    assert there["spot_5"] == pytest.approx(printed(little, "star")["spot_5"], abs=NEAR)


SIZES = {"small": (1024, 768), "large": (1440, 900), "tablet": (768, 1024), "twice": (512, 384)}


def test_everybody_can_use_it_at_every_size(browser: Any, little: Path) -> None:
    """WCAG 2.2 AA as axe-core checks it, in a good state, with problems, with every panel open."""
    with placing(little) as address:
        for name, (width, height) in SIZES.items():
            context = browser.new_context(viewport={"width": width, "height": height})
            screen = Screen(context, address)
            screen.open("Star")
            assert findings(screen.page) == [], name
            screen.button("Choose links").click()
            screen.settled()
            screen.page.locator("summary").click()
            screen.spot("heart").focus()
            assert findings(screen.page) == [], name
            screen.button("Add a spot").click()
            screen.until_verdict("mend")
            assert findings(screen.page) == [], name
            wide = screen.page.evaluate("() => document.documentElement.scrollWidth")
            assert wide <= width, name
            spots = screen.page.locator("#spots .hold").evaluate_all(
                "all => all.map(e => e.getBoundingClientRect().width)"
            )
            assert min(spots) >= 24, name
            screen.button("Undo").click()
            screen.settled(4)
            context.close()


def test_an_executable_that_is_dropped_is_refused_in_words(browser: Any, little: Path) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport={"width": 1440, "height": 900})
        screen = Screen(context, address)
        files = screen.page.locator("#files")
        program = {"name": "game.exe", "mimeType": "application/x-msdownload", "buffer": b"MZ" * 99}
        files.set_input_files(program)
        hint = screen.page.locator("#hint.alarm")
        hint.wait_for()
        assert "game.exe" in hint.inner_text()
        photo = encoded(photograph(320, 240), "PNG")
        files.set_input_files({"name": "red_fox.png", "mimeType": "image/png", "buffer": photo})
        screen.until("() => document.querySelector('#sheet').ariaLabel === 'Red fox'")
        assert (little.parent / "red_fox.png").read_bytes() == photo
        screen.button("Propose spots").click()
        screen.until_verdict("good")
        context.close()


def test_that_it_was_ended_is_told_and_nothing_is_lost(browser: Any, little: Path) -> None:
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    with placing(little) as address:
        screen = Screen(context, address)
        screen.open("Star")
        screen.spot("wing").focus()
        screen.page.keyboard.press("ArrowRight")
        screen.until("() => document.body.dataset.unsaved === 'yes'")
        screen.settled()
        there = screen.spots()["wing"]
    screen.spot("wing").focus()
    screen.page.keyboard.press("ArrowRight")
    screen.page.get_by_role("alert").wait_for()
    assert "bookmaker" in screen.page.get_by_role("alert").inner_text()
    with placing(little) as address:
        page = context.new_page()
        page.goto(address)
        page.get_by_role("button", name="Take them up again").click()
        page.wait_for_selector("html[data-ready]")
        page.locator("#pages button", has_text=re.compile("^Star$")).click()
        page.wait_for_function("() => document.querySelector('#sheet').ariaLabel === 'Star'")
        circle = page.locator('[data-spot="wing"] .hold')
        assert float(circle.get_attribute("cx")) == pytest.approx(there[0], abs=0.05)
    context.close()


def test_the_pictures_in_the_readme_show_the_page_as_it_is(project: Path) -> None:
    """By the words on its buttons; looks alone do not make a picture old.

    ``python -m art.kit.screens`` makes them again.
    """
    shown = json.loads((project / "art/place/shown.json").read_text("utf-8"))
    readme = (project / "README.md").read_text("utf-8")
    assert set(shown) == {"spots", "mend", "class"}
    for name in shown:
        assert f"(art/place/{name}.png)" in readme
        assert (project / f"art/place/{name}.png").stat().st_size < 400_000
    words = load("en").table
    own = {words[f"place.ui.{key}"][0] for key in BUTTONS}
    assert own <= set(shown["mend"])
    answers = {words[f"place.review.{key}"][0] for key in ("yes", "no", "unsaid")}
    assert answers <= set(shown["class"])
