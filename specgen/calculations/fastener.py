"""Length of a screw through clip, cover board, insulation and deck."""

from __future__ import annotations

import math
from dataclasses import dataclass

from specgen.calculations.record import Step, within


@dataclass(frozen=True, slots=True)
class FastenerLength:
    """A screw through everything that lies on the support.

    ``needed_in`` is the sum of what it passes and its penetration; ``length_in`` that rounded up
    to the next 1/2 in.
    """

    needed_in: float
    length_in: float
    steps: tuple[Step, ...]


def fastener_length(
    *,
    insulation_in: float,
    deck_in: float,
    penetration_in: float,
    cover_board_in: float = 0.0,
    clip_in: float = 0.0,
) -> FastenerLength:
    """Screw length L = clip + cover board + insulation + deck + penetration, up to the next 1/2 in.

    ``penetration_in`` is how far the point stands below the underside of a deck that is passed
    through; for a screw that ends inside its support, give ``deck_in`` 0 and the depth in the
    support as penetration. ``clip_in`` is the clip base and bearing plate under the screw's head.
    All in inches; a sum that is a whole number of half inches is not raised.

    Raises OutsideMethod for insulation outside 0 to 30 in, a deck or cover board outside 0 to 4
    in, a penetration outside 1/4 to 6 in or a clip outside 0 to 3 in. Source: common practice;
    penetration by the uplift test record.
    """
    parts = {
        "k": ("clip base and bearing plate", within("clip_in", clip_in, 0, 3, "in")),
        "b": ("cover board", within("cover_board_in", cover_board_in, 0, 4, "in")),
        "i": ("insulation", within("insulation_in", insulation_in, 0, 30, "in")),
        "d": ("deck", within("deck_in", deck_in, 0, 4, "in")),
        "p": ("penetration", within("penetration_in", penetration_in, 0.25, 6, "in")),
    }
    needed = sum(figure for _, figure in parts.values())
    length = math.ceil(round(needed * 2, 6)) / 2
    steps = [Step(symbol, label, figure, "in") for symbol, (label, figure) in parts.items()]
    figures = " + ".join(f"{figure:g}" for _, figure in parts.values())
    steps += [
        Step("L", "length needed", needed, "in", "L = k + b + i + d + p", f"L = {figures}"),
        Step(
            "L_s",
            "screw, to the next 1/2 in",
            length,
            "in",
            "L_s = ceil(2 L) / 2",
            f"L_s = ceil(2 x {needed:g}) / 2",
            "common practice",
            "Diameter, point and penetration are those of the uplift test record; over a finished "
            "ceiling see where the points come out.",
        ),
    ]
    return FastenerLength(needed, length, tuple(steps))
