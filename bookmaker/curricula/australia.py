"""Australia: Australian Curriculum, Mathematics, Version 9.0 (2022).

Descriptors were read in pages made from the official files. No column method is required in them.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

AUSTRALIA = Curriculum(
    document="Australian Curriculum: Mathematics, Version 9.0 (ACARA, 2022)",
    language="en",
    marks=("“", "”"),
    grades={0: "Foundation", **{n: f"Year {n}" for n in range(1, 9)}},
    also={
        **dict.fromkeys(
            ("prep", "kindergarten", "reception", "pre-primary", "transition", "foundation"), 0
        ),
        **{f"y{n}": n for n in range(1, 9)},
    },
    expected=(
        Expected(
            0,
            "AC9MFN05",
            "whole",
            Fraction(10),
            "V2",
            "represent practical situations involving addition, subtraction and quantification "
            "with physical and virtual materials and use counting or subitising strategies",
        ),
        Expected(
            1,
            "AC9M1N04",
            "whole",
            Fraction(20),
            "V2",
            "add and subtract numbers within 20, using physical and virtual materials, part-part-"
            "whole knowledge to 10 and a variety of calculation strategies",
        ),
        Expected(
            2,
            "AC9M2A02",
            "whole",
            Fraction(20),
            "V2",
            "recall and demonstrate proficiency with addition facts to 20; extend and apply facts "
            "to develop related subtraction facts",
        ),
        Expected(
            2,
            "AC9M2N04",
            "whole",
            Fraction(99),
            "V2",
            "add and subtract one- and two-digit numbers, representing problems using number "
            "sentences, and solve using part-part-whole reasoning and a variety of calculation "
            "strategies",
        ),
        Expected(
            3,
            "AC9M3N03",
            "whole",
            Fraction(999),
            "V2",
            "add and subtract two- and three-digit numbers using place value to partition, "
            "rearrange and regroup numbers to assist in calculations without a calculator",
        ),
        Expected(
            4,
            "AC9M4N06",
            "whole",
            NO_LIMIT,
            "V2",
            "develop efficient strategies and use appropriate digital tools for solving problems "
            "involving addition and subtraction, and multiplication and division where there is no "
            "remainder",
        ),
        *(
            Expected(
                5,
                "AC9M5N05",
                kind,
                NO_LIMIT,
                "V2",
                "solve problems involving addition and subtraction of fractions with the same or "
                "related denominators, using different strategies",
            )
            for kind in ("like fractions", "related fractions")
        ),
        Expected(
            6,
            "AC9M6N04",
            "decimal",
            NO_LIMIT,
            "V2",
            "apply knowledge of place value to add and subtract decimals, using digital tools "
            "where appropriate; use estimation and rounding to check the reasonableness of answers",
            places=12,
        ),
        Expected(
            6,
            "AC9M6N05",
            "unlike fractions",
            NO_LIMIT,
            "V2",
            "solve problems involving addition and subtraction of fractions using knowledge of "
            "equivalent fractions",
        ),
        *(
            Expected(
                7,
                "AC9M7N07",
                kind,
                NO_LIMIT,
                "V2",
                "compare, order and solve problems involving addition and subtraction of integers",
            )
            for kind in ("negative", "across zero")
        ),
    ),
    by_heart={2: 10, 3: 20, 4: 99, 5: 999, 6: 10**4, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 20 and beyond", "to 100"),
        3: ("two digits", "three digits"),
        4: ("three digits", "four digits"),
        5: ("large", "like fractions", "related fractions"),
        6: ("hundredths", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=4,
)
