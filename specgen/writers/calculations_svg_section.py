"""The assembly in section across one seam, to scale, and the seam enlarged, in SVG."""

from __future__ import annotations

import math
from collections.abc import Sequence

from specgen.drawing import Layer
from specgen.drawing_seam import seam_lines
from specgen.scope import Scope
from specgen.writers.calculations_svg import Canvas, Place, labels

RIGHT = 420.0
LABELS = 462.0
TALLEST = 330.0
LARGEST = 30.0  # units to the inch
LEAST = 3.0  # units: as thin as a sheet is drawn
# Rib pitch, width of the top flute and of the bottom one, in inches; from memory.
DECKS = {"b-1.5": (6.0, 3.5, 1.75), "n-3": (8.0, 5.375, 1.5), "f-1.5": (6.0, 4.25, 0.5)}

PATTERNS = """<defs>
<pattern id="mat-wood" width="14" height="7" patternUnits="userSpaceOnUse"><rect width="14" height="7" class="paper"/><path d="M0,1.5 H10 M4,5 H14" class="hatch"/></pattern>
<pattern id="mat-insulation" width="14" height="14" patternUnits="userSpaceOnUse"><rect width="14" height="14" class="paper"/><path d="M0,14 L14,0 M0,0 L14,14" class="hatch"/></pattern>
<pattern id="mat-blanket" width="16" height="16" patternUnits="userSpaceOnUse"><rect width="16" height="16" class="paper"/><path d="M0,16 C2,4 6,4 8,16 C10,4 14,4 16,16" class="hatch"/></pattern>
<pattern id="mat-board" width="7" height="7" patternUnits="userSpaceOnUse"><rect width="7" height="7" class="paper"/><circle cx="2" cy="2" r="0.8" class="fill"/><circle cx="5.5" cy="5.5" r="0.8" class="fill"/></pattern>
<pattern id="mat-concrete" width="26" height="22" patternUnits="userSpaceOnUse"><rect width="26" height="22" class="paper"/><path d="M4,8 L9,4 L10,10 Z M17,18 L22,15 L21,20 Z" class="hatch"/><circle cx="18" cy="6" r="0.9" class="fill"/><circle cx="7" cy="17" r="0.9" class="fill"/></pattern>
<pattern id="mat-framing" width="12" height="12" patternUnits="userSpaceOnUse"><rect width="12" height="12" class="paper"/><path d="M0,12 L12,0" class="hatch"/></pattern>
<pattern id="mat-existing" width="10" height="10" patternUnits="userSpaceOnUse"><rect width="10" height="10" class="paper"/><path d="M0,5 H6" class="hatch"/></pattern>
</defs>"""  # noqa: E501


def section_svg(scope: Scope, layers: Sequence[Layer]) -> str:
    """The layers in section across a seam, each to scale where its size is known, and named."""
    stack = [layer for layer in layers if not layer.local and layer.id != "panel"]
    seam = next(layer for layer in layers if layer.id == "seam")
    solid = sum(layer.inches for layer in stack if not _thin(layer)) + seam.inches
    scale = min(LARGEST, TALLEST / solid)
    pitch = max(2.4, min(3.2, seam.inches * scale / 14))
    tall = sum(max(layer.inches * scale, LEAST) + 1 for layer in stack)
    ground = 30 + seam.inches * scale + 2 * pitch + tall + LEAST
    canvas = Canvas(0, "The roof assembly in section across one seam")
    canvas.raw(PATTERNS)
    marks: list[tuple[Place, str, str]] = []
    y = ground
    middle = RIGHT / 2
    for number, layer in enumerate(stack):
        height = max(layer.inches * scale, LEAST)
        y -= height + (1 if number else 0)
        canvas.open(class_="layer", data_layer=layer.id, data_questions=" ".join(layer.questions))
        _band(canvas, layer, (y, height), scale, middle)
        canvas.close()
        down = 1.0 if layer.material == "deck" else height / 2
        marks.append(((RIGHT + 2, y + down), layer.name, _note(layer, height, scale)))
    y = _attachment(canvas, layers, marks, (middle, y), scale, pitch, ground)
    foot = labels(canvas, list(reversed(marks)), LABELS, 6.0, ground + 20)
    _scale_bar(canvas, scope, ground + 40, scale)
    canvas.height = max(foot, ground + 72)
    return canvas.svg()


def _thin(layer: Layer) -> bool:
    return layer.material in ("sheet", "metal") or layer.inches < 0.1


def _note(layer: Layer, drawn: float, scale: float) -> str:
    """What a reader must know before taking a size from the drawing."""
    if layer.thickness is None:
        return "not to scale" if _thin(layer) else "thickness not in the brief; not to scale"
    return "" if drawn <= layer.thickness * scale + 0.01 else "not to scale"


def _band(
    canvas: Canvas, layer: Layer, place: tuple[float, float], scale: float, middle: float
) -> None:
    """One layer from edge to edge."""
    y, height = place
    if layer.waits_on and layer.material == "open":
        canvas.rect(0, y, RIGHT, height, class_="undecided")
    elif layer.material == "deck":
        _deck(canvas, layer, y, scale, middle)
    elif layer.material == "air":
        canvas.rect(0, y, RIGHT, height, class_="air")
        for x in (middle - RIGHT * 0.42, middle, middle + RIGHT * 0.42):
            wide = max(2.5 * scale if x == middle else 1.5 * scale, 12)
            canvas.rect(x - wide / 2, y, wide, height, class_="cut", fill="url(#mat-wood)")
    elif _thin(layer):
        canvas.rect(0, y, RIGHT, height, class_=f"membrane {layer.id}")
    else:
        canvas.rect(0, y, RIGHT, height, class_="cut", fill=f"url(#mat-{layer.material})")


def _deck(canvas: Canvas, layer: Layer, y: float, scale: float, middle: float) -> None:
    """A ribbed steel deck in section, a top flute under the seam."""
    pitch, top, bottom = (size * scale for size in DECKS.get(layer.shape, DECKS["b-1.5"]))
    depth = layer.inches * scale
    slant = (pitch - top - bottom) / 2
    points: list[Place] = []
    for number in range(-math.ceil(middle / pitch) - 1, math.ceil((RIGHT - middle) / pitch) + 2):
        start = middle + number * pitch - top / 2
        points += [
            (start, y + 1),
            (start + top, y + 1),
            (start + top + slant, y + depth - 1),
            (start + top + slant + bottom, y + depth - 1),
        ]
    canvas.raw(f'<svg x="0" y="{y - 2:.2f}" width="{RIGHT}" height="{depth + 4:.2f}">')
    canvas.lines(((x, at - y + 2) for x, at in points), "steel")
    canvas.raw("</svg>")


def _attachment(
    canvas: Canvas,
    layers: Sequence[Layer],
    marks: list[tuple[Place, str, str]],
    place: Place,
    scale: float,
    pitch: float,
    ground: float,
) -> float:
    """Bearing plate, screw, clip, pans and seam on top of the layers."""
    known = {layer.id: layer for layer in layers}
    middle, y = place
    seam, clip, panel = known["seam"], known["clip"], known["panel"]
    rise = seam.inches * scale
    plate = known.get("bearing-plate")
    if plate is not None:
        wide = max(6 * scale, 60.0)
        y -= LEAST
        canvas.rect(
            middle - wide / 2,
            y,
            wide,
            LEAST,
            class_="undecided" if plate.waits_on else "plate",
            data_layer=plate.id,
        )
        marks.append(((middle + wide / 2 - 4, y + LEAST / 2), plate.name, "not to scale"))
    base = max(rise, 9 * pitch)
    batten = seam.shape == "batten"
    if clip.shape or batten:
        _screw(canvas, known["support"], middle + (0 if batten else 0.6 * base), y, ground, scale)
    canvas.open(class_="layer", data_layer="seam", data_questions=" ".join(seam.questions))
    for line in seam_lines(seam.shape, clip.shape, rise, pitch, middle):
        canvas.lines(((middle + x, y - up) for x, up in line.points), f"seam {line.part}")
    canvas.close()
    marks += [
        ((RIGHT + 2, y - pitch), panel.name, "sheet drawn thicker; not to scale"),
        ((middle + 0.75 * base, y - 0.5), clip.name, "not to scale"),
        ((middle + 2.5 * pitch, y - rise), seam.name, "folds opened to be seen"),
    ]
    if batten:
        del marks[-2]
    return y


def _screw(canvas: Canvas, support: Layer, x: float, y: float, ground: float, scale: float) -> None:
    """The fastener from the clip into the support; none where the support's own are not known."""
    depth = support.inches * scale
    reach = {
        "wood": ground - y + 2,
        "deck": ground - y - depth + 0.75 * scale,
        "framing": ground - y - depth + 0.75 * scale,
    }.get(support.material)
    if reach is None:
        return
    canvas.line((x - 4, y - 1), (x + 4, y - 1), "head")
    canvas.line((x, y), (x, y + reach), "screw")


def _scale_bar(canvas: Canvas, scope: Scope, y: float, scale: float) -> None:
    metric = scope.printer.system == "si"
    part = (50 / 25.4 if metric else 2.0) * scale
    for number in range(3):
        canvas.rect(
            10 + number * part, y, part, 5, class_="fill" if number % 2 == 0 else "outline white"
        )
    for number in range(4):
        word = f"{number * (50 if metric else 2)}"
        canvas.text((10 + number * part, y + 19), word, "middle small")
    unit = "mm" if metric else "in"
    canvas.text((10 + 3 * part + 12, y + 19), unit, "small")


def seam_svg(layers: Sequence[Layer]) -> str:
    """The seam alone, enlarged: which sheet lies where, and the clip between them."""
    known = {layer.id: layer for layer in layers}
    seam, clip = known["seam"], known["clip"]
    rise, pitch, middle, floor = 130.0, 10.0, RIGHT / 2, 180.0
    canvas = Canvas(floor + 26, "The seam, enlarged")
    canvas.line((0, floor + 2), (RIGHT, floor + 2), "thin")
    marks: list[tuple[Place, str, str]] = []
    for line in seam_lines(seam.shape, clip.shape, rise, pitch, middle - 20):
        points = [(middle + x, floor - up) for x, up in line.points]
        canvas.lines(points, f"seam large {line.part}")
        named = {
            "left": ((points[2][0] + points[3][0]) / 2, points[2][1]),
            "right": (points[0][0] - 30, points[0][1]),
            "cap": ((points[2][0] + points[-1][0]) / 2, points[2][1]),
            "batten": (middle + 20, floor - rise / 2),
            "clip": (points[0][0] - 10, points[0][1]),
        }
        words = {
            "left": "outer sheet",
            "right": "inner sheet",
            "cap": "cap",
            "batten": "batten",
            "clip": clip.name,
        }
        if seam.shape == "batten":
            words |= {"left": "", "right": "edge of the next panel"}
        word = words.get(line.part, "")
        if word and word not in [mark[1] for mark in marks]:
            marks.append((named[line.part], word, ""))
    marks.sort(key=lambda mark: mark[0][1])
    foot = labels(canvas, marks, LABELS, 6.0, floor + 10)
    canvas.height = max(canvas.height, foot)
    return canvas.svg()
