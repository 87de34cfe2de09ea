"""The roof plan with its zones, and the chart of movement, in SVG."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from specgen.drawing_chart import Chart, moved_shown, tick
from specgen.drawing_plan import (
    PlanZone,
    RoofPlan,
    area_of,
    feet_shown,
    inside,
    roomiest,
)
from specgen.scope import Scope
from specgen.showing import figure
from specgen.writers.calculations_svg import (
    LETTER,
    WIDTH,
    Canvas,
    Place,
    chain,
    chain_depth,
    zone_pattern,
)

HIGHEST = 400.0


def plan_svg(scope: Scope, plan: RoofPlan, prefix: str) -> str:
    """The plan to scale, each zone hatched and named, dimensioned at its edges.

    ``prefix`` keeps the ids of its hatchings apart from those of other drawings on the page.
    """
    width, height = plan.size
    left, bottom, right, top = plan.box
    ups = [feet_shown(scope, b - a) for a, b in reversed(_pairs(plan.breaks(1)))]
    margin = 50 + max(len(word) for word in ups) * LETTER
    scale = min((WIDTH - margin - 20) / width, HIGHEST / height)
    origin = (margin, 12.0)

    def at(x: float, y: float) -> Place:
        return origin[0] + (x - left) * scale, origin[1] + (top - y) * scale

    below = at(left, bottom)[1]
    x_breaks = [at(x, bottom)[0] for x in plan.breaks(0)]
    y_breaks = [at(left, y)[1] for y in reversed(plan.breaks(1))]
    words = [feet_shown(scope, b - a) for a, b in _pairs(plan.breaks(0))]
    depth = chain_depth(x_breaks, words)
    canvas = Canvas(below + 18 + depth + 38, "Roof plan by zone")
    canvas.raw("<defs>")
    for zone in plan.zones:
        canvas.raw(zone_pattern(f"{prefix}-zone-{zone.rank}", zone.rank))
    canvas.raw("</defs>")
    for zone in plan.zones:
        canvas.open(class_="zone", data_zone=zone.name, data_scale=scale)
        for polygon in zone.polygons:
            canvas.polygon((at(x, y) for x, y in polygon), fill=f"url(#{prefix}-zone-{zone.rank})")
        canvas.close()
    for start, end in plan.borders:
        canvas.line(at(*start), at(*end), "border")
    canvas.rect(*at(left, top), width * scale, height * scale, class_="outline")
    for name, start, end in plan.creases:
        canvas.line(at(*start), at(*end), "crease")
        if name == "ridge":
            x, y = at(start[0] + 0.8 * (end[0] - start[0]), start[1] + 0.8 * (end[1] - start[1]))
            canvas.text((x, y - 5), name, "halo small middle")
    for zone in plan.zones:
        _name(canvas, plan, zone, scale, at)
    chain(canvas, x_breaks, words, below + 14, across=True)
    chain(canvas, y_breaks, ups, origin[0] - 12, across=False)
    foot = below + 18 + depth + 14
    _overall(canvas, at(left, bottom)[0], at(right, bottom)[0], foot, feet_shown(scope, width))
    _upright(canvas, origin[1], below, 22.0, feet_shown(scope, height))
    return canvas.svg()


def _pairs(values: tuple[float, ...]) -> list[tuple[float, float]]:
    return list(pairwise(values))


def _name(
    canvas: Canvas,
    plan: RoofPlan,
    zone: PlanZone,
    scale: float,
    at: Callable[[float, float], Place],
) -> None:
    """The zone's name in each of its parts that has room for it and is not close to another."""
    name = zone.name.removeprefix("Zone ")
    half = (len(name) * LETTER + 4) / 2 / scale
    creases = [(start, end) for _, start, end in plan.creases]
    named: list[Place] = []
    for polygon in sorted(zone.polygons, key=area_of, reverse=True):
        (x, y), room = roomiest(polygon, creases)
        if not all(inside(polygon, x + side * half, y) for side in (-1, 1)):
            continue
        across, down = at(x, y)
        if room * scale >= 7.5 and all(math.dist((across, down), other) > 60 for other in named):
            canvas.text((across, down + 4.5), name, "halo strong middle")
            named.append((across, down))


def _overall(canvas: Canvas, start: float, end: float, y: float, word: str) -> None:
    canvas.line((start, y), (end, y))
    for x in (start, end):
        canvas.line((x - 3, y + 3), (x + 3, y - 3), "tick")
    canvas.text(((start + end) / 2, y + 16), word, "middle strong")


def _upright(canvas: Canvas, start: float, end: float, x: float, word: str) -> None:
    canvas.line((x, start), (x, end))
    for y in (start, end):
        canvas.line((x - 3, y + 3), (x + 3, y - 3), "tick")
    canvas.text((x - 6, (start + end) / 2), word, "middle strong", turned=True)


def swatch_svg(prefix: str, rank: int) -> str:
    """A patch of a zone's hatching, for the key; it refers to the plan's own patterns."""
    return (
        '<svg class="swatch" viewBox="0 0 36 18" aria-hidden="true"><rect x="0.5" y="0.5"'
        f' width="35" height="17" class="outline" style="fill:url(#{prefix}-zone-{rank})"/></svg>'
    )


def chart_svg(chart: Chart) -> str:
    """Movement against length, with axes, a grid and the length of this roof."""
    left, right, top, bottom = 70.0, WIDTH - 30, 16.0, 256.0
    across, up = chart.x_ticks[-1], chart.y_ticks[-1]

    def at(x: float, y: float) -> Place:
        return left + x / across * (right - left), bottom - y / up * (bottom - top)

    canvas = Canvas(bottom + 48, "Movement of the panel against its length")
    for value in chart.y_ticks:
        canvas.line(at(0, value), at(across, value), "grid")
        canvas.text((left - 8, at(0, value)[1] + 4), tick(value), "end")
    for value in chart.x_ticks:
        x, _ = at(value, 0)
        canvas.line((x, bottom), (x, bottom + 5))
        canvas.text((x, bottom + 19), tick(value), "middle")
    canvas.line((left, top), (left, bottom), "axis")
    canvas.line((left, bottom), (right, bottom), "axis")
    canvas.text(((left + right) / 2, bottom + 40), f"Length of panel, {chart.x_unit}", "middle")
    canvas.text((18, (top + bottom) / 2), f"Movement, {chart.y_unit}", "middle", turned=True)
    canvas.lines((at(x, y) for x, y in chart.points), "curve")
    if chart.mark is not None:
        x, y = at(*chart.mark)
        canvas.line((x, y), (x, bottom), "dashed")
        canvas.line((left, y), (x, y), "dashed")
        canvas.add("circle", cx=x, cy=y, r=4.5, class_="here")
        length, moved = figure(chart.mark[0], 1), moved_shown(chart, chart.mark[1])
        word = f"this roof: {length} {chart.x_unit}, {moved} {chart.y_unit}"
        if x - left > len(word) * LETTER + 20:
            canvas.text((x - 10, max(y - 8, top + 12)), word, "halo strong end")
        else:
            canvas.text((x + 10, y + 18), word, "halo strong")
    return canvas.svg()
