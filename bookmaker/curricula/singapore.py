"""Singapore: 2021 Primary Mathematics Syllabus, P1 to P6.

Numbering restarts in each level and topic, so level and topic stand in its place.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

SINGAPORE = Curriculum(
    document="2021 Primary Mathematics Syllabus P1 to P6 (Ministry of Education, Singapore)",
    language="en",
    marks=("“", "”"),
    grades={0: "Kindergarten 2", **{n: f"Primary {n}" for n in range(1, 7)}, 7: "Secondary 1"},
    also={**{f"p{n}": n for n in range(1, 7)}, "sec 1": 7},
    expected=(
        Expected(1, "P1, Whole Numbers", "whole", Fraction(20), "P"),  # mental, one bullet of 2.7
        Expected(
            1,
            "P1, Whole Numbers",
            "whole",
            Fraction(100),
            "V2",
            "adding and subtracting within 100",
        ),
        Expected(
            2,
            "P2, Whole Numbers",
            "whole",
            Fraction(999),
            "V2",
            "addition and subtraction algorithms (up to 3 digits)",
        ),
        Expected(
            2,
            "P2, Fractions",
            "like fractions",
            Fraction(1),
            "V2",
            "adding and subtracting like fractions within one whole with denominators of given "
            "fractions not exceeding 12",
        ),
        Expected(
            3,
            "P3, Whole Numbers",
            "whole",
            Fraction(9999),
            "V2",
            "addition and subtraction algorithms (up to 4 digits)",
        ),
        Expected(
            3,
            "P3, Fractions",
            "related fractions",
            Fraction(1),
            "V2",
            "adding and subtracting two related fractions within one whole",
        ),
        Expected(
            3,
            "P3, Money",
            "decimal",
            NO_LIMIT,
            "V2",
            "adding and subtracting money in decimal notation",
            places=2,
        ),
        *(
            Expected(
                4,
                "P4, Fractions",
                kind,
                NO_LIMIT,
                "V2",
                "adding and subtracting fractions with denominators of given fractions not "
                "exceeding 12 and not more than two different denominators",
            )
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        Expected(
            4,
            "P4, Decimals",
            "decimal",
            NO_LIMIT,
            "V2",
            "adding and subtracting decimals (up to 2 decimal places)",
            places=2,
        ),
        *(Expected(7, "Secondary 1", kind, NO_LIMIT, "M") for kind in ("negative", "across zero")),
    ),
    by_heart={2: 20, 3: 99, 4: 999, 5: 9999, 6: 9999, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20", "to 100"),
        2: ("two digits", "three digits"),
        3: ("three digits", "four digits"),
        4: ("tenths", "hundredths"),
        5: ("large", "hundredths", "unlike fractions"),
        6: ("large", "hundredths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
