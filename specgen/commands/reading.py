"""`specgen reading`: the guided reading of one section, stop by stop."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from specgen.commands.common import library_of, refusal

if TYPE_CHECKING:
    from specgen.study.guided import Reading, Stop

SAYS = (
    "Read one section in the order in which a specifier thinks: a paragraph, why it is there, a"
    " question."
)


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--stop", type=int, metavar="N", help="this stop alone")
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.study.guided import guided_reading
    from specgen.writers.reading_text import reading_json, write_reading

    reading = guided_reading(library_of(options))
    stops = _chosen(reading, options.stop)
    if options.json:
        import json

        print(json.dumps(reading_json(reading, stops), indent=1, ensure_ascii=False))
    elif sys.stdin.isatty() and sys.stdout.isatty():
        _read(reading, stops)
    else:
        print(write_reading(reading, stops), end="")
    return 0


def _chosen(reading: Reading, number: int | None) -> tuple[Stop, ...]:
    if number is None:
        return reading.stops
    found = tuple(stop for stop in reading.stops if stop.number == number)
    if not found:
        says = f"the reading has stops 1 to {len(reading.stops)}; {number} is none."
        raise refusal("the command", says)
    return found


def _read(reading: Reading, stops: tuple[Stop, ...]) -> None:
    """One stop after the other, each with its question answered before the next."""
    from specgen.writers.reading_text import write_answer, write_stop

    print(f"{reading.title}\n")
    right = 0
    for index, stop in enumerate(stops):
        print(write_stop(stop, len(reading.stops)))
        picked = _picked(stop)
        if picked is None:
            break
        right += stop.options[picked].right
        print(f"\n{write_answer(stop, picked)}")
        if index + 1 < len(stops) and not _goes_on():
            break
    else:
        print(f"{right} of {len(stops)} right.")


def _picked(stop: Stop) -> int | None:
    """The option that is chosen, from 0; None where she leaves."""
    count = len(stop.options)
    while True:
        try:
            typed = input(f"1 to {count}, q to leave > ").strip().lower()
        except EOFError:
            return None
        if typed in ("q", "quit"):
            return None
        if typed.isdecimal() and 1 <= int(typed[:4]) <= count:
            return int(typed) - 1


def _goes_on() -> bool:
    try:
        return input("enter for the next stop, q to leave > ").strip().lower() not in ("q", "quit")
    except EOFError:
        return False
