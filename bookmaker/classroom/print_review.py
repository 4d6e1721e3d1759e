"""The review of a class printed: its folder in, the bytes of its PDF out."""

from __future__ import annotations

from bookmaker.cache import MemoryCache
from bookmaker.classroom.keeping import Shelf
from bookmaker.classroom.review_pages import review_pages
from bookmaker.context import BuildContext
from bookmaker.pdf import INKS, Document, check_pdf, press
from bookmaker.reading import open_manifest
from bookmaker.words import load

PRINTED = "review.pdf"
"""The file in the class's folder that holds it."""


def print_review(shelf: Shelf, context: BuildContext) -> bytes:
    """Every drawing that is kept, with the verdict on it. Nothing of it stays in the cache."""
    book = open_manifest(shelf.classroom.book).book
    language = book.language if book else "en"
    titles = {page.id: page.name for page in book.pages} if book else {}
    pages, pictures = review_pages(shelf, titles, load(language))
    document = Document(shelf.classroom.title, language, date=context.date)
    pdf = bytes(press(pages, INKS["full"], pictures, document, MemoryCache()))
    check_pdf(pdf, pages)
    return pdf
