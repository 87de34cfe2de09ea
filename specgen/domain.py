"""The answers worth trying to a question: enough that every condition can come out either way."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from specgen.conditions import Comparison, Expression, Literal, Name, Tree, parts_of
from specgen.library import Library
from specgen.questions import QUANTITY_KINDS, AnswerError, Question, read_answer
from specgen.showing import figure
from specgen.units import DIMENSIONS, Quantity, read
from specgen.values import Choice, Value


@lru_cache(maxsize=4)
def _domains(library: Library) -> dict[str, tuple[Value, ...]]:
    limits: dict[str, list[Value]] = {}
    for expression in _expressions(library):
        for part in parts_of(expression.tree):
            if isinstance(part, Comparison):
                for name, value in _compared(part):
                    limits.setdefault(name, []).append(value)
    for check in library.checks.values():
        for answers in (*check.settle, check.raises, check.spares):
            for name, raw in answers.items():
                question = library.questions[name]
                if question.kind not in ("choice", "yes-no"):
                    limits.setdefault(name, []).append(read_answer(question, raw))
    return {
        question.id: _domain(question, limits.get(question.id, []))
        for question in library.questions.values()
    }


def domain_of(library: Library, question: str) -> tuple[Value, ...]:
    """Answers to try: every choice; yes and no; for a figure its bounds, each value that a
    condition compares it with, and one between each two of these; else what checks propose."""
    return _domains(library)[question]


def can_be_tried(question: Question) -> bool:
    """Whether answers to a question can be set beside each other: not words, dates or rows."""
    return question.kind not in ("text", "date", "table")


def typed(value: Value) -> str:
    """An answer as a person would type it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Choice):
        return value.id
    if isinstance(value, Quantity):
        return value.typed
    if isinstance(value, float):
        return figure(value, 4).replace(",", "")
    if isinstance(value, tuple):
        ids = [item.id for item in value if isinstance(item, Choice)]
        return f"[{', '.join(ids)}]" if len(ids) == len(value) else f"{len(value)} rows"
    return str(value)


def _expressions(library: Library) -> Iterator[Expression]:
    for fact in library.facts.values():
        yield fact.condition
    for question in library.questions.values():
        if question.when is not None:
            yield question.when
    for clause in library.clauses.values():
        if clause.when is not None:
            yield clause.when
        yield from clause.text.expressions
    for check in library.checks.values():
        yield check.when


def _compared(comparison: Comparison) -> Iterator[tuple[str, Value]]:
    sides: list[Tree] = [comparison.first, *(other for _, other in comparison.steps)]
    for left, right in pairwise(sides):
        for name, other in ((left, right), (right, left)):
            if isinstance(name, Name) and isinstance(other, Literal):
                yield name.name, other.value


def _domain(question: Question, limits: list[Value]) -> tuple[Value, ...]:
    if question.kind == "choice":
        return question.choices
    if question.kind == "yes-no":
        return (True, False)
    if question.kind == "choices":
        singles = [(choice,) for choice in question.choices]
        several = [limit for limit in limits if isinstance(limit, tuple)]
        return tuple(dict.fromkeys([(), *singles, question.choices, *several]))
    if question.kind == "number":
        return _numbers(question, [limit for limit in limits if isinstance(limit, float)])
    quantities = [limit for limit in limits if isinstance(limit, Quantity)]
    if quantities or isinstance(question.low, Quantity):
        return _quantities(question, quantities)
    proposed = [limit for limit in limits if question.kind != "table" or isinstance(limit, tuple)]
    return tuple(dict.fromkeys([*proposed, _sample(question)]))


_SAMPLES: dict[str, str] = {
    "text": "a text",
    "date": "2030-01-01",
    "number": "2",
    **{kind: DIMENSIONS[kind].example.split(",")[0].split(" or ")[0] for kind in QUANTITY_KINDS},
}


def _sample(question: Question) -> Value:
    """Some answer to a question that takes words, a date or rows."""
    if question.kind != "table":
        return read_answer(question, _SAMPLES[question.kind])
    return read_answer(question, [{c.id: _SAMPLES[c.kind] for c in question.columns}])


def _numbers(question: Question, limits: list[float]) -> tuple[Value, ...]:
    bounds = [bound for bound in (question.low, question.high) if isinstance(bound, float)]
    marks = sorted({*bounds, *limits})
    between = [(a + b) / 2 for a, b in pairwise(marks)]
    return tuple(value for value in sorted({*marks, *between}) if takes(question, value))


def _quantities(question: Question, limits: list[Quantity]) -> tuple[Value, ...]:
    bounds = [bound for bound in (question.low, question.high) if isinstance(bound, Quantity)]
    marks = sorted({round(q.magnitude, 9): q for q in (*bounds, *limits)}.items())
    values: list[Quantity] = []
    for index, (size, quantity) in enumerate(marks):
        values.append(quantity)
        if index + 1 < len(marks):
            values.append(_between(question, size, marks[index + 1][0]))
    return tuple(value for value in values if takes(question, value))


def _between(question: Question, low: float, high: float) -> Quantity:
    """A quantity half way between two, typed in the first unit of its dimension."""
    unit = next(iter(DIMENSIONS[question.kind].units))
    middle = f"{(low + high) / 2:.4f}".rstrip("0").rstrip(".")
    return read(middle + unit if unit.startswith(":") else f"{middle} {unit}", question.kind)


def takes(question: Question, value: Value) -> bool:
    """Whether a question takes a value as it would be typed."""
    try:
        read_answer(question, typed(value))
    except AnswerError:
        return False
    return True
