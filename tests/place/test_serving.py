"""The command itself: what it prints, whom it listens to, how it ends."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from bookmaker.cli.exits import run
from bookmaker.place import InUse, listen

COMMAND = [sys.executable, "-m", "bookmaker", "place", "--no-browser"]


def test_it_prints_its_address_first_listens_here_alone_and_ends_with_ctrl_c(book: Path) -> None:
    with subprocess.Popen(
        [*COMMAND, str(book)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        try:
            assert process.stdout is not None
            address = process.stdout.readline().strip()
            parts = urlsplit(address)
            assert parts.hostname == "127.0.0.1"
            assert len(parts.path) > 30
            with urllib.request.urlopen(address) as answer:
                assert b"<html" in answer.read()
            assert parts.port is not None
            assert _listening(process.pid) == {("0100007F", parts.port)}
            second = subprocess.run([*COMMAND, str(book)], capture_output=True, text=True)
            assert second.returncode == 3
            assert "another run" in second.stderr
            taken = subprocess.run(
                [*COMMAND, "--port", str(parts.port), str(book)], capture_output=True, text=True
            )
            assert taken.returncode == 2
            assert "is taken" in taken.stderr
        finally:
            process.send_signal(signal.SIGINT)
            out, told = process.communicate(timeout=30)
    assert process.returncode == 0
    assert out == ""
    assert told == ""


def _listening(pid: int) -> set[tuple[str, int]]:
    """Addresses (as Linux writes them) and ports on which a process listens, over IPv4 and 6."""
    sockets = set()
    for link in Path(f"/proc/{pid}/fd").iterdir():
        name = str(link.readlink())
        if name.startswith("socket:["):
            sockets.add(name[8:-1])
    found = set()
    for table in ("tcp", "tcp6"):
        for line in Path(f"/proc/{pid}/net/{table}").read_text().splitlines()[1:]:
            cells = line.split()
            if cells[3] == "0A" and cells[9] in sockets:
                host, port = cells[1].split(":")
                found.add((host, int(port, 16)))
    return found


def test_a_port_that_is_taken_is_told() -> None:
    with listen(0) as one, pytest.raises(InUse):
        listen(one.getsockname()[1])
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with listen(port) as two:
        assert two.getsockname() == ("127.0.0.1", port)


def test_what_is_not_there_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["place", str(tmp_path / "none.toml"), "--no-browser"]) == 2
    assert "is not there" in capsys.readouterr().err
