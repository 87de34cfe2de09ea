"""Laying explanations out for the terminal: heads at the margin, what they hold set in."""

from __future__ import annotations

import dataclasses
import textwrap
from collections.abc import Iterable, Mapping, Sequence

from specgen.domain import typed
from specgen.values import Choice

WIDTH = 88
INDENT = "  "


def block(head: str, lines: Iterable[str]) -> list[str]:
    """A head with its lines below it, and an empty line; nothing where there are none."""
    held = list(lines)
    return [head, *held, ""] if held else []


def entry(text: str, margin: str = INDENT, hang: str = "  ") -> list[str]:
    """One entry, wrapped, its further lines set in."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=margin,
        subsequent_indent=margin + hang,
        break_on_hyphens=False,
        break_long_words=False,
    )


def entries(texts: Iterable[str], margin: str = INDENT) -> list[str]:
    """One entry a text."""
    return [line for text in texts for line in entry(text, margin)]


def columns(rows: Sequence[tuple[str, str]], margin: str = INDENT, most: int = 34) -> list[str]:
    """Pairs in two columns, the second wrapped in its own."""
    if not rows:
        return []
    width = min(most, max(len(left) for left, _ in rows))
    lines: list[str] = []
    for left, right in rows:
        start = f"{margin}{left.ljust(width)}  "
        if not right:
            lines.append(start.rstrip())
            continue
        hang = " " * len(f"{margin}{''.ljust(width)}  ")
        if len(left) > width:
            lines.append(start.rstrip())
            start = hang
        lines += textwrap.wrap(
            right,
            WIDTH,
            initial_indent=start,
            subsequent_indent=hang,
            break_on_hyphens=False,
            break_long_words=False,
        )
    return lines


def shortened(text: str, most: int) -> str:
    """A text cut between words, with an ellipsis."""
    return textwrap.shorten(text, most, placeholder=" …")


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def plain_values(value: object) -> object:
    """What an explanation holds, as plain values for JSON; answers as typed."""
    if isinstance(value, Choice):
        return value.id
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        if value.__class__.__name__ == "Quantity":
            return typed(value)  # type: ignore[arg-type]
        return {
            each.name: plain_values(getattr(value, each.name)) for each in dataclasses.fields(value)
        }
    if isinstance(value, Mapping):
        return {str(key): plain_values(held) for key, held in value.items()}
    if isinstance(value, tuple | list | frozenset):
        return [plain_values(held) for held in value]
    if value is None or isinstance(value, bool | int | float | str):
        return value
    return str(value)
