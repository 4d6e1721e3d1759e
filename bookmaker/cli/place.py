"""``place``: the page in the teacher's own browser, until Ctrl-C."""

from __future__ import annotations

import secrets
import sys
import threading
import traceback
import webbrowser
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from socket import socket

from bookmaker.cli.codes import CommandFault
from bookmaker.cli.make import book_of, edition_of, make_book, make_key
from bookmaker.cli.surroundings import build_context, cache_folder, is_class, there
from bookmaker.context import BuildOptions
from bookmaker.output import OutputFault
from bookmaker.place import (
    Counter,
    Held,
    InUse,
    ReviewCounter,
    Tools,
    What,
    address_of,
    app_of,
    hosts_of,
    listen,
    serve,
    sole_writer,
)
from bookmaker.progress import Watch


def open_place(manifest: Path, port: int, browser: bool) -> None:
    """Print the address, open the browser, answer it. Raises CommandFault, OutputFault."""
    source = there(manifest)
    try:
        listening = listen(port)
    except (InUse, OverflowError) as error:
        raise CommandFault(f"{error}. Leave --port out: a free one is taken.") from error
    try:
        with listening, sole_writer(source, cache_folder()):
            _serve(source, listening, browser)
    except Held as error:
        told = f"{manifest} is open in another run of bookmaker place"
        raise OutputFault(f"{told}. End that one first, with Ctrl-C.") from error


def _serve(manifest: Path, listening: socket, browser: bool) -> None:
    tools, token = build_context(), secrets.token_urlsafe(24)
    make = _make_class if is_class(manifest) else _make
    kept = Tools(tools.cache, tools.cache, make, _now, _fault, tools.seed)
    address = address_of(listening, token)

    def ready() -> None:
        print(address, flush=True)
        if browser:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    counter = ReviewCounter(manifest, kept) if is_class(manifest) else Counter(manifest, kept)
    serve(app_of(counter, token, hosts_of(listening)), listening, ready)


def _make(manifest: Path, what: What, paper: str | None, watch: Watch, /) -> Path:
    """A document as the commands make it, in the folder that the command was given in."""
    context = replace(build_context(), watch=watch)
    options = BuildOptions(paper, output=what)
    if what == "key":
        return make_key(manifest, Path(), options, context)
    return make_book(manifest, Path(), options, None, context)


def _make_class(manifest: Path, what: What, paper: str | None, watch: Watch, /) -> Path:
    """A document of a class's edition."""
    edition = edition_of(manifest, use_all=False)
    context = replace(build_context(), watch=watch)
    options = BuildOptions(paper, output=what, edition=edition)
    book = book_of(None, edition)
    if what == "key":
        return make_key(book, Path(), options, context)
    return make_book(book, Path(), options, None, context)


def _fault(error: Exception) -> None:
    """One line; with --debug, which the command line itself tells, where it arose."""
    print(f"A fault of bookmaker itself ({type(error).__name__}): {error}.", file=sys.stderr)
    if "--debug" in sys.argv:
        traceback.print_exception(error)


def _now() -> str:
    return datetime.now().strftime("%Y-%m-%d, %H:%M")
