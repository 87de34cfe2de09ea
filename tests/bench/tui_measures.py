"""Measuring the screens: how soon the first one stands, and each key to what follows from it."""

from __future__ import annotations

import gc
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from specgen.library import Library
from specgen.loading import load_library
from specgen.session import Session
from tests.bench.keys import Press, press_all
from tests.bench.measuring import figure
from tests.support import EXAMPLES, ROOT
from tui.app import RoofApp

BRIEF = EXAMPLES / "low-slope-library.yaml"
STARTS = 9
ROUNDS = 3
FRAME, LONGEST = 16.0, 50.0
RECORDS = 200

# Each begins a process and ends it as soon as a first screen has been painted.
EMPTY = """
from textual.app import App
class Empty(App):
    def on_mount(self):
        self.call_after_refresh(self.exit)
Empty().run(headless=True, size=(120, 40))
"""
OURS = """
import gc, sys
gc.disable()
from pathlib import Path
from specgen.loading import load_library
from specgen.session import Session
from tui.app import RoofApp
library = load_library()
session = Session(Path(sys.argv[1]), library) if len(sys.argv) > 1 else None
gc.freeze()
gc.enable()
class Timed(RoofApp):
    def on_mount(self):
        self.call_after_refresh(self.exit)
app = Timed(session, library=library)
app.run(headless=True, size=(120, 40))
if session is not None:
    session.close()
"""

# What somebody does on each screen: looks about, gives answers, and takes them back.
KEYS: Mapping[str, Sequence[str]] = {
    "roof": [
        *["pagedown"] * 8, "down", "up", "down", "space", "ctrl+z", "pagedown", "down", "space",
        "ctrl+z", "ctrl+r", "ctrl+r", "ctrl+o", "pageup", "pageup",
    ],
    "document": [
        *["down"] * 12, *["pagedown"] * 4, "n", "f", "o", "end", "home",
        *["ctrl+z", "ctrl+y"] * 3,
    ],
    "findings": [*["down"] * 4, *["up"] * 3, "1", "ctrl+z", "down", "1", "ctrl+z"],
    "numbers": [
        "down", "enter", *["down"] * 10, "u", *["down"] * 10, "f", *["pagedown"] * 4, "ctrl+z",
        "ctrl+y",
    ],
    "rows": [
        *["down"] * 6, *["right"] * 12, "pagedown", "ctrl+end", "ctrl+home", "right", "space",
        "space", "ctrl+z", "1", "2", "escape", "ctrl+d", "delete", "ctrl+z", "ctrl+z",
    ],
}  # fmt: skip


def run() -> None:
    """First screen, and every key of every screen, with a few test records and with many."""
    library = load_library()
    _first_screen()
    for records in (0, RECORDS):
        for place in KEYS:
            _keys(library, place, records)


def _first_screen() -> None:
    """The page that `specgen` opens with, and the roof that `specgen ask BRIEF` does."""
    with tempfile.TemporaryDirectory() as folder:
        brief = shutil.copy(BRIEF, folder)
        starts = (_start("-c", EMPTY), _start("-c", OURS), _start("-c", OURS, str(brief)))
        rounds = [tuple(start() for start in starts) for _ in range(STARTS)]
    base, page, roof = (statistics.median(times) for times in zip(*rounds, strict=True))
    for what, mine in (("first page", page), ("a brief's roof", roof)):
        detail = f"{mine:.0f} ms / {base:.0f} ms"
        figure(f"first screen, {what} / an empty Textual app", mine / base, 1.5, detail)


def _start(*arguments: str) -> Callable[[], float]:
    """A process from its start to its end in milliseconds, run once before it counts."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}

    def timed() -> float:
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, *arguments],
            check=True,
            env=environment,
            stdout=subprocess.DEVNULL,
        )
        return (time.perf_counter() - start) * 1000

    timed()
    return timed


def _keys(library: Library, place: str, records: int) -> None:
    """Press the keys of a screen, several times over; of each key the least of its rounds counts,
    for what other programs take of the machine is none of ours."""
    rounds = [_pressed(library, place, records) for _ in range(ROUNDS)]
    painted = [
        min(times)
        for presses in zip(*rounds, strict=True)
        if (times := [press.painted for press in presses if press.painted])
    ]
    blocked = [
        (min(press.blocked for press in presses), presses[0].key)
        for presses in zip(*rounds, strict=True)
    ]
    held, key = max(blocked)
    name = f"{place}, {records} test records" if records else place
    detail = f"{len(painted)} keys, worst {max(painted):.1f} ms"
    figure(f"{name}: key to screen, median ms", statistics.median(painted), FRAME, detail)
    figure(f"{name}: longest block, ms", held, LONGEST, f"by {key}")


def _pressed(library: Library, place: str, records: int) -> list[Press]:
    with _session(library, records, place) as session:
        gc.collect()
        gc.freeze()  # as the command does
        gc.enable()
        try:
            if place == "rows":
                return press_all(session, "numbers", KEYS[place], before=_open_rows)
            return press_all(session, place, KEYS[place])
        finally:
            gc.unfreeze()


def _open_rows(app: RoofApp) -> None:
    app.edit_table("test_records")


@contextmanager
def _session(library: Library, records: int, place: str) -> Iterator[Session]:
    """A session on a brief; for the findings one with conflicts, for others one to undo."""
    with tempfile.TemporaryDirectory() as folder:
        session = Session(Path(shutil.copy(BRIEF, folder)), library)
        if records:
            session.answer("test_records", _many(session, records))
        if place == "findings":
            session.answer("seam", "snap-lock")
            session.answer("lowest_slope", "1/4:12")
        if place == "document":
            session.answer("seam", "single-lock")
        if place == "numbers":
            session.answer("panel_run", "30 ft")
        yield session
        session.close()


def _many(session: Session, count: int) -> list[dict[str, str]]:
    """So many invented test records, of three thicknesses and seven spacings."""
    first = session.typed_of("test_records")
    assert isinstance(first, list)
    return [
        {
            **first[n % len(first)],
            "thickness": ("24 ga", "22 ga", "26 ga")[n % 3],
            "spacing": f"{12 + 6 * (n % 7)} in",
            "ultimate": f"{50 + n % 90} psf",
            "report": f"Invented report {2000 + n}",
        }
        for n in range(count)
    ]
