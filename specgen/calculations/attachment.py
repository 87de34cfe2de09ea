"""Clip spacing by roof zone: the widest that test records, or a clip's strength, support."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from specgen.calculations.clip_load import (
    ClipLoadSpacing,
    RoofZone,
    clip_load_lb,
    clip_load_step,
    given_steps,
    round_down,
    rounded_step,
    spacing_by_clip_load,
)
from specgen.calculations.coverage import Assembly, Coverage, TestRecord, covers
from specgen.calculations.record import Step, within
from specgen.calculations.uplift_series import Series, credit, credit_step, series_of


@dataclass(frozen=True, slots=True)
class ZoneSpacing:
    """The clips of one roof zone.

    ``spacing_in`` is the widest spacing, rounded down to the module; None where nothing supports
    the zone, and then ``allowable_psf`` (at that spacing, by the records), ``utilization``
    (required / allowable), ``clip_load_lb`` and ``governed_by`` are None, None, None and "".
    ``records`` are those it is read from; ``governed_by`` is "test records" or "clip load";
    ``clip_utilization`` is None unless an allowable clip load was given.
    ``required_ultimate_psf`` is set where nothing supports the zone: the ultimate to ask for, at
    ``asked_spacing_in`` (None: at a spacing still to be chosen).
    """

    zone: RoofZone
    spacing_in: float | None
    allowable_psf: float | None
    utilization: float | None
    records: tuple[TestRecord, ...]
    clip_load_lb: float | None
    clip_utilization: float | None
    governed_by: str
    required_ultimate_psf: float | None
    asked_spacing_in: float | None
    cautions: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class AttachmentSchedule:
    """The zones in the order given, what each record covers, and what is to be confirmed; the
    lines of the calculation stand with each zone."""

    zones: tuple[ZoneSpacing, ...]
    coverages: tuple[tuple[TestRecord, Coverage], ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SpacingPressure:
    """What the covering records carry at a given spacing; ``allowable_psf`` None if nothing."""

    spacing_in: float
    allowable_psf: float | None
    records: tuple[TestRecord, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class UltimateToAsk:
    """The ultimate uplift a record must show for a zone, psf, at ``spacing_in`` (None: open)."""

    zone: RoofZone
    ultimate_psf: float
    spacing_in: float | None
    steps: tuple[Step, ...]


def ultimate_to_ask(
    zone: RoofZone, *, design_factor: float = 2.0, spacing_in: float | None = None
) -> UltimateToAsk:
    """The ultimate uplift to ask a record for, psf: required allowable x factor.

    Raises OutsideMethod for a factor outside 1 to 5 or a spacing outside 1 to 144 in.
    Source: allowable = ultimate / factor; factor 2 is common practice.
    """
    factor = within("design_factor", design_factor, 1, 5, "")
    if spacing_in is not None:
        within("spacing_in", spacing_in, 1, 144, "in")
    required = zone.required_allowable_psf
    where = "at the spacing chosen" if spacing_in is None else f"at {spacing_in:g} in"
    step = Step("p_u", f"ultimate uplift to ask for, {where}", required * factor, "psf",
                "p factor", f"{required:g} x {factor:g}",
                "allowable = ultimate / factor", "A UL 580 class is no answer to it.")  # fmt: skip
    return UltimateToAsk(zone, required * factor, spacing_in, (step,))


def allowable_at_spacing(
    records: Iterable[TestRecord], assembly: Assembly, *, spacing_in: float
) -> SpacingPressure:
    """What the records that cover an assembly carry at a spacing: the most of any one series, psf.

    None where no record covers or the spacing is wider than was tested. Raises OutsideMethod for a
    spacing outside 0.25 to 144 in. Source: ASTM E1592, interpolation between tested spacings.
    """
    within("spacing_in", spacing_in, 0.25, 144, "in")
    covering = [one for one in records if covers(one, assembly).covered]
    reaching = [
        one for one in series_of(covering) if one.points[-1].spacing_in >= spacing_in - 1e-9
    ]
    if not reaching:
        return SpacingPressure(spacing_in, None, (), ())
    best = max(reaching, key=lambda one: one.allowable_at(spacing_in))
    used = best.used_at(spacing_in)
    steps = (*map(credit_step, used), best.step_at(spacing_in))
    return SpacingPressure(spacing_in, best.allowable_at(spacing_in), used, steps)


def clip_spacing(
    zones: Iterable[RoofZone],
    records: Iterable[TestRecord],
    assembly: Assembly,
    *,
    module_in: float = 1.0,
    allowable_clip_load_lb: float | None = None,
    asked_spacing_in: float | None = None,
    asked_factor: float = 2.0,
) -> AttachmentSchedule:
    """The widest clip spacing of each zone that the covering records support.

    Allowable pressure is ultimate / factor, on a straight line between tested spacings of one
    assembly and never beyond them; the spacing is rounded down to ``module_in`` and, with an
    ``allowable_clip_load_lb``, closed up until p w s is within it. Where nothing supports a zone
    the result carries the ultimate to ask for: required x ``asked_factor``.
    Raises OutsideMethod as spacing_by_clip_load and ultimate_to_ask do.
    Source: ASTM E1592 (interpolation); UFC 3-320-03A (clip load); common practice.
    """
    round_down(0, module_in=module_in)
    coverages = tuple((record, covers(record, assembly)) for record in records)
    covering = [record for record, found in coverages if found.covered]
    cautions = [text for record, found in coverages if found.covered for text in found.cautions]
    cautions += [text for record in covering for text in credit(record).cautions]
    found_series = series_of(covering)
    found = []
    for zone in zones:
        ask = ultimate_to_ask(zone, design_factor=asked_factor, spacing_in=asked_spacing_in)
        by_clip = None
        if allowable_clip_load_lb is not None:
            by_clip = spacing_by_clip_load(
                zone,
                width_in=assembly.width_in,
                allowable_clip_load_lb=allowable_clip_load_lb,
                module_in=module_in,
            )
        best = _best(found_series, zone.required_allowable_psf, module_in)
        if best is not None and (by_clip is None or by_clip.spacing_in is not None):
            found.append(_supported(zone, assembly, best, by_clip, module_in))
        else:
            why = _why_not(zone, found_series, best)
            found.append(_unsupported(zone, assembly, ask, why))
    return AttachmentSchedule(tuple(found), coverages, tuple(dict.fromkeys(cautions)))


def _best(series: tuple[Series, ...], required_psf: float, module_in: float) -> Series | None:
    """The series that carries a zone at the widest spacing; of equals the one that carries more."""
    ranked = []
    for one in series:
        widest = one.widest_for(required_psf)
        spacing = round_down(widest, module_in=module_in) if widest is not None else 0.0
        if spacing:
            ranked.append((spacing, one.allowable_at(spacing), one))
    return max(ranked, key=lambda rank: rank[:2])[2] if ranked else None


def _supported(
    zone: RoofZone,
    assembly: Assembly,
    series: Series,
    by_clip: ClipLoadSpacing | None,
    module_in: float,
) -> ZoneSpacing:
    required, width = zone.required_allowable_psf, assembly.width_in
    widest = series.widest_for(required) or 0.0
    spacing, governed_by = round_down(widest, module_in=module_in), "test records"
    if by_clip is not None and by_clip.spacing_in is not None and by_clip.spacing_in < spacing:
        spacing, governed_by = by_clip.spacing_in, "clip load"
    allowable = series.allowable_at(spacing)
    used = series.used_at(spacing)
    load = clip_load_lb(pressure_psf=required, width_in=width, spacing_in=spacing)
    tested = dict.fromkeys((*series.used_at(widest), *used))
    steps = [*given_steps(zone, width), *map(credit_step, tested)]
    steps.append(_widest_step(series, required, widest))
    if governed_by == "test records":
        steps.append(rounded_step(spacing, widest, module_in))
    elif by_clip is not None:
        steps += by_clip.steps[len(given_steps(zone, width)) : -1]
    steps += [
        series.step_at(spacing),
        Step(
            "U", "utilization", required / allowable, "", "p/p_a", f"{required:g}/{allowable:.4g}"
        ),
        clip_load_step(zone, width, spacing),
    ]
    clip_utilization = None
    if by_clip is not None and by_clip.utilization is not None:
        allowed = by_clip.allowable_clip_load_lb
        clip_utilization = load / allowed
        steps.append(
            Step(
                "U_F",
                "utilization of the clip",
                clip_utilization,
                "",
                "F/F_a",
                f"{load:.4g}/{allowed:g}",
            )
        )
    return ZoneSpacing(
        zone=zone,
        spacing_in=spacing,
        allowable_psf=allowable,
        utilization=required / allowable,
        records=used,
        clip_load_lb=load,
        clip_utilization=clip_utilization,
        governed_by=governed_by,
        required_ultimate_psf=None,
        asked_spacing_in=None,
        cautions=(*series.cautions, *_beyond_tested_clip_load(series, spacing, load)),
        steps=tuple(steps),
    )


def _unsupported(zone: RoofZone, assembly: Assembly, ask: UltimateToAsk, why: str) -> ZoneSpacing:
    return ZoneSpacing(
        zone=zone,
        spacing_in=None,
        allowable_psf=None,
        utilization=None,
        records=(),
        clip_load_lb=None,
        clip_utilization=None,
        governed_by="",
        required_ultimate_psf=ask.ultimate_psf,
        asked_spacing_in=ask.spacing_in,
        cautions=(why,),
        steps=(*given_steps(zone, assembly.width_in), *ask.steps),
    )


def _why_not(zone: RoofZone, series: tuple[Series, ...], best: Series | None) -> str:
    if best is not None:
        return (
            f"{zone.name}: the allowable clip load would need clips closer than one module; a"
            " stronger clip or a narrower panel is wanted."
        )
    if series:
        return (
            f"{zone.name}: the covering records do not carry {zone.required_allowable_psf:.4g} psf"
            " at a spacing of one module or more."
        )
    return f"{zone.name}: no record covers the assembly with a pressure to design with."


def _widest_step(series: Series, required_psf: float, widest_in: float) -> Step:
    label = "widest spacing that the records support"
    used = [point for point in series.points if point.record in series.used_at(widest_in)]
    if len(used) == 1:
        return Step("s_r", label, widest_in, "in", "s of the record", f"{widest_in:g}",
                    "test records of the brief")  # fmt: skip
    closer, wider = used
    more, less = closer.allowable_psf, wider.allowable_psf
    worked = (
        f"{closer.spacing_in:g} + ({wider.spacing_in:g} - {closer.spacing_in:g})"
        f" ({more:.4g} - {required_psf:g})/({more:.4g} - {less:.4g})"
    )
    return Step("s_r", label, widest_in, "in", "s1 + (s2 - s1)(p1 - p)/(p1 - p2)", worked,
                "interpolation between tested spacings: ASTM E1592")  # fmt: skip


def _beyond_tested_clip_load(series: Series, spacing_in: float, load_lb: float) -> tuple[str, ...]:
    """A straight line between two records lies above what a clip that lets go first would carry
    (pressure falls as 1/spacing), so a clip there can see more than in either test."""
    shown = max(
        clip_load_lb(
            pressure_psf=point.allowable_psf,
            width_in=point.record.width_in,
            spacing_in=point.spacing_in,
        )
        for point in series.points
        if point.record in series.used_at(spacing_in)
    )
    if load_lb <= shown * (1 + 1e-9):
        return ()
    return (
        f"The clip load of {load_lb:.4g} lb is above the {shown:.4g} lb that the records show at"
        " their own spacings; where the clip or its screws failed in the test, ask for a record"
        " at this spacing.",
    )
