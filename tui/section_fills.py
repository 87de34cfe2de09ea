"""How each material of the assembly is hatched, a character at a time."""

from __future__ import annotations

from collections.abc import Callable

from specgen.drawing import Layer

Fill = Callable[[int, int, int], str]
"""The character at a column, at a row from the layer's top, of so many rows."""


def _flat(pattern: str, stagger: int = 0) -> Fill:
    return lambda x, row, _: pattern[(x + row * stagger) % len(pattern)]


def _deck(x: int, row: int, rows: int) -> str:
    """A ribbed steel deck: flanges above and below, webs leaning between."""
    web, flange = rows, 5
    at = x % (2 * (web + flange))
    if at < flange:
        return "▔" if row == 0 else " "
    at -= flange
    if at < web:
        return "╲" if at == row else " "
    at -= web
    if at < flange:
        return "▁" if row == rows - 1 else " "
    return "╱" if rows - 1 - (at - flange) == row else " "


def _boards(number: int) -> Fill:
    """Insulation boards: diamonds, with joints that are staggered from layer to layer."""

    def fill(x: int, row: int, _: int) -> str:
        if (x + 13 * number) % 31 == 7:
            return "│"
        return "╱╲"[(x + row) % 2]

    return fill


def _framing(x: int, row: int, rows: int) -> str:
    """Purlins, bent like a Z."""
    at = x % 20
    if row == 0 and 4 <= at <= 7:
        return "─── "[at - 4] if at < 7 else "┐"
    if row == rows - 1 and at >= 7 and at <= 10:
        return "└" if at == 7 else "─"
    return "│" if at == 7 else " "


def _undecided(x: int, row: int, _: int) -> str:
    """A broken line where an open layer begins, and little else."""
    if row == 0:
        return "╌"
    return "o" if (x + 9 * row) % 18 == 4 else " "


_FILLS: dict[str, Fill] = {
    "wood": _flat("≈≈~≈≈≈~≈", 3),
    "deck": _deck,
    "concrete": _flat(" .  o .   ° . ", 5),
    "framing": _framing,
    "existing": _flat("▓"),
    "open": _undecided,
    "air": _flat("      ·    ", 4),
    "blanket": _flat("≀∿", 1),
    "board": _flat("▒"),
    "sheet": _flat("─"),
    "metal": _flat("━"),
}


def fill_of(layer: Layer) -> Fill:
    """The hatching of a layer."""
    if layer.id.startswith("insulation-") and layer.material == "insulation":
        return _boards(int(layer.id.rsplit("-", 1)[1]))
    if layer.id == "ice-barrier" and layer.material == "sheet":
        return lambda x, row, rows: "─" if x < 12 else "·"
    return _FILLS.get(layer.material, _FILLS["open"])


_ASCII = str.maketrans(
    {
        "┏": "+", "┓": "+", "┗": "+", "┛": "+", "━": "=", "┃": "|", "╻": "|", "╹": "|", "╸": "=",
        "╺": "=", "│": "|", "─": "-", "┆": ":", "╌": ".", "┴": "+", "╲": "\\", "╱": "/", "╮": "+",
        "╶": "-", "▒": "%", "▔": "-", "▁": "_", "≈": "~", "▓": ":", "≀": "(", "∿": "~", "·": ".",
        "═": "=", "≡": "=", "┐": "+", "└": "+", "╧": "+", "╤": "+", "╎": ":", "°": "o", "┬": "+",
        "├": "|", "┤": "|", "░": ":", "█": "#", "▸": ">",
    }
)  # fmt: skip


def in_ascii(text: str) -> str:
    """A drawn line in ASCII."""
    return text.translate(_ASCII)
