"""England: national curriculum, mathematics programmes of study, key stages 1 and 2 (2013).

It has no official codes. Year 2 asks for no column method, and objects, pictures and the head are
what its statutory sentence names.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

ENGLAND = Curriculum(
    document="The national curriculum in England: mathematics programmes of study, key stages 1 "
    "and 2 (Department for Education, 2013)",
    language="en",
    marks=("“", "”"),
    grades={0: "Reception", **{n: f"Year {n}" for n in range(1, 9)}},
    also={**{f"y{n}": n for n in range(1, 9)}, "yr": 0, "r": 0},
    expected=(
        Expected(
            1,
            "Year 1",
            "whole",
            Fraction(20),
            "V2",
            "represent and use number bonds and related subtraction facts within 20",
        ),
        Expected(
            1,
            "Year 1",
            "whole",
            Fraction(20),
            "V2",
            "add and subtract one-digit and two-digit numbers to 20, including zero",
        ),
        Expected(
            2,
            "Year 2",
            "whole",
            Fraction(20),
            "V2",
            "recall and use addition and subtraction facts to 20 fluently, and derive and use "
            "related facts up to 100",
        ),
        Expected(
            2,
            "Year 2",
            "whole",
            Fraction(99),
            "V2",
            "add and subtract numbers using concrete objects, pictorial representations, and "
            "mentally, including: a two-digit number and ones; a two-digit number and tens; two "
            "two-digit numbers; …",
        ),
        Expected(
            3,
            "Year 3",
            "whole",
            Fraction(999),
            "V1",
            "add and subtract numbers with up to three digits, using formal written methods of "
            "columnar addition and subtraction",
        ),
        Expected(
            3,
            "Year 3",
            "like fractions",
            Fraction(1),
            "V2",
            "add and subtract fractions with the same denominator within one whole [for example, "
            "5/7 + 1/7 = 6/7]",
        ),
        Expected(
            4,
            "Year 4",
            "whole",
            Fraction(9999),
            "V1",
            "add and subtract numbers with up to 4 digits using the formal written methods of "
            "columnar addition and subtraction where appropriate",
        ),
        Expected(4, "Year 4", "like fractions", NO_LIMIT, "P"),
        Expected(4, "Year 4", "decimal", NO_LIMIT, "M", places=2),  # as money and measures
        Expected(
            5,
            "Year 5",
            "whole",
            NO_LIMIT,
            "V1",
            "add and subtract whole numbers with more than 4 digits, including using formal "
            "written methods (columnar addition and subtraction)",
        ),
        *(
            Expected(
                5,
                "Year 5",
                kind,
                NO_LIMIT,
                "V2",
                "add and subtract fractions with the same denominator, and denominators that are "
                "multiples of the same number",
            )
            for kind in ("like fractions", "related fractions")
        ),
        Expected(
            5,
            "Year 5",
            "decimal",
            NO_LIMIT,
            "V2",
            "solve problems involving number up to 3 decimal places",
            places=3,
        ),
        Expected(
            6,
            "Year 6",
            "unlike fractions",
            NO_LIMIT,
            "V1",
            "add and subtract fractions with different denominators and mixed numbers, using the "
            "concept of equivalent fractions",
        ),
        Expected(
            6,
            "Year 6",
            "across zero",
            NO_LIMIT,
            "V2",
            "use negative numbers in context, and calculate intervals across zero",
        ),
        Expected(
            7,
            "Year 7",
            "negative",
            NO_LIMIT,
            "M",
        ),
    ),
    by_heart={3: 20, 4: 99, 5: 999, 6: 9999, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 20 and beyond", "to 100"),
        3: ("two digits", "three digits"),
        4: ("three digits", "four digits"),
        5: ("large", "hundredths", "related fractions"),
        6: ("large", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
