"""The language of the library: reading a condition, and reading a clause's text.

Both are written in Jinja's expression language and parsed by Jinja's own parser, but no Jinja code
ever runs: what it parses is made into the tree of `conditions`, and everything that has no place
there is refused when the library is loaded. So a library folder from a stranger can compute
nothing but what is listed here.

A text holds ``{{ value }}`` and ``{% if condition %} … {% elif … %} … {% else %} … {% endif %}``
and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import pairwise

from jinja2 import TemplateSyntaxError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

from specgen import units
from specgen.conditions import (
    FAMILY,
    Answered,
    Article,
    Both,
    Choose,
    Comparison,
    Either,
    Expression,
    LanguageError,
    Literal,
    Name,
    Not,
    Several,
    Tree,
    parts_of,
)
from specgen.units import Quantity, UnitError
from specgen.wording import Branches, Piece, Printed, Text

LONGEST_SOURCE = 4000
DEEPEST_IF = 8
DEEPEST_TREE = 60
FILTERS = ("lower", "first_upper", "decimal", "words", "resistance")

_MAKERS: dict[str, Callable[[str], Quantity]] = {
    "slope": lambda text: units.read(text, "slope"),
    "length": lambda text: units.read(text, "length"),
    "thickness": lambda text: units.read(text, "thickness"),
    "pressure": lambda text: units.read(text, "pressure"),
    "temperature": lambda text: units.read(text, "temperature"),
    "q": units.read_any,
}
_ENVIRONMENT = ImmutableSandboxedEnvironment(autoescape=False)


# ------------------------------------------------------------------------------------- expressions


@lru_cache(maxsize=8192)
def parse_condition(source: str) -> Expression:
    """The parsed condition; LanguageError, in a sentence, for what the language does not allow."""
    return _expression(source, _single_node(source, "condition"))


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
    return _expression(source, node), tuple(filters)


def _single_node(source: str, what: str) -> nodes.Node:
    if len(source) > LONGEST_SOURCE:
        raise LanguageError(f"a {what} of {len(source)} characters is too long")
    try:
        body = _ENVIRONMENT.parse("{{ " + source + " }}").body
    except TemplateSyntaxError as error:
        raise LanguageError(f"`{source}` cannot be read: {error.message}") from None
    except RecursionError:
        raise LanguageError(f"the {what} is nested too deep") from None
    if len(body) != 1 or not isinstance(body[0], nodes.Output) or len(body[0].nodes) != 1:
        raise LanguageError(f"`{source}` is not one {what}")
    return body[0].nodes[0]


def _expression(source: str, node: nodes.Node) -> Expression:
    tree = _Planter(source).tree(node, 0)
    parts = list(parts_of(tree))
    comparisons = [part for part in parts if isinstance(part, Comparison)]
    return Expression(
        source,
        tree,
        names=frozenset(part.name for part in parts if isinstance(part, Name)),
        articles=frozenset(part.article for part in parts if isinstance(part, Article)),
        literals=frozenset(pair for each in comparisons for pair in _literals(each)),
        measures=frozenset(pair for each in comparisons for pair in _measures(each)),
    )


class _Planter:
    """Makes our tree from Jinja's, refusing what ours has no place for."""

    def __init__(self, source: str) -> None:
        self.source = source

    def refuse(self, says: str) -> LanguageError:
        return LanguageError(f"`{self.source}` {says}")

    def tree(self, node: nodes.Node | None, depth: int) -> Tree:
        if depth > DEEPEST_TREE:
            raise LanguageError("the condition is nested too deep")
        below = depth + 1
        if isinstance(node, nodes.Name):
            return Name(node.name)
        if isinstance(node, nodes.Const):
            return self._literal(node.value)
        if isinstance(node, nodes.List | nodes.Tuple):
            return Several(tuple(self.tree(item, below) for item in node.items))
        if isinstance(node, nodes.Not):
            return Not(self.tree(node.node, below))
        if isinstance(node, nodes.And):
            return Both(self.tree(node.left, below), self.tree(node.right, below))
        if isinstance(node, nodes.Or):
            return Either(self.tree(node.left, below), self.tree(node.right, below))
        if isinstance(node, nodes.Compare):
            steps = tuple((step.op, self.tree(step.expr, below)) for step in node.ops)
            return Comparison(self.tree(node.expr, below), steps)
        if isinstance(node, nodes.CondExpr):
            no = Literal("") if node.expr2 is None else self.tree(node.expr2, below)
            return Choose(self.tree(node.test, below), self.tree(node.expr1, below), no)
        if isinstance(node, nodes.Test):
            if node.name != "answered":
                raise self.refuse(f"tests `is {node.name}`; there is only `is answered`")
            return Answered(self.tree(node.node, below))
        if isinstance(node, nodes.Call):
            return self._call(node)
        kind = type(node).__name__.lower()
        raise self.refuse(f"uses {kind}, which the language does not have")

    def _literal(self, value: object) -> Literal:
        if value is None:
            raise self.refuse("uses none; a choice is written in quotes")
        if isinstance(value, bool | str):
            return Literal(value)
        if isinstance(value, int | float):
            if abs(value) > units.LARGEST:
                raise self.refuse("holds a number out of all proportion")
            return Literal(float(value))
        raise self.refuse(f"uses {value!r}, which the language does not have")

    def _call(self, node: nodes.Call) -> Literal | Article:
        name = node.node.name if isinstance(node.node, nodes.Name) else "?"
        plain = len(node.args) == 1 and not (node.kwargs or node.dyn_args or node.dyn_kwargs)
        argument = node.args[0] if plain else None
        if not isinstance(argument, nodes.Const) or not isinstance(argument.value, str):
            raise LanguageError(f"`{self.source}`: {name}() takes one quoted text")
        if name == "ref":
            return Article(argument.value)
        if name not in _MAKERS:
            known = ", ".join([*_MAKERS, "ref"])
            raise self.refuse(f"calls {name}(); there are {known}")
        try:
            return Literal(_MAKERS[name](argument.value))
        except UnitError as error:
            raise LanguageError(f"`{self.source}`: {error}") from None


def _literals(comparison: Comparison) -> Iterator[tuple[str, str]]:
    """(name, choice id) for each `name == 'id'`, `name in ['id', …]` and `'id' in name`."""
    for name, other in _pairs(comparison):
        for item in other.items if isinstance(other, Several) else (other,):
            if isinstance(item, Literal) and isinstance(item.value, str):
                yield name.name, item.value


def _measures(comparison: Comparison) -> Iterator[tuple[str, str]]:
    """(name, dimension) for each name compared with a quantity made in the condition."""
    for name, other in _pairs(comparison):
        if isinstance(other, Literal) and isinstance(other.value, Quantity):
            dimension = other.value.dimension
            yield name.name, FAMILY.get(dimension, dimension)


def _pairs(comparison: Comparison) -> Iterator[tuple[Name, Tree]]:
    """Each name in a chain of comparisons, with what stands next to it."""
    sides = [comparison.first, *(other for _, other in comparison.steps)]
    for left, right in pairwise(sides):
        for name, other in ((left, right), (right, left)):
            if isinstance(name, Name):
                yield name, other


# ------------------------------------------------------------------------------------------- texts


_MARKED = re.compile(r"(\{\{.*?\}\}|\{%.*?%\})", re.DOTALL)
_STRAY = re.compile(r"\{[{%#]|[}%#]\}")
_STATEMENT = re.compile(r"^\{%\s*(if|elif|else|endif)\b\s*(.*?)\s*%\}$", re.DOTALL)


@lru_cache(maxsize=8192)
def parse_text(source: str) -> Text:
    """The parsed text; LanguageError, in a sentence, for what the language does not allow."""
    if len(source) > LONGEST_SOURCE:
        raise LanguageError(f"a text of {len(source)} characters is too long")
    reader = _TextReader(source)
    for index, piece in enumerate(_MARKED.split(source)):
        if index % 2:
            reader.mark(piece)
        else:
            reader.words(piece)
    return reader.text()


class _Frame:
    """An if being read: its finished branches, and the one that is growing."""

    def __init__(self, condition: Expression | None) -> None:
        self.finished: list[tuple[Expression | None, tuple[Piece, ...]]] = []
        self.condition = condition
        self.pieces: list[Piece] = []

    def turn(self, condition: Expression | None) -> None:
        self.finished.append((self.condition, tuple(self.pieces)))
        self.condition, self.pieces = condition, []


class _TextReader:
    def __init__(self, source: str) -> None:
        self.source = source
        self.frames = [_Frame(None)]
        self.expressions: list[Expression] = []

    def words(self, words: str) -> None:
        if _STRAY.search(words):
            raise LanguageError(f"`{self.source}` has braces that do not pair")
        if words:
            self.frames[-1].pieces.append(words)

    def mark(self, mark: str) -> None:
        if mark.startswith("{%"):
            self._statement(mark)
            return
        value, filters = parse_printed(mark[2:-2].strip())
        self.expressions.append(value)
        self.frames[-1].pieces.append(Printed(value, filters))

    def _statement(self, mark: str) -> None:
        match = _STATEMENT.match(mark)
        if match is None:
            raise LanguageError(f"`{mark}`: a text has if, elif, else and endif, and no more")
        word, rest = match.groups()
        if (word in ("if", "elif")) != bool(rest):
            raise LanguageError(f"`{mark}`: a condition goes with if and elif")
        if word == "if":
            if len(self.frames) > DEEPEST_IF:
                raise LanguageError(f"`{mark}` is nested too deep")
            self.frames.append(_Frame(self._condition(rest)))
            return
        frame = self.frames[-1]
        if len(self.frames) == 1 or (word != "endif" and frame.condition is None):
            raise LanguageError(f"`{mark}` does not follow an if")
        if word == "endif":
            frame.turn(None)
            self.frames.pop()
            self.frames[-1].pieces.append(Branches(tuple(frame.finished)))
        else:
            frame.turn(self._condition(rest) if word == "elif" else None)

    def _condition(self, source: str) -> Expression:
        condition = parse_condition(source)
        self.expressions.append(condition)
        return condition

    def text(self) -> Text:
        if len(self.frames) > 1:
            raise LanguageError(f"`{self.source}` has an if without its endif")
        return Text(self.source, tuple(self.frames[0].pieces), tuple(self.expressions))
