"""Records of one assembly in order of clip spacing: what pressure at what spacing.

Between two tested spacings the allowable pressure is read on a straight line; closer than the
closest it is that record's and no more; wider than the widest nothing is known.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from specgen.calculations.coverage import TestRecord
from specgen.calculations.coverage_words import read_words
from specgen.calculations.record import OutsideMethod, Step, within
from specgen.calculations.uplift_ratings import (
    UL580_MOST_STATIC_PSF,
    fm_allowable_psf,
    fm_rating_named,
    named_tests,
    ul580_class_held,
    ul580_most_psf,
)

_ULTIMATE_TESTS = ("ASTM E1592", "UL 1897", "TAS 125")
# The lowest factor that is met with, by test; a lower one draws a caution.
_USUAL_FACTOR = {"ASTM E1592": 1.65, "UL 1897": 2.0, "TAS 125": 2.0}
# An interpolated spacing is exact arithmetic but for the last digits of a float.
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Credit:
    """What one record is worth at its own spacing.

    ``allowable_psf`` is None where the record gives no pressure to design with (a UL 580 class);
    ``interpolates`` says whether a line may be drawn from it to a record beside it.
    """

    allowable_psf: float | None
    interpolates: bool
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Point:
    """A tested spacing (in) with the allowable pressure credited there (psf), and its record."""

    spacing_in: float
    allowable_psf: float
    record: TestRecord


@dataclass(frozen=True, slots=True)
class Series:
    """The records of one assembly as points, the closest spacing first, pressures never rising."""

    points: tuple[Point, ...]
    interpolates: bool
    cautions: tuple[str, ...]

    def allowable_at(self, spacing_in: float) -> float:
        """The allowable uplift at a spacing, psf. Source: ASTM E1592, interpolation of spans.

        p = p1 + (p2 - p1)(s - s1)/(s2 - s1) between two tested spacings; a rating does not
        interpolate, the next wider record counts. Raises OutsideMethod for a spacing wider than
        the widest tested.
        """
        closer, wider = self._around(spacing_in)
        if closer is wider or not self.interpolates:
            return wider.allowable_psf
        share = (spacing_in - closer.spacing_in) / (wider.spacing_in - closer.spacing_in)
        return closer.allowable_psf + share * (wider.allowable_psf - closer.allowable_psf)

    def widest_for(self, required_psf: float) -> float | None:
        """The widest spacing that carries a pressure, in; None if the closest does not.

        s = s1 + (s2 - s1)(p1 - required)/(p1 - p2). Source: ASTM E1592, interpolation of spans.
        """
        widest = None
        for closer, wider in zip(self.points, (*self.points[1:], None), strict=True):
            if closer.allowable_psf < required_psf * (1 - _SAME):
                break
            widest = closer.spacing_in
            if wider and self.interpolates and wider.allowable_psf < required_psf * (1 - _SAME):
                share = (closer.allowable_psf - required_psf) / (
                    closer.allowable_psf - wider.allowable_psf
                )
                widest += max(0.0, share) * (wider.spacing_in - closer.spacing_in)
        return widest

    def used_at(self, spacing_in: float) -> tuple[TestRecord, ...]:
        """The record or the two records that the pressure at a spacing is read from."""
        closer, wider = self._around(spacing_in)
        if closer is wider or not self.interpolates:
            return (wider.record,)
        return (closer.record, wider.record)

    def step_at(self, spacing_in: float) -> Step:
        """The allowable pressure at a spacing as a line for an engineer to check."""
        value = self.allowable_at(spacing_in)
        used = self.used_at(spacing_in)
        closer, wider = self._around(spacing_in)
        if len(used) == 1:
            where = f"tested at {wider.spacing_in:g} in"
            return Step("p_a", "allowable uplift at the spacing", value, "psf", "p_a of the record",
                        where, _named(used), self._spacing_caution(spacing_in))  # fmt: skip
        worked = (
            f"{closer.allowable_psf:.4g} + ({wider.allowable_psf:.4g} - {closer.allowable_psf:.4g})"
            f" ({spacing_in:g} - {closer.spacing_in:g})/"
            f"({wider.spacing_in:g} - {closer.spacing_in:g})"
        )
        return Step("p_a", "allowable uplift at the spacing", value, "psf",
                    "p1 + (p2 - p1)(s - s1)/(s2 - s1)", worked,
                    f"{_named(used)}; interpolation between tested spacings: ASTM E1592",
                    self._spacing_caution(spacing_in))  # fmt: skip

    def _spacing_caution(self, spacing_in: float) -> str:
        if spacing_in < self.points[0].spacing_in - _SAME:
            return "Closer than the closest tested spacing: no more pressure is credited for it."
        used = self.used_at(spacing_in)
        if len(used) == 1:
            return ""
        cautions = []
        if used[0].report.strip().lower() != used[1].report.strip().lower():
            cautions.append("Confirm that both reports describe one and the same assembly.")
        if named_tests(used[0].test)[0] != "ASTM E1592":
            cautions.append(
                "Interpolation is a rule of ASTM E1592; for this test it is common practice."
            )
        return " ".join(cautions)

    def _around(self, spacing_in: float) -> tuple[Point, Point]:
        widest = self.points[-1]
        within("spacing_in", spacing_in, 0.01, 144, "in")
        if spacing_in > widest.spacing_in + _SAME:
            raise OutsideMethod(
                f"spacing_in is {spacing_in:g} in; the widest spacing tested is"
                f" {widest.spacing_in:g} in, and nothing is known beyond it"
            )
        before = self.points[0]
        for point in self.points:
            if spacing_in <= point.spacing_in + _SAME:
                tested = abs(spacing_in - point.spacing_in) <= _SAME
                return (point, point) if point is self.points[0] or tested else (before, point)
            before = point
        return widest, widest


def credit(record: TestRecord) -> Credit:
    """The allowable pressure of a record at its own spacing: ultimate / factor, psf.

    FM: rating / 2. UL 580 alone: none, with what its class carries at most as a caution.
    Source: ASTM E1592, UL 1897 (an ultimate over a factor); FM 4471 (from memory); UL 580 classes.
    """
    tests = named_tests(record.test)
    governing = tests[0] if tests else ""
    if governing in _ULTIMATE_TESTS:
        return Credit(
            record.ultimate_psf / record.design_factor, True, _ultimate_cautions(record, tests)
        )
    if governing.startswith("FM"):
        return _fm_credit(record)
    if governing == "UL 580":
        return Credit(None, False, (_ul580_caution(record),))
    return Credit(None, False, ())


def credit_step(record: TestRecord) -> Step:
    """What a record is worth at its own spacing as a line to check; OutsideMethod if nothing."""
    found = credit(record)
    if found.allowable_psf is None:
        raise OutsideMethod(f"test is {record.test.strip()}; it gives no pressure to design with")
    label = f"allowable uplift tested at {record.spacing_in:g} in"
    if named_tests(record.test)[0].startswith("FM"):
        factor = max(2.0, record.design_factor)
        rating = found.allowable_psf * factor
        return Step("p", label, found.allowable_psf, "psf", "rating/2", f"{rating:g}/{factor:g}",
                    f"{_named((record,))}; factor 2 from memory",
                    " ".join(found.cautions))  # fmt: skip
    return Step("p", label, found.allowable_psf, "psf", "p_ultimate/factor",
                f"{record.ultimate_psf:g}/{record.design_factor:g}", _named((record,)),
                " ".join(found.cautions))  # fmt: skip


def series_of(records: Iterable[TestRecord]) -> tuple[Series, ...]:
    """The records that give a pressure, sorted into series of one and the same assembly each.

    The same test, support, metal, thickness, width, seam and clip, and reports of one family.
    """
    groups: dict[tuple[object, ...], list[TestRecord]] = {}
    for record in records:
        if credit(record).allowable_psf is not None:
            groups.setdefault(_assembly_key(record), []).append(record)
    return tuple(_series(group) for group in groups.values())


def report_family(report: str) -> str:
    """A report's designation less its last number: of ``L-204-01`` and ``L-204-02`` the same.

    A designation that is a number alone is a family of its own. Source: common practice.
    """
    words = " ".join(report.lower().split())
    stem = re.sub(r"\d+[a-z]?\W*$", "", words)
    return stem if re.search(r"\w", stem) else words


def _assembly_key(record: TestRecord) -> tuple[object, ...]:
    return (
        named_tests(record.test)[0],
        read_words("support", record.support).sameness,
        read_words("metal", record.metal).sameness,
        round(record.thickness_in, 4),
        round(record.width_in, 2),
        read_words("seam", record.seam).sameness,
        read_words("clip", record.clip).sameness,
        report_family(record.report),
    )


def _series(records: list[TestRecord]) -> Series:
    """Points in order; of two tests at one spacing the weaker counts, and no spacing is credited
    with more than a closer one, since more clips do not weaken a panel."""
    points: list[Point] = []
    cautions: list[str] = []
    for record in sorted(records, key=lambda one: (one.spacing_in, credit(one).allowable_psf or 0)):
        allowable = credit(record).allowable_psf or 0.0
        if points and abs(points[-1].spacing_in - record.spacing_in) <= _SAME:
            cautions.append(
                f"Two records at {record.spacing_in:g} in: the weaker, {points[-1].record.report},"
                " is used."
            )
            continue
        if points and allowable > points[-1].allowable_psf:
            cautions.append(
                f"{record.report} carries {allowable:.4g} psf at {record.spacing_in:g} in, more"
                f" than at {points[-1].spacing_in:g} in; it is credited with"
                f" {points[-1].allowable_psf:.4g} psf."
            )
            allowable = points[-1].allowable_psf
        points.append(Point(record.spacing_in, allowable, record))
    return Series(tuple(points), credit(records[0]).interpolates, tuple(cautions))


def _ultimate_cautions(record: TestRecord, tests: tuple[str, ...]) -> tuple[str, ...]:
    cautions = []
    usual = _USUAL_FACTOR[tests[0]]
    if record.design_factor < usual:
        cautions.append(
            f"The factor {record.design_factor:g} is under {usual:g}, the lowest usual for"
            f" {tests[0]}."
        )
    if "UL 580" in tests and record.ultimate_psf in UL580_MOST_STATIC_PSF:
        cautions.append(
            f"{record.ultimate_psf:g} psf is the name of a UL 580 class; confirm that it is the"
            f" ultimate of {tests[0]}."
        )
    return tuple(cautions)


def _fm_credit(record: TestRecord) -> Credit:
    named = fm_rating_named(record.test)
    figure = record.ultimate_psf if named is None else min(named, record.ultimate_psf)
    cautions = []
    if named is not None and named != record.ultimate_psf:
        cautions.append(
            f"The record names 1-{named} and {record.ultimate_psf:g} psf; the lower counts."
        )
    if figure % 15:
        cautions.append(f"Ratings go in steps of 15 psf; {figure:g} counts for the step below.")
    if record.design_factor < 2:
        cautions.append("Half of a rating is usable, whatever factor the record names.")
    if figure < 15:
        return Credit(None, False, tuple(cautions))
    allowable = fm_allowable_psf(rating_psf=figure, design_factor=record.design_factor)
    return Credit(allowable, False, tuple(cautions))


def _ul580_caution(record: TestRecord) -> str:
    held = ul580_class_held(record.ultimate_psf)
    if held is None:
        return f"{record.report}: {record.ultimate_psf:g} psf reaches no class of UL 580."
    most = ul580_most_psf(ul580_class=held, design_factor=record.design_factor)
    return (
        f"{record.report}: UL 580 gives a class and no ultimate, so it sets no spacing; class"
        f" {held} ends at {UL580_MOST_STATIC_PSF[held]:g} psf and with a factor of"
        f" {record.design_factor:g} carries {most:.4g} psf at most. Ask for UL 1897 beside it."
    )


def _named(records: tuple[TestRecord, ...]) -> str:
    return "; ".join(f"{one.test.strip()}, {one.report.strip()}" for one in records)
