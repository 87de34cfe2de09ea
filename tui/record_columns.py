"""What a column of a table is: what it means, how it is written, and what it is likely to hold."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from specgen.calculations.uplift_ratings import FRAMING_TESTS, SOLID_SUPPORT_TESTS
from specgen.questions import Column, Question
from specgen.scope import Scope
from specgen.units import DIMENSIONS, Quantity
from specgen.values import Choice
from tui.record_rows import Row

# Which question of the roof a column of a record is set against.
SET_AGAINST = {
    "support": "support",
    "metal": "metal",
    "thickness": "panel_thickness",
    "width": "panel_width",
    "seam": "seam",
    "clip": "clip_kind",
}
ZONES = ("zone_pressures", "computed_pressures")
UNITS = {"thickness": "ga, in, mm", "length": "in, ft, mm", "pressure": "psf, kPa"}
MEANS = {
    "test": "the test method, as the report names it",
    "support": "what the specimen stood on",
    "metal": "the metal of the specimen; alloy or grade where the report tells it",
    "thickness": "the sheet of the specimen; a thicker sheet on the roof is covered",
    "width": "from center to center of the seams; a narrower panel is covered",
    "seam": "the seam of the specimen",
    "clip": "the clip of the specimen, one-piece or two-piece",
    "fastener": "what held the clip to the support, and how many",
    "spacing": "clip spacing along the seam in the test",
    "ultimate": "the highest uplift that was held; for an FM rating, its figure",
    "factor": "what the ultimate uplift is divided by",
    "report": "designation of the report that says so",
}
MOST_OFFERS = 12


def means(question: Question, column: Column) -> str:
    """What a column holds, in a few words; empty where its label says it."""
    return MEANS.get(column.id, "") if question.id == "test_records" else ""


def unit_of(column: Column) -> str:
    """The units that a column is typed in, in short."""
    if column.kind in ("text", "number"):
        return ""
    return UNITS.get(column.kind) or ", ".join(list(DIMENSIONS[column.kind].units)[:2])


def written(column: Column) -> str:
    """How a cell is written."""
    if column.kind == "text":
        return "words"
    if column.kind == "number":
        return "a plain number, such as 2 or 1.67"
    return f"such as {DIMENSIONS[column.kind].example}"


def offers(scope: Scope, question: Question, column: int, rows: Iterable[Row]) -> list[str]:
    """What a cell may be filled with by one key: what this roof has, the choices, what is used."""
    name = question.columns[column].id
    used = [row[name] for row in rows if row[name].strip()]
    if question.id == "test_records":
        found = [*_of_roof(scope, name), *used, *_choices(scope, name)]
    else:
        found = [*(_zones(scope) if name == "zone" else ()), *used]
    return list(dict.fromkeys(found))[:MOST_OFFERS]


def _of_roof(scope: Scope, name: str) -> Iterator[str]:
    """What this roof has of what a column holds."""
    answer = scope.answers.get(SET_AGAINST.get(name, ""))
    if isinstance(answer, Choice):
        yield answer.label
    elif isinstance(answer, Quantity):
        yield answer.typed


def _choices(scope: Scope, name: str) -> Iterator[str]:
    """The tests, or the choices of the question that a column is set against."""
    if name == "test":
        yield from sorted(SOLID_SUPPORT_TESTS | FRAMING_TESTS, key=_on(scope))
    other = scope.library.questions.get(SET_AGAINST.get(name, ""))
    if other is not None:
        yield from (choice.label for choice in other.choices)


def _on(scope: Scope) -> Callable[[str], tuple[bool, str]]:
    """Tests that are made for this roof's support before the others."""
    support = scope.answers.get("support")
    framing = isinstance(support, Choice) and support.id == "open-framing"
    return lambda test: ((test in FRAMING_TESTS) != framing, test)


def _zones(scope: Scope) -> Sequence[str]:
    for table in ZONES:
        if table in scope.library.questions or table in scope.library.calculations:
            value, _ = scope.lookup(table)
            if isinstance(value, tuple) and value:
                return [str(row[0]) for row in value if isinstance(row, tuple)]
    return ()
