"""A real browser (Debian's chromium, driven by Playwright) on a run of the command itself.

Where there is no browser the tests are skipped and say so; BOOKMAKER_BROWSER=required forbids it.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PATIENCE = 30_000
"""Milliseconds: a machine that is busy with other things is no fault."""


@contextmanager
def chromium() -> Iterator[Any]:
    """A browser; skips the test where there is none."""
    if BROWSER is None:
        told = "no chromium on this machine: the page in the browser is not tested"
        if os.environ.get("BOOKMAKER_BROWSER") == "required":
            pytest.fail(told)
        pytest.skip(told)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=BROWSER, args=FLAGS)
        yield browser
        browser.close()


@contextmanager
def placing(manifest: Path, *words: str) -> Iterator[str]:
    """``bookmaker place`` as a process of its own; gives the address, the first line it prints."""
    command = [sys.executable, "-m", "bookmaker", "place", str(manifest), "--no-browser", *words]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=manifest.parent
    ) as process:
        try:
            assert process.stdout is not None
            yield process.stdout.readline().strip()
        finally:
            process.send_signal(signal.SIGINT)
            process.communicate(timeout=30)


class Screen:
    """What a test does on the page."""

    def __init__(self, context: Any, address: str) -> None:
        self.page = context.new_page()
        self.page.set_default_timeout(PATIENCE)
        self.asked: list[str] = []
        self.wrong: list[str] = []
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("pageerror", lambda error: self.wrong.append(str(error)))
        self.page.goto(address)
        self.page.wait_for_selector("html[data-ready]")

    def button(self, name: str) -> Any:
        return self.page.get_by_role("button", name=name, exact=True)

    def spot(self, name: str) -> Any:
        return self.page.locator(f'[data-spot="{name}"]')

    def open(self, name: str) -> None:
        self.page.locator("#pages button", has_text=re.compile(f"^{name}$")).click()
        self.page.wait_for_function(
            "n => document.querySelector('#sheet').ariaLabel === n", arg=name
        )

    def spots(self) -> dict[str, tuple[float, float]]:
        """Each spot's place on the sheet, in millimetres."""
        script = """groups => groups.map(g => {
            const c = g.querySelector('.hold');
            return [g.dataset.spot, Number(c.getAttribute('cx')), Number(c.getAttribute('cy'))];
        })"""
        found = self.page.locator("#spots > g").evaluate_all(script)
        return {name: (x, y) for name, x, y in found}

    def links(self) -> set[frozenset[str]]:
        names = self.page.locator("[data-link]").evaluate_all("g => g.map(e => e.dataset.link)")
        return {frozenset(name.split("-")) for name in names}

    def at(self, millimetres: tuple[float, float]) -> tuple[float, float]:
        """A place of the sheet on the screen, in pixels."""
        script = """([x, y]) => {
            const p = new DOMPoint(x, y).matrixTransform(
                document.getElementById('sheet').getScreenCTM());
            return [p.x, p.y];
        }"""
        x, y = self.page.evaluate(script, list(millimetres))
        return x, y

    def verdict(self) -> str:
        return str(self.page.get_by_role("status").inner_text())

    def until(self, script: str, arg: object = None) -> None:
        self.page.wait_for_function(script, arg=arg)

    def until_verdict(self, state: str) -> None:
        wanted = "s => verdict.dataset.state === s && !verdict.hasAttribute('aria-busy')"
        self.until(wanted, state)

    def settled(self, count: int | None = None) -> None:
        """Until the page has answered, with ``count`` spots if that is told."""
        self.until("() => !verdict.hasAttribute('aria-busy')")
        if count is not None:
            self.until("n => document.querySelectorAll('[data-spot]').length === n", count)

    def save(self) -> None:
        self.button("Save").click()
        self.until("() => document.body.dataset.unsaved === 'no'")


def findings(page: Any) -> list[str]:
    """What axe-core finds at WCAG 2.2 AA, and targets under 24 pixels among it."""
    import axe_playwright_python

    folder = Path(axe_playwright_python.__file__).parent
    script = next(folder.rglob("axe.min.js")).read_text("utf-8")
    page.evaluate(script)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    options = {
        "runOnly": {"type": "tag", "values": tags},
        "rules": {"target-size": {"enabled": True}},
    }
    found = page.evaluate("options => axe.run(document, options)", options)
    return [
        f"{each['id']}: {node['html'][:120]} ({node.get('failureSummary', '')[:200]})"
        for each in found["violations"]
        for node in each["nodes"]
    ]
