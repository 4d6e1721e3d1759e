"""Germany: what is usual from Klasse 1 to Klasse 4.

The national standards (KMK 2022) name targets for the end of Klasse 4 alone, and their sentence is
known from memory. Ranges of numbers by class are those of a school's own page, which is no official
text. What is quoted is Bavaria's LehrplanPLUS, of which "M1/2 1.2" is built by analogy.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import Curriculum, Expected

GERMANY = Curriculum(
    document="LehrplanPLUS Grundschule, Mathematik (Bayern); andere Länder haben eigene Pläne",
    language="de",
    marks=("„", "“"),
    grades={0: "Vorschule", **{n: f"Klasse {n}" for n in range(1, 9)}},
    also={
        **{f"{n}. klasse": n for n in range(1, 9)},
        **{f"jahrgangsstufe {n}": n for n in range(1, 9)},
    },
    expected=(
        Expected(1, "Klasse 1", "whole", Fraction(20), "P"),
        *(
            Expected(
                grade,
                "Bayern, M1/2 1.2",
                "whole",
                Fraction(limit),
                "V1",
                "nutzen Rechenstrategien (Rechnen in Schritten, Umkehr- und Tauschaufgaben, "
                "analoge Aufgaben, Nachbaraufgaben) sowohl im Zahlenraum bis 20 als "
                "auch im Zahlenraum bis 100, …",
            )
            for grade, limit in ((1, 20), (2, 100))
        ),
        Expected(3, "Klasse 3", "whole", Fraction(1000), "P"),
        Expected(
            4,
            "Bayern, M3/4 1.2",
            "whole",
            Fraction(10**6),
            "V1",
            "lösen Aufgaben im Zahlenraum bis zur Million zu allen vier Grundrechenarten",
        ),
        Expected(4, "Klasse 4", "decimal", Fraction(1000), "M", places=2),  # as quantities alone
        Expected(5, "Klasse 5", "across zero", Fraction(10**6), "M"),
        Expected(6, "Klasse 6", "decimal", Fraction(10**6), "M", places=6),
        *(
            Expected(6, "Klasse 6", kind, Fraction(10**6), "M")
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        Expected(7, "Klasse 7", "negative", Fraction(10**6), "M"),
    ),
    by_heart={2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 20 and beyond", "to 100"),
        3: ("two digits", "three digits"),
        4: ("four digits", "large"),
        5: ("large",),
        6: ("hundredths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
