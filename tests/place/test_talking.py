"""The interface that the browser speaks, without a browser."""

from __future__ import annotations

import re
import time
import tomllib
from pathlib import Path
from xml.etree import ElementTree

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.cli.exits import run
from bookmaker.compile import prepare
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.output import OutputFault
from bookmaker.place.asked import CHANGES
from tests.pictures.makers import encoded, photograph
from tests.place.asking import KNOWN, Asker

SVG = "{http://www.w3.org/2000/svg}"


def groups_of(root: ElementTree.Element, kind: str) -> list[bytes]:
    groups = (group for group in root.iter(f"{SVG}g") if group.get("class") == kind)
    return [ElementTree.tostring(group) for group in groups]


def spots_of(page: dict[str, object]) -> dict[str, tuple[float, float]]:
    root = ElementTree.fromstring(str(page["svg"]))
    groups = [group for group in root.iter(f"{SVG}g") if group.get("class") == "spot"]
    circles = {group.get("data-spot", ""): group.find(f"{SVG}circle") for group in groups}
    return {
        n: (float(c.get("cx", 0)), float(c.get("cy", 0)))
        for n, c in circles.items()
        if c is not None
    }


def test_the_row_has_the_pages_in_the_order_in_which_they_print(asker: Asker, book: Path) -> None:
    prepared = prepare(book, BuildOptions(), BuildContext(KNOWN))
    assert prepared.ordered is not None
    rows = asker.get("book").json["pages"]
    assert [row["name"] for row in rows] == [page.name for page in prepared.ordered.pages]
    assert [row["work"] for row in rows] == [p.certificate.work for p in prepared.ordered.pages]


def test_a_page_is_laid_out_as_the_book_lays_it_out(asker: Asker, book: Path) -> None:
    """To the last number: the SVG is that of ``build --svg``, but for the picture in it."""
    out = book.parent / "out"
    assert run(["build", str(book), "--out", str(out), "--no-key", "--svg", str(out)]) == 0
    for name in ("Fork", "Path", "Star"):
        page = asker.get(f"page/{asker.uid(name)}").json
        printed = ElementTree.parse(out / f"{name.lower()}.svg").getroot()
        for kind in ("spot", "link", "tag", "words"):
            assert groups_of(ElementTree.fromstring(page["svg"]), kind) == groups_of(printed, kind)
        assert page["ready"]
        assert page["verdict"]["state"] == "good"


def test_a_spot_that_is_moved_lies_there_when_it_is_saved_and_compiled(
    asker: Asker, book: Path
) -> None:
    uid = asker.uid("Star")
    page = asker.get(f"page/{uid}").json
    x, y, wide, high = page["art"]["box"]
    to = [30.0, 62.0]
    after = asker.change(uid, do="move", spot="wing", to=to).json["page"]
    assert asker.post("save").json["saved"] == ["two.toml"]
    prepared = prepare(book, BuildOptions(), BuildContext(KNOWN))
    placed = {spot.name: spot for spot in prepared.puzzles["star"].tree.spots}["wing"]
    assert spots_of(after)["wing"] == pytest.approx((x + wide * 0.3, y + high * 0.62), abs=0.5)
    shift = 0 if after["side"][1] else -4  # laid out for a right-hand side, bound on its left
    assert spots_of(after)["wing"] == pytest.approx((placed.x + shift, placed.y), abs=0.011)


def test_steps_are_undone_and_done_again_without_limit(asker: Asker) -> None:
    uid = asker.uid("Fork")
    first = asker.get(f"page/{uid}").json
    for step in range(25):
        assert asker.change(uid, do="move", spot="tail", to=[70, 60 + step / 10]).status == 200
    last = asker.get(f"page/{uid}").json
    for _ in range(25):
        assert asker.post("undo").status == 200
    assert asker.get(f"page/{uid}").json == first
    assert asker.post("undo").status == 422
    assert asker.get("state").json["unsaved"] == []
    for _ in range(25):
        asker.post("redo")
    assert asker.get(f"page/{uid}").json == last


def test_a_whole_page_is_made_by_asking(asker: Asker, book: Path) -> None:
    made = asker.picture("red_fox-02.png", encoded(photograph(640, 480), "PNG"), "two").json
    uid = made["page"]["page"]
    assert made["page"]["name"] == "Red fox 2"
    assert made["page"]["verdict"]["state"] == "mend"
    for place in ([20, 20], [80, 25], [50, 80], [75, 70]):
        asker.change(uid, do="add", to=place)
    spots = [spot["name"] for spot in asker.get(f"page/{uid}").json["spots"]]
    assert spots == ["spot_1", "spot_2", "spot_3", "spot_4"]
    asker.change(uid, do="name", spot="spot_1", to="left ear")
    for a, b in (("left_ear", "spot_2"), ("spot_2", "spot_4"), ("spot_4", "spot_3")):
        answer = asker.change(uid, do="link", a=a, b=b)
    page = answer.json["page"]
    assert page["ready"]
    assert (
        asker.change(uid, do="give", spot="spot_3", number="7").json["page"]["spots"][2]["given"]
        == "7"
    )
    asker.post("save")
    written = tomllib.loads((book.parent / "two.toml").read_text("utf-8"))["page"][1]
    assert written["art"] == "red_fox-02.png"
    assert written["links"] == ["left_ear-spot_2", "spot_2-spot_4", "spot_4-spot_3"]
    assert written["given"] == {"spot_3": 7}
    assert prepare(book, BuildOptions(), BuildContext(KNOWN)).is_sound


@pytest.mark.parametrize("band", ["", "easier", "harder", "gentle", "steep"])
def test_links_that_are_chosen_make_a_page_that_prints(asker: Asker, band: str) -> None:
    page = asker.change(asker.uid("Fork"), do="choose", band=band).json["page"]
    assert page["ready"]
    assert len(page["links"]) == len(page["spots"]) - 1
    assert not page["chosen"]


def test_problems_are_told_with_what_they_mean_and_can_be_mended(asker: Asker) -> None:
    uid = asker.uid("Star")
    loop = asker.change(uid, do="link", a="head", b="wing").json["page"]
    (fault,) = loop["verdict"]["faults"]
    assert fault["code"] == "loop"
    assert set(fault["spots"]) == {"head", "wing", "heart"}
    assert set(fault["links"]) == {"heart-head", "heart-wing", "head-wing"}
    assert len(spots_of(loop)) == 4
    assert asker.change(uid, do="unlink", link="heart-wing").json["page"]["ready"]
    loose = asker.change(uid, do="add", to=[60, 75]).json["page"]
    assert [fault["spots"] for fault in loose["verdict"]["faults"]] == [["spot_5"]]
    assert asker.change(uid, do="remove", spot="spot_5").json["page"]["ready"]


@pytest.mark.parametrize("language", ["en", "es", "fr"])
def test_the_verdict_speaks_the_book_s_language(book: Path, language: str) -> None:
    text = book.read_text("utf-8")
    book.write_text(f'{text}language = "{language}"\n', encoding="utf-8")
    asker = Asker(book)
    head = asker.get(f"page/{asker.uid('Star')}").json["verdict"]["head"]
    wanted = {
        "en": "This page is ready.",
        "es": "Esta página está lista.",
        "fr": "Cette page est prête.",
    }
    assert head == wanted[language]
    words = asker.get("words").json
    assert words["language"] == language
    assert {"Save", "Guardar", "Enregistrer"} & set(words["words"]["place.ui.save"])


BROKEN = {
    "a loop": ('links   = ["heart-head", "heart-wing", "heart-back", "head-wing"]', "loop"),
    "no links": ("", "missing-key"),
    "a stranger": ('links   = ["heart-head", "heart-wing", "heart-nose"]', "unknown-spot"),
    "no toml": ('links   = ["heart-head', "bad-toml"),
    "an unknown key": ('linkss   = ["heart-head"]', "unknown-key"),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_a_manifest_with_problems_is_opened_and_shows_them(book: Path, kind: str) -> None:
    line, code = BROKEN[kind]
    two = book.parent / "two.toml"
    lines = [
        line if each.startswith("links") else each for each in two.read_text("utf-8").splitlines()
    ]
    two.write_text("\n".join(lines), encoding="utf-8")
    asker = Asker(book)
    uid = asker.uid("Star")
    page = asker.get(f"page/{uid}").json
    assert code in {fault["code"] for fault in page["verdict"]["faults"]}
    assert {"head", "wing", "heart", "back"} <= set(spots_of(page))
    assert asker.get("book").status == 200
    if page["lines"] is not None:
        good = page["lines"].replace(line, 'links = ["heart-head", "heart-wing", "heart-back"]')
        page = asker.change(uid, do="lines", text=good).json["page"]
    else:
        page = asker.change(uid, do="choose", band="").json["page"]
    assert page["ready"], page["verdict"]


def test_a_picture_that_is_taken_away_is_told_on_its_page(asker: Asker, book: Path) -> None:
    uid = asker.uid("Path")
    (book.parent / "heron.svg").unlink()
    page = asker.get(f"page/{uid}").json
    assert "art-missing" in {fault["code"] for fault in page["verdict"]["faults"]}
    assert page["art"]["picture"] is None


def test_two_windows_on_one_file_do_not_undo_each_other(asker: Asker) -> None:
    uid, old = asker.uid("Star"), asker.revision
    asker.change(uid, do="move", spot="wing", to=[20, 50])
    late = asker.post(
        "change", revision=old, page=uid, change={"do": "move", "spot": "head", "to": [50, 20]}
    )
    assert late.status == 409
    assert late.json["error"] == "outdated"
    spots = {
        spot["name"]: (spot["x"], spot["y"]) for spot in asker.get(f"page/{uid}").json["spots"]
    }
    assert spots["wing"] == (20, 50)
    assert spots["head"] == (50, 12)


def test_an_older_question_of_a_window_is_dropped(asker: Asker) -> None:
    uid = asker.uid("Star")
    wanted = {"page": uid, "change": {"do": "move", "spot": "wing", "to": [20, 50]}, "window": "w"}
    assert asker.post("ask", turn=5, **wanted).json["page"] == uid
    assert asker.post("ask", turn=4, **wanted).json == {"dropped": True}
    assert asker.post("ask", turn=1, **{**wanted, "window": "other"}).json["page"] == uid
    assert not asker.get("state").json["undo"]


def test_a_change_made_elsewhere_is_noticed_and_both_are_kept(asker: Asker, book: Path) -> None:
    one = book.parent / "one.toml"
    fork, path = asker.uid("Fork"), asker.uid("Path")
    asker.change(fork, do="move", spot="tail", to=[71, 84])
    text = one.read_text("utf-8").replace('artist  = "a founder"', 'artist  = "the others"')
    one.write_text(text, encoding="utf-8")
    state = asker.get("state").json
    assert {each["page"]: each["where"] for each in state["elsewhere"]} == {
        fork: "both",
        path: "there",
    }
    refused = asker.post("save")
    assert (refused.status, refused.json["error"]) == (409, "elsewhere")
    assert one.read_text("utf-8") == text
    assert asker.get(f"theirs/{fork}").json["texts"]["artist"] == "the others"
    asker.post("settle", mine={str(fork): True, str(path): False})
    assert asker.post("save").status == 200
    pages = tomllib.loads(one.read_text("utf-8"))["page"]
    assert [page["artist"] for page in pages] == ["a founder", "the others"]
    assert pages[0]["spots"]["tail"] == [71, 84]


def test_what_is_unsaved_outlives_a_crash_and_is_offered_again(book: Path) -> None:
    kept = MemoryCache()
    first = Asker(book, kept)
    first.change(first.uid("Star"), do="move", spot="wing", to=[20, 50])
    second = Asker(book, kept)
    left = second.get("state").json["left"]
    assert (left["when"], left["files"], left["elsewhere"]) == ("today", ["two.toml"], False)
    second.post("left", take=True)
    page = second.get(f"page/{second.uid('Star')}").json
    assert next(spot for spot in page["spots"] if spot["name"] == "wing")["x"] == 20
    second.post("save")
    assert Asker(book, kept).get("state").json["left"] is None


def test_what_was_let_go_is_not_offered_again(book: Path) -> None:
    kept = MemoryCache()
    first = Asker(book, kept)
    first.change(first.uid("Star"), do="move", spot="wing", to=[20, 50])
    second = Asker(book, kept)
    second.post("left", take=False)
    assert Asker(book, kept).get("state").json["left"] is None


class Full:
    """A cache that forgets everything."""

    def get(self, key: str) -> bytes | None:
        return None

    def put(self, key: str, value: bytes) -> None:
        return None


def test_it_is_said_where_what_is_unsaved_can_not_be_kept(book: Path) -> None:
    asker = Asker(book, Full())
    state = asker.change(asker.uid("Star"), do="turn", on=True).json["state"]
    assert state["unsaved"] == ["two.toml"]
    assert state["safe"] is False


def test_a_full_disk_loses_nothing(
    asker: Asker, book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asker.change(asker.uid("Star"), do="move", spot="wing", to=[20, 50])
    before = (book.parent / "two.toml").read_bytes()

    def full(*_: object, **__: object) -> None:
        raise OutputFault("no space")

    with monkeypatch.context() as broken:
        broken.setattr("bookmaker.place.desk.write_all", full)
        refused = asker.post("save")
    assert (refused.status, refused.json["error"]) == (507, "not-written")
    assert (book.parent / "two.toml").read_bytes() == before
    assert asker.get("state").json["unsaved"] == ["two.toml"]
    assert asker.post("save").status == 200


def test_a_document_is_made_and_sent(asker: Asker) -> None:
    job = asker.post("make", what="book", paper=None).json
    for _ in range(200):
        now = asker.get(f"making/{job['job']}").json
        if now["state"] != "making":
            break
        time.sleep(0.02)
    assert (now["state"], now["file"]) == ("made", "made-book.pdf")
    answer = asker.get(f"made/{job['job']}/made-book.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body.startswith(b"%PDF")
    assert asker.get(f"made/{job['job']}/other.pdf").status == 404
    assert asker.post("make", what="anything").status == 400


def test_names_are_shown_as_they_are_written(asker: Asker) -> None:
    name = """<b onclick="x">"Q" & 'R'</b>"""
    page = asker.change(asker.uid("Star"), do="write", key="name", text=name).json["page"]
    assert page["name"] == name
    root = ElementTree.fromstring(page["svg"])
    assert any(name.split()[0] in (text.text or "") for text in root.iter(f"{SVG}text"))


def test_a_photograph_is_sent_reduced(asker: Asker, book: Path) -> None:
    photo = encoded(photograph(4000, 3000), "JPEG", quality=85)
    page = asker.picture("photo.jpg", photo).json["page"]
    sent = asker.get(f"picture/{page['art']['picture']}")
    assert len(sent.body) < len(photo) / 3
    little = asker.get(f"little/{page['art']['picture']}")
    assert len(little.body) < 20_000


def test_a_chapter_alone_is_placed_as_a_book_of_its_own(book: Path) -> None:
    asker = Asker(book.parent / "two.toml")
    found = asker.get("book").json
    assert (found["title"], found["book"], len(found["pages"])) == ("The reeds", False, 1)
    uid = asker.uid("Star")
    page = asker.change(uid, do="paper", paper="a5").json["page"]
    assert page["size"] == [148.0, 210.0]
    assert asker.get("state").json["unsaved"] == []
    asker.change(uid, do="position", place=1)
    asker.change(uid, do="write", key="licence", text="CC0-1.0 again")
    asker.post("save")
    assert asker.picture("more.png", encoded(photograph(64, 48), "PNG"), "two").status == 200
    assert prepare(book.parent / "two.toml", BuildOptions(), BuildContext(KNOWN)).is_sound


def test_three_hundred_pages_are_no_slower_to_change_than_three(book: Path) -> None:
    """Not timed: the answer to a change reads the page alone, however many there are."""
    two = book.parent / "two.toml"
    page = two.read_text("utf-8").split("[[page]]", 1)[1]
    pages = "".join(f"[[page]]{page}".replace('"Star"', f'"Star {n}"') for n in range(300))
    two.write_text('title = "Many"\n' + pages, encoding="utf-8")
    asker = Asker(book)
    assert len(asker.get("book").json["pages"]) == 302
    answer = asker.change(asker.uid("Star 150"), do="move", spot="wing", to=[20, 50])
    assert answer.json["page"]["ready"]
    assert two.read_text("utf-8").count("[18, 38]") == 300
    asker.post("save")
    assert two.read_text("utf-8").count("[18, 38]") == 299


def test_every_address_and_change_is_documented(project: Path) -> None:
    text = (project / "bookmaker/place/README.md").read_text("utf-8")
    for do in CHANGES:
        assert f"| `{do}` |" in text
    app = (project / "bookmaker/place/app.py").read_text("utf-8")
    routes = set(re.findall(r'Route\(f?"/([a-z]+)', app)) | {"undo", "settle", "said", "rings"}
    assert len(routes) > 10
    for path in routes:
        assert f"`{path}" in text


def test_what_a_page_leaves_to_us_is_shown_as_the_book_chooses_it_and_stays_when_it_is_touched(
    book: Path,
) -> None:
    """Links of a climb depend on the other pages; once seen and touched they are written down."""
    for file in ("one.toml", "two.toml"):
        path = book.parent / file
        lines = path.read_text("utf-8").splitlines()
        auto = ['links = "auto"' if line.startswith("links") else line for line in lines]
        path.write_text("\n".join(auto) + "\n", encoding="utf-8")
    book.write_text(book.read_text("utf-8") + "climb = true\n", encoding="utf-8")
    prepared = prepare(book, BuildOptions(), BuildContext(KNOWN))
    assert prepared.ordered is not None
    asker = Asker(book)
    for page in prepared.ordered.pages:
        shown = asker.get(f"page/{asker.uid(page.name)}").json
        assert shown["chosen"]
        assert [link["name"] for link in shown["links"]] == [link.name for link in page.links]
    uid = asker.uid("Fork")
    before = [link["name"] for link in asker.get(f"page/{uid}").json["links"]]
    after = asker.change(uid, do="move", spot="tail", to=[72, 84]).json["page"]
    assert [link["name"] for link in after["links"]] == before
    assert not after["chosen"]
    assert "spot_7" in {spot["name"] for spot in asker.change(uid, do="add").json["page"]["spots"]}
