"""``python -m art.kit.screens``: the three pictures of the page in use, for the README.

The demo book and its class are copied, opened with ``bookmaker place``, and photographed in
chromium (needs chromium and the test extra). What each picture shows stands in ``shown.json``.
"""

from __future__ import annotations

import json
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[2]
PLACE = TOP / "art" / "place"
SIZE = {"width": 1280, "height": 800}


def main() -> int:
    sys.path.insert(0, str(TOP))
    from tests.place.browser import Screen, chromium, placing

    with tempfile.TemporaryDirectory() as folder, chromium() as browser:
        for part in ("chapters", "art"):
            shutil.copytree(TOP / part, Path(folder) / part)
        chapters = Path(folder) / "chapters"
        shown = {}
        with placing(chapters / "river-term" / "book.toml") as address:
            screen = Screen(browser.new_context(viewport=SIZE), address)
            screen.open("Octopus")
            screen.button("Choose links").click()
            screen.settled()
            screen.page.locator("[data-spot]").first.click()
            shown["spots"] = photograph(screen.page, "spots")
            screen.page.keyboard.press("Escape")
            screen.open("Otter")
            screen.button("Add a spot").click()
            screen.until_verdict("mend")
            shown["mend"] = photograph(screen.page, "mend")
        with placing(chapters / "heron-class" / "class.toml") as address:
            screen = Screen(browser.new_context(viewport=SIZE), address)
            shown["class"] = photograph(screen.page, "class")
    text = json.dumps(shown, ensure_ascii=False, indent=1)
    (PLACE / "shown.json").write_text(f"{text}\n", encoding="utf-8")
    return 0


def photograph(page: Any, name: str) -> list[str]:
    """Write one picture; gives the words on it: the buttons, and nothing that is measured."""
    page.wait_for_timeout(1500)
    page.mouse.move(2, 400)
    page.screenshot(path=str(PLACE / f"{name}.png"))
    words: list[str] = page.locator("button:visible").all_inner_texts()
    return sorted({" ".join(each.split()) for each in words if each.strip()})


if __name__ == "__main__":
    sys.exit(main())
