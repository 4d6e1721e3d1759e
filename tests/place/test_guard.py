"""What an attacker would try: another page, another name, another file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.pictures.makers import encoded, photograph
from tests.place.asking import HOST, TOKEN, Asker

PNG = encoded(photograph(64, 48), "PNG")
PATHS = ("", "words", "state", "book", "page/1", "screen/main.js", "face/text.woff", "undo")


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("before", ["/", "/wrong/", f"/{TOKEN[:-1]}/", f"/{TOKEN}x/", "//"])
def test_nothing_is_answered_without_the_token(asker: Asker, before: str, path: str) -> None:
    answer = asker.raw("GET", f"{before}{path}")
    assert answer.status == 403
    assert b"newt" not in answer.body.lower()


def test_the_token_has_to_be_a_folder_of_its_own(asker: Asker) -> None:
    assert asker.raw("GET", f"/{TOKEN}").status == 403
    assert asker.raw("GET", f"/{TOKEN}/").status == 200


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:4711", "127.0.0.1", "127.0.0.1:80", "localhost:80", ""]
)
def test_a_name_that_is_made_to_point_here_is_refused(asker: Asker, host: str) -> None:
    """DNS rebinding: the browser asks this computer and believes it asks somebody else's."""
    assert asker.raw("GET", f"/{TOKEN}/book", {"host": host}).status == 403


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "https://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:4712"},
        {"origin": "https://127.0.0.1:4711"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_another_page_can_ask_for_nothing(asker: Asker, headers: dict[str, str]) -> None:
    told = {"content-type": "application/json", **headers}
    body = json.dumps({"revision": 1}).encode()
    assert asker.raw("POST", f"/{TOKEN}/undo", told, body).status == 403
    assert asker.raw("GET", f"/{TOKEN}/book", headers).status == 403


def test_our_own_page_may_ask(asker: Asker) -> None:
    headers = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin"}
    assert asker.raw("GET", f"/{TOKEN}/book", headers).status == 200


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", ""])
def test_a_form_of_another_page_can_change_nothing(asker: Asker, kind: str) -> None:
    """What a browser sends across pages unasked (Fetch standard, "simple" requests)."""
    body = json.dumps({"revision": 1, "page": 1, "change": {"do": "add"}}).encode()
    assert asker.raw("POST", f"/{TOKEN}/change", {"content-type": kind}, body).status == 415
    assert not asker.get("state").json["undo"]


@pytest.mark.parametrize(
    "path",
    [
        "screen/../app.py",
        "screen/..%2fapp.py",
        "screen/%2e%2e/app.py",
        "screen//etc/passwd",
        "screen/index.html",
        "../../../../etc/passwd",
        "picture/../../one.toml",
        "picture/one.toml",
        "little/newt.svg",
        "face/../../../one.woff",
        "face/none.woff",
        "made/1/one.toml",
        "newt.svg",
        "one.toml",
    ],
)
def test_a_path_leads_to_no_file(asker: Asker, path: str) -> None:
    asker.get("book")
    assert asker.get(path).status == 404


def test_every_answer_says_that_nothing_else_may_be_loaded(asker: Asker) -> None:
    for path in ("", "book", "screen/main.js", "nothing"):
        headers = asker.get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "frame-ancestors 'none'" in policy
        assert not {"*", "http:", "https:", "data:", "'unsafe-inline'", "'unsafe-eval'"} & set(
            policy.replace(";", " ").split()
        )
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"
        assert "access-control-allow-origin" not in headers


def test_a_picture_that_is_sent_can_run_nothing(asker: Asker) -> None:
    page = asker.get(f"page/{asker.uid('Fork')}").json
    answer = asker.get(f"picture/{page['art']['picture']}")
    assert answer.status == 200
    assert answer.headers["content-security-policy"].startswith("default-src 'none'")


def test_what_is_too_long_or_no_json_is_refused(asker: Asker) -> None:
    def posted(body: bytes) -> int:
        kind = {"content-type": "application/json"}
        return asker.raw("POST", f"/{TOKEN}/change", kind, body).status

    assert posted(b'{"revision": 1, "x": "' + b"x" * 2_000_000 + b'"}') == 413
    assert posted(b"[" * 100_000) == 400
    assert posted(b"[1]") == 400
    assert posted(b"\xff\xfe") == 400
    assert posted(b"") == 400


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"])
def test_nothing_but_asking_and_sending_is_known(asker: Asker, method: str) -> None:
    assert asker.raw(method, f"/{TOKEN}/book").status in (403, 405)


STRANGE = [
    None,
    7,
    "move",
    [],
    {},
    {"do": None},
    {"do": "__class__"},
    {"do": "move", "spot": "head"},
    {"do": "move", "spot": "head", "to": [1]},
    {"do": "move", "spot": "head", "to": [1, "2"]},
    {"do": "move", "spot": "head", "to": [True, 2]},
    {"do": "move", "spot": ["head"], "to": [1, 2]},
    {"do": "name", "spot": "head", "to": {}},
    {"do": "write", "key": "art", "text": "/etc/passwd"},
    {"do": "write", "key": "links", "text": "auto"},
    {"do": "write", "key": "name", "text": "x" * 5000},
    {"do": "give", "spot": "head", "number": "999"},
    {"do": "give", "spot": "head", "number": {"a": 1}},
    {"do": "paper", "paper": "../a4"},
    {"do": "position", "place": 99},
    {"do": "position", "place": "1"},
    {"do": "order", "by": 5},
    {"do": "lines", "text": 3},
    {"do": "choose", "band": {"x": 1}},
    {"do": "add", "to": [float("1e999"), 1]},
]


@pytest.mark.parametrize("wanted", STRANGE, ids=repr)
def test_no_strange_change_is_more_than_refused(asker: Asker, wanted: object) -> None:
    before = asker.get("state").json
    answer = asker.post("change", page=asker.uid("Fork"), change=wanted)
    if answer.status == 200:
        assert wanted == {"do": "choose", "band": {"x": 1}}
        return
    assert 400 <= answer.status < 500
    assert asker.get("state").json == before
    assert asker.faults == []


@pytest.mark.parametrize("art", ["/etc/passwd", "../../secret.png", "one.toml", "other.svg"])
def test_a_page_s_own_lines_can_lead_to_no_other_picture(
    asker: Asker, book: Path, art: str
) -> None:
    """Only what the manifest named when it was opened, or what was sent as a picture, is shown."""
    (book.parent / "other.svg").write_text("<svg/>", "utf-8")
    page = asker.uid("Fork")
    lines = f'[[page]]\nname = "Fork"\nart = "{art}"\nlinks = "auto"\n[page.spots]\na = [1, 2]\n'
    answer = asker.change(page, do="lines", text=lines)
    assert answer.status == 422
    two = lines.replace(art, "newt.svg") + lines
    assert asker.change(page, do="lines", text=two).status == 422


def test_a_picture_s_name_from_the_browser_is_no_path(asker: Asker, book: Path) -> None:
    for name in ("../../evil.png", "/etc/evil.png", "..\\evil.png", ".hidden.png", "%2e%2e"):
        assert asker.picture(name, PNG).status == 200
    inside = {file.name for file in book.parent.iterdir()}
    assert {"evil.png", "evil-2.png", "evil-3.png", "hidden.png"} <= inside
    assert not list(book.parent.parent.glob("*.png"))
    assert not any(name.endswith(".part") for name in inside)


def test_a_picture_goes_through_no_link_that_lies_there(asker: Asker, book: Path) -> None:
    outside = book.parent.parent / "outside.png"
    outside.write_bytes(b"mine")
    (book.parent / "evil.png").symlink_to(outside)
    (book.parent / "dead.png").symlink_to(book.parent.parent / "nowhere.png")
    assert asker.picture("evil.png", PNG).status == 200
    assert asker.picture("dead.png", PNG).status == 200
    assert outside.read_bytes() == b"mine"
    assert not (book.parent.parent / "nowhere.png").exists()
    assert (book.parent / "evil-2.png").is_file()
    assert (book.parent / "dead-2.png").is_file()


PROGRAMS = {
    "run.exe": b"MZ\x90\0" + b"\0" * 200,
    "run.png": b"\x7fELF" + b"\0" * 200,
    "run.sh": b"#!/bin/sh\nrm -rf /\n",
    "page.svg": b"<html><script>alert(1)</script></html>",
    "book.toml": b'title = "x"\n',
    "empty.png": b"",
    "cut.png": PNG[:200],
}


@pytest.mark.parametrize("name", PROGRAMS)
def test_what_is_no_picture_stays_outside(asker: Asker, book: Path, name: str) -> None:
    before = sorted(file.name for file in book.parent.iterdir())
    answer = asker.picture(name, PROGRAMS[name])
    assert answer.status == 422
    assert name in answer.json["say"]
    assert sorted(file.name for file in book.parent.iterdir()) == before


def test_a_file_larger_than_a_build_takes_is_refused_while_it_comes(
    asker: Asker, book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bookmaker.place.adding.MOST", 100_000)
    before = sorted(file.name for file in book.parent.iterdir())
    answer = asker.picture("large.png", b"\x89PNG\r\n\x1a\n" + b"\0" * 300_000)
    assert answer.status == 422
    assert sorted(file.name for file in book.parent.iterdir()) == before
