"""The addresses that the browser asks, and what each answers. README.md tells of all of them."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable
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
from bookmaker.place.review import ReviewCounter

SCREEN: Final = Path(__file__).parent / "screen"
SCREENS: Final = {"book": "index.html", "class": "class.html"}
MEDIA: Final = {".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
FILES: Final = {file.name: file for file in SCREEN.iterdir() if file.suffix in MEDIA}
Answer = Callable[[Request], Awaitable[Response]]


def app_of(counter: Counter | ReviewCounter, token: str, hosts: frozenset[str]) -> ASGIApp:
    """The whole app for a book, a chapter or a class: everything behind the guard."""
    answers = _Answers(counter, SCREENS[counter.kind])
    shared = [
        Route("/", answers.index),
        Route("/screen/{name}", answers.screen),
        Route("/face/{name}.woff", answers.face),
        Route("/words", answers.got("words")),
        Route("/picture/{key}", answers.sent("shown")),
        Route("/little/{key}", answers.sent("little")),
        Route("/make", answers.posted("make"), methods=["POST"]),
        Route("/making/{job:int}", answers.got("making", "job")),
        Route("/made/{job:int}/{name}", answers.made),
    ]
    own = _of_class(answers) if counter.kind == "class" else _of_book(answers)
    zipped = Middleware(GZipMiddleware, minimum_size=1000, compresslevel=6)
    return Guard(Starlette(routes=[*shared, *own], middleware=[zipped]), token, hosts)


def _of_book(answers: _Answers) -> list[Route]:
    posted = ("ask", "change", "undo", "redo", "save", "settle", "left")
    return [
        Route("/state", answers.got("state")),
        Route("/book", answers.got("book")),
        Route("/page/{uid:int}", answers.got("page", "uid")),
        Route("/theirs/{uid:int}", answers.got("theirs", "uid")),
        Route("/pictures", answers.pictures, methods=["POST"]),
        *(Route(f"/{name}", answers.posted(name), methods=["POST"]) for name in posted),
    ]


def _of_class(answers: _Answers) -> list[Route]:
    posted = ("said", "rings", "undo", "redo")
    return [
        Route("/drawings", answers.got("drawings")),
        Route("/drawing/{key}", answers.got("drawing", "key")),
        *(Route(f"/{name}", answers.posted(name), methods=["POST"]) for name in posted),
    ]


class _Answers:
    """One method an address."""

    def __init__(self, counter: Counter | ReviewCounter, page: str) -> None:
        self._counter, self._page = counter, page

    async def index(self, request: Request) -> Response:
        text = (SCREEN / self._page).read_text("utf-8")
        return HTMLResponse(text.replace("@language@", self._counter.language))

    async def screen(self, request: Request) -> Response:
        file = FILES.get(request.path_params["name"])
        if file is None:
            return _not_there()
        return Response(file.read_bytes(), media_type=MEDIA[file.suffix])

    async def face(self, request: Request) -> Response:
        data = await self._try(self._counter.face, request.path_params["name"])
        return data if isinstance(data, Response) else _kept(data, "font/woff")

    def got(self, name: str, key: str = "") -> Answer:
        """What the counter's method ``name`` gives, asked with one part of the address."""

        async def answer(request: Request) -> Response:
            values = (request.path_params[key],) if key else ()
            return await self._json(getattr(self._counter, name), *values)

        return answer

    def posted(self, name: str) -> Answer:
        """The same, asked with the JSON that was sent."""

        async def answer(request: Request) -> Response:
            body = await _body(request)
            if isinstance(body, Response):
                return body
            return await self._json(getattr(self._counter, name), body)

        return answer

    def sent(self, name: str) -> Answer:
        """A picture."""

        async def answer(request: Request) -> Response:
            return await self._sent(getattr(self._counter, name), request.path_params["key"])

        return answer

    async def pictures(self, request: Request) -> Response:
        """A picture's bytes as they are, its name in the address."""
        counter = self._counter
        assert isinstance(counter, Counter)
        if request.headers.get("content-type") != "application/octet-stream":
            return _refusal(415, "not-understood", "")
        chapter = request.query_params.get("chapter", "")
        try:
            folder = counter.folder(chapter)
            waiting = await received(request.stream(), folder)
        except (Refused, OutputFault, NotUnderstood) as error:
            return self._told(error)
        except ClientDisconnect:
            return _refusal(400, "not-understood", "")
        try:
            name = request.query_params.get("name", "")[:300]
            return await self._json(counter.add, waiting, name, chapter)
        finally:
            waiting.unlink(missing_ok=True)

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

    async def _sent(self, find: Callable[[str], Any], key: str) -> Response:
        sent = await self._try(find, key)
        if isinstance(sent, Response):
            return sent
        answer = _kept(sent.data, sent.media) if sent.keep else Response(sent.data)
        answer.headers["content-type"] = sent.media
        # A picture may hold styles of its own, and nothing that runs or asks for anything.
        answer.headers["content-security-policy"] = "default-src 'none'; style-src 'unsafe-inline'"
        if sent.packed:
            answer.headers["content-encoding"] = "gzip"
        return answer

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
