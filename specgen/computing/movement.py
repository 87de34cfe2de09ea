"""Thermal movement of the longest panel against its deck, and what it asks of gap and clips."""

from __future__ import annotations

from typing import cast

from specgen.calculations.thermal import (
    FixedPoint,
    Movement,
    Temperatures,
    movement,
    movement_by_length,
)
from specgen.computing.inputs import Inputs, upward_to_sixteenth
from specgen.computing.metals import metal_of
from specgen.computing.registry import Outcome

GAP_ALLOWANCE_IN = 0.25
CHART_STEPS = 10


def compute(inputs: Inputs) -> Outcome:
    """Movement over the whole range, gap and travel, and movement against length.

    Without a setting temperature the panels may be set on the coldest day or on the hottest, so
    gap and travel must each take the whole movement; with one, the gap takes the lengthening and
    1/4 in more, and the tabs the larger of the two ways.
    """
    setting = inputs.optional("setting_temperature", "degF")
    low = inputs.figure("panel_temperature_low", "degF")
    high = inputs.figure("panel_temperature_high", "degF")
    days = [setting] if setting is not None else [low, high]
    allowance = 0.0 if setting is None else GAP_ALLOWANCE_IN
    results = [_movement(inputs, day, allowance) for day in days]
    whole = max(end.expansion_in + end.contraction_in for end in results[0].ends)
    if setting is None:
        gap, travel = whole, whole
    else:
        gap = max(end.gap_in for end in results[0].ends)
        travel = results[0].clip_travel_in
    run = inputs.figure("panel_run", "ft")
    rows = movement_by_length(
        [run * step / CHART_STEPS for step in range(CHART_STEPS + 1)],
        metal=metal_of(inputs),
        deck=_deck(inputs),
        temperatures=_temperatures(inputs, days[0]),
    )
    cautions = []
    if inputs.choice("clip_kind") == "one-piece" and not results[0].one_piece_serves:
        most = results[0].one_piece_most_ft
        upto = f"; they serve up to {most:.0f} ft from the fixed point" if most else ""
        cautions.append(f"One-piece clips do not take this movement{upto}.")
    if setting is None:
        cautions.append(
            "No setting temperature is answered: gap and clip travel are for the whole movement,"
            " as if the panels were set on the coldest day and on the hottest."
        )
    return Outcome(
        values={
            "panel_movement": upward_to_sixteenth(whole),
            "gap_needed": upward_to_sixteenth(gap),
            "travel_needed": upward_to_sixteenth(travel),
        },
        steps=results[0].steps,
        cautions=tuple(cautions),
        series=tuple((row.length_ft, row.total_in) for row in rows),
    )


def _temperatures(inputs: Inputs, setting_degf: float) -> Temperatures:
    deck_low = inputs.optional("deck_temperature_low", "degF")
    deck_high = inputs.optional("deck_temperature_high", "degF")
    both = deck_low is not None and deck_high is not None
    return Temperatures(
        low_degf=inputs.figure("panel_temperature_low", "degF"),
        high_degf=inputs.figure("panel_temperature_high", "degF"),
        install_degf=setting_degf,
        deck_at_low_degf=deck_low if both else None,
        deck_at_high_degf=deck_high if both else None,
    )


def _deck(inputs: Inputs) -> str:
    """The support; an existing roof is taken as wood, which moves least and so helps least."""
    support = inputs.choice("support")
    return "wood-deck" if support == "existing-roof" else support


def _movement(inputs: Inputs, setting_degf: float, allowance_in: float) -> Movement:
    return movement(
        metal=metal_of(inputs),
        deck=_deck(inputs),
        length_ft=inputs.figure("panel_run", "ft"),
        temperatures=_temperatures(inputs, setting_degf),
        fixed_point=cast("FixedPoint", inputs.choice("fixed_point")),
        allowance_in=allowance_in,
    )
