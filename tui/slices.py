"""Work done a little at a time between keys, so that none of them waits for it."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from textual.timer import Timer
from textual.widget import Widget

BUDGET_SECONDS = 0.006
PAUSE_SECONDS = 0.012


def in_slices(
    widget: Widget, steps: Sequence[Callable[[], None]], done: Callable[[], None]
) -> Timer | None:
    """Do the steps in slices, and tell after each slice; stop the timer to leave the rest."""
    waiting = list(steps)
    if not waiting:
        return None

    def work() -> None:
        until = time.perf_counter() + BUDGET_SECONDS
        while waiting and time.perf_counter() < until:
            waiting.pop(0)()
        if not waiting:
            timer.stop()
        done()

    timer = widget.set_interval(PAUSE_SECONDS, work)
    return timer
