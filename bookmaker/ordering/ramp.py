"""The ramp: pages of a chapter climb by work; a page with a fixed position keeps it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from bookmaker.model import Book, CertifiedPage, OrderedBook, OrderedChapter


def in_order(book: Book, certified: Mapping[str, CertifiedPage]) -> OrderedBook:
    """Put the certified pages of ``book`` (by id) in the order in which they are printed.

    Within a chapter by work, then by number of spots, then as written; pages with a position
    stay there. Pages without a certificate are left out, and chapters that lose all pages.
    """
    chapters = []
    for chapter in book.chapters:
        pages = [certified[page.id] for page in chapter.pages if page.id in certified]
        if book.order == "ramp":
            pages = _ramped(pages)
        if pages:
            chapters.append(OrderedChapter(chapter, tuple(pages)))
    return OrderedBook(book, tuple(chapters))


def _ramped(pages: Sequence[CertifiedPage]) -> list[CertifiedPage]:
    fixed = sorted((p for p in pages if p.page.position), key=lambda p: p.page.position or 0)
    ordered = sorted(
        (p for p in pages if not p.page.position),
        key=lambda p: (p.certificate.work, len(p.page.spots)),
    )
    for page in fixed:
        ordered.insert((page.page.position or 1) - 1, page)
    return ordered
