"""Conditions in plain words: what of them decided, as it stands for a set of answers.

A condition is broken into the comparisons that decided it; each is said as it is true now, and the
other way round as it would have to be for the outcome to turn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from specgen.conditions import (
    Answered,
    Both,
    Choose,
    Comparison,
    Either,
    Expression,
    Literal,
    Name,
    Not,
    Several,
    Tree,
    evaluate,
    truth_of,
)
from specgen.domain import typed
from specgen.library import Library
from specgen.scope import Scope
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Choice, Open, Value
from specgen.wording import print_value


@dataclass(frozen=True, slots=True)
class Ground:
    """One comparison that decided a condition.

    ``says`` is how it is true now (``lowest slope below 2:12``), ``turned`` its opposite; ``now``
    the answer, empty where ``says`` tells it; ``names`` the questions and computed values it
    compares; ``fact`` the fact it belongs to, with its reason; ``is_open`` if it is not decided,
    and ``says`` then is what it asks.
    """

    says: str
    turned: str
    now: str
    names: tuple[str, ...]
    fact: str = ""
    why: str = ""
    is_open: bool = False


def grounds_of(condition: Expression | None, scope: Scope) -> tuple[Ground, ...]:
    """What decided a condition; nothing for one that always holds."""
    if condition is None:
        return ()
    return tuple(dict.fromkeys(_grounds(condition.tree, scope, _Fact("", ""), wanted=True)))


class _Fact(NamedTuple):
    """The fact that a comparison belongs to, and its reason."""

    id: str
    why: str


def _grounds(tree: Tree, scope: Scope, fact: _Fact, *, wanted: bool) -> Iterator[Ground]:
    """The grounds in a tree; ``wanted`` is false below a `not`, where a fact's reason says why the
    contrary holds and is left out."""
    if isinstance(tree, Not):
        yield from _grounds(tree.inner, scope, fact, wanted=not wanted)
    elif isinstance(tree, Both | Either):
        for side in _deciding(tree, scope):
            yield from _grounds(side, scope, fact, wanted=wanted)
    elif isinstance(tree, Choose):
        test = truth_of(evaluate(tree.test, scope.lookup, set()))
        yield from _grounds(tree.test, scope, fact, wanted=wanted)
        if not isinstance(test, Open):
            yield from _grounds(tree.yes if test else tree.no, scope, fact, wanted=wanted)
    elif isinstance(tree, Name) and tree.name in scope.library.facts:
        known = scope.library.facts[tree.name]
        named = _Fact(known.id, known.why if wanted else "")
        yield from _grounds(known.condition.tree, scope, named, wanted=wanted)
    elif not isinstance(tree, Literal):
        yield _leaf(tree, scope, fact)


def _deciding(tree: Both | Either, scope: Scope) -> tuple[Tree, ...]:
    """The sides that decide: the first that is decisive, else both; of what is open, the open."""
    decisive = isinstance(tree, Either)
    truths = [truth_of(evaluate(side, scope.lookup, set())) for side in tree]
    for side, truth in zip(tree, truths, strict=True):
        if truth is decisive:
            return (side,)
    waiting = tuple(
        side for side, truth in zip(tree, truths, strict=True) if isinstance(truth, Open)
    )
    return waiting or tuple(tree)


def _leaf(tree: Tree, scope: Scope, fact: _Fact) -> Ground:
    truth = truth_of(evaluate(tree, scope.lookup, set()))
    names = tuple(dict.fromkeys(_names(tree)))
    subject = names[0] if names else ""
    value = scope.lookup(subject)[0] if subject else NOT_ASKED
    if value is NOT_ASKED and not isinstance(truth, Open):
        label = label_of(scope.library, subject)
        wanted = said(tree, scope, holds=True)
        missing = _missing(subject, scope)
        if truth is False:
            return Ground(f"{label}: {missing}", wanted, "", names, fact.id, fact.why)
    holds = truth if isinstance(truth, bool) else True
    return Ground(
        says=said(tree, scope, holds=holds),
        turned=said(tree, scope, holds=not holds),
        now=_now(tree, names, scope),
        names=names,
        fact=fact.id,
        why=fact.why,
        is_open=isinstance(truth, Open),
    )


def _missing(name: str, scope: Scope) -> str:
    question = scope.library.questions.get(name)
    if question is not None and scope.holds(question.when)[0] is True:
        return "left unanswered"
    return "not asked for this roof" if question is not None else "not computed for this roof"


def _names(tree: Tree) -> Iterator[str]:
    if isinstance(tree, Name):
        yield tree.name
    elif isinstance(tree, Answered):
        yield from _names(tree.inner)
    elif isinstance(tree, Comparison):
        yield from _names(tree.first)
        for _, other in tree.steps:
            yield from _names(other)
    elif isinstance(tree, Several):
        for item in tree.items:
            yield from _names(item)


# ------------------------------------------------------------------------------------------ words

_WORDS = {
    "lt": "below",
    "lteq": "at most",
    "gt": "above",
    "gteq": "at least",
}
_OPPOSITE = {
    "lt": "gteq",
    "lteq": "gt",
    "gt": "lteq",
    "gteq": "lt",
    "eq": "ne",
    "ne": "eq",
    "in": "notin",
    "notin": "in",
}


def label_of(library: Library, name: str) -> str:
    """The noun phrase by which a question or computed value is called."""
    question = library.questions.get(name)
    if question is not None:
        return question.label
    calculation = library.calculations.get(name)
    if calculation is not None:
        return next(each.label for each in calculation.provides if each.id == name)
    return name.replace("_", " ")


def answer_words(scope: Scope, name: str) -> str:
    """The answer to a question, or a computed value, as it is picked or typed rather than as a
    clause words it."""
    value, _ = scope.lookup(name)
    if isinstance(value, Open):
        return "open"
    if value is NOT_ASKED:
        return _missing(name, scope)
    return value_words(value, scope)


def value_words(value: Value, scope: Scope) -> str:
    """A value in words, a choice by its label."""
    if isinstance(value, Choice):
        return value.label
    if isinstance(value, tuple) and all(isinstance(item, Choice) for item in value):
        return " and ".join(item.label for item in value if isinstance(item, Choice)) or "none"
    return print_value(value, scope.printer)


def said(tree: Tree, scope: Scope, *, holds: bool) -> str:
    """One comparison in words, or its opposite."""
    library = scope.library
    if isinstance(tree, Name):
        return f"{label_of(library, tree.name)}: {'yes' if holds else 'no'}"
    if isinstance(tree, Answered) and isinstance(tree.inner, Name):
        label = label_of(library, tree.inner.name)
        return f"{label}: {'answered' if holds else 'left unanswered'}"
    if isinstance(tree, Comparison) and len(tree.steps) == 1:
        operator, other = tree.steps[0]
        return _compared(tree.first, operator if holds else _OPPOSITE[operator], other, scope)
    if isinstance(tree, Comparison):
        low, high = tree.first, tree.steps[-1][1]
        middle = _operand(tree.steps[0][1], "", scope)
        between = f"{_operand(low, '', scope)} to {_operand(high, '', scope)}"
        return f"{middle} {'within' if holds else 'outside'} {between}"
    return "its condition holds" if holds else "its condition does not hold"


def _compared(first: Tree, operator: str, other: Tree, scope: Scope) -> str:
    if operator in ("in", "notin") and not isinstance(first, Name):
        holder = other.name if isinstance(other, Name) else ""
        verb = "include" if operator == "in" else "do not include"
        return f"{label_of(scope.library, holder)} {verb} {_operand(first, holder, scope)}"
    if not isinstance(first, Name) and isinstance(other, Name) and operator in _MIRRORED:
        first, operator, other = other, _MIRRORED[operator], first
    subject = first.name if isinstance(first, Name) else ""
    left = _operand(first, "", scope)
    right = _operand(other, subject, scope)
    if operator in _WORDS:
        return f"{left} {_WORDS[operator]} {right}"
    return f"{left}: {'not ' if operator in ('ne', 'notin') else ''}{right}"


_MIRRORED = {"lt": "gt", "lteq": "gteq", "gt": "lt", "gteq": "lteq", "eq": "eq", "ne": "ne"}


def _operand(tree: Tree, subject: str, scope: Scope) -> str:
    """A side of a comparison; a choice by its label, where ``subject`` offers it."""
    if isinstance(tree, Name):
        return label_of(scope.library, tree.name)
    if isinstance(tree, Several):
        items = [_operand(item, subject, scope) for item in tree.items]
        return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} or {items[-1]}"
    if isinstance(tree, Literal):
        value = tree.value
        question = scope.library.questions.get(subject)
        if question is not None:
            for choice in question.choices:
                if choice.id == value:
                    return choice.label
        return value.typed if isinstance(value, Quantity) else typed(value)
    return "…"


def _now(tree: Tree, names: tuple[str, ...], scope: Scope) -> str:
    """The answers compared, where the words of the comparison do not tell them."""
    told: list[str] = []
    if isinstance(tree, Answered):
        return ""
    for name in names:
        value, _ = scope.lookup(name)
        if isinstance(value, Open) or value is NOT_ASKED or isinstance(value, bool):
            continue
        shown = answer_words(scope, name)
        told.append(shown if len(names) == 1 else f"{label_of(scope.library, name)} {shown}")
    if isinstance(tree, Comparison) and tree.steps[0][0] == "eq" and len(names) == 1:
        holds = truth_of(evaluate(tree, scope.lookup, set()))
        if holds is True:
            return ""
    return ", ".join(told)
