"""Running heads and feet of typed pages, found by their standing on most of them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from specgen.review.headings import is_end
from specgen.review.labels import split_label
from specgen.review.lines import Line
from specgen.review.wrapping import Typed

_DIGITS = re.compile(r"\d+|\b[ivxlc]+\b")
_SPACES = re.compile(r"\s+")
_PAGE = re.compile(r"(?:\S.{0,60} )?(?:page )?#(?: ?(?:of|/) ?#)?|.{0,60}- ?#", re.IGNORECASE)
EDGE = 4


def without_running_heads(
    pages: Sequence[Sequence[Typed | None]],
) -> tuple[list[Typed | None], list[Line]]:
    """The lines of all pages one after another without those at their heads and feet, and each of
    these once as a running head."""
    if len(pages) < 2:
        return [line for page in pages for line in page], []
    seen: Counter[str] = Counter()
    for page in pages:
        seen.update({_shape(line) for line in _edges(page)})
    filled = sum(any(page) for page in pages)
    least = max(2, (filled + 1) // 2)
    body: list[Typed | None] = []
    heads: dict[str, Line] = {}
    for page in pages:
        edges = {id(line) for line in _edges(page)}
        rest: list[Typed | None] = []
        for line in page:
            shape = _shape(line) if line is not None and id(line) in edges else ""
            if line is not None and shape and seen[shape] >= least and not _is_text(line):
                heads.setdefault(shape, Line(line.text, ("", (line.at,)), kind="page"))
            else:
                rest.append(line)
        body += _without_blank_ends(rest)
    return body, list(heads.values())


def _edges(page: Sequence[Typed | None]) -> list[Typed]:
    """The first and last lines of a page."""
    lines = [line for line in page if line is not None]
    return lines if len(lines) <= 2 * EDGE else [*lines[:EDGE], *lines[-EDGE:]]


def _shape(line: Typed) -> str:
    """What a line has in common with that of another page: its words, not its figures."""
    return _SPACES.sub(" ", _DIGITS.sub("#", line.text.lower()))


def _is_text(line: Typed) -> bool:
    """Whether a line that looks like one of another page is a paragraph or the section's end."""
    label = split_label(line.text)[0]
    return is_end(line.text) or (label is not None and label.form in ("part", "A.", "1.", "a."))


def _without_blank_ends(page: list[Typed | None]) -> list[Typed | None]:
    """A page without the blank lines at its ends, so that a paragraph can run on into the next."""
    filled = [index for index, line in enumerate(page) if line is not None]
    return page[filled[0] : filled[-1] + 1] if filled else []
