"""The addresses that the browser asks, and what each answers. README.md tells of all of them."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path
from typing import Any, Final

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from bookmaker.output import OutputFault
from bookmaker.place.adding import received
from bookmaker.place.asked import NotUnderstood
from bookmaker.place.counter import Counter, Dropped
from bookmaker.place.desk import ChangedElsewhere, Outdated
from bookmaker.place.edits import Refused
from bookmaker.place.guard import MOST_JSON, Guard

SCREEN: Final = Path(__file__).parent / "screen"
MEDIA: Final = {".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
Answer = Callable[[Request], Awaitable[Response]]


def app_of(counter: Counter, token: str, hosts: frozenset[str]) -> ASGIApp:
    """The whole app: everything behind the guard."""
    files = {file.name: file for file in sorted(SCREEN.iterdir()) if file.suffix in MEDIA}
    desk = _Answers(counter, files)
    app = Starlette(
        routes=[
            Route("/", desk.index),
            Route("/screen/{name}", desk.screen),
            Route("/face/{name}.woff", desk.face),
            Route("/words", desk.words),
            Route("/state", desk.state),
            Route("/book", desk.book),
            Route("/page/{uid:int}", desk.page),
            Route("/theirs/{uid:int}", desk.theirs),
            Route("/picture/{digest}", desk.picture),
            Route("/little/{digest}", desk.little),
            Route("/ask", desk.ask, methods=["POST"]),
            Route("/change", desk.change, methods=["POST"]),
            Route("/undo", desk.undo, methods=["POST"]),
            Route("/redo", desk.redo, methods=["POST"]),
            Route("/save", desk.save, methods=["POST"]),
            Route("/settle", desk.settle, methods=["POST"]),
            Route("/left", desk.left, methods=["POST"]),
            Route("/pictures", desk.pictures, methods=["POST"]),
            Route("/make", desk.make, methods=["POST"]),
            Route("/making/{job:int}", desk.making),
            Route("/made/{job:int}/{name}", desk.made),
        ],
        middleware=[Middleware(GZipMiddleware, minimum_size=1000, compresslevel=6)],
    )
    return Guard(app, token, hosts)


class _Answers:
    """One method an address."""

    def __init__(self, counter: Counter, files: Mapping[str, Path]) -> None:
        self._counter, self._files = counter, files

    async def index(self, request: Request) -> Response:
        text = (SCREEN / "index.html").read_text("utf-8")
        return HTMLResponse(text.replace("@language@", self._counter.language))

    async def screen(self, request: Request) -> Response:
        file = self._files.get(request.path_params["name"])
        if file is None:
            return _not_there()
        return Response(file.read_bytes(), media_type=MEDIA[file.suffix])

    async def face(self, request: Request) -> Response:
        data = await self._try(self._counter.face, request.path_params["name"])
        return data if isinstance(data, Response) else _kept(data, "font/woff")

    async def words(self, request: Request) -> Response:
        return await self._json(self._counter.words)

    async def state(self, request: Request) -> Response:
        return await self._json(self._counter.state)

    async def book(self, request: Request) -> Response:
        return await self._json(self._counter.book)

    async def page(self, request: Request) -> Response:
        return await self._json(self._counter.page, request.path_params["uid"])

    async def theirs(self, request: Request) -> Response:
        return await self._json(self._counter.theirs, request.path_params["uid"])

    async def picture(self, request: Request) -> Response:
        return await self._sent(self._counter.shown, request)

    async def little(self, request: Request) -> Response:
        return await self._sent(self._counter.little, request)

    async def ask(self, request: Request) -> Response:
        return await self._posted(request, self._counter.ask)

    async def change(self, request: Request) -> Response:
        return await self._posted(request, self._counter.change)

    async def undo(self, request: Request) -> Response:
        return await self._posted(request, self._counter.undo)

    async def redo(self, request: Request) -> Response:
        return await self._posted(request, self._counter.redo)

    async def save(self, request: Request) -> Response:
        return await self._posted(request, self._counter.save)

    async def settle(self, request: Request) -> Response:
        return await self._posted(request, self._counter.settle)

    async def left(self, request: Request) -> Response:
        return await self._posted(request, self._counter.left)

    async def make(self, request: Request) -> Response:
        return await self._posted(request, self._counter.make)

    async def pictures(self, request: Request) -> Response:
        """A picture's bytes as they are, its name in the address."""
        if request.headers.get("content-type") != "application/octet-stream":
            return _refusal(415, "not-understood", "")
        chapter = request.query_params.get("chapter", "")
        try:
            folder = self._counter.folder(chapter)
            waiting = await received(request.stream(), folder)
        except (Refused, OutputFault, NotUnderstood) as error:
            return self._told(error)
        except ClientDisconnect:
            return _refusal(400, "not-understood", "")
        try:
            name = request.query_params.get("name", "")[:300]
            return await self._json(self._counter.add, waiting, name, chapter)
        finally:
            waiting.unlink(missing_ok=True)

    async def making(self, request: Request) -> Response:
        return await self._json(self._counter.making, request.path_params["job"])

    async def made(self, request: Request) -> Response:
        """A finished document, shown in the browser's own reader."""
        file = await self._try(self._counter.made, request.path_params["job"])
        if isinstance(file, Response):
            return file
        if file.name != request.path_params["name"] or not file.is_file():
            return _not_there()
        headers = {"content-security-policy": "default-src 'none'; style-src 'unsafe-inline'"}
        return FileResponse(
            file,
            media_type="application/pdf",
            filename=file.name,
            content_disposition_type="inline",
            headers=headers,
        )

    async def _sent(self, find: Callable[[str], Any], request: Request) -> Response:
        sent = await self._try(find, request.path_params["digest"])
        if isinstance(sent, Response):
            return sent
        answer = _kept(sent.data, sent.media)
        # A picture may hold styles of its own, and nothing that runs or asks for anything.
        answer.headers["content-security-policy"] = "default-src 'none'; style-src 'unsafe-inline'"
        if sent.packed:
            answer.headers["content-encoding"] = "gzip"
        return answer

    async def _posted(self, request: Request, do: Callable[[Any], Any]) -> Response:
        body = await _body(request)
        return body if isinstance(body, Response) else await self._json(do, body)

    async def _json(self, do: Callable[..., Any], *values: Any) -> Response:
        found = await self._try(do, *values)
        return found if isinstance(found, Response) else JSONResponse(found)

    async def _try(self, do: Callable[..., Any], *values: Any) -> Any:
        """What ``do`` gives, worked out in a thread; or the answer that says why not."""
        try:
            return await run_in_threadpool(do, *values)
        except Exception as error:
            return self._told(error)

    def _told(self, error: Exception) -> Response:
        say = self._counter.say
        match error:
            case Dropped():
                return JSONResponse({"dropped": True})
            case Refused():
                return _refusal(422, "refused", say(error.key, **error.values))
            case Outdated():
                return _refusal(409, "outdated", say("place.told.outdated"))
            case ChangedElsewhere():
                return _refusal(409, "elsewhere", say("place.told.elsewhere"))
            case OutputFault():
                return _refusal(507, "not-written", say("place.told.not-written", why=str(error)))
            case NotUnderstood() | TypeError():
                return _refusal(400, "not-understood", say("place.told.not-understood"))
            case KeyError():
                return _refusal(404, "not-there", say("place.told.not-there"))
        self._counter.fault(error)
        return _refusal(500, "fault", say("place.told.fault"))


async def _body(request: Request) -> Any:
    """The JSON object that was sent, or the answer that says why not."""
    if request.headers.get("content-type", "").split(";")[0] != "application/json":
        return _refusal(415, "not-understood", "")
    data = b""
    async for piece in request.stream():
        data += piece
        if len(data) > MOST_JSON:
            return _refusal(413, "too-large", "")
    try:
        body = json.loads(data)
    except (ValueError, RecursionError):
        return _refusal(400, "not-understood", "")
    return body if isinstance(body, dict) else _refusal(400, "not-understood", "")


def _refusal(status: int, error: str, say: str) -> JSONResponse:
    return JSONResponse({"error": error, "say": say}, status)


def _not_there() -> Response:
    return _refusal(404, "not-there", "")


def _kept(data: bytes, media: str) -> Response:
    """What its address names for good: the browser need not ask for it again."""
    return Response(
        data, media_type=media, headers={"cache-control": "private, max-age=86400, immutable"}
    )
