"""Binding: ordered pages in, the run of sides out: what stands on which side of the paper."""

from bookmaker.binding.book import bind_book, bind_key, bind_part

__all__ = ["bind_book", "bind_key", "bind_part"]
