"""What a document states, question by question, and the one answer that its statements come to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from specgen.conditions import Expression
from specgen.library import Library
from specgen.questions import Question
from specgen.review.implied import with_implied
from specgen.review.outline import Outline
from specgen.review.recognizing import recognizers_of
from specgen.review.shapes import Statement, Understanding
from specgen.review.tabled import statements_in_tables
from specgen.review.units_told import units_told
from specgen.scope import Scope
from specgen.units import Quantity
from specgen.values import Value

# Below it a statement is kept, and no answer.
SURE_ENOUGH = 0.5
# Each place that says the same adds this much, as far as such weight can go.
SAID_AGAIN = 0.02
MOST_AGAIN = 5
# How far two figures may lie apart and still be one: converted ones are rounded.
SAME_UNIT = 0.006
OTHER_UNIT = 0.035
METRIC = frozenset(
    ("mm", "cm", "m", "km", "um", "Pa", "kPa", "m/s", "km/h", "degC", "L/s per sq m", "N", "kN")
)


def understand(outline: Outline, library: Library) -> Understanding:
    """Every statement of a document, and the answers that they come to."""
    recognizers = recognizers_of(library)
    found = [
        *recognizers.statements(outline),
        *statements_in_tables(outline, library),
        *units_told(outline, library),
    ]
    found.sort(key=lambda statement: (statement.at.block, statement.at.start))
    depends = _dependent(library)
    if depends:
        answers, _ = _answers([each for each in found if each.recognizer not in depends], library)
        scope = Scope(library, answers)
        holds = {name: scope.holds(given)[0] is True for name, given in depends.items()}
        found = [each for each in found if holds.get(each.recognizer, True)]
    answers, given_by = _answers(found, library)
    answers, given_by = with_implied(answers, given_by, library)
    for name in _not_asked(answers, library):
        del answers[name], given_by[name]
    return Understanding(tuple(found), MappingProxyType(answers), MappingProxyType(given_by))


def _dependent(library: Library) -> dict[str, Expression]:
    """The recognizers whose words say something only beside other answers, with the condition."""
    return {r.id: r.given for r in library.recognizers.values() if r.given is not None}


def _answers(
    said: Iterable[Statement], library: Library
) -> tuple[dict[str, Value], dict[str, Statement]]:
    """The answer to each question that statements come to, and the statement that gives it."""
    by_question: dict[str, list[Statement]] = {}
    for statement in said:
        by_question.setdefault(statement.question, []).append(statement)
    answers: dict[str, Value] = {}
    given_by: dict[str, Statement] = {}
    for name in library.questions:
        best = _answer(library.questions[name], by_question.get(name, ()))
        if best is not None:
            answers[name], given_by[name] = best
    return answers, given_by


def _not_asked(answers: Mapping[str, Value], library: Library) -> list[str]:
    """The answers to questions that the other answers leave unasked."""
    scope = Scope(library, answers)
    return [
        name
        for name in answers
        if (when := library.questions[name].when) is not None and scope.holds(when)[0] is False
    ]


def same(first: Value, second: Value) -> bool:
    """Whether two answers are one: alike, or figures no farther apart than rounding puts them."""
    if isinstance(first, Quantity) and isinstance(second, Quantity):
        if first.dimension == "temperature":
            return abs(first.magnitude - second.magnitude) <= 2
        mixed = (first.unit in METRIC) != (second.unit in METRIC)
        slack = OTHER_UNIT if mixed else SAME_UNIT
        size = max(abs(first.magnitude), abs(second.magnitude))
        return abs(first.magnitude - second.magnitude) <= slack * size
    if isinstance(first, str) and isinstance(second, str):
        return first.casefold() == second.casefold()
    return first == second


def _answer(question: Question, said: Iterable[Statement]) -> tuple[Value, Statement] | None:
    """The answer to one question and the statement that gives it, or None where nothing sure."""
    sure = [each for each in said if each.value is not None and each.confidence >= SURE_ENOUGH]
    if not sure:
        return None
    if question.kind in ("choices", "table"):
        return _joined(question, sure)
    groups: list[list[Statement]] = []
    for statement in sure:
        for group in groups:
            if _alike(group[0], statement):
                group.append(statement)
                break
        else:
            groups.append([statement])
    best = max(groups, key=_weight)
    given = max(best, key=lambda statement: statement.confidence)
    assert given.value is not None
    return given.value, given


def _alike(first: Statement, second: Statement) -> bool:
    return first.value is not None and second.value is not None and same(first.value, second.value)


def _weight(group: list[Statement]) -> float:
    again = min(len(group) - 1, MOST_AGAIN)
    return max(statement.confidence for statement in group) + SAID_AGAIN * again


def _joined(question: Question, said: list[Statement]) -> tuple[Value, Statement]:
    """All that is said together: choices in their order, rows in theirs, the first of one name."""
    if question.kind == "choices":
        picked = {item for each in said if isinstance(each.value, tuple) for item in each.value}
        return tuple(choice for choice in question.choices if choice in picked), said[0]
    rows: dict[object, object] = {}
    for each in said:
        assert isinstance(each.value, tuple)
        for row in each.value:
            key = row[0].casefold() if isinstance(row, tuple) and isinstance(row[0], str) else row
            rows.setdefault(key, row)
    return tuple(rows.values()), said[0]  # type: ignore[return-value]
