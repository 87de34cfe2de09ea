"""The texts of clauses: putting answers into one, and printing an answer."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from specgen import units
from specgen.conditions import Expression, LanguageError, Lookup, evaluate, truth_of
from specgen.showing import figure, show, show_resistance, show_thickness
from specgen.spans import ArticleReference, Gap, Span, Words, join_words
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Choice, Open, Value

# Its answer changes how every quantity is printed, and so every text that prints one.
UNITS = "units_shown"


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
    """How values are printed: the units shown, and what stands where a question is open.

    ``first_of`` is the question that is asked first of several, ``label_of`` what it is called.
    """

    system: units.System
    label_of: Callable[[str], str]
    first_of: Callable[[frozenset[str]], str]


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
    if isinstance(value, Quantity):
        read.add(UNITS)
    if "decimal" in piece.filters and isinstance(value, Quantity):
        return Words(show_thickness(value, printer.system))
    if "resistance" in piece.filters and isinstance(value, float):
        read.add(UNITS)
        return Words(show_resistance(value, printer.system))
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
    if isinstance(value, tuple) and value and isinstance(value[0], tuple):
        return f"{len(value)} row{'s' if len(value) > 1 else ''}"
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
    question = printer.first_of(value.waits_on)
    return Gap(question, f"open: {printer.label_of(question)}")
