"""The one place that parses and evaluates a condition or a clause's text.

Both are written in Jinja's expression language and parsed by Jinja's own parser, but no Jinja code
ever runs: every node that is not known here is refused when the library is loaded, and the tree is
walked with three-valued (Kleene) logic. A condition is yes, no or open; open carries the questions
that it waits on. So a library folder from a stranger can compute nothing but what is listed here.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

from jinja2 import TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

from specgen import units
from specgen.spans import ArticleReference
from specgen.units import Quantity, UnitError
from specgen.values import Choice, Known, NotAsked, Open, Value

LONGEST_SOURCE = 4000


# What a name stands for, and the questions that made it so.
Lookup = Callable[[str], tuple[Value, frozenset[str]]]


class LanguageError(ValueError):
    """A condition or text that the library's language does not allow; the message says why."""


@dataclass(frozen=True)
class Expression:
    """A parsed condition or text.

    ``names`` are the questions and facts it reads, ``articles`` the ids it refers to by ``ref``,
    ``literals`` the choice ids and ``measures`` the dimensions that each name is compared with, for
    the loader to check.
    """

    source: str
    tree: nodes.Node
    names: frozenset[str] = frozenset()
    articles: frozenset[str] = frozenset()
    literals: frozenset[tuple[str, str]] = frozenset()
    measures: frozenset[tuple[str, str]] = frozenset()


# Thicknesses are lengths, and are compared with them.
FAMILY = {"thickness": "length"}


class Measured(NamedTuple):
    """What a quantity is compared by."""

    family: str
    magnitude: float


_MAKERS: dict[str, Callable[[str], Quantity]] = {
    "slope": lambda text: units.read(text, "slope"),
    "length": lambda text: units.read(text, "length"),
    "thickness": lambda text: units.read(text, "thickness"),
    "pressure": lambda text: units.read(text, "pressure"),
    "temperature": lambda text: units.read(text, "temperature"),
    "q": units.read_any,
}
FILTERS = ("lower", "first_upper", "decimal", "words")
_COMPARISONS: dict[str, Callable[[Any, Any], bool]] = {
    "lt": lambda a, b: bool(a < b),
    "lteq": lambda a, b: bool(a <= b),
    "gt": lambda a, b: bool(a > b),
    "gteq": lambda a, b: bool(a >= b),
}
_EXPRESSIONS = (
    nodes.Name,
    nodes.Const,
    nodes.List,
    nodes.Tuple,
    nodes.Not,
    nodes.And,
    nodes.Or,
    nodes.Compare,
    nodes.Operand,
    nodes.Call,
    nodes.Test,
    nodes.CondExpr,
)
_RESERVED = ("true", "false", "none", "not", "and", "or", "in", "is", "if", "else")
_QUOTING_CALL = re.compile(r"^([a-z]+)\('([^'\\]*)'\)$")
_ENVIRONMENT = ImmutableSandboxedEnvironment(autoescape=False)


# ---------------------------------------------------------------------------------------- parsing


@lru_cache(maxsize=8192)
def parse_condition(source: str) -> Expression:
    """The parsed condition; LanguageError, in a sentence, for what the language does not allow."""
    return _checked(source, _single_node(source, "condition"))


@lru_cache(maxsize=8192)
def parse_printed(source: str) -> tuple[Expression, tuple[str, ...]]:
    """What a text prints between braces: a value, and the filters it goes through in turn."""
    node = _single_node(source, "value")
    filters: list[str] = []
    while isinstance(node, nodes.Filter) and node.node is not None:
        if node.name not in FILTERS or node.args or node.kwargs:
            known = ", ".join(FILTERS)
            raise LanguageError(f"`{source}`: {node.name} is no filter; there are {known}")
        filters.insert(0, node.name)
        node = node.node
    return _checked(source, node), tuple(filters)


def _single_node(source: str, what: str) -> nodes.Expr:
    """The tree of one expression.

    A bare name and a call with one quoted text, which is what most of the library's texts print,
    are built as Jinja's parser would build them: it is the slowest thing in a cold start.
    """
    if len(source) > LONGEST_SOURCE:
        raise LanguageError(f"a {what} of {len(source)} characters is too long")
    if source.isidentifier() and source.lower() not in _RESERVED:
        return nodes.Name(source, "load")
    if match := _QUOTING_CALL.match(source):
        return nodes.Call(nodes.Name(match[1], "load"), [nodes.Const(match[2])], [], None, None)
    try:
        body = _ENVIRONMENT.parse("{{ " + source + " }}").body
    except TemplateSyntaxError as error:
        raise LanguageError(f"`{source}` cannot be read: {error.message}") from None
    except RecursionError:
        raise LanguageError(f"the {what} is nested too deep") from None
    if len(body) != 1 or not isinstance(body[0], nodes.Output) or len(body[0].nodes) != 1:
        raise LanguageError(f"`{source}` is not one {what}")
    return body[0].nodes[0]


def _checked(source: str, tree: nodes.Node) -> Expression:
    names: set[str] = set()
    articles: set[str] = set()
    literals: set[tuple[str, str]] = set()
    measures: set[tuple[str, str]] = set()
    functions: set[int] = set()
    for node in _walk(tree):
        if node.__class__ not in _EXPRESSIONS:
            kind = type(node).__name__.lower()
            raise LanguageError(f"`{source}` uses {kind}, which the language does not have")
        if isinstance(node, nodes.Call):
            functions.add(id(node.node))
            _check_call(node, source, articles)
        elif isinstance(node, nodes.Test) and node.name != "answered":
            raise LanguageError(f"`{source}` tests `is {node.name}`; there is only `is answered`")
        elif isinstance(node, nodes.Compare):
            literals.update(_literals_compared(node))
            measures.update(_measures_compared(node))
        elif isinstance(node, nodes.Const) and node.value is None:
            raise LanguageError(f"`{source}` uses none; a choice is written in quotes")
        elif isinstance(node, nodes.Name) and id(node) not in functions:
            names.add(node.name)
    return Expression(
        source,
        tree,
        names=frozenset(names),
        articles=frozenset(articles),
        literals=frozenset(literals),
        measures=frozenset(measures),
    )


def _walk(tree: nodes.Node) -> Iterator[nodes.Node]:
    stack = [tree]
    while stack:
        node = stack.pop()
        yield node
        stack.extend(node.iter_child_nodes())


def _check_call(node: nodes.Call, source: str, articles: set[str]) -> None:
    name = node.node.name if isinstance(node.node, nodes.Name) else "?"
    plain = len(node.args) == 1 and not (node.kwargs or node.dyn_args or node.dyn_kwargs)
    argument = node.args[0] if plain else None
    if not isinstance(argument, nodes.Const) or not isinstance(argument.value, str):
        raise LanguageError(f"`{source}`: {name}() takes one quoted text")
    if name == "ref":
        articles.add(argument.value)
    elif name in _MAKERS:
        try:
            _MAKERS[name](argument.value)
        except UnitError as error:
            raise LanguageError(f"`{source}`: {error}") from None
    else:
        known = ", ".join([*_MAKERS, "ref"])
        raise LanguageError(f"`{source}` calls {name}(); there are {known}")


def _literals_compared(node: nodes.Compare) -> Iterator[tuple[str, str]]:
    """(name, choice id) for each `name == 'id'`, `name in ['id', …]` and `'id' in name`."""
    sides = [node.expr, *(operand.expr for operand in node.ops)]
    for left, right in pairwise(sides):
        for name, other in ((left, right), (right, left)):
            if not isinstance(name, nodes.Name):
                continue
            items = other.items if isinstance(other, (nodes.List, nodes.Tuple)) else [other]
            for item in items:
                if isinstance(item, nodes.Const) and isinstance(item.value, str):
                    yield name.name, item.value


def _measures_compared(node: nodes.Compare) -> Iterator[tuple[str, str]]:
    """(name, dimension) for each name compared with a quantity made in the condition."""
    sides = [node.expr, *(operand.expr for operand in node.ops)]
    for left, right in pairwise(sides):
        for name, other in ((left, right), (right, left)):
            if isinstance(name, nodes.Name) and isinstance(other, nodes.Call):
                made = _MAKERS.get(getattr(other.node, "name", ""))
                argument = other.args[0] if other.args else None
                if made is not None and isinstance(argument, nodes.Const):
                    try:
                        dimension = made(argument.value).dimension
                    except UnitError:
                        continue
                    yield name.name, FAMILY.get(dimension, dimension)


# ------------------------------------------------------------------------------------- evaluation


def decide(expression: Expression, lookup: Lookup) -> tuple[bool | Open, frozenset[str]]:
    """Whether a condition holds: True, False or Open, and the questions that decide it.

    Of an `and` that is no, only the first operand that says no counts as deciding; of an `or` that
    is yes, only the first that says yes.
    """
    read: set[str] = set()
    answer = truth_of(evaluate(expression.tree, lookup, read))
    return answer, frozenset(read)


def truth_of(value: Known) -> bool | Open:
    if isinstance(value, Open):
        return value
    return not isinstance(value, NotAsked) and bool(value)


def evaluate(node: nodes.Node, lookup: Lookup, read: set[str]) -> Known:
    return _EVALUATORS[type(node)](node, lookup, read)


def _name(node: Any, lookup: Lookup, read: set[str]) -> Known:
    value, because = lookup(node.name)
    read |= because
    return value


def _const(node: Any, lookup: Lookup, read: set[str]) -> Known:
    value = node.value
    return float(value) if type(value) is int else value


def _list(node: Any, lookup: Lookup, read: set[str]) -> Known:
    return tuple(evaluate(item, lookup, read) for item in node.items)  # type: ignore[return-value]


def _not(node: Any, lookup: Lookup, read: set[str]) -> Known:
    truth = truth_of(evaluate(node.node, lookup, read))
    return truth if isinstance(truth, Open) else not truth


def _and(node: Any, lookup: Lookup, read: set[str]) -> Known:
    return _connect(node, lookup, read, decisive=False)


def _or(node: Any, lookup: Lookup, read: set[str]) -> Known:
    return _connect(node, lookup, read, decisive=True)


def _connect(node: Any, lookup: Lookup, read: set[str], *, decisive: bool) -> Known:
    """Kleene's and (decisive False) and or (decisive True) of two operands."""
    left_read: set[str] = set()
    left = truth_of(evaluate(node.left, lookup, left_read))
    if left is decisive:
        read |= left_read
        return decisive
    right_read: set[str] = set()
    right = truth_of(evaluate(node.right, lookup, right_read))
    if right is decisive:
        read |= right_read
        return decisive
    read |= left_read | right_read
    waits_on = [side.waits_on for side in (left, right) if isinstance(side, Open)]
    return Open(frozenset().union(*waits_on)) if waits_on else not decisive


def _compare(node: Any, lookup: Lookup, read: set[str]) -> Known:
    result: Known = True
    left = evaluate(node.expr, lookup, read)
    for operand in node.ops:
        right = evaluate(operand.expr, lookup, read)
        step = _compare_two(operand.op, left, right)
        if step is False:
            return False
        if isinstance(step, Open):
            waits = result.waits_on if isinstance(result, Open) else frozenset()
            result = Open(waits | step.waits_on)
        left = right
    return result


def _compare_two(operator: str, left: Known, right: Known) -> bool | Open:
    waits_on = [side.waits_on for side in (left, right) if isinstance(side, Open)]
    if waits_on:
        return Open(frozenset().union(*waits_on))
    if isinstance(left, NotAsked) or isinstance(right, NotAsked):
        return False
    if operator in ("eq", "ne"):
        return (_key(left) == _key(right)) == (operator == "eq")
    if operator in ("in", "notin"):
        members = right if isinstance(right, tuple) else ()
        inside = _key(left) in [_key(member) for member in members]  # type: ignore[arg-type]
        return inside == (operator == "in")
    a, b = _key(left), _key(right)
    if not isinstance(a, float | datetime.date | Measured) or type(a) is not type(b):
        return False
    if isinstance(a, Measured) and isinstance(b, Measured) and a.family != b.family:
        return False
    return _COMPARISONS[operator](a, b)


def _key(value: Known) -> object:
    """What a value is compared by: a choice by its id, a quantity by its magnitude."""
    if isinstance(value, Choice):
        return value.id
    if isinstance(value, Quantity):
        return Measured(FAMILY.get(value.dimension, value.dimension), round(value.magnitude, 9))
    return value


def _call(node: Any, lookup: Lookup, read: set[str]) -> Known:
    argument = node.args[0].value
    if node.node.name == "ref":
        return ArticleReference(argument)
    return _MAKERS[node.node.name](argument)


def _test(node: Any, lookup: Lookup, read: set[str]) -> Known:
    value = evaluate(node.node, lookup, read)
    if isinstance(value, Open):
        return value
    return not isinstance(value, NotAsked)


def _conditional(node: Any, lookup: Lookup, read: set[str]) -> Known:
    truth = truth_of(evaluate(node.test, lookup, read))
    if isinstance(truth, Open):
        return truth
    if truth:
        return evaluate(node.expr1, lookup, read)
    return evaluate(node.expr2, lookup, read) if node.expr2 is not None else ""


_EVALUATORS: dict[type[nodes.Node], Callable[[Any, Lookup, set[str]], Known]] = {
    nodes.Name: _name,
    nodes.Const: _const,
    nodes.List: _list,
    nodes.Tuple: _list,
    nodes.Not: _not,
    nodes.And: _and,
    nodes.Or: _or,
    nodes.Compare: _compare,
    nodes.Call: _call,
    nodes.Test: _test,
    nodes.CondExpr: _conditional,
}
