"""Movement of panels against what they are clipped to: gap at the free end, travel of the clips.

A panel moves only against its support, so both are followed, each from its own temperature when
the panel was laid: free movement = alpha_p L dT_p - alpha_d L dT_d.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from specgen.calculations.expansion import DECKS, METALS, Coefficient, coefficient, free_movement_in
from specgen.calculations.record import OutsideMethod, Step, within

FixedPoint = Literal["ridge", "eave", "midpoint"]

_FREE_ENDS: dict[str, tuple[str, ...]] = {
    "ridge": ("eave",),
    "eave": ("ridge",),
    "midpoint": ("eave", "ridge"),
}
_FORMULA = "alpha_p L (T_p - T_i) - alpha_d L (T_d - T_di)"
_SOURCE = "linear expansion of both, each from its temperature at installation"
# The whole movement that a seam takes by sliding over clips that do not move with it: that of about
# 30 ft of steel between winter and summer (6.7e-6 x 360 in x 180 degF = 0.43 in); common practice.
ONE_PIECE_PLAY_IN = 7 / 16


@dataclass(frozen=True, slots=True)
class Temperatures:
    """Sheet and support in degF. Raises OutsideMethod outside -100 to 300 degF.

    ``low_degf`` and ``high_degf`` are the sheet's coldest and hottest; ``install_degf`` the
    sheet's when it is fixed, not outside those. ``deck_at_low_degf`` and ``deck_at_high_degf`` are
    the support's when the sheet is at its coldest and hottest, ``deck_install_degf`` when the panel
    is fixed (None: as the sheet). Both of the former None: the support stays as it was installed,
    which is near the truth for framing in a conditioned space and on the safe side where it warms
    and cools with the sheet; one of them alone is refused.
    """

    low_degf: float
    high_degf: float
    install_degf: float
    deck_at_low_degf: float | None = None
    deck_at_high_degf: float | None = None
    deck_install_degf: float | None = None

    def __post_init__(self) -> None:
        low = within("low_degf", self.low_degf, -100, 300, "degF")
        high = within("high_degf", self.high_degf, -100, 300, "degF")
        if low >= high:
            raise OutsideMethod(f"high_degf is {high:g} degF; it must be above low_degf, {low:g}")
        within("install_degf", self.install_degf, low, high, "degF")
        if (self.deck_at_low_degf is None) != (self.deck_at_high_degf is None):
            raise OutsideMethod(
                "deck_at_low_degf and deck_at_high_degf are -100 to 300 degF, both given or neither"
            )
        for name in ("deck_at_low_degf", "deck_at_high_degf", "deck_install_degf"):
            if (value := getattr(self, name)) is not None:
                within(name, value, -100, 300, "degF")

    @property
    def sheet_changes(self) -> tuple[float, float]:
        """Change of the sheet from installation to its coldest and its hottest, deltaF."""
        return self.low_degf - self.install_degf, self.high_degf - self.install_degf

    @property
    def deck_start(self) -> float:
        """The support's temperature when the panel is fixed, degF."""
        return self.install_degf if self.deck_install_degf is None else self.deck_install_degf

    @property
    def deck_changes(self) -> tuple[float, float]:
        """Change of the support at the sheet's coldest and hottest, deltaF."""
        if self.deck_at_low_degf is None or self.deck_at_high_degf is None:
            return 0.0, 0.0
        return self.deck_at_low_degf - self.deck_start, self.deck_at_high_degf - self.deck_start


@dataclass(frozen=True, slots=True)
class FreeEnd:
    """One end that moves: which ("eave" or "ridge"), its distance from the fixed point (ft),
    ``expansion_in`` outward and ``contraction_in`` back from where it was installed, and
    ``gap_in``, the clear room it needs: expansion plus the allowance asked for (in)."""

    end: str
    distance_ft: float
    expansion_in: float
    contraction_in: float
    gap_in: float


@dataclass(frozen=True, slots=True)
class Movement:
    """Movement of one panel against its support, lengths in ft and movements in inches.

    ``ends`` are the free ends; ``farthest_clip_ft`` the distance of the farthest clip from the
    fixed point, where the tab travels ``clip_outward_in`` and ``clip_inward_in`` from where it was
    set; ``clip_travel_in`` is the larger, needed each way of a tab set at its center.
    ``one_piece_serves`` says whether the whole movement there, both ways together, is within
    ``play_in``; ``one_piece_most_ft`` is the distance up to which it is (None: no limit found).
    """

    ends: tuple[FreeEnd, ...]
    farthest_clip_ft: float
    clip_outward_in: float
    clip_inward_in: float
    clip_travel_in: float
    play_in: float
    one_piece_serves: bool
    one_piece_most_ft: float | None
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class MovementRow:
    """For a table or a chart: distance from the fixed point (ft); expansion, contraction and both
    together (in)."""

    length_ft: float
    expansion_in: float
    contraction_in: float
    total_in: float


def movement(
    *,
    metal: str,
    deck: str,
    length_ft: float,
    temperatures: Temperatures,
    fixed_point: FixedPoint,
    allowance_in: float = 0.25,
    farthest_clip_from_end_ft: float = 0.0,
    play_in: float = ONE_PIECE_PLAY_IN,
) -> Movement:
    """Movement of a panel of ``length_ft`` against its deck from the one point where it is fixed.

    ``metal`` and ``deck`` are ids of METALS and DECKS; ``allowance_in`` is what the gap has beyond
    the movement (1/4 in), ``play_in`` the whole movement a seam takes over a one-piece clip
    (7/16 in), both common practice; ``farthest_clip_from_end_ft`` how far the last clip stands
    from the free end. Panels joined by end laps count as one length.
    Raises OutsideMethod for an unknown id, a length outside 0.1 to 1000 ft, an allowance outside
    0 to 2 in, a play outside 0 to 1/2 in, a clip beyond the free length.
    """
    if fixed_point not in _FREE_ENDS:
        raise OutsideMethod(f"fixed_point is {fixed_point}; it is one of {', '.join(_FREE_ENDS)}")
    free_ends = _FREE_ENDS[fixed_point]
    distance = within("length_ft", length_ft, 0.1, 1000, "ft") / len(free_ends)
    within("allowance_in", allowance_in, 0, 2, "in")
    within("play_in", play_in, 0, 0.5, "in")
    within("farthest_clip_from_end_ft", farthest_clip_from_end_ft, 0, distance, "ft")
    pair = coefficient(metal, METALS), coefficient(deck, DECKS)
    end = _row(distance, *pair, temperatures)
    ends = tuple(
        FreeEnd(name, distance, end.expansion_in, end.contraction_in,
                end.expansion_in + allowance_in)
        for name in free_ends
    )  # fmt: skip
    at_clip = distance - farthest_clip_from_end_ft
    clip = _row(at_clip, *pair, temperatures)
    per_foot = end.total_in / distance
    steps = (
        *_input_steps(*pair, distance, fixed_point),
        *_movement_steps(distance, *pair, temperatures),
        *_result_steps(end, clip, allowance_in, play_in),
    )
    return Movement(
        ends=ends,
        farthest_clip_ft=at_clip,
        clip_outward_in=clip.expansion_in,
        clip_inward_in=clip.contraction_in,
        clip_travel_in=max(clip.expansion_in, clip.contraction_in),
        play_in=play_in,
        one_piece_serves=clip.total_in <= play_in,
        one_piece_most_ft=play_in / per_foot if per_foot > 0 else None,
        steps=steps,
    )


def movement_by_length(
    lengths_ft: Iterable[float], *, metal: str, deck: str, temperatures: Temperatures
) -> tuple[MovementRow, ...]:
    """Movement against distance from the fixed point, a row for each length (0 to 1000 ft)."""
    pair = coefficient(metal, METALS), coefficient(deck, DECKS)
    return tuple(
        _row(within("lengths_ft", length, 0, 1000, "ft"), *pair, temperatures)
        for length in lengths_ft
    )


def _moves(
    length_ft: float, panel: Coefficient, deck: Coefficient, temperatures: Temperatures
) -> tuple[float, float]:
    """Movement of the free end at the sheet's coldest and hottest, in; outward is positive."""
    inches = 12 * length_ft
    cold, hot = (
        free_movement_in(length_in=inches, per_degf=panel.per_degf, change_degf=sheet)
        - free_movement_in(length_in=inches, per_degf=deck.per_degf, change_degf=below)
        for sheet, below in zip(temperatures.sheet_changes, temperatures.deck_changes, strict=True)
    )
    return cold, hot


def _row(
    length_ft: float, panel: Coefficient, deck: Coefficient, temperatures: Temperatures
) -> MovementRow:
    # A support that moves against the sheet can turn a cold day into an outward movement, so both
    # days are looked at for both directions; the day of installation is the zero between them.
    moves = _moves(length_ft, panel, deck, temperatures)
    outward, inward = max(0.0, *moves), max(0.0, *(-move for move in moves))
    return MovementRow(length_ft, outward, inward, outward + inward)


def _input_steps(
    panel: Coefficient, deck: Coefficient, distance_ft: float, fixed_point: str
) -> tuple[Step, ...]:
    return (
        Step("alpha_p", f"expansion of the panel, {panel.name}", panel.per_degf, "1/degF",
             source=f"{panel.source}; trust {panel.trust}"),
        Step("alpha_d", f"expansion of the support, {deck.name}", deck.per_degf, "1/degF",
             source=f"{deck.source}; trust {deck.trust}"),
        Step("L", f"free end from the fixed point at the {fixed_point}", distance_ft, "ft",
             caution="Panels joined by end laps count as one length."),
    )  # fmt: skip


def _movement_steps(
    length_ft: float, panel: Coefficient, deck: Coefficient, temperatures: Temperatures
) -> tuple[Step, ...]:
    steps = []
    still = temperatures.deck_at_low_degf is None
    for symbol, label, move, sheet, below in zip(
        ("m_c", "m_h"),
        ("movement at the coldest, outward positive", "movement at the hottest, outward positive"),
        _moves(length_ft, panel, deck, temperatures),
        temperatures.sheet_changes,
        temperatures.deck_changes,
        strict=True,
    ):
        worked = (
            f"{panel.per_degf:.3g} x 12 x {length_ft:g} ({sheet:g})"
            f" - {deck.per_degf:.3g} x 12 x {length_ft:g} ({below:g})"
        )
        caution = "The support is taken to stay at its temperature at installation."
        steps.append(Step(symbol, label, move, "in", _FORMULA, worked, _SOURCE,
                          caution if still else ""))  # fmt: skip
    return tuple(steps)


def _result_steps(
    end: MovementRow, clip: MovementRow, allowance_in: float, play_in: float
) -> tuple[Step, ...]:
    return (
        Step("g", "gap at the free end", end.expansion_in + allowance_in, "in", "e + a",
             f"{end.expansion_in:.4g} + {allowance_in:g}", "allowance: common practice"),
        Step("c", "pull-back at the free end", end.contraction_in, "in", "max(0, -m_c, -m_h)",
             f"{end.contraction_in:.4g}", _SOURCE,
             "An eave cleat must still hold after it."),
        Step("t", f"clip travel each way at {clip.length_ft:g} ft",
             max(clip.expansion_in, clip.contraction_in), "in", "max(e, c) at the farthest clip",
             f"max({clip.expansion_in:.4g}, {clip.contraction_in:.4g})", _SOURCE,
             "For a tab set at its center; one set to a side has less to give that way."),
        Step("P", "play of a one-piece clip less the whole movement at the farthest clip",
             play_in - clip.total_in, "in", "play - (e + c)",
             f"{play_in:g} - {clip.total_in:.4g}", "play: common practice",
             "Below zero, a one-piece clip drags on the seam and a two-piece clip is wanted."),
    )  # fmt: skip
