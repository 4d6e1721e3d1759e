"""What the library is handed: a cache, a clock, progress on a terminal."""

from __future__ import annotations

import atexit
import os
import shutil
import sys
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar

from bookmaker.cache import FolderCache
from bookmaker.classroom.class_book import Edition
from bookmaker.cli.codes import CommandFault
from bookmaker.cli.streams import bare
from bookmaker.context import BuildContext
from bookmaker.locking import PATIENCE, Held, alone_in
from bookmaker.ordering import nearest
from bookmaker.output import OutputFault
from bookmaker.pdf import INKS
from bookmaker.progress import unwatched
from bookmaker.reading import read_toml
from bookmaker.typeset import PAPERS

T = TypeVar("T")


LAST_SECOND = 253_402_300_799
"""That of the year 9999, the last year that a PDF can write (ISO 32000-1, 7.9.4)."""
OF_BOOKS = {"chapters", "page"}
"""Keys that tell a book's manifest, or a chapter's, from a class's."""


def build_context() -> BuildContext:
    """What one command hands on, from the surroundings that it runs in."""
    folder = _writable(cache_folder())
    watch = _bar if on_terminal() else unwatched
    return BuildContext(FolderCache(folder / "kept"), date=_date(), watch=watch)


def _bar(stage: str, things: Sequence[T], /) -> Iterable[T]:
    """A bar on the terminal that goes away when the stage is done."""
    from rich.console import Console
    from rich.progress import track

    # The stream itself, so that the cursor comes back even where stderr falls silent.
    return track(things, stage, console=Console(file=bare(sys.stderr)), transient=True)


def cache_folder() -> Path:
    """Where computed things are kept: the XDG base directory for caches, or its like.

    A relative one counts as none (XDG Base Directory Specification 0.8).
    """
    said = (os.environ.get("XDG_CACHE_HOME"), os.environ.get("LOCALAPPDATA"))
    named = next((Path(folder) for folder in said if folder and Path(folder).is_absolute()), None)
    return (named or Path("~/.cache").expanduser()) / "bookmaker"


def _writable(folder: Path) -> Path:
    """``folder`` if something can be kept in it, else one that goes away with the process.

    Homes that are full, read-only or not there must not stop a book.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder) as file:
            file.write(b"0")
    except OSError:
        folder = Path(tempfile.mkdtemp(prefix="bookmaker-"))
        atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def _date() -> datetime | None:
    """The date that SOURCE_DATE_EPOCH asks for (reproducible-builds.org), none where it is unset.

    Raises CommandFault for what is no date, as is asked for there.
    """
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if not epoch:
        return None
    if not (epoch.isascii() and epoch.isdigit() and len(epoch) <= 12 and int(epoch) <= LAST_SECOND):
        said = f"SOURCE_DATE_EPOCH is {epoch[:40]!r}, which is no date."
        raise CommandFault(f"{said} Set it to seconds since 1970 in digits, or unset it.")
    return datetime.fromtimestamp(int(epoch), UTC)


def known_paper(paper: str | None) -> str | None:
    """``paper`` if there is such a paper; raises CommandFault with the nearest otherwise."""
    paper = paper.strip() if paper else paper
    if paper is not None and paper.lower() not in PAPERS:
        known = ", ".join(PAPERS)
        raise CommandFault(f"There is no paper {paper!r}.{nearest(paper, PAPERS)} Known: {known}.")
    return paper.lower() if paper else None


_INK_NAMES = {"gray": "grey"}
_KNOWN_INKS = "full, light, grey; light and grey go together"


def known_ink(ink: str) -> str:
    """The ink that is meant: several may be told, joined by a hyphen; raises CommandFault with the
    nearest for one that is not there."""
    told = {_INK_NAMES.get(each, each) for each in ink.strip().lower().split("-")} - {"full"}
    for each in sorted(told - set(INKS)):
        raise CommandFault(f"There is no ink {each!r}.{nearest(each, INKS)} Known: {_KNOWN_INKS}.")
    return "-".join(each for each in ("light", "grey") if each in told) or "full"


def existing(file: Path) -> Path:
    """``file`` if it is there and no class's manifest; raises CommandFault otherwise."""
    if is_class(there(file)):
        hint = f"To build its book: bookmaker build --class {file}"
        raise CommandFault(f"{file} is a class's manifest, not a book's or a chapter's. {hint}")
    return file


def is_class(file: Path) -> bool:
    """Whether ``file`` is a class's manifest."""
    keys = _keys(file)
    return bool(keys & {"book", "roster"}) and not keys & OF_BOOKS


def existing_class(file: Path) -> Path:
    """``file`` if it is there and no book's manifest; raises CommandFault otherwise."""
    if _keys(there(file)) & OF_BOOKS:
        hint = "Name the class's, such as class.toml."
        raise CommandFault(f"{file} is the manifest of a book or a chapter. {hint}")
    return file


def _keys(file: Path) -> set[str]:
    """The manifest's own keys; none where it can't be read: whoever reads it says what is wrong."""
    try:
        return set(read_toml(file).values or {}) if file.is_file() else set()
    except OSError:
        return set()


def there(file: Path) -> Path:
    """``file`` if it is a file that is there; raises CommandFault otherwise."""
    if not file.exists():
        raise CommandFault(f"{file} is not there. Check the name and the folder.")
    if file.is_dir():
        raise CommandFault(f"{file} is a folder. Name the manifest in it, such as book.toml.")
    return file


@contextmanager
def alone_with(classroom: Path) -> Iterator[None]:
    """Hold the folder of a class's manifest while its tables are read and written; raises
    OutputFault where another run does not come to an end."""
    folder = classroom.parent

    def waiting() -> None:
        print(f"Another run is at work in {folder}: waiting for it.", file=sys.stderr)

    try:
        with alone_in(folder, waiting, PATIENCE):
            yield
    except Held as error:
        told = f"Another run has been at work in {folder} for {PATIENCE:.0f} seconds."
        raise OutputFault(f"{told} End it, or wait, then do the same again.") from error


def alone(edition: Edition | None) -> AbstractContextManager[None]:
    """The class's folder held, where there is a class: its record of what was made is written."""
    return alone_with(edition.manifest) if edition else nullcontext()


def on_terminal() -> bool:
    return sys.stderr.isatty()
