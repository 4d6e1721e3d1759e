"""Listening on this computer for this computer alone, until Ctrl-C."""

from __future__ import annotations

import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import uvicorn
from starlette.types import ASGIApp

HOME = "127.0.0.1"


class InUse(Exception):
    """The port that was asked for belongs to another program."""


def listen(port: int) -> socket.socket:
    """A socket on the loopback address; a free port where ``port`` is 0. Raises InUse."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listening.bind((HOME, port))
    except OSError as error:
        listening.close()
        raise InUse(f"port {port} is taken ({error.strerror})") from error
    listening.listen(64)
    return listening


def hosts_of(listening: socket.socket) -> frozenset[str]:
    """The names by which a browser may ask for what listens there."""
    port = listening.getsockname()[1]
    return frozenset({f"{HOME}:{port}", f"localhost:{port}"})


def address_of(listening: socket.socket, token: str) -> str:
    return f"http://{HOME}:{listening.getsockname()[1]}/{token}/"


def serve(app: ASGIApp, listening: socket.socket, ready: Callable[[], None]) -> None:
    """Answer until an interrupt comes; ``ready`` is called when the first question can be heard."""
    config = uvicorn.Config(
        app,
        log_config=None,
        access_log=False,
        server_header=False,
        date_header=False,
        lifespan="off",
        timeout_graceful_shutdown=1,
        limit_concurrency=100,
        h11_max_incomplete_event_size=16_384,
        http="h11",
        ws="none",
        loop="asyncio",
    )
    _Server(config, ready).run(sockets=[listening])


class _Server(uvicorn.Server):
    """A server to which an interrupt is the ordinary end, and not raised again."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._ready()

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        with super().capture_signals():
            try:
                yield
            finally:
                self._captured_signals.clear()
