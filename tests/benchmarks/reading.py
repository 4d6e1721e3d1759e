"""How the time for reading a manifest grows with its length, for forms that nobody would write.

``python -m tests.benchmarks.reading`` prints processor time for a file and for one four times as
long, and the power of the length with which it grows: 1 is in proportion, 2 is to be mended.
"""

from __future__ import annotations

import math
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path

from bookmaker.reading import read

FORMS: Mapping[str, Callable[[int], str]] = {
    "empty pages": lambda n: "[[page]]\n" * n,
    "broken pages": lambda n: "[[page]]\nname = \n" * n,
    "a dotted key": lambda n: "a." * n + "b = 1\n",
    "a dotted heading": lambda n: "[" + "a." * n + "b]\n",
    "dotted keys": lambda n: "".join("a." * 40 + f"b{i} = 1\n" for i in range(n)),
    "brackets": lambda n: "x = " + "[" * n,
    "tables in tables": lambda n: "x = {" + "a = {" * n,
    "headings": lambda n: "".join(f"[a{i}]\n" for i in range(n)),
    "keys": lambda n: "".join(f"a{i} = 1\n" for i in range(n)),
    "the same key": lambda n: "a = 1\n" * n,
    "spots": lambda n: _page("".join(f"a{i} = [1, {i % 97}]\n" for i in range(n)), '"a-b"'),
    "links": lambda n: _page("a = [1, 2]\n", ",".join(f'"a{i}-b{i}"' for i in range(n))),
    "numbers": lambda n: "numbers = { list = [" + ",".join(map(str, range(n))) + "] }\n[[page]]\n",
    "quotation marks": lambda n: '"' * n,
    "long texts": lambda n: '"""\n' * n,
}
"""What a file looks like that has ``n`` of something."""

SHORT = 2000


def _page(spots: str, links: str) -> str:
    return f'title = "x"\n[[page]]\nname = "Newt"\nlinks = [{links}]\n[page.spots]\n{spots}'


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        for form in FORMS:
            short, long = (_seconds(Path(folder), FORMS[form](n)) for n in (SHORT, 4 * SHORT))
            power = math.log(long / short) / math.log(4)
            print(f"{form:18} {short:8.3f} s {long:8.3f} s   power {power:.2f}")


def _seconds(folder: Path, text: str) -> float:
    (folder / "one.toml").write_text(text, "utf-8")
    start = time.process_time()
    read(folder / "one.toml")
    return time.process_time() - start


if __name__ == "__main__":
    main()
