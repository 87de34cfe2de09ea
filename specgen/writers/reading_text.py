"""The guided reading for the terminal and for paper, and as plain values for JSON."""

from __future__ import annotations

from specgen.study.guided import Reading, Stop
from specgen.writers.laid_out import entry, plain_values


def write_stop(stop: Stop, count: int) -> str:
    """A stop with its question, the answer not yet told."""
    lines = [
        f"Stop {stop.number} of {count}: {stop.title}",
        "",
        f"  {stop.article}",
        *entry(f"{stop.place}  {stop.text}", "  ", "    "),
        "",
        *entry(stop.why, "", ""),
        *entry(f"Source: {stop.source.rstrip('.')}.", "", ""),
        "",
        *entry(stop.question, "", ""),
    ]
    for number, option in enumerate(stop.options, 1):
        lines += entry(f"{number}  {option.text}", "  ", "   ")
    return "\n".join(lines) + "\n"


def write_answer(stop: Stop, picked: int | None = None) -> str:
    """What is right or wrong about each option; ``picked`` is the one that was chosen, from 0."""
    lines: list[str] = []
    if picked is not None:
        right = stop.options[picked].right
        lines += ["Right." if right else f"Not so; {stop.right + 1} is right.", ""]
    for number, option in enumerate(stop.options, 1):
        sign = "+" if option.right else "-"
        lines += entry(f"{sign} {number}  {option.says}", "  ", "     ")
    return "\n".join(lines) + "\n"


def write_reading(reading: Reading, stops: tuple[Stop, ...]) -> str:
    """Stops one after the other, with all answers at the end."""
    count = len(reading.stops)
    pieces = [f"{reading.title}\n"]
    pieces += [write_stop(stop, count) for stop in stops]
    answers = ["Answers\n"]
    answers += [f"Stop {stop.number}: {stop.right + 1}\n{write_answer(stop)}" for stop in stops]
    return "\n\n".join((*pieces, *answers))


def reading_json(reading: Reading, stops: tuple[Stop, ...]) -> dict[str, object]:
    """The reading as plain values."""
    return {"title": reading.title, "stops": plain_values(stops)}
