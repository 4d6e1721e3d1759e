"""Every language says everything, with the same places to fill and its own plural forms."""

from __future__ import annotations

import ast
import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.plurals import get_plural

import bookmaker
from bookmaker.typeset import missing_letters
from bookmaker.words import languages, load

PACKAGE = Path(bookmaker.__file__).parent
OTHERS = [language for language in languages() if language != "en"]


def places(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


@pytest.mark.parametrize("language", OTHERS)
def test_every_table_has_the_keys_of_the_english_one(language: str) -> None:
    assert set(load(language).table) == set(load("en").table)


@pytest.mark.parametrize("language", OTHERS)
def test_every_form_fills_the_same_places(language: str) -> None:
    theirs, ours = load(language).table, load("en").table
    for key, forms in ours.items():
        wanted = set().union(*map(places, forms))
        assert set().union(*map(places, theirs[key])) == wanted, key


@pytest.mark.parametrize("language", languages())
def test_nothing_is_left_unsaid(language: str) -> None:
    for key, forms in load(language).table.items():
        assert all(form.strip() for form in forms), key


@pytest.mark.parametrize("language", languages())
def test_there_are_as_many_plural_forms_as_the_language_has(language: str) -> None:
    """CLDR's plural rules, as Babel carries them; some count millions as a form of their own."""
    words = load(language)
    expected = min(get_plural(language).num_plurals, 2)
    for key, forms in words.table.items():
        assert len(forms) in (1, expected), key


def test_nought_is_singular_in_french_and_plural_in_english_and_spanish() -> None:
    """CLDR, language plural rules: fr one: i = 0,1; en and es one: n = 1."""
    assert load("fr")("cover.puzzles", 0) == "0 créature à résoudre"
    assert load("es")("cover.puzzles", 0) == "0 criaturas por resolver"
    assert load("en")("cover.puzzles", 0) == "0 creatures to solve"
    assert load("en")("cover.puzzles", 1) == "1 creature to solve"


def test_decimals_are_written_as_the_language_does() -> None:
    """CLDR, number symbols: decimal "." in en, "," in es and fr."""
    assert [load(language).number("0.5") for language in ("en", "es", "fr")] == [
        "0.5",
        "0,5",
        "0,5",
    ]
    assert load("fr").number("1/4") == "1/4"


def test_french_marks_are_held_by_spaces_that_do_not_break() -> None:
    """Before ; : ! ? and inside guillemets (Imprimerie nationale, Lexique des regles
    typographiques; from memory)."""
    for key, forms in load("fr").table.items():
        for form in forms:
            assert not re.search(r"[^\s\u00a0(][;!?»](?!\w)|[^\s\u00a0]:(?!\w)", form), (key, form)
            assert not re.search(r" [;:!?»]|« ", form), (key, form)


def test_spanish_questions_and_calls_are_opened_as_well() -> None:
    """Real Academia Española, Ortografía (2010), 3.4.9: both marks are needed; from memory."""
    for key, forms in load("es").table.items():
        for form in forms:
            assert form.count("¿") == form.count("?"), key
            assert form.count("¡") == form.count("!"), key


@pytest.mark.parametrize("language", languages())
def test_the_faces_have_every_letter_that_is_printed(language: str) -> None:
    for key, forms in load(language).table.items():
        for form in forms:
            shown = "".join(form.split())
            assert not missing_letters(shown, "text"), key
            assert not missing_letters(shown, "strong"), key
            if key.endswith("title"):
                assert not missing_letters(shown, "title"), key


def keys_in_code() -> Iterator[str]:
    """Literal keys handed to something called ``words``."""
    for file in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and node.args:
                name = getattr(node.func, "id", getattr(node.func, "attr", ""))
                first = node.args[0]
                if name == "words" and isinstance(first, ast.Constant):
                    yield str(first.value)


def test_code_asks_for_no_word_that_the_tables_lack() -> None:
    asked = set(keys_in_code())
    assert len(asked) > 20
    assert asked <= set(load("en").table)


def askable_keys() -> Iterator[str]:
    """What a key may look like, as a regular expression: every text in the package, and every text
    with places that begins or ends like a key."""
    for file in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield re.escape(node.value)
            if isinstance(node, ast.JoinedStr):
                parts = [getattr(part, "value", None) for part in node.values]
                told = "".join(part for part in parts if isinstance(part, str))
                if re.fullmatch(r"[a-z-]+\.[a-z.]*|\.[a-z]{4,}", told):
                    yield "".join(re.escape(p) if isinstance(p, str) else ".+" for p in parts)
    yield from keys_of_the_screen()


def keys_of_the_screen() -> Iterator[str]:
    """What the browser's page asks for: texts in quotation marks, and those with places."""
    for file in sorted((PACKAGE / "place" / "screen").iterdir()):
        for _, key in re.findall(r"""(["'`])(place\.[^"'`]+)\1""", file.read_text("utf-8")):
            yield ".+".join(map(re.escape, re.split(r"\$\{[^}]*\}", key)))


def test_no_table_has_a_word_that_no_code_asks_for() -> None:
    asked = re.compile("|".join(sorted(set(askable_keys()))))
    assert [key for key in load("en").table if not asked.fullmatch(key)] == []


def test_a_word_that_is_missing_is_an_error() -> None:
    with pytest.raises(KeyError):
        load("en")("no.such.word")
    with pytest.raises(KeyError):
        load("xx")
