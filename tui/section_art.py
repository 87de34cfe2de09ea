"""The assembly in section, in characters: to scale but for sheets, which take a row each.

Rows are twice as high as columns are wide, so that thicknesses and the width of the panels have one
scale. Where the rows do not suffice, sheets that lie on each other share one.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from specgen.drawing import Layer
from tui.section_fills import fill_of, in_ascii
from tui.section_seams import SEAMS

THIN = 0.06
FINEST, COARSEST = 0.3, 8.0
NOMINAL_WIDTH = 16.0


@dataclass(slots=True)
class Row:
    """One drawn row: its characters, the layer of each, and the layers named beside it."""

    characters: list[str]
    owners: list[str]
    named: list[Layer] = field(default_factory=list)

    @property
    def text(self) -> str:
        return "".join(self.characters)

    def put(self, x: int, text: str, owner: str) -> None:
        """Draw over what is there; a blank leaves it."""
        for at, character in enumerate(text, x):
            if character != " " and 0 <= at < len(self.characters):
                self.characters[at] = character
                self.owners[at] = owner


@dataclass(frozen=True, slots=True)
class SectionArt:
    """``inches`` of the assembly are a row high; a row's ``named`` layers are told beside it."""

    rows: tuple[Row, ...]
    inches: float


@dataclass(slots=True)
class _Band:
    """Layers that are drawn in the same rows, the upper first."""

    layers: list[Layer]
    rows: int = 1

    @property
    def inches(self) -> float:
        return max(layer.inches for layer in self.layers)


def section_art(
    layers: tuple[Layer, ...],
    columns: int,
    rows: int,
    *,
    width: float | None = None,
    width_shown: str = "",
    plain: bool = False,
) -> SectionArt:
    """The drawing of layers (from the support up) in so many columns and rows.

    ``width`` is the panels' in inches, dimensioned as ``width_shown``; ``plain`` draws in ASCII.
    """
    locals_ = {layer.id: layer for layer in layers if layer.local}
    panel = next(layer for layer in layers if layer.id == "panel")
    below = [layer for layer in reversed(layers) if not layer.local and layer is not panel]
    seam = locals_["seam"]
    bands, legs, inches = _fit([_Band([layer]) for layer in below], seam, rows)
    drawn = [_blank(columns) for _ in range(legs)]
    drawn.append(_filled(columns, 0, _Band([panel])))
    for band in bands:
        drawn += [_filled(columns, row, band) for row in range(band.rows)]
    _name(drawn, legs, panel, bands, locals_)
    places = _seam_places(columns, seam, (width or NOMINAL_WIDTH) / (inches / 2))
    for place in places:
        _draw_seam(drawn, place, legs, locals_, sum(band.rows for band in bands[:-1]))
    if width_shown and len(places) > 1:
        _dimension(drawn, places, SEAMS[seam.shape].width, legs, width_shown)
    if plain:
        for row in drawn:
            row.characters = [in_ascii(character) for character in row.characters]
    return SectionArt(tuple(drawn), inches)


def _fit(bands: list[_Band], seam: Layer, rows: int) -> tuple[list[_Band], int, float]:
    """The bands with their rows, the rows of the seam's legs, and the inches a row stands for."""
    while True:
        inches = FINEST
        while inches <= COARSEST:
            legs = max(2, round(seam.inches / inches))
            for band in bands:
                band.rows = max(1, round(band.inches / inches))
            if legs + 1 + sum(band.rows for band in bands) <= rows:
                return bands, legs, inches
            inches *= 1.04
        pair = _thinnest_pair(bands)
        if pair is None:
            return bands[: max(1, rows - 3)], 2, COARSEST
        upper, lower = bands[pair], bands[pair + 1]
        bands[pair : pair + 2] = [_Band([*upper.layers, *lower.layers])]


def _thinnest_pair(bands: list[_Band]) -> int | None:
    """Where two neighbors are thinnest together; the support stays by itself."""
    pairs = range(len(bands) - 2)
    return min(pairs, key=lambda at: bands[at].inches + bands[at + 1].inches, default=None)


def _blank(columns: int) -> Row:
    return Row([" "] * columns, [""] * columns)


def _filled(columns: int, row: int, band: _Band) -> Row:
    """A row of a band; sheets that share it are drawn as so many lines."""
    layer = max(band.layers, key=lambda each: each.inches)
    fill = fill_of(layer)
    if len(band.layers) > 1 and layer.inches < THIN:
        sign = "═" if len(band.layers) == 2 else "≡"
        if all(each.material == "open" for each in band.layers):
            sign = "╌"
        return Row([sign] * columns, [layer.id] * columns)
    return Row([fill(x, row, band.rows) for x in range(columns)], [layer.id] * columns)


def _name(
    drawn: list[Row], legs: int, panel: Layer, bands: list[_Band], locals_: dict[str, Layer]
) -> None:
    """Say beside which rows the layers are named."""
    drawn[0].named.append(locals_["seam"])
    drawn[legs].named.append(panel)
    drawn[1 if legs > 1 else 0].named.append(locals_["clip"])
    if "bearing-plate" in locals_:
        drawn[2 if legs > 2 else 1].named.append(locals_["bearing-plate"])
    at = legs + 1
    for band in bands:
        drawn[at + (band.rows - 1) // 2].named += band.layers
        at += band.rows


def _seam_places(columns: int, seam: Layer, pitch: float) -> list[int]:
    """The columns at which seams stand, as far apart as the panels are wide."""
    art = SEAMS[seam.shape]
    step = max(art.width + 2, round(pitch))
    places = list(range(3, columns - art.width + 1, step))
    return places if len(places) > 1 else [max(1, columns // 3)]


def _draw_seam(
    drawn: list[Row], place: int, legs: int, locals_: dict[str, Layer], down: int
) -> None:
    """One seam with its clip, the clip's base under the panel, and its fastener."""
    seam, clip = locals_["seam"], locals_["clip"]
    art = SEAMS[seam.shape]
    body = {"one-piece": "│", "two-piece": "╎"}.get(clip.shape, "┆")
    for row, line in zip(drawn, art.lines(legs), strict=False):
        row.put(place, line.replace(":", " "), "seam")
        for at, character in enumerate(line):
            if character == ":":
                row.put(place + at, body, "clip")
    foot = drawn[legs]
    foot.put(place, art.foot.replace(":", " "), "seam")
    if seam.shape == "batten":
        return
    if ":" in art.foot:
        foot.put(place + 1, "│", "clip")
    base = drawn[legs + 1]
    plate = locals_.get("bearing-plate")
    if plate is not None and not plate.waits_on:
        base.put(place - 1, "════════", "bearing-plate")
    if clip.shape:
        base.put(place + 1, "└──┬", "clip")
        for row in drawn[legs + 2 : legs + 2 + down]:
            row.put(place + 4, "│", "clip")


def _dimension(drawn: list[Row], places: list[int], seam: int, legs: int, shown: str) -> None:
    """The width of a panel between two seams, where there is room."""
    start, end = places[0] + seam + 1, places[1] - 1
    text = f" {shown} "
    if end - start < len(text) + 6:
        return
    row = drawn[legs // 2]
    row.put(start, "├" + "─" * (end - start - 2) + "┤", "panel")
    at = start + (end - start - len(text)) // 2
    for x in range(at, at + len(text)):
        row.characters[x], row.owners[x] = text[x - at], "panel"
