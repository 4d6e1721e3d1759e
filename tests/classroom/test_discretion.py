"""What a roster forbids in one column it does not give away in another."""

from pathlib import Path

import pytest

from bookmaker.classroom.discretion import discreet
from bookmaker.model import Classroom, Pupil


def room(*pupils: Pupil) -> Classroom:
    return Classroom("heron", "Heron", "class.toml", Path(), Path("b.toml"), "roster.csv", pupils)


@pytest.mark.parametrize(
    ("name", "creature", "stays"),
    [
        ("Bruno", "Bruno's dragon", False),
        ("Bruno", "BRUNO", False),
        ("Bruno", "the dragon of bruno", False),
        ("Zoe\u0308", "Zo\u00eb the fish", False),
        ("Olivia B", "Olivia's newt", False),
        ("Bruno", "Brunonian newt", True),
        ("Al", "Algae", True),
        ("17", "A newt with 17 legs", True),
        ("Bruno", "Dragon", True),
        ("Bruno", "", True),
    ],
)
def test_a_title_does_not_say_the_name_of_a_pupil_who_is_not_to_be_named(
    name: str, creature: str, stays: bool
) -> None:
    pupil = Pupil(name, drawing="class", creature=creature, credit=name, line=2)
    found, problems = discreet(room(pupil))
    assert found.pupils[0].creature == (creature if stays else "")
    assert [(p.code, p.line, p.severity) for p in problems] == (
        [] if stays else [("name-kept-back", 2, "warning")]
    )


def test_a_pupil_who_may_be_named_may_be_named_in_the_title() -> None:
    pupil = Pupil("Zo\u00eb", "", "class", True, "Zo\u00eb's newt", "Zo\u00eb")
    assert discreet(room(pupil)) == (room(pupil), ())


@pytest.mark.parametrize(("drawing", "shown"), [("class", False), ("no", True)])
def test_nor_does_another_pupil_s_row(drawing: str, shown: bool) -> None:
    bruno = Pupil("Bruno", "", drawing, shown, "", "Bruno")  # type: ignore[arg-type]
    zoe = Pupil("Zo\u00eb", "", "class", True, "Bruno's friend", "Zo\u00eb and Bruno", line=3)
    found, problems = discreet(room(bruno, zoe))
    assert (found.pupils[1].creature, found.pupils[1].credit) == ("", "Zo\u00eb")
    assert [problem.line for problem in problems] == [3, 3]


def test_two_of_one_first_name_do_not_hide_each_other() -> None:
    b = Pupil("Olivia B", "", "class", False, "One-eyed Bo", "Olivia B")
    m = Pupil("Olivia M", "", "class", True, "Olivia's eel", "Olivia")
    assert discreet(room(b, m)) == (room(b, m), ())


def test_a_row_that_prints_nothing_is_not_told_of() -> None:
    pupil = Pupil("Dora", "", "no", True, "Dora's newt", "Dora")
    assert discreet(room(pupil))[1] == ()
