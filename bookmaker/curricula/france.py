"""France: programmes de mathématiques, cycle 2 (2024) and cycle 3 (2025).

The official bulletin gives no codes. Limits of CE2 and the denominators of CE2 to CM2 are P; which
denominators CM1 and CM2 ask for was not read, so their bare sentence is quoted of any.
"""

from __future__ import annotations

from fractions import Fraction

from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected

FRANCE = Curriculum(
    document="Programmes de mathématiques du cycle 2 (BOENJS du 31 octobre 2024) et du cycle 3 "
    "(BOENJS du 17 avril 2025), ministère de l’Éducation nationale",
    language="fr",
    marks=("«\N{NO-BREAK SPACE}", "\N{NO-BREAK SPACE}»"),
    grades={0: "GS", 1: "CP", 2: "CE1", 3: "CE2", 4: "CM1", 5: "CM2", 6: "6e", 7: "5e", 8: "4e"},
    also={"sixième": 6, "6ème": 6, "cinquième": 7, "5ème": 7, "quatrième": 8, "4ème": 8},
    expected=(
        Expected(
            1,
            "CP",
            "whole",
            Fraction(20),
            "V2",
            "Connaitre dans les deux sens les tables d’addition.",
        ),
        Expected(
            1,
            "CP",
            "whole",
            Fraction(100),
            "V2",
            "Comprendre le sens de l’addition et de la soustraction.",
        ),
        Expected(1, "CP", "tens", Fraction(90), "P"),
        Expected(
            2,
            "CE1",
            "whole",
            Fraction(1000),
            "V2",
            "Poser et effectuer des additions et des soustractions en colonnes.",
        ),
        Expected(
            2,
            "CE1",
            "like fractions",
            Fraction(1),
            "V2",
            "Additionner et soustraire des fractions de même dénominateur.",
        ),
        Expected(
            3,
            "CE2",
            "whole",
            Fraction(10**4),
            "V2",
            "Poser et effectuer des additions et des soustractions en colonnes.",
        ),
        Expected(
            3,
            "CE2",
            "decimal",
            NO_LIMIT,
            "V2",
            "Poser et effectuer des soustractions de montants en euro.",
            places=2,
        ),
        *(
            Expected(
                3,
                "CE2",
                kind,
                Fraction(1),
                "V2",
                "Additionner et soustraire des fractions.",
            )
            for kind in ("like fractions", "related fractions")
        ),
        Expected(4, "CM1", "whole", Fraction(999_999), "P"),
        Expected(
            4,
            "CM1",
            "decimal",
            NO_LIMIT,
            "V2",
            "Poser en colonnes et effectuer des additions et des soustractions de nombres décimaux",
            places=2,
        ),
        *(
            Expected(4, "CM1", kind, NO_LIMIT, "V2", "Additionner et soustraire des fractions")
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        Expected(5, "CM2", "decimal", NO_LIMIT, "P", places=3),
        *(
            Expected(5, "CM2", kind, NO_LIMIT, "V2", "Additionner et soustraire des fractions")
            for kind in ("like fractions", "related fractions", "unlike fractions")
        ),
        *(Expected(7, "5e", kind, NO_LIMIT, "M") for kind in ("negative", "across zero")),
    ),
    by_heart={2: 10, 3: 20, 4: 100, 5: 1000, 6: 10**4, 7: 10**6, 8: 10**6},
    runs={
        0: ("to 10",),
        1: ("to 20",),
        2: ("to 100", "three digits"),
        3: ("two digits", "three digits", "four digits"),
        4: ("large", "tenths", "hundredths"),
        5: ("tenths", "hundredths", "thousandths"),
        6: ("hundredths", "thousandths", "unlike fractions"),
        7: ("across zero",),
        8: ("across zero",),
    },
    unnamed=5,
)
