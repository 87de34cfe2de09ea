"""The units of a document, told by the figures in it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.library import Library
from specgen.questions import read_answer
from specgen.review.outline import Outline
from specgen.review.passages import plain
from specgen.review.shapes import Anchor, Statement

QUESTION = "units_shown"
SURE = 0.8
# Fewer figures than these tell nothing; one kind this many times the other is the document's own.
FEWEST = 6
TIMES = 5

_METRIC = r"(?<![\d./])[\d./]{1,9} ?(?:mm|cm|m|kPa|Pa|m/s|km/h|(?:°|deg(?:rees)? ?)C|L/s|kN)\b"
_INCH = (
    r"(?<![\d./])[\d./]{1,9}[ -]?"
    r"(?:in|inch(?:es)?|ft|feet|foot|psf|psi|mph|(?:°|deg(?:rees)? ?)F|lbf|cfm)\b"
)
_FIGURE = re.compile(rf"(?P<metric>{_METRIC})|(?P<inch>{_INCH})")
_BOTH = re.compile(
    rf"{_INCH}\.? ?\([-+]?[\d.,/ ]{{0,10}}{_METRIC}|{_METRIC} ?\([-+]?[^()]{{0,10}}{_INCH}"
)


def units_told(outline: Outline, library: Library) -> Iterator[Statement]:
    """The one statement that the figures of a document come to, at the first of them; none where
    they are few or mixed."""
    question = library.questions.get(QUESTION)
    counts = {"metric": 0, "inch": 0, "both": 0}
    first: tuple[Anchor, str] | None = None
    for block in outline.said() if question is not None else ():
        text = plain(block.text)
        for match in _FIGURE.finditer(text):
            counts[match.lastgroup or ""] += 1
            first = first or (Anchor(block.index, match.start(), match.end()), match[0])
        counts["both"] += sum(1 for _ in _BOTH.finditer(text))
    raw = _told(counts)
    if question is None or first is None or not raw:
        return
    value = read_answer(question, raw)
    yield Statement(QUESTION, raw, value, first[0], first[1], SURE, "", "")


def _told(counts: dict[str, int]) -> str:
    if counts["metric"] + counts["inch"] < FEWEST:
        return ""
    if counts["both"] * 3 > counts["inch"] and counts["both"] * 3 > counts["metric"]:
        return "both"
    if counts["inch"] > TIMES * counts["metric"]:
        return "inch-pound"
    return "si" if counts["metric"] > TIMES * counts["inch"] else ""
