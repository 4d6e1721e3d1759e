"""What goes wrong, seen in the browser and told in words; and who sees it otherwise."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.cli.little_book import write_book
from tests.place.browser import Screen, chromium, findings, placing

pytestmark = pytest.mark.slow
DESK = {"width": 1440, "height": 900}


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as found:
        yield found


@pytest.fixture
def little(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book")


def test_two_windows_show_what_the_other_did(browser: Any, little: Path) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport=DESK)
        one, two = Screen(context, address), Screen(context, address)
        for screen in (one, two):
            screen.open("Star")
        one.spot("wing").focus()
        one.page.keyboard.press("ArrowRight")
        one.until("() => document.body.dataset.unsaved === 'yes'")
        one.settled()
        there = one.spots()["wing"]
        two.spot("head").focus()
        two.page.keyboard.press("ArrowDown")
        two.page.locator("#hint.alarm").wait_for()
        two.until(
            "x => Math.abs(document.querySelector('[data-spot=wing] .hold')"
            ".getAttribute('cx') - x) < 0.1",
            there[0],
        )
        context.close()


def test_a_file_changed_elsewhere_is_shown_beside_ours(browser: Any, little: Path) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport=DESK)
        screen = Screen(context, address)
        screen.open("Star")
        screen.spot("wing").focus()
        screen.page.keyboard.press("ArrowRight")
        screen.until("() => document.body.dataset.unsaved === 'yes'")
        two = little.parent / "two.toml"
        two.write_text(two.read_text("utf-8").replace("a founder", "the others"), encoding="utf-8")
        screen.button("Save").click()
        screen.page.locator("dialog[open]").wait_for()
        assert findings(screen.page) == []
        screen.page.get_by_label("As in the file").check()
        screen.button("So be it, and save").click()
        screen.until("() => document.body.dataset.unsaved === 'no'")
        assert "the others" in two.read_text("utf-8")
        context.close()


def test_a_full_disk_and_a_picture_taken_away_are_told(browser: Any, little: Path) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport=DESK)
        screen = Screen(context, address)
        screen.open("Path")
        (little.parent / "heron.svg").rename(little.parent / "gone.svg")
        screen.spot("foot").focus()
        screen.page.keyboard.press("ArrowUp")
        screen.until_verdict("mend")
        assert "picture" in screen.verdict()
        (little.parent / "gone.svg").rename(little.parent / "heron.svg")
        screen.page.keyboard.press("ArrowUp")
        screen.until_verdict("good")
        folder = little.parent
        before = (folder / "one.toml").read_bytes()
        shutil.move(folder, folder.with_name("away"))
        screen.button("Save").click()
        screen.page.locator("#hint.alarm, dialog[open]").first.wait_for()
        shutil.move(folder.with_name("away"), folder)
        assert (folder / "one.toml").read_bytes() == before
        context.close()


def test_fifty_megabytes_of_no_picture_are_refused(browser: Any, little: Path) -> None:
    large = little.parent.parent / "large.jpg"
    large.write_bytes(b"\xff\xd8\xff" + b"\0" * 50_000_000)
    with placing(little) as address:
        context = browser.new_context(viewport=DESK)
        screen = Screen(context, address)
        screen.page.locator("#files").set_input_files(str(large))
        screen.page.locator("#hint.alarm").wait_for()
        assert "large.jpg" in screen.page.locator("#hint").inner_text()
        assert not list(little.parent.glob("*.part"))
        context.close()


def test_a_name_is_text_and_nothing_else(browser: Any, little: Path) -> None:
    name = """<img src=x onerror="document.title='broken'"> & 'q'"""
    with placing(little) as address:
        context = browser.new_context(viewport=DESK)
        screen = Screen(context, address)
        screen.open("Star")
        screen.page.locator("summary").click()
        field = screen.page.get_by_label("Name", exact=True)
        field.fill(name)
        field.press("Tab")
        screen.until("n => document.querySelector('#sheet').ariaLabel === n", name)
        screen.page.locator("#pages button", has_text="onerror").wait_for()
        assert screen.page.title() == "A little book"
        assert screen.wrong == []
        context.close()


@pytest.mark.parametrize("how", [{"forced_colors": "active"}, {"reduced_motion": "reduce"}])
def test_other_colours_and_calm_are_kept_to(
    browser: Any, little: Path, how: dict[str, str]
) -> None:
    with placing(little) as address:
        context = browser.new_context(viewport=DESK, **how)
        screen = Screen(context, address)
        screen.open("Star")
        screen.spot("wing").focus()
        screen.page.keyboard.press("ArrowRight")  # a focus is drawn for those who use keys
        screen.settled()
        halo = screen.page.locator('[data-spot="wing"] .halo')
        assert halo.evaluate("e => getComputedStyle(e).stroke") != "none"
        lasting = screen.page.evaluate(
            "() => Math.max(...[...document.querySelectorAll('*')].map("
            "e => parseFloat(getComputedStyle(e).transitionDuration)))"
        )
        assert lasting == 0 or "reduced_motion" not in how
        context.close()


def test_a_class_is_looked_through_by_keyboard(browser: Any, project: Path, tmp_path: Path) -> None:
    for part in ("heron-class", "river-term"):
        shutil.copytree(project / "chapters" / part, tmp_path / "chapters" / part)
    shutil.copytree(project / "art", tmp_path / "art")
    folder = tmp_path / "chapters" / "heron-class"
    review = folder / "review.csv"
    review.write_text(review.read_text("utf-8").replace(",yes", ","), encoding="utf-8")
    with placing(folder / "class.toml") as address:
        context = browser.new_context(viewport=DESK)
        screen = Screen(context, address)
        assert findings(screen.page) == []
        for number in range(1, 7):
            screen.until("n => verdict.innerText.includes(n)", f"Sheet {number},")
            screen.page.locator('#answers [data-use="yes"]').focus()
            screen.page.keyboard.press("Enter")
            screen.until(
                "n => document.querySelectorAll('#pages [data-use=yes]').length === n", number
            )
        assert "Every drawing is looked through" in screen.verdict()
        context.close()
    assert review.read_text("utf-8-sig").count(",yes,") == 6
