"""What each answer to a question would cause, beside each other, and what an adviser says of it."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.domain import can_be_tried, domain_of, typed
from specgen.engine import Change, Engine
from specgen.library import Advice
from specgen.spans import words_of
from specgen.values import NOT_ASKED, Choice, Open, Value

# A conflict outweighs whatever an adviser says for a choice.
CONFLICT_WEIGHT = 10


@dataclass(frozen=True, slots=True)
class Counsel:
    """One reason for or against a choice on this roof, and where it can be followed up."""

    aspect: str
    speaks_for: bool
    weight: int
    says: str
    source: str
    check: str | None
    clause: str | None


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to a question, what it would change, and how it is spoken of.

    ``current`` is the answer the brief has; ``conflicts`` the ids of the conflicts that would
    stand with it; ``standing`` (higher is better) ranks options: reasons for less reasons against,
    by weight, less ten for each conflict that it raises.
    """

    answer: str
    label: str
    current: bool
    change: Change
    conflicts: tuple[str, ...]
    counsel: tuple[Counsel, ...]
    standing: int


def options_of(engine: Engine, question: str) -> tuple[Option, ...]:
    """Every answer worth trying to a question; choices an adviser speaks of are ranked, best first.

    Empty where the question takes words or rows, which cannot be tried out.
    """
    if not can_be_tried(engine.library.questions[question]):
        return ()
    current, _ = engine.scope.lookup(question)
    options = [
        _option(engine, question, value, current) for value in domain_of(engine.library, question)
    ]
    if any(option.counsel for option in options):
        options.sort(key=lambda option: -option.standing)
    return tuple(options)


def _option(engine: Engine, question: str, value: Value, current: Value) -> Option:
    following = engine.answering(question, value)
    change = engine.change_to(following)
    counsel = counsel_of(following, question, value)
    raised = sum(1 for finding in following.conflicts if question in finding.answers)
    return Option(
        answer=typed(value),
        label=value.label if isinstance(value, Choice) else typed(value),
        current=not isinstance(current, Open) and current is not NOT_ASKED and current == value,
        change=change,
        conflicts=tuple(finding.id for finding in following.conflicts),
        counsel=counsel,
        standing=sum(c.weight if c.speaks_for else -c.weight for c in counsel)
        - CONFLICT_WEIGHT * raised,
    )


def counsel_of(engine: Engine, question: str, value: Value) -> tuple[Counsel, ...]:
    """What the library's advice says of one choice on this roof, the weightiest first.

    ``engine`` holds the answers with that choice given; empty for what is no single choice.
    """
    if not isinstance(value, Choice):
        return ()
    spoken = [
        _spoken(advice, engine)
        for advice in engine.library.advice.values()
        if advice.question == question
        and advice.choice == value.id
        and engine.scope.holds(advice.when)[0] is True
    ]
    return tuple(sorted(spoken, key=lambda counsel: (-counsel.weight, not counsel.speaks_for)))


def _spoken(advice: Advice, engine: Engine) -> Counsel:
    spans, _ = engine.scope.text_of(advice.says, advice)
    return Counsel(
        aspect=advice.aspect,
        speaks_for=advice.speaks_for,
        weight=advice.weight,
        says=words_of(spans),
        source=advice.source,
        check=advice.check,
        clause=advice.clause,
    )
