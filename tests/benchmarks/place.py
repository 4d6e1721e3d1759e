"""The page in the browser, timed as a teacher feels it: ``python -m tests.benchmarks.place``.

From pointer up to the painted sheet, in chromium, on pages of 4 to 8 spots and one of 35; from the
command to a page that can be used, against ``check`` of the same book; bytes that the browser
loads. What the cache keeps is there. Needs chromium and the test extra.
"""

from __future__ import annotations

import math
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.pictures.makers import encoded, photograph
from tests.place.browser import Screen, chromium, placing

DEMO = Path("chapters/river-term/book.toml").resolve()
MOVES = 12
PAINTED = """() => new Promise(done => {
    const sheet = document.getElementById('sheet');
    sheet.addEventListener('pointerup', () => {
        const start = performance.now();
        const seen = new MutationObserver(() => {
            if (verdict.hasAttribute('aria-busy')) return;
            seen.disconnect();
            requestAnimationFrame(() => requestAnimationFrame(() => {
                window.took = performance.now() - start;
            }));
        });
        seen.observe(document.getElementById('verdict'), { attributes: true });
    }, { once: true });
    window.took = null;
    done();
})"""


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, chromium() as browser:
        manifest = chapter(Path(folder))
        with placing(manifest) as address:
            screen = Screen(browser.new_context(viewport={"width": 1440, "height": 900}), address)
            small: list[float] = []
            for count in range(4, 9):
                small += moves(screen, f"Page {count}")
            large = moves(screen, "Page 35")
        tell("pointer up to painted sheet, 4 to 8 spots, 95th percentile", p95(small), 150, "ms")
        tell("the same, median", statistics.median(small), None, "ms")
        tell("the same, 35 spots, worst", max(large), 2000, "ms")
        begin, check = starts(browser)
        tell("from the command to a usable page, against check", begin / check, 1.5, "times")
        with placing(DEMO) as address:
            tell("loaded for the demo book", loaded(browser, address) / 1e6, 2.0, "MB")


def moves(screen: Screen, name: str) -> list[float]:
    """Each spot in turn taken a little further round; milliseconds from letting go."""
    screen.open(name)
    found = []
    for turn in range(MOVES):
        places = list(screen.spots().items())
        _, (x, y) = places[turn % len(places)]
        screen.page.evaluate(PAINTED)
        mouse = screen.page.mouse
        mouse.move(*screen.at((x, y)))
        mouse.down()
        angle = turn * 2.4
        mouse.move(*screen.at((x + 3 * math.cos(angle), y + 3 * math.sin(angle))), steps=5)
        mouse.up()
        screen.until("() => window.took !== null")
        found.append(float(screen.page.evaluate("() => window.took")))
    return found


def starts(browser: Any) -> tuple[float, float]:
    """Seconds from the command to a usable page, and of ``check``; medians of five, in turn."""
    begun, checked = [], []
    for _ in range(6):
        start = time.perf_counter()
        with placing(DEMO) as address:
            context = browser.new_context()
            Screen(context, address)
            begun.append(time.perf_counter() - start)
            context.close()
        start = time.perf_counter()
        command = [sys.executable, "-m", "bookmaker", "check", str(DEMO)]
        subprocess.run(command, check=False, capture_output=True)
        checked.append(time.perf_counter() - start)
    return statistics.median(begun[1:]), statistics.median(checked[1:])


def loaded(browser: Any, address: str) -> int:
    """Bytes as they come over the wire until the whole row has been seen."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    sizes: list[int] = []
    page = context.new_page()
    page.on("requestfinished", lambda r: sizes.append(r.sizes()["responseBodySize"]))
    page.goto(address)
    page.wait_for_selector("html[data-ready]")
    page.locator("#slope").evaluate("e => e.scrollTo(e.scrollWidth, 0)")
    page.wait_for_timeout(3000)
    context.close()
    return sum(sizes)


def chapter(folder: Path) -> Path:
    """Pages of 4 to 8 spots and of 35 on photographs of twelve megapixels."""
    (folder / "photo.jpg").write_bytes(encoded(photograph(4000, 3000), "JPEG", quality=80))
    pages = [page(count, ring(count)) for count in range(4, 9)]
    pages.append(page(35, grid()))
    text = 'title = "Timed"\nchapters = ["one.toml"]\npaper = "a3"\n'
    (folder / "book.toml").write_text(text, encoding="utf-8")
    (folder / "one.toml").write_text('title = "One"\n' + "".join(pages), encoding="utf-8")
    return folder / "book.toml"


def page(count: int, places: Sequence[tuple[float, float]]) -> str:
    spots = "".join(f"s{i} = [{x:.1f}, {y:.1f}]\n" for i, (x, y) in enumerate(places))
    links = ", ".join(f'"s{i}-s{i + 1}"' for i in range(count - 1))
    head = f'\n[[page]]\nname = "Page {count}"\nart = "photo.jpg"\nlinks = [{links}]\n'
    return f"{head}[page.spots]\n{spots}"


def ring(count: int) -> list[tuple[float, float]]:
    turn = 2 * math.pi / count
    return [(50 + 34 * math.cos(i * turn), 50 + 36 * math.sin(i * turn)) for i in range(count)]


def grid() -> list[tuple[float, float]]:
    """Seven by five, to and fro."""
    rows = ([(10 + 13.3 * x, 12 + 19 * y) for x in range(7)] for y in range(5))
    return [place for y, row in enumerate(rows) for place in (row if y % 2 == 0 else row[::-1])]


def p95(values: list[float]) -> float:
    return sorted(values)[math.ceil(0.95 * len(values)) - 1]


def tell(what: str, found: float, asked: float | None, unit: str) -> None:
    wanted = f" (asked for: {asked:g})" if asked else ""
    print(f"{what}: {found:.3g} {unit}{wanted}")


if __name__ == "__main__":
    main()
