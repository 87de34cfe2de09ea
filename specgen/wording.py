"""The texts of clauses: reading one, putting answers into it, and printing an answer.

A text holds ``{{ value }}`` and ``{% if condition %} … {% elif … %} … {% else %} … {% endif %}``
and nothing else. What stands between the braces is an expression of `conditions`.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from specgen import units
from specgen.conditions import (
    LONGEST_SOURCE,
    Expression,
    LanguageError,
    Lookup,
    evaluate,
    parse_condition,
    parse_printed,
    truth_of,
)
from specgen.showing import figure, show, show_thickness
from specgen.spans import ArticleReference, Gap, Span, Words, join_words
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Choice, Open, Value

DEEPEST_IF = 8


@dataclass(frozen=True, slots=True)
class Printed:
    """A value that a text prints, through its filters in turn."""

    value: Expression
    filters: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Branches:
    """An if of a text: conditions with the pieces they bring, the else with None, last."""

    branches: tuple[tuple[Expression | None, tuple[Piece, ...]], ...]


Piece = str | Printed | Branches


@dataclass(frozen=True, slots=True)
class Text:
    """A parsed text; ``expressions`` are all that stand in it, for the loader to check."""

    source: str
    pieces: tuple[Piece, ...]
    expressions: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Printer:
    """How values are printed: the units shown, and the label of a question left open."""

    system: units.System
    label_of: Callable[[str], str]


# ---------------------------------------------------------------------------------------- reading

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


# --------------------------------------------------------------------------------------- printing


def render(text: Text, lookup: Lookup, printer: Printer) -> tuple[tuple[Span, ...], frozenset[str]]:
    """The text of a clause as spans, and the questions it read.

    A value not yet decided comes out as a Gap. Raises LanguageError if the text prints an answer
    that is not asked for: the clause's condition ought to have excluded that.
    """
    read: set[str] = set()
    spans = join_words(_render(text.pieces, lookup, read, printer))
    return spans, frozenset(read)


def _render(
    pieces: tuple[Piece, ...], lookup: Lookup, read: set[str], printer: Printer
) -> Iterator[Span]:
    for piece in pieces:
        if isinstance(piece, str):
            yield Words(piece)
        elif isinstance(piece, Printed):
            yield _print(piece, lookup, read, printer)
        else:
            yield from _render_branches(piece, lookup, read, printer)


def _render_branches(
    piece: Branches, lookup: Lookup, read: set[str], printer: Printer
) -> Iterator[Span]:
    for condition, pieces in piece.branches:
        truth = True if condition is None else truth_of(evaluate(condition.tree, lookup, read))
        if isinstance(truth, Open):
            yield _gap(truth, printer)
            return
        if truth:
            yield from _render(pieces, lookup, read, printer)
            return


def _print(piece: Printed, lookup: Lookup, read: set[str], printer: Printer) -> Span:
    value = evaluate(piece.value.tree, lookup, read)
    if isinstance(value, Open):
        return _gap(value, printer)
    if isinstance(value, ArticleReference):
        return value
    if value is NOT_ASKED:
        raise LanguageError(f"it prints {piece.value.source}, which is not asked for this roof")
    if "decimal" in piece.filters and isinstance(value, Quantity):
        return Words(show_thickness(value, printer.system))
    text = _in_words(value) if "words" in piece.filters else print_value(value, printer)
    if "lower" in piece.filters:
        text = text.lower()
    if "first_upper" in piece.filters:
        text = text[:1].upper() + text[1:]
    return Words(text)


def print_value(value: Value, printer: Printer) -> str:
    """A decided value as the section prints it."""
    if isinstance(value, Quantity):
        return show(value, printer.system)
    if isinstance(value, Choice):
        return value.text
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return figure(value, 4)
    if isinstance(value, datetime.date):
        return f"{value:%B} {value.day}, {value.year}"
    if isinstance(value, tuple):
        words = [item.text for item in value if isinstance(item, Choice)]
        return _listed(words) if words else "none"
    return str(value)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _in_words(value: Value) -> str:
    small = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
    ]
    if isinstance(value, float) and value.is_integer() and 0 <= value <= 12:
        return small[int(value)]
    return figure(value, 4) if isinstance(value, float) else str(value)


def _gap(value: Open, printer: Printer) -> Gap:
    question = min(value.waits_on)
    return Gap(question, f"open: {printer.label_of(question)}")
