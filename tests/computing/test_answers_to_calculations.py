"""Calculations as a brief has them: computed, open with what they wait on, refused with why."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.computing.registry import CALCULATIONS
from specgen.library import Library
from specgen.scope import Result, Scope
from specgen.section import open_questions
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Open, Value
from tests.support import EXAMPLES, brief_of, texts_of


@pytest.fixture
def low_slope(library: Library) -> Scope:
    return Scope(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)


def _with(scope: Scope, folder: Path, text: str) -> Scope:
    """The scope with some answers typed anew."""
    changed = brief_of(text, scope.library, folder).answers
    return Scope(scope.library, {**scope.answers, **changed})


def _result(scope: Scope, calculation: str) -> Result:
    return next(r for r in scope.results() if r.calculation.id == calculation)


def _figure(scope: Scope, name: str, unit: str) -> float:
    value, _ = scope.lookup(name)
    assert isinstance(value, Quantity)
    return value.to(unit)


def test_every_calculation_of_the_registry_is_available_in_the_library(library: Library) -> None:
    found = {calculation.id for calculation in library.calculations.values()}
    assert found == {calculation.id for calculation in CALCULATIONS}


def test_one_zone_by_hand(low_slope: Scope) -> None:
    """Zone 3 of the low-slope example, ASCE/SEI 7-16, worked here and in the record.

    Kz = 2.01 (22/900)^(2/9.5) = 0.9202; Ke = e^(-0.0000362 x 700) = 0.9750
    qh = 0.00256 x 0.9202 x 1.0 x 0.85 x 0.9750 x 110^2 = 23.62 psf
    p = 23.62 x (-3.2 - 0.18) = -79.84 psf; 0.6 x 79.84 = 47.90 psf
    """
    rows, _ = low_slope.lookup("computed_pressures")
    assert isinstance(rows, tuple)
    zone_3 = next(row for row in rows if isinstance(row, tuple) and row[0] == "Zone 3")
    kz = 2.01 * (22 / 900) ** (2 / 9.5)
    qh = 0.00256 * kz * 0.85 * 2.718281828 ** (-0.0000362 * 700) * 110**2
    by_hand = 0.6 * qh * (3.2 + 0.18)
    assert isinstance(zone_3[1], Quantity)
    assert zone_3[1].to("psf") == pytest.approx(by_hand, abs=0.05)
    worked = {step.symbol: step.value for step in _result(low_slope, "wind").outcome.steps}  # type: ignore[union-attr]
    assert worked["qh"] == pytest.approx(qh, rel=1e-6)
    assert worked["pa,up"] == pytest.approx(by_hand, rel=1e-6)


def test_the_results_stand_in_the_document(low_slope: Scope) -> None:
    section = assemble(low_slope)
    tables = {
        paragraph.reason.clause: paragraph.tables
        for paragraph in section.paragraphs()
        if paragraph.tables
    }
    pressures = tables["computed-pressure-table"][0]
    assert pressures.rows[-1][:2] == ("Zone 3", "47.9 psf")
    spacing = tables["clip-spacing-computed"][0]
    assert [row[0] for row in spacing.rows] == [row[0] for row in pressures.rows]
    assert "11/16 in" in texts_of(section)["thermal-movement-computed"]


def test_a_missing_input_leaves_the_result_open_and_says_which(
    low_slope: Scope, library: Library
) -> None:
    answers = {n: v for n, v in low_slope.answers.items() if n != "wind_speed"}
    scope = Scope(library, answers)
    assert _result(scope, "wind").waits_on == {"wind_speed"}
    assert _result(scope, "attachment").waits_on == {"wind_speed"}
    value, _ = scope.lookup("computed_spacing")
    assert value == Open(frozenset(["wind_speed"]))
    waiting = {item.question for item in open_questions(assemble(scope))}
    assert "wind_speed" in waiting


def test_an_input_outside_the_method_is_refused_with_the_limit(
    low_slope: Scope, tmp_path: Path
) -> None:
    scope = _with(low_slope, tmp_path, "mean_roof_height: 90 ft\n")
    refused = _result(scope, "wind")
    assert "90 ft" in refused.refused
    assert "60" in refused.refused
    assert refused.waits_on == {"design_responsibility"}


def test_given_pressures_serve_the_attachment_at_allowable_level(
    library: Library, tmp_path: Path
) -> None:
    """The engineer's pressures at strength level are taken times 0.6."""
    scope = Scope(library, read_brief(EXAMPLES / "coastal-civic-hall.yaml", library).answers)
    rows, _ = scope.lookup("computed_spacing")
    given, _ = scope.lookup("zone_pressures")
    assert isinstance(rows, tuple)
    assert isinstance(given, tuple)
    for row, strength in zip(rows, given, strict=True):
        assert isinstance(row, tuple)
        assert isinstance(strength, tuple)
        assert isinstance(row[1], Quantity)
        assert isinstance(strength[1], Quantity)
        assert row[1].to("psf") == pytest.approx(0.6 * strength[1].to("psf"), abs=0.06)


def test_without_a_record_the_ultimate_to_ask_for_is_computed(library: Library) -> None:
    scope = Scope(library, read_brief(EXAMPLES / "snow-country-lodge.yaml", library).answers)
    assert scope.lookup("computed_spacing")[0] is NOT_ASKED
    rows, _ = scope.lookup("ultimate_to_ask")
    assert isinstance(rows, tuple)
    for row in rows:
        assert isinstance(row, tuple)
        assert isinstance(row[1], Quantity)
        assert isinstance(row[2], Quantity)
        assert row[2].to("psf") == pytest.approx(2 * row[1].to("psf"))


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({}, False),
        ({"clip_schedule": "[{zone: Zone 3, spacing: 24 in}]"}, True),
        ({"clip_schedule": "[{zone: Zone 3, spacing: 12 in}]"}, False),
        ({"clip_schedule": "[{zone: Zone 1, spacing: 48 in}]"}, True),
        (
            {"clip_schedule": "[{zone: Zone 3, spacing: 24 in}, {zone: ZONE 3, spacing: 12 in}]"},
            True,
        ),
        ({"wind_speed": "180 mph"}, True),
    ],
)
def test_a_schedule_wider_than_its_records_support_is_short(
    low_slope: Scope, tmp_path: Path, change: dict[str, str], expected: bool
) -> None:
    lines = [f"{name}: {answer}" for name, answer in change.items()]
    if "clip_schedule" in change:
        lines.append("spacing_basis: schedule")
    scope = _with(low_slope, tmp_path, "\n".join(lines) + "\n") if lines else low_slope
    assert scope.lookup("uplift_short")[0] is expected


def test_a_record_of_another_assembly_covers_nothing(low_slope: Scope, tmp_path: Path) -> None:
    scope = _with(low_slope, tmp_path, "metal: aluminum\npanel_thickness: 0.040 in\n")
    assert scope.lookup("uncovered_records")[0] is True


def test_movement_grows_with_length_and_with_the_metal(low_slope: Scope, tmp_path: Path) -> None:
    longer = _with(low_slope, tmp_path, "panel_run: 92 ft 2 in\n")
    aluminum = _with(low_slope, tmp_path, "metal: aluminum\n")
    here = _figure(low_slope, "panel_movement", "in")
    assert _figure(longer, "panel_movement", "in") == pytest.approx(2 * here, abs=1 / 8)
    assert _figure(aluminum, "panel_movement", "in") > 1.8 * here


def test_a_setting_temperature_divides_the_movement(low_slope: Scope, tmp_path: Path) -> None:
    scope = _with(low_slope, tmp_path, "setting_temperature: 70 degF\n")
    whole = _figure(scope, "panel_movement", "in")
    assert _figure(scope, "travel_needed", "in") < whole
    assert _figure(low_slope, "travel_needed", "in") == whole


def test_strip_and_coil_are_the_figures_of_practice(low_slope: Scope, tmp_path: Path) -> None:
    """18-3/4 in of double-lock with a 2 in seam takes 24-5/16 in: common practice."""
    scope = _with(low_slope, tmp_path, "panel_width: 18-3/4 in\ncoil_width: 48-5/8 in\n")
    assert _figure(scope, "strip_width", "in") == pytest.approx(24.3125)
    steps = _result(scope, "sheet").outcome.steps  # type: ignore[union-attr]
    assert any(step.value == 2 and "strips" in step.label for step in steps)


def test_insulation_is_held_against_the_energy_code(low_slope: Scope, tmp_path: Path) -> None:
    thin = _with(low_slope, tmp_path, "insulation_thickness: 4 in\n")
    outcome = _result(thin, "insulation").outcome
    assert outcome is not None
    assert any("less than the R-30 of the energy code" in said for said in outcome.cautions)
    assert outcome.values["code_r"] == 30.0


@pytest.mark.parametrize(
    "example", ["low-slope-library", "snow-country-lodge", "coastal-civic-hall"]
)
def test_every_computed_line_is_a_figure_with_its_label(library: Library, example: str) -> None:
    scope = Scope(library, read_brief(EXAMPLES / f"{example}.yaml", library).answers)
    computed = [result for result in scope.results() if result.outcome is not None]
    assert len(computed) >= 5
    for result in computed:
        assert result.outcome is not None
        assert result.outcome.steps
        for step in result.outcome.steps:
            assert step.symbol
            assert step.label
            assert step.value == step.value
            assert step.formula or not step.worked
        names = {provided.id for provided in result.calculation.provides}
        assert set(result.outcome.values) <= names


def test_no_value_is_computed_that_nothing_gives(library: Library) -> None:
    values: list[Value] = [Scope(library, {}).lookup(name)[0] for name in library.calculations]
    assert all(isinstance(value, Open) or value is NOT_ASKED for value in values)
