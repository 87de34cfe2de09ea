"""A review for the terminal: what is found kind by kind, what is covered, how it was read."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from specgen.review.shapes import Review
from specgen.writers.review_shown import (
    SUBJECT_TO,
    Shown,
    by_kind,
    counts_of,
    coverage_rows,
    notes_of,
    summary_of,
    titled,
)

WIDTH = 88
INDENT = "    "
_WHERE = 34


def write_review(review: Review) -> str:
    """The report of one document."""
    outline = review.outline
    lines = [f"{titled(outline)}", f"{outline.name}: {summary_of(counts_of(review))}.", ""]
    for _, head, found in by_kind(review):
        lines += [head.upper(), ""]
        for shown in found:
            lines += [*_finding(shown), ""]
    if not review.found:
        lines += ["Nothing was found.", ""]
    lines += [*_coverage(review), ""]
    notes = notes_of(outline)
    if notes:
        lines.append("HOW THE DOCUMENT WAS READ")
        lines.append("")
        for note in notes:
            lines += _wrapped(note, "  ", "    ")
        lines.append("")
    lines += _wrapped(SUBJECT_TO, "")
    return "\n".join(lines) + "\n"


def _finding(shown: Shown) -> Iterator[str]:
    place = shown.place
    yield f"  {place}{' ' * max(2, WIDTH - 2 - len(place) - len(shown.id))}{shown.id}"
    quote = " ".join("".join(shown.quote).split())
    if quote:
        yield from _wrapped(f"“{quote}”", INDENT)
    yield from _wrapped(shown.says, INDENT)
    yield from _wrapped(f"Why: {shown.because}", INDENT)
    yield from _wrapped(f"Source: {shown.source}.", INDENT)
    if shown.do:
        yield from _wrapped(f"To do: {shown.do}", INDENT)
    if shown.fills_with:
        yield from _wrapped(f"{shown.fills}: {shown.fills_with}", INDENT + "  ", INDENT + "    ")


def _coverage(review: Review) -> Iterator[str]:
    rows = coverage_rows(review)
    yield "COVERAGE BY TOPIC"
    yield ""
    if not rows:
        yield "  Nothing that the library asks about was recognized."
        return
    wide = max(len(row.topic) for row in rows)
    yield f"  {'Topic':<{wide}}  Stated  Of  Where"
    for row in rows:
        where = textwrap.shorten(row.where, _WHERE, placeholder=" …") if row.where else "nowhere"
        yield f"  {row.topic:<{wide}}  {row.answered:>6}  {row.raised:>2}  {where}"


def _wrapped(text: str, first: str, later: str | None = None) -> Iterable[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if later is None else later,
        break_on_hyphens=False,
    )
