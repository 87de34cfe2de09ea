"""What an answer says of another question by being given at all.

A spacing for each roof zone is asked for only where spacing is scheduled: a section that gives one
schedules it. The library says so in each question's ``when``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache

from specgen.conditions import Both, Comparison, Literal, Name, Tree
from specgen.library import Library
from specgen.questions import AnswerError, Question, read_answer
from specgen.review.shapes import Statement
from specgen.values import Value

# How sure an answer that is implied is, beside the one that implies it.
IMPLIED = 0.85
# Below it an answer implies nothing.
SURE_TO_IMPLY = 0.7


def with_implied(
    answers: Mapping[str, Value], given_by: Mapping[str, Statement], library: Library
) -> tuple[dict[str, Value], dict[str, Statement]]:
    """Answers, and the statements that give them, with those that they imply, in the library's
    order; an answer that is given stays as it is."""
    added, by = dict(answers), dict(given_by)
    for asked, name, raw in _implications(library):
        statement = given_by.get(asked)
        if name in added or statement is None or statement.confidence < SURE_TO_IMPLY:
            continue
        value = _read(library.questions[name], raw)
        if value is None:
            continue
        sure = round(statement.confidence * IMPLIED, 3)
        added[name] = value
        by[name] = replace(statement, question=name, raw=raw, value=value, confidence=sure)
    order = [name for name in library.questions if name in added]
    return {name: added[name] for name in order}, {name: by[name] for name in order}


@lru_cache(maxsize=4)
def _implications(library: Library) -> tuple[tuple[str, str, object], ...]:
    """Each question with one that its being asked settles, and that one's answer."""
    return tuple(
        (question.id, name, raw)
        for question in library.questions.values()
        if question.when is not None
        for name, raw in _settled(question.when.tree)
        if name in library.questions
    )


def _settled(tree: Tree) -> Iterator[tuple[str, object]]:
    """The answers without which a condition cannot hold: a yes by its name, a choice by ``==``."""
    if isinstance(tree, Both):
        yield from _settled(tree.left)
        yield from _settled(tree.right)
    elif isinstance(tree, Name):
        yield tree.name, "yes"
    elif isinstance(tree, Comparison) and len(tree.steps) == 1:
        operator, other = tree.steps[0]
        if operator == "eq" and isinstance(tree.first, Name) and isinstance(other, Literal):
            yield tree.first.name, other.value


def _read(question: Question, raw: object) -> Value | None:
    try:
        return read_answer(question, raw)
    except AnswerError:
        return None
