"""The addresses asked without a browser or a network: the app called as a server calls it."""

from __future__ import annotations

import asyncio
import gzip
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bookmaker.cache import Cache, FolderCache, MemoryCache
from bookmaker.place import Counter, Tools, app_of
from bookmaker.place.tools import What
from bookmaker.progress import Watch

TOKEN = "a-token-of-its-own"
HOST = "127.0.0.1:4711"
KNOWN = MemoryCache()
"""What is dear to compute and the same for every test."""


@dataclass(frozen=True)
class Answer:
    status: int
    headers: Mapping[str, str]
    body: bytes

    @property
    def json(self) -> Any:
        packed = self.headers.get("content-encoding") == "gzip"
        return json.loads(gzip.decompress(self.body) if packed else self.body)


class Asker:
    """A run of the app on one manifest."""

    def __init__(self, manifest: Path, kept: Cache | None = None, make: Any = None) -> None:
        self.faults: list[Exception] = []
        kept = kept or FolderCache(manifest.parent / ".kept")
        tools = Tools(KNOWN, kept, make or made, lambda: "today", self.faults.append)
        self.counter = Counter(manifest, tools)
        self.app = app_of(self.counter, TOKEN, frozenset({HOST}))

    def get(self, path: str, **headers: str) -> Answer:
        return self.raw("GET", f"/{TOKEN}/{path}", headers)

    def post(self, path: str, **values: Any) -> Answer:
        values.setdefault("revision", self.revision)
        headers = {"content-type": "application/json"}
        return self.raw("POST", f"/{TOKEN}/{path}", headers, json.dumps(values).encode())

    def change(self, page: int, **wanted: Any) -> Answer:
        return self.post("change", page=page, change=wanted)

    def picture(self, name: str, data: bytes, chapter: str = "one") -> Answer:
        headers = {"content-type": "application/octet-stream"}
        query = f"name={name}&chapter={chapter}"
        return self.raw("POST", f"/{TOKEN}/pictures", headers, data, query)

    @property
    def revision(self) -> int:
        return int(self.get("state").json["revision"])

    def uid(self, name: str) -> int:
        pages = self.get("book").json["pages"]
        return next(int(page["page"]) for page in pages if page["name"] == name)

    def raw(
        self,
        method: str,
        path: str,
        headers: Mapping[str, str] | None = None,
        body: bytes = b"",
        query: str = "",
    ) -> Answer:
        told = {"host": HOST, **(headers or {})}
        pairs = [(key.encode(), value.encode()) for key, value in told.items()]
        return asyncio.run(self._called(method, path, pairs, body, query))

    async def _called(
        self,
        method: str,
        path: str,
        headers: Sequence[tuple[bytes, bytes]],
        body: bytes,
        query: str,
    ) -> Answer:
        scope = {
            "type": "http",
            "http_version": "1.1",
            "method": method,
            "path": path,
            "raw_path": path.encode(),
            "query_string": query.encode(),
            "headers": list(headers),
            "root_path": "",
            "scheme": "http",
            "client": ("127.0.0.1", 1),
            "server": ("127.0.0.1", 4711),
        }
        pieces: list[bytes] = [body[at : at + 65536] for at in range(0, len(body), 65536)]
        pieces = pieces or [b""]
        sent: list[Any] = []

        async def receive() -> Any:
            if not pieces:
                await asyncio.Event().wait()  # whoever asked stays there
            piece = pieces.pop(0)
            return {"type": "http.request", "body": piece, "more_body": bool(pieces)}

        async def send(message: Any) -> None:
            sent.append(message)

        await self.app(scope, receive, send)
        found = {k.decode().lower(): v.decode() for k, v in sent[0]["headers"]}
        data = b"".join(message.get("body", b"") for message in sent[1:])
        return Answer(sent[0]["status"], found, data)


def made(manifest: Path, what: What, paper: str | None, watch: Watch, /) -> Path:
    """A document that is made at once."""
    for _ in watch("certifying", [1, 2]):
        pass
    file = manifest.parent / f"made-{what}.pdf"
    file.write_bytes(b"%PDF-1.7\n")
    return file
