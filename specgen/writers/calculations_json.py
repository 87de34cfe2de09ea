"""The calculation record as plain values for JSON: every value, step, caution and open question."""

from __future__ import annotations

import datetime
from dataclasses import asdict

from specgen.scope import Scope
from specgen.units import DIMENSIONS, Quantity
from specgen.values import Choice, NotAsked, Open, Value
from specgen.wording import print_value
from specgen.writers.calculations_shown import Shown, shown_results


def calculations_json(scope: Scope) -> list[dict[str, object]]:
    """Every calculation: its state, values, steps, cautions, plan, series and what it waits on.

    A quantity is its magnitude and unit with the text as shown; a table a list of rows by column.
    Points of the plan are in feet, rows of the series in feet and inches.
    """
    return [_calculation(scope, shown) for shown in shown_results(scope)]


def _calculation(scope: Scope, shown: Shown) -> dict[str, object]:
    calculation, outcome = shown.result.calculation, shown.result.outcome
    values: list[dict[str, object]] = []
    for provided in calculation.provides if outcome else ():
        value = outcome.values.get(provided.id) if outcome else None
        plain = (
            _rows(scope, [column.id for column in provided.columns], value)
            if provided.kind == "table"
            else _plain(scope, value)
        )
        values.append(
            {"id": provided.id, "label": provided.label, "kind": provided.kind, "value": plain}
        )
    return {
        "id": calculation.id,
        "title": calculation.title,
        "state": shown.state,
        "values": values,
        "steps": [asdict(step) for step in shown.steps],
        "cautions": list(shown.cautions),
        "plan": [
            {"zone": zone.zone, "points": [list(point) for point in zone.points]}
            for zone in (outcome.plan if outcome else ())
        ],
        "series": [list(row) for row in (outcome.series if outcome else ())],
        "waits_on": [{"question": name, "ask": ask} for name, ask in shown.settles],
        "refused": shown.result.refused,
    }


def _rows(scope: Scope, columns: list[str], value: Value | None) -> object:
    if not isinstance(value, tuple):
        return None
    return [
        {name: _plain(scope, cell) for name, cell in zip(columns, row, strict=False)}
        for row in value
        if isinstance(row, tuple)
    ]


def _plain(scope: Scope, value: Value | None) -> object:
    if value is None or isinstance(value, NotAsked | Open):
        return None
    if isinstance(value, Quantity):
        unit = next(iter(DIMENSIONS[value.dimension].units))
        return {
            "magnitude": value.magnitude,
            "unit": unit,
            "shown": print_value(value, scope.printer),
        }
    if isinstance(value, Choice):
        return value.id
    if isinstance(value, datetime.date):
        return value.isoformat()
    return value if isinstance(value, bool | float | str) else print_value(value, scope.printer)
