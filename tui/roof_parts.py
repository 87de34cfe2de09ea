"""The roof's parts as drawn lines: layers in section, or zones in plan, with a legend beside."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from specgen.drawing import Layer, layers_of
from specgen.drawing_plan import PlanZone, RoofPlan, roof_plan
from specgen.engine import Engine
from specgen.scope import Result
from specgen.showing import figure
from specgen.units import Quantity
from specgen.values import Open
from specgen.wording import print_value
from tui.marks import OPEN, cut, marks, plain, unicode_wanted
from tui.plan_art import plan_art, zone_mark
from tui.section_art import section_art

WIND = "wind"
# The questions of a zone beside those of the wind: where clips go, by zone.
ZONE_QUESTIONS = ("design_responsibility", "zone_pressures", "spacing_basis", "clip_schedule")
SPACING_TABLES = ("clip_schedule", "computed_spacing")
ZONE_VALUES = ("computed_pressures", "computed_spacing", "zone_limits", "uplift_short")


@dataclass(frozen=True, slots=True)
class RoofPart:
    """A layer or a zone: its name, the questions it comes from, the computed values it shows.

    ``look`` is how it is drawn (metal, clip, open, layer, or zone).
    """

    id: str
    name: str
    questions: tuple[str, ...]
    values: tuple[str, ...] = ()
    look: str = "layer"
    waits: bool = False


_OPEN_WORDS = re.compile(r"\(open: ([^)]*)\)")

Piece = tuple[str, str]
"""A text and the id of the part that it belongs to, empty for none."""


@dataclass(frozen=True, slots=True)
class DrawnRoof:
    """Lines of the drawing and of the legend, the parts from the top, and what to say of scale."""

    drawing: tuple[tuple[Piece, ...], ...]
    legend: tuple[tuple[Piece, ...], ...]
    parts: tuple[RoofPart, ...]
    says: str


def drawn_section(engine: Engine, columns: int, rows: int) -> DrawnRoof:
    """The assembly in section."""
    scope = engine.scope
    layers = layers_of(scope)
    known = "panel_width" in engine.library.questions
    width = scope.lookup("panel_width")[0] if known else None
    inches = width.to("in") if isinstance(width, Quantity) else None
    art = section_art(
        layers,
        columns,
        rows,
        width=inches,
        width_shown=plain(scope.shown("panel_width")) if inches is not None else "",
        plain=not unicode_wanted(),
    )
    drawing: list[tuple[Piece, ...]] = []
    legend: list[tuple[Piece, ...]] = []
    for row in art.rows:
        pieces: list[Piece] = []
        for character, owner in zip(row.characters, row.owners, strict=True):
            if pieces and pieces[-1][1] == owner:
                pieces[-1] = (pieces[-1][0] + character, owner)
            else:
                pieces.append((character, owner))
        drawing.append(tuple(pieces))
        legend.append(tuple((_layer_name(layer), layer.id) for layer in row.named))
    seen = {layer.id: layer for row in art.rows for layer in row.named}
    parts = [_layer_part(layer) for layer in seen.values()]
    says = f"to scale but for sheets; a row is {figure(art.inches, 1)} in"
    return DrawnRoof(tuple(drawing), tuple(legend), tuple(parts), says)


def _layer_name(layer: Layer) -> str:
    """The name in the legend: what is open with a question mark, and a sign before it."""
    name = _OPEN_WORDS.sub(r"\1?", plain(layer.name))
    return f"{OPEN} {name}" if layer.waits_on else name


def _layer_part(layer: Layer) -> RoofPart:
    look = "open" if layer.material == "open" else "layer"
    if layer.material == "metal":
        look = "clip" if layer.id in ("clip", "bearing-plate") else "metal"
    return RoofPart(
        layer.id,
        plain(layer.name),
        layer.questions,
        look=look,
        waits=bool(layer.waits_on),
    )


def drawn_plan(engine: Engine, columns: int, rows: int) -> DrawnRoof:
    """The roof in plan by roof zone; where no plan can be drawn, what it waits on."""
    result = _wind(engine)
    outcome = result.outcome if result is not None else None
    plan = roof_plan(engine.scope, outcome.plan) if outcome is not None else None
    if plan is None:
        return _no_plan(engine, result, columns, rows)
    return _zones(plan, engine, columns, rows)


def _zones(plan: RoofPlan, engine: Engine, columns: int, rows: int) -> DrawnRoof:
    no_unicode = not unicode_wanted()
    art = plan_art(plan, columns, rows, plain=no_unicode)
    ids = [zone.name for zone in plan.zones]
    drawing: list[tuple[Piece, ...]] = []
    for text, ranks in zip(art.lines, art.ranks, strict=True):
        pieces: list[Piece] = []
        for character, rank in zip(text, ranks, strict=True):
            owner = ids[rank] if rank >= 0 else ""
            if pieces and pieces[-1][1] == owner:
                pieces[-1] = (pieces[-1][0] + character, owner)
            else:
                pieces.append((character, owner))
        drawing.append(tuple(pieces))
    heaviest = plan.zones[::-1]
    signs = [zone_mark(zone.rank, len(ids), plain=no_unicode) for zone in heaviest]
    legend: list[tuple[Piece, ...]] = [(("uplift, allowable; clip spacing", ""),)]
    spacing = _spacing(engine)
    for zone, sign in zip(heaviest, signs, strict=True):
        line = _zone_line(zone, sign, heaviest)
        legend.append(((f"{line}  {spacing(zone.name)}".rstrip(), zone.name),))
    questions = _inputs(engine)
    parts = [
        RoofPart(zone.name, f"{zone.name}: {plain(zone.uplift or '-')}", questions, ZONE_VALUES,
                 "zone")
        for zone in heaviest
    ]  # fmt: skip
    widened = ", narrow strips drawn wider" if art.widened else ""
    return DrawnRoof(tuple(drawing), tuple(legend), tuple(parts), f"to scale{widened}")


def _zone_line(zone: PlanZone, sign: str, zones: Sequence[PlanZone]) -> str:
    """A line of the legend, in columns."""
    name = max(len(each.name) for each in zones)
    uplift = max(len(plain(each.uplift)) for each in zones)
    return f"{sign * 2} {zone.name.ljust(name)}  {plain(zone.uplift or '-').rjust(uplift)}"


def _no_plan(engine: Engine, result: Result | None, columns: int, rows: int) -> DrawnRoof:
    """An empty roof, and the questions that its zones wait on."""
    m = marks()
    top, bottom = m.corners[:2], m.corners[2:]
    width, height = max(8, columns * 3 // 4), max(4, rows - 1)
    says = "zones not drawn yet"
    waits = _waiting(engine, result)
    if result is not None and result.refused:
        says = plain(result.refused)
    elif not waits:
        says = "zones are not computed with these answers"
    ridged = engine.scope.shown("roof_shape") == "gable"
    lines = [f"{top[0]}{m.across * (width - 2)}{top[1]}"]
    for row in range(height - 2):
        sign = m.across if ridged and row == (height - 2) // 2 else " "
        lines.append(f"{m.down}{sign * (width - 2)}{m.down}")
    lines.append(f"{bottom[0]}{m.across * (width - 2)}{bottom[1]}")
    questions = engine.library.questions
    lead = "the zones wait on" if waits else cut(says, 60)
    legend: list[tuple[Piece, ...]] = [((lead, ""),)]
    legend += [((f"{OPEN} {plain(questions[name].label)}", name),) for name in waits]
    parts = [
        RoofPart(name, plain(questions[name].label), (name,), look="zone", waits=True)
        for name in waits
    ]
    if not parts:
        named = tuple(name for name in ZONE_QUESTIONS if name in questions)
        given = list(_given(engine))
        if given:
            says = "zones as given; they are not drawn"
            legend = [(("uplift, given; clip spacing", ""),)]
        for zone, line in given or [("roof", "what the zones come from")]:
            parts.append(RoofPart(zone, line, named, ZONE_VALUES, "zone"))
            legend.append(((line, zone),))
    return DrawnRoof(tuple(((line, ""),) for line in lines), tuple(legend), tuple(parts), says)


def _given(engine: Engine) -> Iterator[tuple[str, str]]:
    """Each zone whose pressure the brief gives: its name, and its line in the legend."""
    spacing = _spacing(engine)
    for zone, uplift in _column(engine, "zone_pressures", "upward"):
        yield zone, f"{zone}  {uplift}  {spacing(zone)}".rstrip()


def _spacing(engine: Engine) -> Callable[[str], str]:
    """The clip spacing of a zone, scheduled or computed, in words; empty if others design it."""
    found = {
        zone: f"clips {shown}"
        for table in SPACING_TABLES
        for zone, shown in _column(engine, table, "spacing")
    }
    known = (*engine.library.questions, *engine.library.calculations)
    waits = any(
        isinstance(engine.scope.lookup(table)[0], Open)
        for table in SPACING_TABLES
        if table in known
    )
    return lambda zone: found.get(zone, "clips open" if waits else "")


def _column(engine: Engine, table: str, column: str) -> Iterator[tuple[str, str]]:
    """A column of a table as shown, by the zones in its first."""
    library = engine.library
    if table not in library.questions and table not in library.calculations:
        return
    ids = [each.id for each in library.columns_of(table)]
    value, _ = engine.scope.lookup(table)
    if isinstance(value, tuple) and column in ids:
        place = ids.index(column)
        for row in value:
            if isinstance(row, tuple):
                yield str(row[0]), plain(print_value(row[place], engine.scope.printer))


def _waiting(engine: Engine, result: Result | None) -> tuple[str, ...]:
    if result is None:
        return ()
    return tuple(sorted(result.waits_on, key=engine.library.rank_of))


def _wind(engine: Engine) -> Result | None:
    return next((r for r in engine.scope.results() if r.calculation.id == WIND), None)


def _inputs(engine: Engine) -> tuple[str, ...]:
    """The questions that the zones and what they carry come from."""
    result = _wind(engine)
    inputs = result.calculation.inputs if result is not None else ()
    questions = engine.library.questions
    return tuple(name for name in (*inputs, *ZONE_QUESTIONS) if name in questions)
