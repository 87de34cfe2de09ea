"""A condition as a tree, and what it comes to: yes, no or open.

`language` makes the tree from what is written in the library; here it is walked with three-valued
(Kleene) logic. Open carries the questions that it waits on. Nothing else in the program evaluates
a condition, and tools that reason about the library read this tree.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple

from specgen.spans import ArticleReference
from specgen.units import Quantity
from specgen.values import Choice, Known, NotAsked, Open, Value

# What a name stands for, and the questions that made it so.
Lookup = Callable[[str], tuple[Value, frozenset[str]]]


class LanguageError(ValueError):
    """A condition or text that the library's language does not allow; the message says why."""


# ------------------------------------------------------------------------------------------- tree


class Name(NamedTuple):
    """A question, fact or computed value."""

    name: str


class Literal(NamedTuple):
    """A text, number, yes or no, or a quantity made in the condition."""

    value: str | float | bool | Quantity


class Article(NamedTuple):
    """A reference to an article of the section, by its id."""

    article: str


class Several(NamedTuple):
    """A list, to look a value up in."""

    items: tuple[Any, ...]


class Not(NamedTuple):
    inner: Any


class Both(NamedTuple):
    left: Any
    right: Any


class Either(NamedTuple):
    left: Any
    right: Any


class Comparison(NamedTuple):
    """``first`` compared along a chain of (operator, what it is compared with)."""

    first: Any
    steps: tuple[tuple[str, Any], ...]


class Answered(NamedTuple):
    """Whether a question that may stay unanswered is answered."""

    inner: Any


class Choose(NamedTuple):
    """``yes if test else no``."""

    test: Any
    yes: Any
    no: Any


Tree = Name | Literal | Article | Several | Not | Both | Either | Comparison | Answered | Choose


@dataclass(frozen=True, slots=True)
class Expression:
    """A condition or value of the library.

    ``names`` are the questions, facts and computed values it reads, ``articles`` the ids it refers
    to; ``literals`` the choice ids and ``measures`` the dimensions that each name is compared with,
    for the loader to check.
    """

    source: str
    tree: Tree
    names: frozenset[str] = frozenset()
    articles: frozenset[str] = frozenset()
    literals: frozenset[tuple[str, str]] = frozenset()
    measures: frozenset[tuple[str, str]] = frozenset()


def parts_of(tree: Tree) -> Iterator[Tree]:
    """A tree and everything in it."""
    stack: list[Tree] = [tree]
    while stack:
        part = stack.pop()
        yield part
        if isinstance(part, Several):
            stack.extend(part.items)
        elif isinstance(part, Comparison):
            stack.append(part.first)
            stack.extend(other for _, other in part.steps)
        elif isinstance(part, Not | Answered | Both | Either | Choose):
            stack.extend(part)


def taken_as_yes(tree: Tree, *, is_condition: bool) -> Iterator[str]:
    """The names in a tree that are read as yes or no by themselves, compared with nothing.

    ``is_condition`` tells whether the whole tree is to come to yes or no.
    """
    if is_condition and isinstance(tree, Name):
        yield tree.name
    elif isinstance(tree, Not):
        yield from taken_as_yes(tree.inner, is_condition=True)
    elif isinstance(tree, Both | Either):
        yield from taken_as_yes(tree.left, is_condition=True)
        yield from taken_as_yes(tree.right, is_condition=True)
    elif isinstance(tree, Choose):
        yield from taken_as_yes(tree.test, is_condition=True)
        yield from taken_as_yes(tree.yes, is_condition=is_condition)
        yield from taken_as_yes(tree.no, is_condition=is_condition)


# ------------------------------------------------------------------------------------- evaluation

# Thicknesses are lengths, and are compared with them.
FAMILY = {"thickness": "length"}


class Measured(NamedTuple):
    """What a quantity is compared by."""

    family: str
    magnitude: float


_COMPARISONS: dict[str, Callable[[Any, Any], bool]] = {
    "lt": lambda a, b: bool(a < b),
    "lteq": lambda a, b: bool(a <= b),
    "gt": lambda a, b: bool(a > b),
    "gteq": lambda a, b: bool(a >= b),
}


def decide(expression: Expression, lookup: Lookup) -> tuple[bool | Open, frozenset[str]]:
    """Whether a condition holds: True, False or Open, and the questions that decide it.

    Of an `and` that is no, only the first operand that says no counts as deciding; of an `or` that
    is yes, only the first that says yes.
    """
    read: set[str] = set()
    answer = truth_of(evaluate(expression.tree, lookup, read))
    return answer, frozenset(read)


def truth_of(value: Known) -> bool | Open:
    """Yes, no or open: a value that is not asked is no."""
    if isinstance(value, Open):
        return value
    return not isinstance(value, NotAsked) and bool(value)


def evaluate(tree: Tree, lookup: Lookup, read: set[str]) -> Known:
    """The value of a tree; the questions that decided it are added to ``read``."""
    return _EVALUATORS[tree.__class__](tree, lookup, read)


def _name(tree: Name, lookup: Lookup, read: set[str]) -> Known:
    value, because = lookup(tree.name)
    read |= because
    return value


def _literal(tree: Literal, lookup: Lookup, read: set[str]) -> Known:
    return tree.value


def _article(tree: Article, lookup: Lookup, read: set[str]) -> Known:
    return ArticleReference(tree.article)


def _several(tree: Several, lookup: Lookup, read: set[str]) -> Known:
    return tuple(evaluate(item, lookup, read) for item in tree.items)  # type: ignore[return-value]


def _not(tree: Not, lookup: Lookup, read: set[str]) -> Known:
    truth = truth_of(evaluate(tree.inner, lookup, read))
    return truth if isinstance(truth, Open) else not truth


def _both(tree: Both, lookup: Lookup, read: set[str]) -> Known:
    return _connect(tree, lookup, read, decisive=False)


def _either(tree: Either, lookup: Lookup, read: set[str]) -> Known:
    return _connect(tree, lookup, read, decisive=True)


def _connect(tree: Both | Either, lookup: Lookup, read: set[str], *, decisive: bool) -> Known:
    """Kleene's and (decisive False) and or (decisive True) of two operands."""
    left_read: set[str] = set()
    left = truth_of(evaluate(tree.left, lookup, left_read))
    if left is decisive:
        read |= left_read
        return decisive
    right_read: set[str] = set()
    right = truth_of(evaluate(tree.right, lookup, right_read))
    if right is decisive:
        read |= right_read
        return decisive
    read |= left_read | right_read
    waits_on = [side.waits_on for side in (left, right) if isinstance(side, Open)]
    return Open(frozenset().union(*waits_on)) if waits_on else not decisive


def _comparison(tree: Comparison, lookup: Lookup, read: set[str]) -> Known:
    result: Known = True
    left = evaluate(tree.first, lookup, read)
    for operator, other in tree.steps:
        right = evaluate(other, lookup, read)
        step = _compare_two(operator, left, right)
        if step is False:
            return False
        if isinstance(step, Open):
            waits = result.waits_on if isinstance(result, Open) else frozenset()
            result = Open(waits | step.waits_on)
        left = right
    return result


def _compare_two(operator: str, left: Known, right: Known) -> bool | Open:
    if isinstance(left, NotAsked) or isinstance(right, NotAsked):
        return False
    waits_on = [side.waits_on for side in (left, right) if isinstance(side, Open)]
    if waits_on:
        return Open(frozenset().union(*waits_on))
    if operator in ("eq", "ne"):
        return (_key(left) == _key(right)) == (operator == "eq")
    if operator in ("in", "notin"):
        inside = _is_among(left, right if isinstance(right, tuple) else ())
        return inside if isinstance(inside, Open) else inside == (operator == "in")
    a, b = _key(left), _key(right)
    if not isinstance(a, float | datetime.date | Measured) or type(a) is not type(b):
        return False
    if isinstance(a, Measured) and isinstance(b, Measured) and a.family != b.family:
        return False
    return _COMPARISONS[operator](a, b)


def _is_among(value: Known, members: tuple[Any, ...]) -> bool | Open:
    """Whether a list holds a value: open where only a member not yet decided might be it."""
    if _key(value) in [_key(member) for member in members]:
        return True
    waits_on = [member.waits_on for member in members if isinstance(member, Open)]
    return Open(frozenset().union(*waits_on)) if waits_on else False


def _key(value: Known) -> object:
    """What a value is compared by: a choice by its id, a quantity by its magnitude."""
    if isinstance(value, Choice):
        return value.id
    if isinstance(value, Quantity):
        return Measured(FAMILY.get(value.dimension, value.dimension), round(value.magnitude, 9))
    return value


def _answered(tree: Answered, lookup: Lookup, read: set[str]) -> Known:
    value = evaluate(tree.inner, lookup, read)
    if isinstance(value, Open):
        return value
    return not isinstance(value, NotAsked)


def _choose(tree: Choose, lookup: Lookup, read: set[str]) -> Known:
    truth = truth_of(evaluate(tree.test, lookup, read))
    if isinstance(truth, Open):
        return truth
    return evaluate(tree.yes if truth else tree.no, lookup, read)


_EVALUATORS: dict[type, Callable[[Any, Lookup, set[str]], Known]] = {
    Name: _name,
    Literal: _literal,
    Article: _article,
    Several: _several,
    Not: _not,
    Both: _both,
    Either: _either,
    Comparison: _comparison,
    Answered: _answered,
    Choose: _choose,
}
