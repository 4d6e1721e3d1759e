"""What a roster forbids in one column it does not give away in another."""

from __future__ import annotations

import random
import unicodedata
from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.classroom.forgotten import Forgotten, read_forgotten
from bookmaker.classroom.redaction import redacted
from bookmaker.model import Classroom, Problem, Pupil, Swap

NOBODY = Forgotten()


def room(*pupils: Pupil, **said: object) -> Classroom:
    made = Classroom("heron", "Heron", "class.toml", Path(), Path("b.toml"), "roster.csv", pupils)
    return replace(made, **said)  # type: ignore[arg-type]


def codes(problems: tuple[Problem, ...]) -> list[tuple[str, int, str]]:
    return [(problem.code, problem.line, problem.severity) for problem in problems]


@pytest.mark.parametrize(
    ("name", "creature", "stays"),
    [
        ("Bruno", "Bruno's dragon", False),
        ("Bruno", "BRUNO", False),
        ("Bruno", "the dragon of bruno", False),
        ("Zoe\u0308", "Zo\u00eb the fish", False),
        ("Zo\u00eb", "ZOE", False),
        ("Olivia B", "Olivia's newt", False),
        ("Olivia B", "Olivia the owl", False),
        ("Qabil Zyxwv", "QABIL and me", False),
        ("Qabil Zyxwv", "Qabils Drache", False),
        ("Qabil Zyxwv", "Zyxwv fish", False),
        ("Qabil Zyxwv", "moon-qabil-fish", False),
        ("Qabil Zyxwv", "QabilFish", False),
        ("Qabil Zyxwv", "the_qabil_2", False),
        ("Anne-Marie", "Marie the eel", False),
        ("O'Brien", "O\u2019Brien's eel", False),
        ("O'Brien", "Obriens Aal", False),
        ("M\u00fcller", "Muellers Frosch", False),
        ("\u0141ukasz", "Lukasz", False),
        ("Carla", "Carlita la nutria", False),
        (
            "\u0418\u0432\u0430\u043d",
            "\u0418\u0432\u0430\u043d\u0430",
            False,
        ),
        ("\u738b\u82b3", "\u5c0f\u738b\u82b3\u7684\u9c7c", False),
        ("\u0930\u093e\u092e", "\u0930\u093e\u092e fish", False),
        ("\ubbfc\uc900", "\ubbfc\uc900\uc774\uc758 \uac1c\uad6c\ub9ac", False),
        ("\u05d3\u05d5\u05d3", "\u05dc\u05d3\u05d5\u05d3", False),
        ("Will", "It will fly", False),
        ("Bruno", "Brunonian newt", True),
        ("Al", "Algae", True),
        ("Rose", "Primrose", True),
        ("17", "A newt with 17 legs", True),
        ("Olivia B", "B the eel", True),
        ("Bruno", "Dragon", True),
        ("Bruno", "", True),
    ],
)
def test_a_title_does_not_say_the_name_of_a_pupil_who_is_not_to_be_named(
    name: str, creature: str, stays: bool
) -> None:
    pupil = Pupil(name, drawing="class", creature=creature, credit=name, line=2)
    found, problems = redacted(room(pupil), NOBODY)
    assert found.pupils[0].creature == (creature if stays else "")
    assert codes(problems) == ([] if stays else [("name-kept-back", 2, "warning")])


def test_a_pupil_who_may_be_named_may_be_named_in_the_title() -> None:
    pupil = Pupil("Zo\u00eb", "", "class", True, "Zo\u00eb's newt", "Zo\u00eb")
    assert redacted(room(pupil), NOBODY) == (room(pupil), ())


@pytest.mark.parametrize(("drawing", "shown"), [("class", False), ("no", True), ("own", True)])
def test_nor_does_another_pupil_s_row(drawing: str, shown: bool) -> None:
    bruno = Pupil("Bruno", "", drawing, shown, "", "Bruno")  # type: ignore[arg-type]
    zoe = Pupil("Zo\u00eb", "", "class", True, "Bruno's friend", "Zo\u00eb & Bruno", line=3)
    found, problems = redacted(room(bruno, zoe), NOBODY)
    assert (found.pupils[1].creature, found.pupils[1].credit) == ("", "Zo\u00eb")
    assert [problem.line for problem in problems] == [3, 3]


def test_a_pupil_is_named_in_the_own_copy_alone_where_the_roster_says_own() -> None:
    bruno = Pupil("Bruno", "", "own", True, "Bruno's dragon", "Bruno")
    assert redacted(room(bruno), NOBODY, bruno)[0].pupils == (bruno,)
    assert redacted(room(bruno), NOBODY)[0].pupils[0].creature == ""


def test_a_word_that_a_pupil_who_may_be_named_shares_may_be_printed() -> None:
    b = Pupil("Olivia B", "", "class", False, "One-eyed Bo", "Olivia B")
    m = Pupil("Olivia M", "", "class", True, "Olivia's eel", "Olivia")
    assert redacted(room(b, m), NOBODY) == (room(b, m), ())


def test_an_ordinary_word_is_let_pass_where_the_teacher_says_so_and_told_where_not() -> None:
    rose = Pupil("Rose", "", "class", False, "Compass rose", "Rose", line=2)
    kept, (problem,) = redacted(room(rose), NOBODY)
    assert kept.pupils[0].creature == ""
    assert 'may_print = ["rose"]' in problem.mend
    passed = room(rose, may_print=("Rose",))
    assert redacted(passed, NOBODY) == (passed, ())


def test_a_row_that_prints_nothing_is_not_told_of() -> None:
    pupil = Pupil("Dora", "", "no", True, "Dora's newt", "Dora")
    assert redacted(room(pupil), NOBODY)[1] == ()


def test_what_is_typed_in_the_class_s_manifest_is_looked_through_too() -> None:
    bruno = Pupil("Bruno", "", "class", False, "", "Bruno")
    swap = Swap("newt", "newt", Path("mine.jpg"), "Bruno the newt", "Bruno's mother")
    lines = (("title", 1), ("swap.newt", 5))
    made = room(bruno, title="Bruno and friends", swaps=(swap,), lines=lines)
    found, problems = redacted(made, NOBODY)
    assert found.title == ""
    assert (found.swaps[0].name, found.swaps[0].artist) == ("", "")
    assert [problem.line for problem in problems] == [1, 5, 5]


def test_a_forgotten_name_is_held_back_by_its_hash_and_stands_nowhere(tmp_path: Path) -> None:
    forgotten = NOBODY.with_name("Qabil Zyxwv").with_name("Ir\u00e8ne")
    (tmp_path / "forgotten.csv").write_bytes(forgotten.to_bytes())
    assert b"abil" not in forgotten.to_bytes().lower()
    again = read_forgotten(tmp_path)
    assert again == forgotten
    for title in ("QABIL and me", "Qabils Drache", "irene's eel", "Zyxwv"):
        eve = Pupil("Eve", "", "class", True, title, "Eve & Qabil", line=4)
        found, problems = redacted(room(eve), again)
        assert (found.pupils[0].creature, found.pupils[0].credit) == ("", "Eve"), title
        assert len(problems) == 2
    plain = Pupil("Eve", "", "class", True, "Dragon", "Eve")
    assert redacted(room(plain), again) == (room(plain), ())
    qabil = Pupil("Qabil", "", "class", True, "Qabil's eel", "Qabil")
    assert redacted(room(qabil), again)[1] == ()  # another child of that name, who may be named


SYLLABLES = ("ka", "lo", "mi", "\u00e9n", "ru", "sha", "t\u00f6", "yn", "bel", "za")


def any_name(rng: random.Random) -> str:
    words = ["".join(rng.choices(SYLLABLES, k=rng.randint(2, 4))).title() for _ in range(2)]
    return rng.choice((" ", "-")).join(words[: rng.randint(1, 2)])


def bare(text: str) -> str:
    """Without accents and capitals, by another way than the program's."""
    return "".join(c for c in unicodedata.normalize("NFD", text.lower()) if c.isascii())


def test_no_word_of_a_hidden_name_is_left_in_any_text_of_random_classes() -> None:
    rng = random.Random(15)
    for _ in range(200):
        names = list({any_name(rng) for _ in range(12)})
        pupils = [
            Pupil(
                name,
                "",
                rng.choice(("class", "own", "no")),
                rng.random() < 0.5,
                f"{rng.choice(names).upper()}{rng.choice(('', 's', chr(39) + 's'))} newt",
                f"{name} & {rng.choice(names)}",
            )
            for name in names
        ]
        found, _ = redacted(room(*pupils, title=f"Class of {rng.choice(names)}"), NOBODY)
        named = {p.name for p in pupils if p.show_name and p.drawing == "class"}
        free = {bare(w) for n in named for w in n.replace("-", " ").split()}
        hidden = {bare(w) for n in names for w in n.replace("-", " ").split()} - free
        printed = [found.title, *(p.creature for p in found.pupils if p.drawing == "class")]
        printed += [p.credit for p in found.pupils if p.name in named]
        for text in printed:
            words = set(bare(text).replace("-", " ").replace("'s", "").split())
            words |= {word.removesuffix("s") for word in words}
            assert not words & hidden, (text, hidden)
