"""Putting answers into a clause's text, and printing an answer as a section prints it."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from jinja2 import nodes

from specgen import units
from specgen.conditions import Expression, LanguageError, Lookup, evaluate, filters_on, truth_of
from specgen.showing import figure, show, show_thickness
from specgen.spans import ArticleReference, Gap, Span, Words, join_words
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Choice, Open, Value


@dataclass(frozen=True, slots=True)
class Printer:
    """How values are printed: the units shown, and the label of a question left open."""

    system: units.System
    label_of: Callable[[str], str]


def render(
    expression: Expression, lookup: Lookup, printer: Printer
) -> tuple[tuple[Span, ...], frozenset[str]]:
    """The text of a clause as spans, and the questions it read.

    A value not yet decided comes out as a Gap. Raises LanguageError if the text prints an answer
    that is not asked for: the clause's condition ought to have excluded that.
    """
    read: set[str] = set()
    spans = join_words(_render(expression.tree, lookup, read, printer))
    return spans, frozenset(read)


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


def _render(node: nodes.Node, lookup: Lookup, read: set[str], printer: Printer) -> Iterator[Span]:
    if isinstance(node, nodes.TemplateData):
        yield Words(node.data)
    elif isinstance(node, nodes.Template):
        for part in node.body:
            yield from _render(part, lookup, read, printer)
    elif isinstance(node, nodes.Output):
        for part in node.nodes:
            yield from _render(part, lookup, read, printer)
    elif isinstance(node, nodes.If):
        yield from _render_if(node, lookup, read, printer)
    else:
        yield _print(node, lookup, read, printer)


def _render_if(node: nodes.If, lookup: Lookup, read: set[str], printer: Printer) -> Iterator[Span]:
    branches = [(node.test, node.body), *((branch.test, branch.body) for branch in node.elif_)]
    for test, body in branches:
        truth = truth_of(evaluate(test, lookup, read))
        if isinstance(truth, Open):
            yield _gap(truth, printer)
            return
        if truth:
            for part in body:
                yield from _render(part, lookup, read, printer)
            return
    for part in node.else_:
        yield from _render(part, lookup, read, printer)


def _print(node: nodes.Node, lookup: Lookup, read: set[str], printer: Printer) -> Span:
    filters = []
    for link in filters_on(node):
        filters.append(link.name)
        node = link.node or node
    value = evaluate(node, lookup, read)
    if isinstance(value, Open):
        return _gap(value, printer)
    if isinstance(value, ArticleReference):
        return value
    if value is NOT_ASKED:
        name = getattr(node, "name", "a value")
        raise LanguageError(f"it prints {name}, which is not asked for this roof")
    if "decimal" in filters and isinstance(value, Quantity):
        return Words(show_thickness(value, printer.system))
    text = _in_words(value) if "words" in filters else print_value(value, printer)
    if "lower" in filters:
        text = text.lower()
    if "first_upper" in filters:
        text = text[:1].upper() + text[1:]
    return Words(text)


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
