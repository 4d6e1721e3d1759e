"""Ontario: The Ontario Curriculum, Grades 1-8, Mathematics, 2020.

Codes repeat in every grade, so the grade stands with them. Excerpts of grades 1 to 3 do not print
their grade: it was told from the limits 50, 100 and 1000. Grades 4 to 6 are from memory.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

ONTARIO = Curriculum(
    document="The Ontario Curriculum, Grades 1–8: Mathematics (Ministry of Education, 2020)",
    language="en",
    marks=("“", "”"),
    grades={0: "Kindergarten", **{n: f"Grade {n}" for n in range(1, 9)}},
    also={
        "1re année": 1,
        **{f"{n}e année": n for n in range(2, 9)},
    },
    expected=(
        Expected(1, "Grade 1", "whole", Fraction(20), "M"),
        Expected(
            1,
            "Grade 1, B2.4",
            "whole",
            Fraction(50),
            "V2",
            "use objects, diagrams, and equations to represent, describe, and solve situations "
            "involving addition and subtraction of whole numbers that add up to no more than 50",
        ),
        Expected(
            2,
            "Grade 2, B2.4",
            "whole",
            Fraction(100),
            "V2",
            "… addition and subtraction of whole numbers that add up to no more than 100",
        ),
        Expected(
            3,
            "Grade 3, B2.3",
            "whole",
            Fraction(1000),
            "V2",
            "use mental math strategies, including estimation, to add and subtract whole numbers "
            "that add up to no more than 1000, and explain the strategies used",
        ),
        Expected(4, "Grade 4, B2.4", "whole", Fraction(10**4), "P"),
        Expected(4, "Grade 4, B2.4", "decimal", NO_LIMIT, "M", places=1),
        Expected(5, "Grade 5, B2.4", "whole", Fraction(10**5), "M"),
        Expected(5, "Grade 5, B2.4", "decimal", NO_LIMIT, "M", places=2),
        Expected(5, "Grade 5, B2.5", "like fractions", NO_LIMIT, "M"),
        Expected(6, "Grade 6, B2.4", "whole", NO_LIMIT, "M"),
        Expected(6, "Grade 6, B2.4", "decimal", NO_LIMIT, "M", places=3),
        *(
            Expected(6, "Grade 6, B2.5", kind, NO_LIMIT, "M")
            for kind in ("related fractions", "unlike fractions")
        ),
        *(
            Expected(7, "Grade 7, B2.4", kind, NO_LIMIT, "M")
            for kind in ("negative", "across zero")
        ),
    ),
    by_heart={2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**5, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 20 and beyond", "to 100"),
        3: ("two digits", "three digits"),
        4: ("four digits", "tenths"),
        5: ("hundredths", "like fractions"),
        6: ("hundredths", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
)
