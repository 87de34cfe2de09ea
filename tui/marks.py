"""The signs of the screens: every state is a sign as well as a color, in Unicode or in ASCII."""

from __future__ import annotations

import locale
import os
from collections.abc import Mapping
from dataclasses import dataclass

# Findings, by kind.
KINDS: Mapping[str, str] = {"conflict": "!", "omission": "?", "ambiguity": "~", "caution": "."}
# Questions.
OPEN, ANSWERED, NOT_ASKED = "o", "*", " "
# What a change does: a clause in, out or worded otherwise, a number moved.
IN, OUT, REWORDED, MOVED = "+", "-", "~", "="

# The theme's color of each kind of finding, as a CSS variable.
COLORS: Mapping[str, str] = {
    "conflict": "$error",
    "omission": "$warning",
    "ambiguity": "$accent",
    "caution": "$secondary",
}


@dataclass(frozen=True, slots=True)
class Marks:
    """The characters for drawing: lines, corners, the cursor of a list, a cut-off text.

    ``edge`` is the kind of border that Textual draws; style sheets write it as ``$edge``.
    """

    edge: str
    across: str
    down: str
    corners: str  # top left, top right, bottom left, bottom right
    cursor: str
    cut: str
    arrow: str
    dot: str
    full: str
    empty: str
    up: str
    below: str


UNICODE = Marks("round", "─", "│", "╭╮╰╯", "▸", "…", "→", "·", "█", "░", "▲", "▼")
ASCII = Marks("ascii", "-", "|", "++++", ">", "...", "->", "-", "#", ".", "^", "v")

_ASCII_FOR = str.maketrans(
    {
        "─": "-", "│": "|", "…": "...", "–": "-", "—": "-", "×": "x", "°": " deg", "·": "-",
        "²": "2", "³": "3", "≤": "<=", "≥": ">=", "±": "+/-", "→": "->", "←": "<-", "√": "sqrt",
        "’": "'", "‘": "'", "“": '"', "”": '"', "½": "1/2", "¼": "1/4", "¾": "3/4", "µ": "u",
        "Δ": "d", "α": "alpha", "λ": "lambda", "•": "*", "\u00a0": " ", "−": "-", "÷": "/",
    }
)  # fmt: skip


def unicode_wanted() -> bool:
    """Whether box characters may be drawn: not with SPECGEN_ASCII=1, nor outside UTF-8."""
    if os.environ.get("SPECGEN_ASCII", "") not in ("", "0"):
        return False
    return locale.getpreferredencoding(False).lower().replace("-", "") == "utf8"


def marks() -> Marks:
    """The signs that this terminal can show."""
    return UNICODE if unicode_wanted() else ASCII


def plain(text: str) -> str:
    """A text as this terminal can show it; without Unicode, the nearest ASCII."""
    if text.isascii() or unicode_wanted():
        return text
    return text.translate(_ASCII_FOR).encode("ascii", "replace").decode("ascii")


def cut(text: str, width: int) -> str:
    """A text cut to a width, with a sign that more follows."""
    if len(text) <= width:
        return text
    more = marks().cut
    return text[: max(0, width - len(more))] + more[: max(0, width)]


def times(count: int, one: str, many: str = "") -> str:
    """A count with its noun: ``1 answer``, ``3 answers``."""
    return f"{count} {one if count == 1 else many or one + 's'}"
