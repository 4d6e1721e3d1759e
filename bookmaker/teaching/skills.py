"""What pages practise, skill by skill, as a sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bookmaker.cache import Cache
from bookmaker.model import CertifiedPage, Number, Said, Values
from bookmaker.puzzle import Skill, SkillCounts, Span, count_skills, skills_together, to_instance

TOLD: tuple[Skill, ...] = (
    "exchange",
    "exchange twice",
    "exchange over nought",
    "across a hundred",
    "across a thousand",
    "across a whole",
    "decimals of different places",
    "tens",
    "hundreds",
    "take tens",
    "like denominators",
    "related denominators",
    "unlike denominators",
    "fraction from a whole",
    "across zero",
    "below zero",
    "within 10",
    "within 20",
)
"""Skills that a plan tells of, the most telling first."""
MOST_TOLD = 5


def skills_of_pages(pages: Sequence[CertifiedPage], cache: Cache, seed: int) -> SkillCounts:
    """How often ``pages`` ask for each skill when each is solved once, over all solutions."""
    return skills_together(_count(page, cache, seed) for page in pages)


def practises(pages: Sequence[CertifiedPage], cache: Cache, seed: int) -> Said | None:
    """Of how many subtractions how many practise what; None where there is nothing to tell."""
    if not pages:
        return None
    counts = skills_of_pages(pages, cache, seed)
    told = tuple(_spans(counts, tuple(pages)))
    key = "plan.practises" if counts.over_all else "plan.practises-shown"
    bare = Said("plan.subtractions", tuple(pages), {}, counts.subtractions)
    return Said(key, tuple(pages), {"skills": told}, counts.subtractions) if told else bare


def _count(page: CertifiedPage, cache: Cache, seed: int) -> SkillCounts:
    tree, _, given = to_instance(page)
    return count_skills(tree, page.numbers, given, cache=cache, seed=seed)


def _spans(counts: SkillCounts, pages: tuple[CertifiedPage, ...]) -> Iterator[Said]:
    asked = [skill for skill in TOLD if skill in counts.spans]
    for skill in asked[:MOST_TOLD]:
        span = counts[skill]
        name = Said(f"skill.{skill.replace(' ', '-')}", pages)
        if span.is_certain:
            yield Said("plan.span-sure", pages, {"skill": name, "times": span.least})
        else:
            between: Values = {"skill": name, "least": span.least, "most": span.most}
            yield Said("plan.span", pages, {**between, "mean": _mean(span)})


def _mean(span: Span) -> Number:
    """To one digit behind the point, which is as it is printed."""
    return Number.parse(f"{float(span.mean):.1f}".removesuffix(".0"))
