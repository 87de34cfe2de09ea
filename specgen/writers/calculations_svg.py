"""Drawing in SVG: a canvas, hatchings, dimensions and labels kept clear of each other."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from html import escape
from itertools import pairwise

WIDTH = 720.0
# Of the page's width of 7 in, 720 units across: 12 units are 8.4 points in print.
TEXT = 12.0
LETTER = 0.54 * TEXT

Place = tuple[float, float]


class Canvas:
    """An SVG drawing as it grows; x to the right and y downward, in units of a 720 wide page."""

    def __init__(self, height: float, label: str) -> None:
        self.height = height
        self._label = label
        self._parts: list[str] = []

    def add(self, tag: str, **attributes: object) -> None:
        """An element; underscores in names become hyphens, a trailing one is left off."""
        self._parts.append(f"<{tag}{_attributes(attributes)}/>")

    def line(self, start: Place, end: Place, class_: str = "thin") -> None:
        self.add("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], class_=class_)

    def lines(self, points: Iterable[Place], class_: str, **attributes: object) -> None:
        self.add("polyline", points=_points(points), class_=class_, **attributes)

    def polygon(self, points: Iterable[Place], **attributes: object) -> None:
        self.add("polygon", points=_points(points), **attributes)

    def rect(self, x: float, y: float, width: float, height: float, **attributes: object) -> None:
        self.add("rect", x=x, y=y, width=width, height=height, **attributes)

    def text(self, at: Place, text: str, class_: str = "", turned: bool = False) -> None:
        """Words at a place; ``class_`` may hold middle, end, halo, strong and small."""
        attributes: dict[str, object] = {"x": at[0], "y": at[1]}
        if class_:
            attributes["class_"] = class_
        if turned:
            attributes["transform"] = f"rotate(-90 {_written(at[0])} {_written(at[1])})"
        self._parts.append(f"<text{_attributes(attributes)}>{escape(text, quote=False)}</text>")

    def raw(self, markup: str) -> None:
        """Markup that this package wrote, such as the definition of a pattern."""
        self._parts.append(markup)

    def open(self, **attributes: object) -> None:
        """A group, until `close`."""
        self._parts.append(f"<g{_attributes(attributes)}>")

    def close(self) -> None:
        self._parts.append("</g>")

    def svg(self) -> str:
        """The drawing as an element for a page."""
        head = (
            f'<svg viewBox="0 0 {_written(WIDTH)} {_written(self.height)}" role="img"'
            f' aria-label="{escape(self._label)}">'
        )
        return "\n".join([head, *self._parts, "</svg>"])


def _attributes(attributes: Mapping[str, object]) -> str:
    return "".join(
        f' {name.rstrip("_").replace("_", "-")}="{escape(_written(value))}"'
        for name, value in attributes.items()
    )


def _written(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.2f}".rstrip("0").rstrip(".") if "." in f"{value:.2f}" else f"{value:.2f}"
    return str(value)


def _points(points: Iterable[Place]) -> str:
    return " ".join(f"{_written(x)},{_written(y)}" for x, y in points)


def spread(wanted: Sequence[float], gaps: Sequence[float], low: float, high: float) -> list[float]:
    """Places in the order given, near to those wanted, none closer than their room within bounds.

    ``gaps`` are the room that each takes; where the bounds are too narrow the last go beyond.
    """
    places = list(wanted)
    at = low
    for i, gap in enumerate(gaps):
        places[i] = max(wanted[i], at + gap / 2)
        at = places[i] + gap / 2
    limit = max(high, low + sum(gaps))
    for i, gap in reversed(list(enumerate(gaps))):
        places[i] = min(places[i], limit - gap / 2)
        limit = places[i] - gap / 2
    return places


def chain(
    canvas: Canvas, breaks: Sequence[float], words: Sequence[str], at: float, *, across: bool
) -> None:
    """A chain of dimensions between breaks, along a line at y (``across``) or at x.

    Words too long for their part are turned, and kept clear of their neighbors by leaders.
    """
    ends = [(p, at) if across else (at, p) for p in breaks]
    canvas.line(ends[0], ends[-1])
    for x, y in ends:
        canvas.line((x - 3, y + 3), (x + 3, y - 3), "tick")
    middles = [(a + b) / 2 for a, b in pairwise(breaks)]
    if not across:
        for place, middle, word in zip(_apart(middles, breaks), middles, words, strict=True):
            canvas.text((at - 16, place + 4), word, "end")
            canvas.line((at - 13, place), (at - 2, middle), "leader")
        return
    fits = [
        len(word) * LETTER + 8 < abs(b - a)
        for word, a, b in zip(words, breaks, breaks[1:], strict=False)
    ]
    turned = [middle for middle, fit in zip(middles, fits, strict=True) if not fit]
    places = iter(_apart(turned, breaks))
    for middle, word, fit in zip(middles, words, fits, strict=True):
        if fit:
            canvas.text((middle, at + 15), word, "middle")
            continue
        place = next(places)
        canvas.text((place + 4, at + 16), word, "end", turned=True)
        canvas.line((place, at + 13), (middle, at + 2), "leader")


def _apart(middles: Sequence[float], breaks: Sequence[float]) -> list[float]:
    room = 8.0
    return spread(middles, [14.0] * len(middles), min(breaks) - room, max(breaks) + room)


def chain_depth(breaks: Sequence[float], words: Sequence[str]) -> float:
    """How far below its line the words of a chain across reach."""
    deep = [
        16 + len(word) * LETTER
        for word, a, b in zip(words, breaks, breaks[1:], strict=False)
        if len(word) * LETTER + 8 >= abs(b - a)
    ]
    return max([20.0, *deep])


def labels(
    canvas: Canvas, marks: Sequence[tuple[Place, str, str]], x: float, low: float, high: float
) -> float:
    """Labels in a column at x, each with a leader to what it names; the y below the last.

    A mark is the place pointed at, the words and a smaller second line, which may be empty; marks
    come in the order in which their labels stand, from the top.
    """
    room = int((WIDTH - x) / LETTER)
    wrapped = [textwrap.wrap(words, room) for _, words, _ in marks]
    deep = [
        len(lines) * 15.0 + (13.0 if note else 0.0) + 7
        for lines, (_, _, note) in zip(wrapped, marks, strict=True)
    ]
    places = spread([place[1] for place, _, _ in marks], deep, low, high)
    for (place, _, note), lines, tall, middle in zip(marks, wrapped, deep, places, strict=True):
        canvas.lines((place, (x - 20, middle), (x - 5, middle)), "leader")
        canvas.add("circle", cx=place[0], cy=place[1], r=1.6, class_="dot")
        y = middle - tall / 2 + 15
        for number, line in enumerate(lines):
            canvas.text((x, y + 15 * number), line)
        if note:
            canvas.text((x, y + 15 * len(lines) - 1), note, "small")
    return max((place + tall / 2 for place, tall in zip(places, deep, strict=True)), default=low)


# From the lightest zone to the heaviest: a tint, and lines that tell it apart without color.
_HATCHINGS = (
    ("#ffffff", 12, ""),
    ("#eef3f8", 12, '<circle cx="3" cy="3" r="0.9" class="fill"/>'),
    ("#d9e6f2", 10, '<path d="M0,10 L10,0" class="hatch"/>'),
    ("#c0d4e8", 8, '<path d="M0,8 L8,0 M0,0 L8,8" class="hatch"/>'),
    ("#a8c2dd", 6, '<path d="M0,6 L6,0" class="hatch bold"/>'),
    ("#8fb0d0", 6, '<path d="M0,3 H6 M3,0 V6" class="hatch bold"/>'),
    ("#7499bf", 5, '<path d="M0,5 L5,0 M0,0 L5,5" class="hatch bold"/>'),
)


def zone_pattern(name: str, rank: int) -> str:
    """The definition of a zone's filling, by how much it carries."""
    tint, size, lines = _HATCHINGS[min(rank, len(_HATCHINGS) - 1)]
    return (
        f'<pattern id="{escape(name)}" width="{size}" height="{size}"'
        f' patternUnits="userSpaceOnUse"><rect width="{size}" height="{size}" fill="{tint}"/>'
        f"{lines}</pattern>"
    )
