"""United States: Common Core State Standards for Mathematics, 2010.

Wordings were read in transcriptions; "..." stands where a sentence goes on.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

_PLACE_VALUE = (
    "using strategies based on place value, properties of operations, and/or the relationship "
    "between addition and subtraction."
)

US = Curriculum(
    document="Common Core State Standards for Mathematics (NGA Center and CCSSO, 2010)",
    language="en",
    marks=("“", "”"),
    grades={0: "kindergarten", **{n: f"grade {n}" for n in range(1, 9)}},
    also={
        "kindergarten": 0,
        **{f"{n}{th} grade": n for n, th in enumerate(("st", "nd", "rd"), 1)},
        **{f"{n}th grade": n for n in range(4, 9)},
    },
    expected=(
        Expected(0, "K.OA.A.5", "whole", Fraction(5), "V2", "Fluently add and subtract within 5."),
        Expected(0, "K.OA.A.2", "whole", Fraction(10), "M"),
        Expected(
            1,
            "1.OA.C.6",
            "whole",
            Fraction(20),
            "V2",
            "Add and subtract within 20, demonstrating fluency for addition and subtraction within "
            "10. …",
        ),
        Expected(
            1,
            "1.NBT.C.6",
            "tens",
            Fraction(90),
            "V2",
            "Subtract multiples of 10 in the range 10-90 from multiples of 10 in the range 10-90 "
            "(positive or zero differences), …",
        ),
        Expected(
            2,
            "2.OA.B.2",
            "whole",
            Fraction(20),
            "V2",
            "Fluently add and subtract within 20 using mental strategies. By end of Grade 2, know "
            "from memory all sums of two one-digit numbers.",
        ),
        Expected(
            2,
            "2.NBT.B.5",
            "whole",
            Fraction(100),
            "V2",
            f"Fluently add and subtract within 100 {_PLACE_VALUE}",
        ),
        Expected(
            2,
            "2.NBT.B.7",
            "whole",
            Fraction(1000),
            "V2",
            "Add and subtract within 1000, using concrete models or drawings and strategies based "
            "on place value, …; relate the strategy to a written method.",
        ),
        Expected(
            3,
            "3.NBT.A.2",
            "whole",
            Fraction(1000),
            "V2",
            "Fluently add and subtract within 1000 using strategies and algorithms based on place "
            "value, properties of operations, and/or the relationship between addition and "
            "subtraction.",
        ),
        Expected(
            4,
            "4.NBT.B.4",
            "whole",
            Fraction(10**6),  # the limit is a footnote's, from memory
            "V2",
            "Fluently add and subtract multi-digit whole numbers using the standard algorithm.",
        ),
        Expected(
            4,
            "4.NF.B.3.A",
            "like fractions",
            NO_LIMIT,
            "V2",
            "Understand addition and subtraction of fractions as joining and separating parts "
            "referring to the same whole.",
        ),
        Expected(
            5,
            "5.NBT.B.7",
            "decimal",
            NO_LIMIT,
            "V2",
            "Add, subtract, multiply, and divide decimals to hundredths, using concrete models or "
            "drawings and strategies based on place value, …; relate the strategy to a written "
            "method and explain the reasoning used.",
            places=2,
        ),
        *(
            Expected(
                5,
                "5.NF.A.1",
                kind,
                NO_LIMIT,
                "V2",
                "Add and subtract fractions with unlike denominators (including mixed numbers) by "
                "replacing given fractions with equivalent fractions in such a way as to produce "
                "an equivalent sum or difference of fractions with like denominators.",
            )
            for kind in ("related fractions", "unlike fractions")
        ),
        Expected(6, "6.NS.B.3", "decimal", NO_LIMIT, "M", places=12),
        *(
            Expected(
                7,
                "7.NS.A.1",
                kind,
                NO_LIMIT,
                "V2",
                "Apply and extend previous understandings of addition and subtraction to add and "
                "subtract rational numbers; …",
            )
            for kind in ("negative", "across zero")
        ),
    ),
    # K.OA.A.5 (5), 1.OA.C.6 (10), 2.OA.B.2 (20) and, a year after they are asked for fluently,
    # 2.NBT.B.5 (100), 3.NBT.A.2 (1000) and 4.NBT.B.4.
    by_heart={1: 5, 2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**6, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 20 and beyond", "to 100"),
        3: ("two digits", "three digits"),
        4: ("four digits", "large", "like fractions"),
        5: ("tenths", "hundredths", "unlike fractions"),
        6: ("hundredths", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
