"""Children are called tu, teachers and families vous and usted; no text calls its reader both.

RAE, Nueva gramática (2009), 16.15, on tú and usted; Grevisse, Le bon usage, on tu and vous: both
from memory.
"""

from __future__ import annotations

import re

import pytest

from bookmaker.words import load

FOR_CHILDREN = ("howto.", "own.", "record.", "sheet.", "slip.")
FOR_ADULTS = ("family.", "test.", "booklet.", "sheets.", "privacy.", "review.", "key.", "marking.")
FOR_ADULTS += ("ramp.", "notes.", "plan.", "practice.", "ask.", "wrong.", "loose.", "tokens.")
FOR_ADULTS += ("slips.",)
FAMILIAR = {
    "fr": r"\b(tu|toi|te|ton|ta|tes)\b|\bt’|-(toi|tu)\b"
    r"|\b(Écris|Dessine|Mets|Relie|Coche|Garde|Trace|Résous|Donne|Essaie|Regarde|Demande)\b",
    "es": r"\b(tú|tu|tus|te|ti|tuya|tuyo|has)\b"
    r"|\b(Escribe|Usa|Dibuja|Ponle|Únelos|Resuélvela|Marca|Deja|Cambia|Prueba|Pregunta|Busca|Suma)\b",
}
POLITE = {
    "fr": r"\b(vous|votre|vos)\b|\b[A-ZÉ]?[a-zéèêç]{2,}ez\b",
    "es": r"\b(usted|ustedes)\b|\b(Imprima|Ponga|Escriba|Corte|Dé|Pregunte|Busque|Revise|Guarde"
    r"|Borre|Imprime|Elija|elija|busque|escriba|diga|espere)\b",
}
NOT_POLITE = {"assez", "chez", "nez"}


def polite(language: str, text: str) -> bool:
    found = (match[0].lower() for match in re.finditer(POLITE[language], text))
    return any(word not in NOT_POLITE for word in found)


def familiar(language: str, text: str) -> bool:
    return re.search(FAMILIAR[language], text) is not None


@pytest.mark.parametrize("language", sorted(FAMILIAR))
def test_no_text_calls_its_reader_two_ways(language: str) -> None:
    for key, forms in load(language).table.items():
        text = " ".join(forms)
        assert not (polite(language, text) and familiar(language, text)), (key, text)


@pytest.mark.parametrize("language", sorted(FAMILIAR))
def test_children_are_spoken_to_familiarly_and_adults_politely(language: str) -> None:
    for key, forms in load(language).table.items():
        text = " ".join(forms)
        if key.startswith(FOR_CHILDREN) and not key.startswith("slips."):
            assert not polite(language, text), (key, text)
        if key.startswith(FOR_ADULTS):
            assert not familiar(language, text), (key, text)


@pytest.mark.parametrize(
    ("language", "text", "both"),
    [
        ("fr", "Demandez, et regarde ton dessin", True),
        ("fr", "Relisez chez vous", False),
        ("es", "Pregunte y mira tu dibujo", True),
        ("es", "Escribe tu nombre", False),
    ],
)
def test_the_two_ways_are_told_apart(language: str, text: str, both: bool) -> None:
    assert (polite(language, text) and familiar(language, text)) == both
