"""Spain: Real Decreto 157/2022, by cycles of two courses.

Its bullets have no codes. It names neither denominators nor columns nor numbers below nought. The
split of a cycle into courses is usual in schools, from memory.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

_FIRST, _SECOND, _THIRD = (f"{cycle} ciclo" for cycle in ("Primer", "Segundo", "Tercer"))
_TO_999 = "Estrategias de cálculo mental con números naturales hasta 999."
_ALL = "Estrategias de cálculo mental con números naturales, fracciones y decimales."

SPAIN = Curriculum(
    document="Real Decreto 157/2022, enseñanzas mínimas de la Educación Primaria, Matemáticas, "
    "A.3 (Ministerio de Educación y Formación Profesional, BOE, 2022)",
    language="es",
    marks=("«", "»"),
    grades={
        0: "Infantil",
        **{n: f"{n}.º de Primaria" for n in range(1, 7)},
        7: "1.º de ESO",
        8: "2.º de ESO",
    },
    also={
        **{f"{n}.º ep": n for n in range(1, 7)},
        **{f"{n}º de primaria": n for n in range(1, 7)},
        **{f"{n}º ep": n for n in range(1, 7)},
        **{f"{n}º": n for n in range(1, 7)},
        **{f"{n}.º": n for n in range(1, 7)},
    },
    expected=(
        Expected(1, "1.º de Primaria", "whole", Fraction(99), "M"),
        Expected(1, _FIRST, "whole", Fraction(999), "V2", _TO_999),
        Expected(3, _SECOND, "whole", Fraction(9999), "P"),
        *(
            Expected(
                3,
                _SECOND,
                kind,
                Fraction(1),
                "V2",
                "Estrategias de cálculo mental con números naturales y fracciones.",
            )
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        Expected(4, "4.º de Primaria", "whole", Fraction(999_999), "M"),
        Expected(5, _THIRD, "whole", NO_LIMIT, "V2", _ALL),
        Expected(5, _THIRD, "decimal", NO_LIMIT, "V2", _ALL, places=3),
        *(
            Expected(5, _THIRD, kind, NO_LIMIT, "V2", _ALL)
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        *(Expected(7, "1.º de ESO", kind, NO_LIMIT, "M") for kind in ("negative", "across zero")),
    ),
    by_heart={2: 10, 3: 20, 4: 99, 5: 999, 6: 9999, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20", "to 20 and beyond"),
        2: ("to 100", "three digits"),
        3: ("two digits", "three digits", "four digits"),
        4: ("four digits", "large"),
        5: ("tenths", "hundredths"),
        6: ("hundredths", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
