"""The calculation record as one page of HTML that needs nothing beside it, for screen and print."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from importlib.resources import files

from jinja2 import Environment, StrictUndefined, Template
from markupsafe import Markup

from specgen.calculations.record import Step
from specgen.computing.registry import reads_of
from specgen.drawing import Layer, layers_of
from specgen.drawing_chart import Chart, chart_of, moved_shown
from specgen.drawing_plan import RoofPlan, area_shown, roof_plan
from specgen.questions import Question
from specgen.scope import Scope
from specgen.values import NOT_ASKED, Open
from specgen.writers.calculations_shown import (
    SUBJECT_TO,
    Shown,
    ShownTable,
    capital,
    heading,
    sentence,
    shown_results,
    shown_table,
)
from specgen.writers.calculations_svg_plan import chart_svg, plan_svg, swatch_svg
from specgen.writers.calculations_svg_section import seam_svg, section_svg
from specgen.writers.calculations_typeset import breakable, formula_html, value_html


@dataclass(frozen=True, slots=True)
class InputRow:
    """An input as the page lists it; ``read_by`` are the numbers of what reads it."""

    question: str
    label: str
    answer: str
    is_open: bool
    read_by: str


@dataclass(frozen=True, slots=True)
class LineRow:
    """A step as the page prints it; a caution said before refers to the line that said it."""

    number: str
    symbol: Markup
    label: str
    formula: Markup
    worked: Markup
    equals: bool
    value: Markup
    unit: str
    source: str
    caution: str
    as_at: str


@dataclass(frozen=True, slots=True)
class ZoneRow:
    """A zone in the key of the plan."""

    swatch: Markup
    name: str
    area: str
    uplift: str
    spacing: str


@dataclass(frozen=True, slots=True)
class Part:
    """One calculation of the page, its drawings as markup, empty where it has none."""

    number: int
    shown: Shown
    lines: tuple[LineRow, ...]
    plan: Markup
    key: tuple[ZoneRow, ...]
    chart: Markup
    chart_rows: tuple[tuple[str, str, bool], ...]
    chart_units: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Collected:
    """A source or caution with the numbers of the lines that carry it."""

    text: str
    lines: str


def write_calculations_html(scope: Scope, title: str = "Calculation record") -> str:
    """The record: inputs, assembly, every line of every calculation, sources, what is open."""
    results = shown_results(scope)
    needed = [shown for shown in results if shown.state != "not needed"]
    parts = tuple(_part(scope, number, shown) for number, shown in enumerate(needed, 1))
    layers = layers_of(scope)
    rows, tables = _inputs(scope, parts, layers)
    return _template().render(
        title=title,
        heading=heading(scope),
        subject_to=SUBJECT_TO,
        parts=parts,
        spared=[shown.title for shown in results if shown.state == "not needed"],
        inputs=rows,
        input_tables=tables,
        # Markup of our own making: every word in it has been escaped where it was written.
        section=Markup(section_svg(scope, layers)),
        seam=Markup(seam_svg(layers)),
        deck_ribs=any(layer.material == "deck" for layer in layers),
        undecided=_undecided(scope, parts, layers),
        sources=_collected(_sources(parts)),
        cautions=_collected(_cautions(parts)),
    )


def _template() -> Template:
    jinja = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True)
    jinja.filters |= {"breakable": breakable, "capital": capital, "sentence": sentence}
    page = files(__package__).joinpath("calculations.html").read_text(encoding="utf-8")
    return jinja.from_string(page)


def _part(scope: Scope, number: int, shown: Shown) -> Part:
    outcome = shown.result.outcome
    plan = roof_plan(scope, outcome.plan) if outcome else None
    chart = chart_of(scope, outcome.series) if outcome else None
    prefix = shown.result.calculation.id
    return Part(
        number,
        shown,
        tuple(_lines(number, shown.steps)),
        Markup(plan_svg(scope, plan, prefix)) if plan else Markup(""),
        tuple(_key(scope, plan, prefix)) if plan else (),
        Markup(chart_svg(chart)) if chart else Markup(""),
        _chart_rows(chart) if chart else (),
        (chart.x_unit, chart.y_unit) if chart else ("", ""),
    )


def _lines(number: int, steps: Iterable[Step]) -> Iterator[LineRow]:
    said: dict[str, str] = {}
    for place, step in enumerate(steps, 1):
        line = f"{number}.{place}"
        as_at = said.get(step.caution, "")
        if step.caution:
            said.setdefault(step.caution, line)
        yield LineRow(
            line,
            Markup(formula_html(step.symbol)),
            step.label,
            Markup(formula_html(_right_of(step.formula, step.symbol))),
            Markup(formula_html(_right_of(step.worked, step.symbol))),
            _FIGURES.match(_right_of(step.worked, step.symbol)) is not None,
            Markup(value_html(step.value)),
            step.unit,
            step.source,
            "" if as_at else step.caution,
            as_at,
        )


_FIGURES = re.compile(r"[-(\d]|[a-z]+\(|e\^")


def _right_of(formula: str, symbol: str) -> str:
    """A formula without the symbol that it begins with, which stands in a column of its own."""
    return formula.removeprefix(f"{symbol} = ")


def _key(scope: Scope, plan: RoofPlan, prefix: str) -> Iterator[ZoneRow]:
    for zone in plan.zones:
        yield ZoneRow(
            Markup(swatch_svg(prefix, zone.rank)),
            zone.name,
            area_shown(scope, zone.area),
            zone.uplift,
            zone.spacing,
        )


def _chart_rows(chart: Chart) -> tuple[tuple[str, str, bool], ...]:
    return tuple(
        (f"{x:,.1f}", moved_shown(chart, y), chart.mark is not None and x == chart.mark[0])
        for x, y in chart.rows
    )


# ---------------------------------------------------------------------------------------- inputs


def _inputs(
    scope: Scope, parts: tuple[Part, ...], layers: tuple[Layer, ...]
) -> tuple[list[InputRow], list[ShownTable]]:
    """Every question that a calculation or the drawing reads, and the tables among the answers."""
    readers: dict[str, list[str]] = {}
    for part in parts:
        calculation = part.shown.result.calculation
        names = reads_of(calculation, scope.library.arises[calculation.id])
        for name in _questions(scope, sorted(names)):
            if str(part.number) not in readers.setdefault(name, []):
                readers[name].append(str(part.number))
    for layer in layers:
        for name in _questions(scope, layer.questions):
            if "drawing" not in readers.setdefault(name, []):
                readers[name].append("drawing")
    rows, tables = [], []
    for name, question in scope.library.questions.items():
        row = _input(scope, question, ", ".join(readers[name])) if name in readers else None
        if row is None:
            continue
        value, _ = scope.lookup(name)
        if question.kind == "table" and isinstance(value, tuple):
            tables.append(shown_table(scope, question.label, question.columns, value))
            count = len(value)
            answer = f"{count} {'row' if count == 1 else 'rows'}, below"
            row = InputRow(name, question.label, answer, False, row.read_by)
        rows.append(row)
    return rows, tables


def _questions(scope: Scope, names: Iterable[str]) -> Iterator[str]:
    """The questions behind names, facts taken for what they read, computed values left out."""
    for name in names:
        fact = scope.library.facts.get(name)
        if fact is not None:
            yield from _questions(scope, sorted(fact.condition.names))
        elif name in scope.library.questions:
            yield name


def _input(scope: Scope, question: Question, read_by: str) -> InputRow | None:
    """The row of a question; None for one that does not arise."""
    value, _ = scope.lookup(question.id)
    if value is NOT_ASKED:
        asked, _ = scope.holds(question.when)
        if not (question.optional and asked is True):
            return None
        return InputRow(question.id, question.label, "not answered", False, read_by)
    if isinstance(value, Open):
        hangs_on = question.id not in value.waits_on
        answer = "open, if it arises" if hangs_on else "open"
        return InputRow(question.id, question.label, answer, True, read_by)
    answer = scope.shown(question.id)
    if question.kind == "number" and question.unit:
        answer = f"{answer} {question.unit}"
    return InputRow(question.id, question.label, answer, False, read_by)


# ------------------------------------------------------------------------------------- collected


def _undecided(
    scope: Scope, parts: tuple[Part, ...], layers: tuple[Layer, ...]
) -> list[tuple[str, str, str]]:
    """(question, what it asks, what waits for it), in the library's order."""
    waiting: dict[str, list[str]] = {}
    for part in parts:
        for name, _ in part.shown.settles:
            waiting.setdefault(name, []).append(f"{part.number} {part.shown.title}")
    for layer in layers:
        for name in layer.waits_on:
            if "drawing" not in waiting.setdefault(name, []):
                waiting[name].append("drawing")
    return [
        (name, question.ask, "; ".join(waiting[name]))
        for name, question in scope.library.questions.items()
        if name in waiting
    ]


def _sources(parts: tuple[Part, ...]) -> Iterator[tuple[str, str]]:
    for part in parts:
        for line, step in zip(part.lines, part.shown.steps, strict=True):
            yield step.source, line.number


def _cautions(parts: tuple[Part, ...]) -> Iterator[tuple[str, str]]:
    for part in parts:
        for caution in part.shown.cautions:
            yield caution, str(part.number)
        for line, step in zip(part.lines, part.shown.steps, strict=True):
            yield step.caution, line.number


def _collected(pairs: Iterable[tuple[str, str]]) -> list[Collected]:
    found: dict[str, list[str]] = {}
    for text, line in pairs:
        if text:
            found.setdefault(text, []).append(line)
    return [Collected(text, ", ".join(lines)) for text, lines in found.items()]
