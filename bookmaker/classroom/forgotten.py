"""Names of forgotten pupils, of which only hashes are left, so that they are still held back."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from bookmaker.classroom.names import stems_of, words_of
from bookmaker.classroom.tables import table_bytes
from bookmaker.reading import read_table

NAME = "forgotten.csv"
COLUMNS = ("salt", "hash")
ROUNDS = 20_000
"""Rounds of PBKDF2 (RFC 8018) with SHA-256: slow to guess with, quick enough for a class."""


@dataclass(frozen=True, slots=True)
class Forgotten:
    """The hashes of the words of forgotten names, and the salt that goes with all of them."""

    salt: str = ""
    hashes: frozenset[str] = frozenset()

    def name_in(self, text: str, shown: Collection[str] = ()) -> str:
        """The first word of ``text`` that was a forgotten name's, but none of ``shown``; or ""."""
        if not self.hashes:
            return ""
        stems = dict.fromkeys(stem for stem in stems_of(text) if stem not in shown)
        return next((stem for stem in stems if _hash(self.salt, stem) in self.hashes), "")

    def with_name(self, name: str) -> Forgotten:
        """These and the words of ``name``."""
        salt = self.salt or secrets.token_hex(16)
        return Forgotten(salt, self.hashes | {_hash(salt, word) for word in words_of(name)})

    def to_bytes(self) -> bytes:
        """The table that ``read_forgotten`` reads."""
        return table_bytes(COLUMNS, [(self.salt, each) for each in sorted(self.hashes)])


def read_forgotten(folder: Path) -> Forgotten:
    """What was forgotten in the class's ``folder``. Raises InputProblems."""
    path = folder / NAME
    if not path.exists():
        return Forgotten()
    rows = read_table(path, needed=COLUMNS).rows
    salt = rows[0]["salt"] if rows else ""
    return Forgotten(salt, frozenset(row["hash"] for row in rows))


@lru_cache(maxsize=4096)
def _hash(salt: str, word: str) -> str:
    return hashlib.pbkdf2_hmac("sha256", word.encode(), salt.encode(), ROUNDS).hex()[:32]
