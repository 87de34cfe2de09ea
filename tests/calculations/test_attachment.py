"""Clip spacing by roof zone: how it behaves."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.attachment import (
    AttachmentSchedule,
    allowable_at_spacing,
    clip_spacing,
    ultimate_to_ask,
)
from specgen.calculations.clip_load import (
    RoofZone,
    clip_load_lb,
    round_down,
    spacing_by_clip_load,
)
from specgen.calculations.coverage import TestRecord
from specgen.calculations.record import OutsideMethod
from specgen.calculations.uplift_series import credit_step, report_family, series_of
from tests.calculations.test_coverage import FRAMING, PURLINS, RECORD, ROOF

NAN = float("nan")


def _records(*pairs: tuple[float, float], like: TestRecord = RECORD) -> list[TestRecord]:
    return [
        replace(like, spacing_in=spacing, ultimate_psf=ultimate, report=f"L-204-{number}")
        for number, (spacing, ultimate) in enumerate(pairs)
    ]


# 75 psf at 12 in, 45 at 24, 33 at 36, with the factor of 2
THREE = _records((12, 150), (24, 90), (36, 66))


def _one(required_psf: float, records: list[TestRecord], **more: float) -> AttachmentSchedule:
    return clip_spacing([RoofZone("Zone 1", required_psf)], records, ROOF, **more)


@pytest.mark.parametrize(
    ("required", "spacing", "allowable"),
    [
        (20, 36, 33),  # never wider than the widest tested
        (33, 36, 33),
        (39, 30, 39),  # halfway between 33 and 45
        (40, 29, 40),  # 24 + 12 (45 - 40)/(45 - 33) = 29.0
        (45, 24, 45),
        (60, 18, 60),
        (62, 17, 62.5),  # 12 + 12 (75 - 62)/30 = 17.2
        (75, 12, 75),
    ],
)
def test_the_spacing_is_read_on_a_straight_line_between_records(
    required: float, spacing: float, allowable: float
) -> None:
    (zone,) = _one(required, THREE).zones
    assert zone.spacing_in == spacing
    assert zone.allowable_psf == pytest.approx(allowable)
    assert zone.utilization == pytest.approx(required / allowable)
    assert zone.governed_by == "test records"


def test_the_records_it_is_read_from_are_named() -> None:
    (zone,) = _one(62, THREE).zones
    assert zone.records == (THREE[0], THREE[1])
    (zone,) = _one(45, THREE).zones
    assert zone.records == (THREE[1],)


def test_closer_than_the_closest_tested_spacing_credits_no_more_pressure() -> None:
    assert allowable_at_spacing(THREE, ROOF, spacing_in=3).allowable_psf == 75
    (zone,) = _one(75, THREE, module_in=8).zones
    assert (zone.spacing_in, zone.allowable_psf) == (8, 75)


def test_wider_than_the_widest_tested_spacing_is_not_supported() -> None:
    assert allowable_at_spacing(THREE, ROOF, spacing_in=36.5).allowable_psf is None
    with pytest.raises(OutsideMethod, match="widest spacing tested is 36 in"):
        series_of(THREE)[0].allowable_at(37)


def test_a_pressure_above_the_closest_record_is_not_supported_and_says_what_to_ask_for() -> None:
    (zone,) = _one(75.1, THREE, asked_spacing_in=12).zones
    assert (zone.spacing_in, zone.allowable_psf, zone.utilization) == (None, None, None)
    assert zone.required_ultimate_psf == pytest.approx(150.2)
    assert zone.asked_spacing_in == 12
    assert "75.1 psf" in zone.cautions[0]


def test_where_no_record_covers_the_ultimate_to_ask_for_is_given() -> None:
    wide = replace(ROOF, width_in=18)
    found = clip_spacing([RoofZone("Corner", 60)], THREE, wide, asked_factor=1.67)
    (zone,) = found.zones
    assert zone.spacing_in is None
    assert zone.required_ultimate_psf == pytest.approx(60 * 1.67)
    assert "no record covers" in zone.cautions[0]
    assert all(not coverage.covered for _, coverage in found.coverages)


def test_no_records_at_all_is_the_same_as_none_that_covers() -> None:
    (zone,) = _one(30, []).zones
    assert zone.required_ultimate_psf == 60


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("test", "TAS 125"),
        ("thickness_in", 0.0179),
        ("width_in", 18.0),
        ("report", "Q-77-1"),
        ("metal", "metallic-coated steel, grade 50"),
        ("clip", "two-piece, stainless steel"),
    ],
)
def test_no_line_is_drawn_between_records_of_two_assemblies(name: str, value: str | float) -> None:
    other = replace(THREE[1], **{name: value})  # type: ignore[arg-type]
    assert len(series_of([THREE[0], other])) == 2
    (zone,) = _one(60, [THREE[0], other]).zones
    assert zone.spacing_in == 12


def test_of_two_series_the_one_that_supports_the_wider_spacing_is_taken() -> None:
    wider = _records((30, 130), like=replace(RECORD, width_in=18))
    (zone,) = _one(60, [*THREE, *wider]).zones
    assert zone.spacing_in == 30
    assert zone.records == tuple(wider)


def test_of_two_records_at_one_spacing_the_weaker_counts_with_a_caution() -> None:
    (zone,) = _one(40, _records((24, 90), (24, 84))).zones
    assert zone.allowable_psf == 42
    assert "weaker" in zone.cautions[0]


def test_a_wider_spacing_is_credited_with_no_more_than_a_closer_one() -> None:
    (zone,) = _one(40, _records((12, 80), (24, 100))).zones
    assert (zone.spacing_in, zone.allowable_psf) == (24, 40)
    assert "credited" in zone.cautions[0]
    (zone,) = _one(41, _records((12, 80), (24, 100))).zones
    assert zone.spacing_in is None


def test_an_interpolated_spacing_that_loads_a_clip_more_than_either_test_says_so() -> None:
    # 60 psf x 16/12 ft x 18/12 ft = 120 lb; the tests show 75 x 16/12 x 1 = 100 and
    # 45 x 16/12 x 2 = 120
    (zone,) = _one(60, THREE).zones
    assert zone.cautions == ()
    (zone,) = _one(52.5, THREE).zones  # 21 in: 122.5 lb
    assert zone.clip_load_lb == pytest.approx(122.5)
    assert "120 lb" in zone.cautions[0]


def test_records_that_do_not_cover_take_no_part() -> None:
    strong = replace(THREE[0], ultimate_psf=900, metal="stainless")
    assert _one(60, [strong, *THREE]).zones[0].spacing_in == 18


def test_a_ul580_class_sets_no_spacing_and_draws_a_caution() -> None:
    found = _one(40, [replace(RECORD, test="UL 580", ultimate_psf=90)])
    assert found.zones[0].spacing_in is None
    assert any("52.5 psf at most" in text for text in found.cautions)


def test_a_figure_that_names_a_class_beside_ul1897_is_doubted() -> None:
    found = _one(40, [replace(RECORD, test="UL 580 / UL 1897", ultimate_psf=90)])
    assert found.zones[0].spacing_in == 24
    assert any("name of a UL 580 class" in text for text in found.cautions)


def test_half_of_an_fm_rating_counts_and_ratings_do_not_interpolate() -> None:
    fm = _records((12, 120), (24, 90), like=replace(RECORD, test="FM 4471", design_factor=1.67))
    (zone,) = _one(45, fm).zones
    assert (zone.spacing_in, zone.allowable_psf) == (24, 45)
    (zone,) = _one(50, fm).zones
    assert (zone.spacing_in, zone.allowable_psf) == (12, 60)
    assert credit_step(fm[0]).value == 60
    assert allowable_at_spacing(fm, ROOF, spacing_in=18).allowable_psf == 45


def test_a_factor_under_the_usual_is_a_caution() -> None:
    low = replace(FRAMING, design_factor=1.5)
    found = clip_spacing([RoofZone("Field", 20)], [low], PURLINS)
    assert any("1.65" in text for text in found.cautions)


def test_an_allowable_clip_load_closes_the_spacing_up() -> None:
    # 144 x 60 / (40 x 16) = 13.5 in
    (zone,) = _one(40, THREE, allowable_clip_load_lb=60).zones
    assert (zone.spacing_in, zone.governed_by) == (13, "clip load")
    assert zone.clip_utilization == pytest.approx(40 * 16 * 13 / 144 / 60)
    assert zone.allowable_psf == pytest.approx(72.5)
    (zone,) = _one(40, THREE, allowable_clip_load_lb=600).zones
    assert (zone.spacing_in, zone.governed_by) == (29, "test records")
    assert zone.clip_utilization == pytest.approx(40 * 16 * 29 / 144 / 600)


def test_a_clip_too_weak_for_one_module_supports_nothing() -> None:
    (zone,) = _one(40, THREE, allowable_clip_load_lb=20, module_in=6).zones
    assert zone.spacing_in is None
    assert "stronger clip" in zone.cautions[0]


def test_a_closest_record_closer_than_one_module_supports_nothing() -> None:
    (zone,) = _one(40, _records((6, 90)), module_in=8).zones
    assert zone.spacing_in is None


def test_clip_load_alone_is_an_alternative_where_no_record_covers() -> None:
    found = spacing_by_clip_load(RoofZone("Field", 60), width_in=16, allowable_clip_load_lb=200)
    assert found.spacing_in == 30
    assert found.utilization == pytest.approx(1)
    tight = spacing_by_clip_load(
        RoofZone("Corner", 500), width_in=24, allowable_clip_load_lb=50, module_in=6
    )
    assert (tight.spacing_in, tight.clip_load_lb) == (None, None)


def test_zones_come_back_in_the_order_given_each_with_its_own_spacing() -> None:
    zones = [RoofZone("3", 70), RoofZone("1", 33), RoofZone("2", 45)]
    found = clip_spacing(zones, THREE, ROOF)
    assert [(one.zone.name, one.spacing_in) for one in found.zones] == [
        ("3", 14),
        ("1", 36),
        ("2", 24),
    ]


def test_each_line_of_a_zone_can_be_checked() -> None:
    (zone,) = _one(62, THREE, allowable_clip_load_lb=100).zones
    values = {step.symbol: step.value for step in zone.steps}
    assert values["p_a"] == zone.allowable_psf
    assert values["U"] == zone.utilization
    assert values["F"] == zone.clip_load_lb
    assert values["s"] == zone.spacing_in
    assert values["U_F"] == zone.clip_utilization
    assert all(step.label for step in zone.steps)
    assert all(step.worked for step in zone.steps if step.formula)


def test_every_record_a_zone_leans_on_has_a_line_of_its_own() -> None:
    # widest by the records 29 in (24 and 36 in), by the clip 13 in (12 and 24 in)
    (zone,) = _one(40, THREE, allowable_clip_load_lb=60).zones
    lines = [step.value for step in zone.steps if step.label.startswith("allowable uplift tested")]
    assert sorted(lines) == [33, 45, 75]


def test_reports_numbered_in_one_series_are_of_one_family() -> None:
    assert report_family("L-204-01") == report_family("l-204-02")
    assert report_family("Invented report 1101") == report_family("Invented report 1103")
    assert report_family("L-204-01") != report_family("L-205-01")
    assert report_family("1101") != report_family("1102")


tested = st.lists(
    st.tuples(st.floats(6, 60).map(lambda s: round(s, 1)), st.floats(20, 400)),
    min_size=1,
    max_size=6,
)
pressures = st.floats(1, 200)


@given(tested, pressures, pressures)
def test_more_pressure_never_widens_the_spacing(
    pairs: list[tuple[float, float]], first: float, second: float
) -> None:
    low, high = sorted((first, second))
    records = _records(*pairs)
    wide = _one(low, records).zones[0].spacing_in or 0.0
    close = _one(high, records).zones[0].spacing_in or 0.0
    assert close <= wide


@given(tested, pressures, st.sampled_from([0.5, 1.0, 3.0, 6.0]))
def test_what_is_scheduled_is_a_module_within_the_records_and_carries_the_pressure(
    pairs: list[tuple[float, float]], required: float, module: float
) -> None:
    records = _records(*pairs)
    (zone,) = _one(required, records, module_in=module).zones
    if zone.spacing_in is None:
        return
    assert zone.spacing_in <= max(spacing for spacing, _ in pairs) + 1e-6
    assert zone.spacing_in / module == pytest.approx(round(zone.spacing_in / module))
    assert zone.utilization is not None
    assert zone.utilization <= 1 + 1e-6
    again = allowable_at_spacing(records, ROOF, spacing_in=zone.spacing_in)
    assert again.allowable_psf == pytest.approx(zone.allowable_psf)


@given(tested, st.floats(1, 59.9))
def test_the_allowable_pressure_falls_without_a_jump_as_clips_move_apart(
    pairs: list[tuple[float, float]], spacing: float
) -> None:
    (series,) = series_of(_records(*pairs))
    widest = series.points[-1].spacing_in
    near, far = min(spacing, widest), min(spacing + 1e-7, widest)
    assert series.allowable_at(far) <= series.allowable_at(near) + 1e-9
    # 400 psf / 2 over no less than 0.1 in is the steepest line there is
    assert series.allowable_at(near) - series.allowable_at(far) <= 2000 * 1e-7 + 1e-4


@given(tested, pressures)
def test_the_widest_spacing_and_the_pressure_there_answer_each_other(
    pairs: list[tuple[float, float]], required: float
) -> None:
    (series,) = series_of(_records(*pairs))
    widest = series.widest_for(required)
    if widest is None:
        assert series.points[0].allowable_psf < required
    elif widest < series.points[-1].spacing_in:
        assert series.allowable_at(widest) == pytest.approx(required)
    else:
        assert series.points[-1].allowable_psf >= required * (1 - 1e-8)


@given(pressures, st.floats(2, 60), st.floats(0.25, 144))
def test_clip_load_goes_with_pressure_width_and_spacing(
    psf: float, width: float, spacing: float
) -> None:
    load = clip_load_lb(pressure_psf=psf, width_in=width, spacing_in=spacing)
    assert load == pytest.approx(psf * (width / 12) * (spacing / 12))


@given(st.floats(0, 200), st.floats(0.25, 24))
def test_rounding_down_stays_below_and_within_one_module(spacing: float, module: float) -> None:
    down = round_down(spacing, module_in=module)
    assert down <= spacing + 1e-8 * module
    assert spacing - down < module * (1 + 1e-8)


@pytest.mark.parametrize("psf", [0, -30, NAN, 501, float("inf")])
def test_a_senseless_pressure_is_refused(psf: float) -> None:
    with pytest.raises(OutsideMethod, match=r"required_allowable_psf .* 0\.1 to 500"):
        RoofZone("Zone 1", psf)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("module_in", 0.0),
        ("module_in", NAN),
        ("allowable_clip_load_lb", 0.0),
        ("allowable_clip_load_lb", -5.0),
        ("asked_factor", 0.0),
        ("asked_spacing_in", NAN),
    ],
)
def test_a_senseless_argument_is_refused(name: str, value: float) -> None:
    expected = "design_factor" if name == "asked_factor" else name.removeprefix("asked_")
    with pytest.raises(OutsideMethod, match=expected):
        _one(40, THREE, **{name: value})


def test_a_zone_without_a_name_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="name"):
        RoofZone(" ", 30)


def test_the_ultimate_to_ask_for_is_the_required_pressure_times_the_factor() -> None:
    found = ultimate_to_ask(RoofZone("Zone 2", 47.5), spacing_in=24)
    assert (found.ultimate_psf, found.spacing_in) == (95, 24)
