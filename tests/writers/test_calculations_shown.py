"""A calculation as it is shown, and the made-up record that the tests of its writers share."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.calculations.record import Step
from specgen.computing.registry import Outcome
from specgen.library import Library
from specgen.scope import Result, Scope
from specgen.units import Quantity, read
from specgen.values import NOT_ASKED, Row
from specgen.writers.calculations_shown import shown_results, step_value
from tests.test_drawing import INSULATED, PLAN, scope_of

BRIEF = f"""{INSULATED}
project_name: Mill & <b>Weir</b>
place: Upfield
issue: for-bid
issue_date: 2027-03-15
roof_shape: gable
panel_run: 46 ft
design_responsibility: computed
"""
STEPS = (
    Step("V", "basic wind speed", 110.0, "mph", source="ASCE/SEI 7-16 26.5"),
    Step(
        "qh",
        "velocity pressure",
        23.6214,
        "psf",
        "0.00256 Kz Kzt Kd Ke V^2",
        "0.00256 x 0.92 x 1 x 0.85 x 0.975 x 110^2",
        "ASCE/SEI 7-16 Equation 26.10-1",
        "Held to the mean roof height.",
    ),
    Step("alpha_p", "expansion <of> the panel", 6.7e-6, "1/degF", caution="A mean & no more."),
)


def record_of(library: Library, folder: Path, brief: str = BRIEF) -> Scope:
    """A brief whose wind, attachment and movement are given by hand, and sheet is refused."""
    scope = scope_of(brief, library, folder)
    calculations = {each.id: each for each in library.calculations.values()}

    def psf(*figures: str) -> tuple[Quantity, ...]:
        return tuple(read(f"{figure} psf", "pressure") for figure in figures)

    pressures: tuple[Row, ...] = tuple(
        (zone, *psf(up, "9.6", strength, "16"))
        for zone, up, strength in (
            ("Zone 1", "26.6", "44.4"),
            ("Zone 2", "35.1", "58.6"),
            ("Zone 3", "47.9", "79.8"),
        )
    )
    spacing: tuple[Row, ...] = tuple(
        (zone, *psf(up), read(inches, "length"), read("61 lbf", "force"), 46.0, "Report <1>")
        for zone, up, inches in (
            ("Zone 1", "26.6", "36 in"),
            ("Zone 2", "35.1", "24 in"),
            ("Zone 3", "47.9", "12 in"),
        )
    )
    length = read("11/16 in", "length")
    outcomes = {
        "wind": Outcome(
            {"computed_pressures": pressures, "velocity_pressure": psf("23.6")[0]},
            STEPS,
            ("Check the zones & their widths against the printed figure.",),
            PLAN,
        ),
        "attachment": Outcome({"computed_spacing": spacing}, STEPS[1:]),
        "movement": Outcome(
            {"panel_movement": length, "gap_needed": length, "travel_needed": NOT_ASKED},
            STEPS[:1],
            series=tuple((ft, ft / 70) for ft in (0.0, 20.0, 40.0, 60.0)),
        ),
    }
    for name, outcome in outcomes.items():
        scope._results[name] = Result(calculations[name], outcome=outcome)
    scope._results["sheet"] = Result(
        calculations["sheet"],
        waits_on=frozenset(["panel_width"]),
        refused="panel width is 90 in; the limits are 6 to 36 <in>",
    )
    return scope


def test_each_calculation_has_its_state(library: Library, tmp_path: Path) -> None:
    states = {
        shown.result.calculation.id: shown.state
        for shown in shown_results(record_of(library, tmp_path))
    }
    assert states["wind"] == "computed"
    assert states["sheet"] == "refused"
    assert states["slope_loads"] == "open"


def test_what_is_open_names_its_questions_in_the_order_they_are_asked(
    library: Library, tmp_path: Path
) -> None:
    shown = {each.result.calculation.id: each for each in shown_results(Scope(library, {}))}
    names = [name for name, _ in shown["movement"].settles]
    assert names == [name for name in library.questions if name in names]
    assert "panel_run" in names


def test_a_value_that_is_not_asked_is_left_out(library: Library, tmp_path: Path) -> None:
    shown = {
        each.result.calculation.id: each for each in shown_results(record_of(library, tmp_path))
    }
    labels = [label for label, _ in shown["movement"].values]
    assert "gap needed at the free end" in labels
    assert "clip travel needed each way" not in labels


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (23.62135, "23.621"),
        (14720.0, "14,720"),
        (6.7e-6, "6.7e-06"),
        (-3.2, "-3.2"),
        (0.0, "0"),
        (0.92016469, "0.92016"),
    ],
)
def test_a_step_shows_five_significant_figures(value: float, shown: str) -> None:
    assert step_value(value) == shown
