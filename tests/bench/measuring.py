"""How the figures are measured and told: medians, one line a figure, the table of all of them."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

ROUNDS = 9


@dataclass(frozen=True, slots=True)
class Figure:
    """A measured figure and its goal, both in the same unit; ``detail`` says what it is made of."""

    what: str
    value: float
    goal: float
    detail: str

    @property
    def met(self) -> bool:
        return self.value <= self.goal


FIGURES: list[Figure] = []


def figure(what: str, value: float, goal: float, detail: str) -> None:
    """Print a figure against its goal, and keep it for the table."""
    FIGURES.append(Figure(what, value, goal, detail))
    verdict = "met" if FIGURES[-1].met else "MISSED"
    print(f"{what:<66} {value:6.2f}  (goal {goal:.2f}, {verdict}; {detail})", flush=True)


def remark(what: str, value: float, detail: str) -> None:
    """Print a figure that has no goal."""
    print(f"{what:<66} {value:6.2f}  (no goal; {detail})", flush=True)


def table() -> str:
    """The figures as a table in Markdown."""
    rows = [
        f"| {each.what} | {each.value:.2f} | {each.goal:.2f} | {each.detail} |" for each in FIGURES
    ]
    return "\n".join(["| figure | measured | goal | of |", "|---|---|---|---|", *rows])


def milliseconds(act: Callable[[], object]) -> float:
    """How long an act takes."""
    start = time.perf_counter()
    act()
    return (time.perf_counter() - start) * 1000


def median(act: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The median time of an act in milliseconds, after one round that does not count."""
    act()
    return statistics.median(milliseconds(act) for _ in range(rounds))
