"""Which questions apply to this roof, which of them are open, and what comes next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from specgen.engine import Engine
from specgen.values import NOT_ASKED, Open


@dataclass(frozen=True, slots=True)
class Asked:
    """The questions that apply, in the order asked, and those of them that are open."""

    questions: tuple[str, ...]
    open: frozenset[str]
    topics: Mapping[str, tuple[str, ...]]

    def beside(self, question: str, step: int) -> str:
        """The question so many places on, or back; the last or first where there are no more."""
        if question not in self.questions:
            return self.questions[0]
        place = self.questions.index(question) + step
        return self.questions[min(max(place, 0), len(self.questions) - 1)]

    def next_open(self, question: str) -> str | None:
        """The next open question after one, beginning anew at the end; None if none is left."""
        start = self.questions.index(question) + 1 if question in self.questions else 0
        turned = (*self.questions[start:], *self.questions[:start])
        return next((name for name in turned if name in self.open and name != question), None)

    def first_of(self, topic: str) -> str | None:
        """The first open question of a topic, else its first."""
        names: Sequence[str] = self.topics.get(topic, ())
        return next((name for name in names if name in self.open), names[0] if names else None)


def asked_of(engine: Engine) -> Asked:
    """What is asked with these answers."""
    scope = engine.scope
    applying: list[str] = []
    still_open: set[str] = set()
    topics: dict[str, list[str]] = {}
    for question in engine.library.questions.values():
        names = topics.setdefault(question.topic, [])
        value, _ = scope.lookup(question.id)
        if isinstance(value, Open):
            if question.id not in value.waits_on:
                continue
            still_open.add(question.id)
        elif value is NOT_ASKED and not (
            question.optional and scope.holds(question.when)[0] is True
        ):
            continue
        applying.append(question.id)
        names.append(question.id)
    return Asked(
        tuple(applying),
        frozenset(still_open),
        {topic: tuple(names) for topic, names in topics.items()},
    )
