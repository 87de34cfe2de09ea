"""Clip spacing by roof zone from the test records of the brief, and what a schedule lacks."""

from __future__ import annotations

from specgen.calculations.attachment import (
    AttachmentSchedule,
    ZoneSpacing,
    allowable_at_spacing,
    clip_spacing,
)
from specgen.calculations.clip_load import RoofZone
from specgen.calculations.coverage import Assembly, Coverage, TestRecord, covers
from specgen.calculations.record import OutsideMethod
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.pressures import zones_allowable
from specgen.computing.registry import Outcome
from specgen.units import Quantity
from specgen.values import NOT_ASKED, Row, Value

# What a roof is, as far as a test record may speak for it.
ASSEMBLY = ("support", "metal", "panel_thickness", "panel_width", "seam", "clip_kind")
DEFAULT_MODULE_IN = 1.0
USUAL_FACTOR = 2.0


def compute(inputs: Inputs) -> Outcome:
    """The widest spacing that the records support in each zone, or the ultimate to ask for."""
    zones = [RoofZone(name, upward) for name, upward, _ in zones_allowable(inputs) if upward > 0]
    if not zones:
        raise OutsideMethod("no roof zone has an uplift pressure")
    records = [_record(row) for row in inputs.rows("test_records")]
    module = inputs.optional("spacing_module", "in")
    schedule = clip_spacing(
        zones,
        records,
        _assembly(inputs),
        module_in=DEFAULT_MODULE_IN if module is None else module,
        allowable_clip_load_lb=inputs.optional("clip_load_allowed", "lbf"),
        asked_factor=USUAL_FACTOR,
    )
    covered = any(coverage.covered for _, coverage in schedule.coverages)
    steps = tuple(step for zone in schedule.zones for step in zone.steps)
    supported = [zone for zone in schedule.zones if zone.spacing_in is not None]
    asked = [zone for zone in schedule.zones if zone.required_ultimate_psf is not None]
    return Outcome(
        values={
            "computed_spacing": tuple(map(_spacing_row, supported)) or NOT_ASKED,
            "ultimate_to_ask": tuple(map(_ultimate_row, asked)) or NOT_ASKED,
            "uncovered_records": bool(records) and not covered,
            "uplift_short": _short(inputs, records, schedule),
        },
        steps=steps,
        cautions=tuple(_cautions(schedule)),
    )


def coverages(inputs: Inputs) -> tuple[Coverage, ...]:
    """Whether each test record of a brief, in its order, stands for its roof, and why not.

    Takes the answers of ASSEMBLY and the test records. A record with a figure outside the method
    gives that as its reason; OutsideMethod if a figure of the roof is.
    """
    assembly = _assembly(inputs)
    return tuple(_coverage(row, assembly) for row in inputs.rows("test_records"))


def _coverage(row: Row, assembly: Assembly) -> Coverage:
    try:
        return covers(_record(row), assembly)
    except OutsideMethod as error:
        return Coverage(False, (f"Outside the method: {error}.",))


def _assembly(inputs: Inputs) -> Assembly:
    return Assembly(
        support=inputs.choice("support"),
        metal=inputs.choice("metal"),
        thickness_in=inputs.figure("panel_thickness", "in"),
        width_in=inputs.figure("panel_width", "in"),
        seam=inputs.choice("seam"),
        clip=inputs.choice("clip_kind"),
    )


def _record(row: Row) -> TestRecord:
    """A row of test_records; its columns are in the order of the question."""
    test, support, metal, thickness, width, seam, clip, _, spacing, ultimate, factor, report = row
    return TestRecord(
        test=str(test),
        support=str(support),
        metal=str(metal),
        thickness_in=_figure(thickness, "in"),
        width_in=_figure(width, "in"),
        seam=str(seam),
        clip=str(clip),
        spacing_in=_figure(spacing, "in"),
        ultimate_psf=_figure(ultimate, "psf"),
        design_factor=factor if isinstance(factor, float) else 0.0,
        report=str(report),
    )


def _figure(cell: object, unit: str) -> float:
    if not isinstance(cell, Quantity):
        raise TypeError(f"{cell!r} is no quantity")
    return cell.to(unit)


def _spacing_row(zone: ZoneSpacing) -> Row:
    return (
        zone.zone.name,
        quantity(zone.zone.required_allowable_psf, "pressure", "psf", 1),
        quantity(zone.spacing_in or 0.0, "length", "in", 4),
        quantity(zone.clip_load_lb or 0.0, "force", "lbf", 0),
        round(100 * (zone.utilization or 0.0)) + 0.0,
        ", ".join(dict.fromkeys(record.report for record in zone.records)),
    )


def _ultimate_row(zone: ZoneSpacing) -> Row:
    return (
        zone.zone.name,
        quantity(zone.zone.required_allowable_psf, "pressure", "psf", 1),
        quantity(zone.required_ultimate_psf or 0.0, "pressure", "psf", 1),
    )


def _short(inputs: Inputs, records: list[TestRecord], schedule: AttachmentSchedule) -> Value:
    """Whether a zone's required uplift exceeds what the records carry at its spacing.

    The spacing is that of the schedule in the brief where there is one, zone by zone of the same
    name; else the zone fails only if no tested spacing supports it.
    """
    if not records:
        return NOT_ASKED
    given: dict[str, float] = {}
    for row in inputs.rows("clip_schedule"):
        # Of a zone that is named twice the wider spacing has to hold as well.
        name = str(row[0]).lower()
        given[name] = max(given.get(name, 0.0), _figure(row[1], "in"))
    assembly = _assembly(inputs)
    for zone in schedule.zones:
        spacing = given.get(zone.zone.name.lower())
        if spacing is None:
            if not given and zone.spacing_in is None:
                return True
            continue
        carried = allowable_at_spacing(records, assembly, spacing_in=spacing).allowable_psf
        if carried is None or carried < zone.zone.required_allowable_psf - 0.05:
            return True
    return False


def _cautions(schedule: AttachmentSchedule) -> list[str]:
    said = list(schedule.cautions)
    for record, coverage in schedule.coverages:
        if not coverage.covered:
            said.append(f"{record.report} does not cover this roof: {' '.join(coverage.reasons)}")
    for zone in schedule.zones:
        said += zone.cautions
    return list(dict.fromkeys(said))
