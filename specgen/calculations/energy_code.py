"""Least R of roof insulation that the energy code asks, by building code and climate zone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from specgen.calculations.insulation import rsi
from specgen.calculations.record import OutsideMethod, Step

BuildingCode = Literal["ibc-2018", "ibc-2021", "ibc-2024", "irc-2021", "fbc-2023"]

# climate zone -> R of continuous insulation entirely above the roof deck, Table C402.1.3
_ABOVE_DECK_2018 = {"1": 20, "2": 25, "3": 25, "4": 30, "5": 30, "6": 30, "7": 35, "8": 35}
_ABOVE_DECK_2021 = {"0": 25, **_ABOVE_DECK_2018, "1": 25}
# what zone 1 of 2018 asks of Group R occupancies
_GROUP_R_ZONE_1_2018 = 25
# climate zone -> (ceiling R, ceiling U-factor), IRC 2021 Tables N1102.1.3 and N1102.1.2
_CEILING_2021 = {
    "0": (30, 0.035),
    "1": (30, 0.035),
    "2": (49, 0.026),
    "3": (49, 0.026),
    "4": (60, 0.024),
    "5": (60, 0.024),
    "6": (60, 0.024),
    "7": (60, 0.024),
    "8": (60, 0.024),
}
# climate zones there are in Florida
_FLORIDA = {"1": 25, "2": 25}

_ABOVE_DECK = "insulation entirely above the deck, continuous"
_CEILING = "ceiling"


@dataclass(frozen=True, slots=True)
class CodeMinimum:
    """What the energy code asks of the roof.

    ``r`` in h sq ft degF/Btu and ``rsi`` in sq m K/W are the least of ``row``, a row of the table
    in ``source``. ``confirmed`` is False for a figure recalled from memory and held against
    nothing. ``u_factor`` (Btu/h sq ft degF) and ``r_by_u_factor`` (its reciprocal) are given where
    the row is not written for insulation above a deck: continuous insulation of that R meets the
    alternative of the code's U-factors by itself. ``metal_building`` is the row for open framing,
    as words, because its two R stand for blankets and do not add up to an R above a deck; empty
    where the code has no such row.
    """

    code: BuildingCode
    climate_zone: str
    row: str
    r: float
    rsi: float
    confirmed: bool
    u_factor: float | None
    r_by_u_factor: float | None
    metal_building: str
    steps: tuple[Step, ...]


def code_minimum_r(
    *, code: BuildingCode, climate_zone: str, group_r: bool = False, open_framing: bool = False
) -> CodeMinimum:
    """Least R in h sq ft degF/Btu that the energy code asks of a roof, by climate zone 0 to 8.

    IBC 2018, 2021 and 2024: IECC Table C402.1.3, insulation entirely above deck (2024 from memory).
    Florida 2023: the same row of the Florida energy code, zones 1 and 2 alone. IRC 2021: the
    ceiling row of Table N1102.1.3, from memory, with the U-factor alternative beside it.
    ``group_r`` (dwellings, hotels) counts in zone 1 of 2018 only. ``open_framing`` adds the row for
    metal buildings as a caution: roofs over purlins are not judged by R above the deck.

    Raises OutsideMethod for an unknown code and for a climate zone that its table does not have.
    """
    r, row, source, confirmed = _row(code, climate_zone, group_r)
    u_factor = _CEILING_2021[climate_zone][1] if code == "irc-2021" else None
    by_u = None if u_factor is None else 1 / u_factor
    blankets = "" if code == "irc-2021" else _metal_building(climate_zone)
    caution = "The least of the prescriptive table; local amendments and a trade-off by the whole "
    caution += "building may ask more or less. "
    if code == "irc-2021":
        caution += "Written for insulation at a ceiling. "
    else:
        caution += "In at least two layers, joints staggered. "
    if open_framing and blankets:
        caution += f"Over open framing the metal building row applies instead: {blankets}."
    steps = [
        Step(
            "R_min",
            f"least R, climate zone {climate_zone}, {row}",
            r,
            "h sq ft degF/Btu",
            source=source,
            caution=caution.strip(),
        ),
        Step(
            "RSI_min",
            "the same, metric",
            rsi(r),
            "sq m K/W",
            "RSI_min = 0.1761102 R_min",
            f"RSI_min = 0.1761102 x {r:g}",
            "NIST SP 811",
        ),
    ]
    if u_factor is not None and by_u is not None:
        steps += [
            Step(
                "U",
                "U-factor of the alternative",
                u_factor,
                "Btu/h sq ft degF",
                source="IRC 2021 Table N1102.1.2, from memory",
            ),
            Step(
                "R_U",
                "continuous R that meets it by itself",
                by_u,
                "h sq ft degF/Btu",
                "R_U = 1 / U",
                f"R_U = 1 / {u_factor:g}",
                caution="Deck, air films and linings are not counted, which is on the safe side.",
            ),
        ]
    return CodeMinimum(
        code, climate_zone, row, r, rsi(r), confirmed, u_factor, by_u, blankets, tuple(steps)
    )


def _row(code: BuildingCode, zone: str, group_r: bool) -> tuple[float, str, str, bool]:
    """R, row, source and whether the figure was held against a published one."""
    if code == "ibc-2018":
        r = _look_up(_ABOVE_DECK_2018, zone, "IECC 2018")
        if zone == "1" and group_r:
            r = _GROUP_R_ZONE_1_2018
        return r, _ABOVE_DECK, "IECC 2018 Table C402.1.3", True
    if code == "ibc-2021":
        r = _look_up(_ABOVE_DECK_2021, zone, "IECC 2021")
        return r, _ABOVE_DECK, "IECC 2021 Table C402.1.3", True
    if code == "ibc-2024":
        r = _look_up(_ABOVE_DECK_2021, zone, "IECC 2024")
        return r, _ABOVE_DECK, "IECC 2024 Table C402.1.3, from memory: as in 2021", False
    if code == "fbc-2023":
        r = _look_up(_FLORIDA, zone, "the Florida energy code")
        source = "Florida Building Code 2023, Energy Conservation, Table C402.1.3"
        confirmed = zone == "2"
        return r, _ABOVE_DECK, source + ("" if confirmed else ", from memory"), confirmed
    if code == "irc-2021":
        r = _look_up({key: row[0] for key, row in _CEILING_2021.items()}, zone, "IRC 2021")
        return r, _CEILING, "IRC 2021 Table N1102.1.3, from memory", False
    raise OutsideMethod(
        f"code is {code!r}; known are ibc-2018, ibc-2021, ibc-2024, irc-2021, fbc-2023"
    )


def _look_up(table: dict[str, int], zone: str, name: str) -> int:
    if zone not in table:
        raise OutsideMethod(
            f"climate_zone is {zone!r}; {name} has zones {min(table)} to {max(table)}"
        )
    return table[zone]


def _metal_building(zone: str) -> str:
    """The row of Table C402.1.3 for metal buildings, blankets with a liner system (LS)."""
    purlin = {"6": 25, "7": 30, "8": 30}.get(zone, 19)
    return f"R-{purlin} over the purlins and R-11 between them in a liner system"
