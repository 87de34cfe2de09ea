"""Making briefs: any valid one, complete or not, from a source of random choices."""

from __future__ import annotations

import random
from collections.abc import Iterable

from specgen.library import Library
from specgen.questions import Question, read_answer
from specgen.values import Value

_TYPED = {
    "length": ("16 in", "10 ft", "400 mm", "1 mi"),
    "thickness": ("24 ga", "0.032 in", "0.8 mm", "16 oz", "22 ga"),
    "pressure": ("45 psf", "2.86 psf", "2 kPa", "25 psf"),
    "slope": ("1/4:12", "1/2:12", "1:12", "2:12", "3:12", "6:12", "30 percent"),
    "speed": ("115 mph", "60 m/s"),
    "temperature": ("180 degF", "-20 degF", "121 degC"),
    "force": ("150 lbf", "1 kN"),
    "leakage": ("0.06 cfm/sq ft",),
    "number": ("0", "1", "2.5", "20"),
    "text": ("Alder & Sons", "Type <2>", "a plain text"),
    "date": ("2027-03-15",),
}


def raw_answer(question: Question, chance: random.Random) -> object:
    """An answer to a question as somebody might type it, within its range."""
    if question.kind == "choice":
        return chance.choice(question.choices).id
    if question.kind == "choices":
        return [choice.id for choice in question.choices if chance.random() < 0.5]
    if question.kind == "yes-no":
        return chance.choice(("yes", "no"))
    if question.kind == "table":
        return [
            {column.id: chance.choice(_TYPED[column.kind]) for column in question.columns}
            for _ in range(chance.randint(1, 3))
        ]
    bounds = [getattr(bound, "typed", None) for bound in (question.low, question.high)]
    typed = [*_TYPED[question.kind], *(bound for bound in bounds if bound is not None)]
    if question.kind == "number" and isinstance(question.low, float):
        assert isinstance(question.high, float)
        typed = [str(question.low), str(question.high), str((question.low + question.high) / 2)]
    fitting = [text for text in typed if _fits(question, text)]
    return chance.choice(fitting)


def _fits(question: Question, text: str) -> bool:
    try:
        read_answer(question, text)
    except ValueError:
        return False
    return True


def random_answers(library: Library, chance: random.Random, unanswered: float) -> dict[str, Value]:
    """Answers to the questions of a library, each left out with the probability given."""
    return {
        question.id: read_answer(question, raw_answer(question, chance))
        for question in library.questions.values()
        if chance.random() >= unanswered
    }


def without(answers: dict[str, Value], names: Iterable[str]) -> dict[str, Value]:
    return {name: value for name, value in answers.items() if name not in set(names)}
