"""Many reviews in one table, for the terminal and as plain values."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from specgen.library import FINDING_KINDS
from specgen.review.batch import Summary
from specgen.writers.findings_text import HEADS

_NAME = 40
_WIDTH = 88


def write_batch(summaries: Sequence[Summary]) -> str:
    """One line a document with its counts; then what could not be read, and why."""
    wide = max([8, *(min(_NAME, len(str(each.path))) for each in summaries)])
    heads = [HEADS[kind][1].capitalize() for kind in FINDING_KINDS]
    lines = ["  ".join([f"{'Document':<{wide}}", *heads, "Stated"])]
    for each in summaries:
        if each.refused:
            continue
        counts = dict(each.counts)
        cells = [
            f"{counts[kind]:>{len(head)}}" for kind, head in zip(FINDING_KINDS, heads, strict=True)
        ]
        lines.append("  ".join([f"{_name(str(each.path)):<{wide}}", *cells, f"{each.stated:>6}"]))
    refused = [each for each in summaries if each.refused]
    if refused:
        lines += ["", "Not read:"]
        for each in refused:
            # The path whole on a line of its own: it is there to be copied.
            lines.append(f"  {each.path}:")
            lines += textwrap.wrap(
                each.refused,
                _WIDTH,
                initial_indent="    ",
                subsequent_indent="    ",
                break_long_words=False,
            )
    return "\n".join([*lines, "", _total(summaries)]) + "\n"


def _total(summaries: Sequence[Summary]) -> str:
    read = [each for each in summaries if not each.refused]
    conflicting = sum(1 for each in read if each.conflicts)
    documents = "1 document" if len(read) == 1 else f"{len(read)} documents"
    unread = len(summaries) - len(read)
    return f"{documents} reviewed, {conflicting} with conflicts; {unread} not read."


def _name(path: str) -> str:
    return path if len(path) <= _NAME else "…" + path[-(_NAME - 1) :]


def batch_json(summaries: Sequence[Summary]) -> list[dict[str, object]]:
    """Every field of every summary."""
    return [
        {
            "document": str(each.path),
            "title": each.title,
            "blocks": each.blocks,
            "stated": each.stated,
            "counts": dict(each.counts),
            "conflicts": list(each.conflicts),
            "seconds": round(each.seconds, 3),
            "refused": each.refused or None,
        }
        for each in summaries
    ]
