"""Who may ask at all: this computer's own browser, with this run's token, from our own page."""

from __future__ import annotations

import hmac
from collections.abc import Mapping
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

MOST_JSON: Final = 1_000_000
"""Bytes of anything that is no picture."""
POLICY: Final = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'none'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Content security policy: nothing but ourselves, and no line of script in the page's own text."""
HEADERS: Final[Mapping[str, str]] = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "x-frame-options": "DENY",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """Lets through what comes from our own page: first thing on the way in, last on the way out.

    ``hosts`` are the names under which the server may be asked, with its port.
    """

    def __init__(self, app: ASGIApp, token: str, hosts: frozenset[str]) -> None:
        self._app, self._token, self._hosts = app, token, hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        refused = self._refused(scope)
        if refused:
            answer = PlainTextResponse(refused[1], refused[0], headers=dict(HEADERS))
            await answer(scope, receive, send)
            return
        root = f"/{self._token}"
        inner = {**scope, "path": scope["path"].removeprefix(root) or "/", "root_path": ""}
        await self._app(inner, receive, _with_headers(send))

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        """Why nothing is answered: the status, and a word for whoever looks."""
        headers = Headers(scope=scope)
        if len(headers.getlist("host")) != 1 or headers["host"].lower() not in self._hosts:
            return 403, "This page is for this computer alone."
        if not self._knows_token(scope["path"]):
            return 403, "This address is not complete. Copy it whole from where it was printed."
        if not self._is_ours(headers):
            return 403, "Another page asked for this."
        if scope["method"] not in ("GET", "HEAD", "POST"):
            return 405, "There is no such thing to do."
        return None

    def _knows_token(self, path: str) -> bool:
        given = path.split("/", 2)[1] if path.startswith("/") and path.count("/") > 1 else ""
        return hmac.compare_digest(given.encode(), self._token.encode())

    def _is_ours(self, headers: Headers) -> bool:
        """Whether a browser that tells whose page asks (Fetch Metadata, Origin) names ours."""
        origins = {f"http://{host}" for host in self._hosts}
        origin = headers.get("origin")
        site = headers.get("sec-fetch-site", "same-origin")
        return (origin is None or origin in origins) and site in ("same-origin", "none")


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sending
