"""What a user did that cannot be worked with: where it is, and what to do about it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing wrong with an input, in a sentence that a specifier understands.

    ``file`` is the path as the user gave it, ``line`` counts from 1 or is None where the fault
    belongs to the file as a whole.
    """

    file: str
    line: int | None
    says: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}, line {self.line}"
        return f"{place}: {self.says}"


class BadInput(Exception):
    """Raised with every fault found; the commands print them all and exit with 2."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def closed(says: str) -> str:
    """A sentence with its final stop, which a hint may have brought already."""
    return says if says.endswith((".", "?")) else f"{says}."


def nearest(word: str, known: Iterable[str]) -> str:
    """A hint naming the likeliest known word, or an empty string if none is near."""
    from difflib import get_close_matches

    close = get_close_matches(word, list(known), n=1, cutoff=0.5)
    return f" Did you mean {close[0]}?" if close else ""
