"""A statement that is no TOML in, what is wrong with it in plain words out."""

from __future__ import annotations

import re
from dataclasses import dataclass

from bookmaker.reading.lines import Statement, Where

_CURLY = re.compile("[“”„‟«»‘’‚]")
_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)$")
_BARE_KEY = re.compile(r"""^[^\s="'\[]+""")
_WORDS = re.compile(r"""=[ \t]*([^\W\d][^"'\[\]{}#,=\n]*)""")
_NOUGHT = re.compile(r"[=\[,][ \t]*0\d")
_APART = re.compile(r"\[[ \t]*(\d+(?:\.\d+)?)(?:[ \t]+|[ \t]*;[ \t]*)(\d+(?:\.\d+)?)[ \t]*\]")
_BARE_PAIR = re.compile(r"=[ \t]*\(?(\d+(?:\.\d+)?),[ \t]*(\d+(?:\.\d+)?)\)?[ \t]*(?:#.*)?$")
_PER_CENT = re.compile(r"[=\[,][ \t]*\d+(?:\.\d+)?[ \t]*%")
_DOT = re.compile(r"[=\[,][ \t]*(?:\.\d|\d+\.(?:\D|$))")

BACKSLASH = "\\ has a meaning of its own in a text", "Write / between folders, and \\\\ for \\."
_BROKEN = {
    "text": (
        "the text that starts here has no closing quotation mark",
        "Write a quotation mark where the text ends.",
    ),
    "long text": (
        "the long text that starts here has no closing quotation marks",
        "Write three quotation marks where the text ends, as at its start.",
    ),
    "list": (
        "the list that starts here is never closed",
        "Write ] at its end, and a comma between its entries.",
    ),
    "comma": (
        "a comma is missing after this entry of the list",
        "Write a comma between two entries.",
    ),
    "table": (
        "the table that starts here is never closed",
        "Write } at its end, and a comma between its entries.",
    ),
    "header": (
        "this heading has not as many ] at its end as [ at its start",
        "Write as many of both, like [[page]] or [page.spots].",
    ),
    "equals": (
        "this line is neither a heading nor a key with its value",
        'Write a key, an equals sign and a value, like name = "Newt".',
    ),
    "key": (
        "this line has no key that can be read",
        'Write a key, an equals sign and a value, like name = "Newt".',
    ),
    "value": (
        "there is no value after the equals sign",
        'Write one, like name = "Newt" or position = 2, or take the line out.',
    ),
    "end": (
        "something stands after the value that does not belong there",
        'Take it out; write a quotation mark inside a text as \\".',
    ),
    "depth": (
        "lists, tables or the parts of a key stand within each other more than 50 deep",
        "Check the brackets and points of this line; no key needs more than three.",
    ),
}


@dataclass(frozen=True, slots=True)
class Slip:
    """A fault in the writing: its line, a code word, what is wrong, how to mend it.

    ``where`` is the way to the value that can't be read for it, as far as that is known.
    """

    line: int
    code: str
    message: str
    mend: str
    where: Where = ()


def slip_of_bytes(data: bytes, at: int) -> Slip:
    """The slip of a file that is not UTF-8, from the byte ``at`` on."""
    line = data.count(b"\n", 0, at) + 1
    return Slip(
        line,
        "bad-encoding",
        "the file is not written in UTF-8, the encoding that TOML asks for",
        'Open it in a text editor and save it again with the encoding "UTF-8".',
    )


def slip_of_document(error: Exception) -> Slip:
    """The slip of a file whose statements are good one by one but not together."""
    text = str(error)
    place = _PLACE.search(text)
    line = int(place[1]) if place and place[1] else 1
    what = _PLACE.sub("", text) or type(error).__name__
    return Slip(
        line,
        "bad-toml",
        f"the file can't be read as TOML from here on ({what})",
        "Compare the line with the manifest reference: does its heading stand where it should?",
    )


def slip_of_statement(piece: str, statement: Statement, error: Exception | None) -> Slip:
    """The slip of one statement: ``piece`` is its text, ``error`` what the TOML reader said."""
    line = statement.broken_line or statement.line
    if error is None:
        what = "this heading" if statement.is_header else str(statement.where[-1])
        message = f"{what} is written twice, here and in line {statement.first}"
        mend = "Take one of the two out."
        return Slip(statement.line, "bad-toml", message, mend, statement.where)
    for fault_of in (
        *(_colon, _curly, _broken_words, _two_numbers, _ending, _broken),
        *(_number, _key, _sign),
    ):
        fault = fault_of(piece, statement, str(error))
        if fault:
            return Slip(line, "bad-toml", *fault, statement.where)
    place = _PLACE.search(str(error))
    if place and place[1]:
        line = statement.line + int(place[1]) - 1
    message = f"this can't be read as TOML ({_PLACE.sub('', str(error)) or 'too deep'})"
    mend = 'Write a key, an equals sign and a value, like name = "Newt".'
    return Slip(line, "bad-toml", message, mend, statement.where)


Fault = tuple[str, str] | None
_INVISIBLE = "an invisible control character stands in this line", "Type the line anew."


def _colon(piece: str, statement: Statement, error: str) -> Fault:
    if statement.broken != "equals" or not re.match(r"[^\s=]+[ \t]*:", piece):
        return None
    return "a colon stands where an equals sign should", "Write = instead of the colon."


def _curly(piece: str, statement: Statement, error: str) -> Fault:
    if not _CURLY.search(re.sub(r'"[^"\n]*"', "", piece)):
        return None
    return (
        "the quotation marks are curly ones, as word processors write them",
        'Type straight ones instead: " at both ends.',
    )


def _broken_words(piece: str, statement: Statement, error: str) -> Fault:
    found = _WORDS.search(piece)
    if not found or statement.is_header or statement.broken in ("equals", "key"):
        return None
    words = found[1].strip()
    if words.lower() in ("true", "false"):
        if words in ("true", "false"):
            return None
        return f"{words} is written with a capital letter", f"Write {words.lower()}."
    if words.lower() in ("inf", "nan"):
        return None
    return f"{_short(words)} stands without quotation marks", f'Write "{_short(words)}".'


def _ending(piece: str, statement: Statement, error: str) -> Fault:
    """A folder's name that ends in a backslash: the quotation mark behind it ends nothing."""
    line = piece.partition("\n")[0].rstrip()
    is_text = statement.broken == "text" and line.endswith('\\"')
    return BACKSLASH if is_text and not line.endswith('\\\\"') else None


def _broken(piece: str, statement: Statement, error: str) -> Fault:
    if statement.is_header and statement.broken != "header":
        return "this heading can't be read", "Write it like [[page]] or [page.spots]."
    if statement.broken == "end" and _NOUGHT.search(piece):
        return None
    return _BROKEN.get(statement.broken)


def _two_numbers(piece: str, statement: Statement, error: str) -> Fault:
    """A place on the picture, written as it may be written elsewhere."""
    if "%" in piece and _PER_CENT.search(piece):
        return "a number has a per cent sign", "Write the number alone, like [12, 40]."
    apart = _APART.search(piece)
    if apart:
        told = f"[{apart[1]}, {apart[2]}]"
        return "a comma is missing between the two numbers", f"Write {told}."
    bare = _BARE_PAIR.search(piece)
    if bare:
        return "a place stands in square brackets", f"Write [{bare[1]}, {bare[2]}]."
    return None


def _number(piece: str, statement: Statement, error: str) -> Fault:
    if re.search(r"\d{1000}", piece.replace("_", "")):
        return "a number has more digits than can be read", "Write a number of at most 12 digits."
    if _NOUGHT.search(piece):
        return "a number starts with a nought", "Write 5 instead of 05."
    if _DOT.search(piece):
        return "a digit is missing beside the decimal point", "Write 0.5 or 5.0."
    return None


def _key(piece: str, statement: Statement, error: str) -> Fault:
    key = _BARE_KEY.match(piece)
    if statement.is_header or not key or key[0].isascii():
        return None
    name = key[0]
    if not name.isprintable():
        return _INVISIBLE
    return (
        f"{_short(name)} has letters that TOML takes only between quotation marks",
        f'Write "{_short(name)}" before the equals sign.',
    )


def _sign(piece: str, statement: Statement, error: str) -> Fault:
    if "\\" in piece and re.search("escape|hex|scalar", error, re.IGNORECASE):
        return BACKSLASH
    if error.startswith("Expected newline"):
        return _BROKEN["end"]
    if "{" in piece and "\n" in piece:
        return "a table in { } must stand on one line", "Join its lines into one."
    if re.search(r"[\x00-\x08\x0b-\x1f\x7f]", piece):
        return _INVISIBLE
    return None


def _short(text: str) -> str:
    visible = "".join(sign if sign.isprintable() else " " for sign in text)
    return visible if len(visible) <= 40 else visible[:39] + "…"
