"""Which figure of chapter 30 a roof falls under, and what GCp it gives there.

The figures meet at 7, 20 and 27 degrees (single slopes at 3 and 10) and jump there, as the standard
does: the lower figure holds up to and at its limit. Within a figure GCp does not depend on the
angle, save hip roofs of 7-22 from 27 to 45 degrees, which run straight from Figure 30.3-2F to 2G.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log10

from specgen.calculations.record import OutsideMethod, Step, within
from specgen.calculations.wind_curves import EDITIONS, FIGURES, WALL_POSITIVE, Curve, Figure

ROOF_SHAPES = ("gable", "hip", "single-slope")
SURFACES = ("roof", "overhang")
AREA_LIMITS_SQFT = (0.1, 10_000.0)
_GRADES = "ABCX"


def one_of(name: str, value: str, choices: tuple[str, ...]) -> str:
    """The value, if it is one of the choices; OutsideMethod naming them if not."""
    if value not in choices:
        raise OutsideMethod(f"{name} is {value!r}; it is one of {', '.join(choices)}")
    return value


@dataclass(frozen=True, slots=True)
class Coefficients:
    """GCp of every zone of a roof at one effective wind area.

    ``figure`` is where they stand, and ``other`` the second figure where two are interpolated, the
    ``fraction`` (0 to 1) of the way by what ``between`` says. ``negative`` pairs a zone with its
    GCp away from the roof, ``positive`` is the one GCp toward it. ``grade`` (A, B, C, X, see
    wind_curves) and ``caution`` (empty at A and B) are of the weakest part.
    """

    figure: Figure
    other: Figure | None
    fraction: float
    between: str
    surface: str
    area_sqft: float
    negative: tuple[tuple[str, float], ...]
    positive: float
    grade: str
    caution: str

    @property
    def source(self) -> str:
        """The figures, as they are cited."""
        if self.other is None:
            return self.figure.source
        return f"{self.figure.source} and {self.other.number}"

    @property
    def steps(self) -> tuple[Step, ...]:
        """GCp of every zone, and the positive one, with the interpolation worked."""
        zones = [step for zone, _ in self.negative for step in self.zone_steps(zone)]
        return (*zones, *self.positive_steps)

    @property
    def positive_steps(self) -> tuple[Step, ...]:
        """The positive GCp, which is one for all zones."""
        other = self.other.positive if self.other else None
        label = "external coefficient, down"
        return self._read("GCp,down", label, self.positive, self.figure.positive, other)

    def zone_steps(self, zone: str) -> tuple[Step, ...]:
        """The negative GCp of one zone, with the wall's where an overhang adds it."""
        value = dict(self.negative)[zone]
        symbol, label = f"GCp,{zone}", f"external coefficient, zone {zone}, up"
        other = dict(self.other.zones)[zone] if self.other else None
        if self.surface == "roof":
            return self._read(symbol, label, value, dict(self.figure.zones)[zone], other)
        if self.figure.overhang is not None:
            label = f"external coefficient, overhang in zone {zone}, up"
            return self._read(symbol, label, value, dict(self.figure.overhang)[zone], None)
        wall = WALL_POSITIVE.at(self.area_sqft)
        roof = self._read(
            f"GCp,{zone},roof",
            f"external coefficient, zone {zone}, roof alone, up",
            value + wall,
            dict(self.figure.zones)[zone],
            other,
        )
        below = Step(
            "GCp,wall",
            "external coefficient of the wall below, toward it",
            wall,
            "",
            _formula(WALL_POSITIVE, self.area_sqft),
            _worked(WALL_POSITIVE, self.area_sqft),
            f"ASCE {self.figure.edition} Figure 30.3-1, from memory",
        )
        both = Step(
            symbol,
            f"external coefficient, overhang in zone {zone}, up",
            value,
            "",
            f"GCp,{zone},roof - GCp,wall",
            f"{value + wall:.5g} - {wall:.5g}",
            f"{self.source}, overhangs of roofs above 7 degrees",
        )
        return (*roof, below, both)

    def _read(
        self, symbol: str, label: str, value: float, first: Curve, second: Curve | None
    ) -> tuple[Step, ...]:
        """A coefficient off one curve, or off two and the way between them."""
        if second is None or self.other is None:
            return (self._off_curve(symbol, label, value, first, self.figure),)
        one, two = first.at(self.area_sqft), second.at(self.area_sqft)
        low = self._off_curve(f"{symbol},i", label, one, first, self.figure)
        high = self._off_curve(f"{symbol},ii", label, two, second, self.other)
        formula = f"{symbol},i + ({symbol},ii - {symbol},i) x {self.between}"
        worked = f"{one:.5g} + ({two:.5g} - ({one:.5g})) x {self.fraction:.5g}"
        both = Step(symbol, label, value, "", formula, worked, self.source)
        return low, high, both

    def _off_curve(self, symbol: str, label: str, value: float, own: Curve, figure: Figure) -> Step:
        source = f"{figure.source}, by way of secondary sources ({figure.basis})"
        formula, worked = _formula(own, self.area_sqft), _worked(own, self.area_sqft)
        caution = self.caution if figure.grade in "CX" else ""
        return Step(symbol, label, value, "", formula, worked, source, caution)


def roof_coefficients(
    *,
    edition: str,
    roof_shape: str,
    roof_angle_deg: float,
    effective_area_sqft: float,
    height_to_width: float | None = None,
    surface: str = "roof",
) -> Coefficients:
    """GCp of every zone of a roof or of its overhang.

    GCp = GCp1 + (GCp2 - GCp1) log10(A/A1) / log10(A2/A1) between the break points (A1, GCp1) and
    (A2, GCp2) of the zone's curve, A the effective wind area in sq ft. ``height_to_width`` is
    mean roof height over the least horizontal dimension, h/B, which ASCE 7-16 asks for hip roofs
    of 7 to 20 degrees alone (Figures 30.3-2E and 2F, straight between 0.5 and 0.8).

    Raises OutsideMethod for a roof no figure is held for, an area beyond 0.1 to 10,000 sq ft, and
    an overhang whose coefficients are not held or not certain. Source: ASCE 7-10 Figures 30.4-2A
    to 2C; ASCE 7-16 and 7-22 Figures 30.3-2A to 2G, 30.3-5A and 5B; see wind_curves for the grade.
    """
    area = within("effective wind area", effective_area_sqft, *AREA_LIMITS_SQFT, "sq ft")
    one_of("surface", surface, SURFACES)
    figure = roof_figure(edition, roof_shape, roof_angle_deg)
    other, fraction, between = _second_figure(figure, roof_angle_deg, height_to_width)
    log_area = log10(area)
    curves, grade, reason = figure.zones, figure.grade, figure.note
    if surface == "overhang":
        curves, grade = _overhang(figure)
    negative = tuple((zone, own.at_log(log_area)) for zone, own in curves)
    positive = figure.positive.at_log(log_area)
    if other is not None:
        grade, reason = max(grade, other.grade, key=_GRADES.index), reason or other.note
        negative = tuple(
            (zone, gcp + fraction * (far.at_log(log_area) - gcp))
            for (zone, gcp), (_, far) in zip(negative, other.zones, strict=True)
        )
        positive += fraction * (other.positive.at_log(log_area) - positive)
    if surface == "overhang" and figure.overhang is None:
        wall = WALL_POSITIVE.at_log(log_area)
        negative = tuple((zone, gcp - wall) for zone, gcp in negative)
    caution = ""
    if grade in "CX":
        caution = reason or (
            f"{figure.source} is held from one secondary reading; check it against the print"
        )
    return Coefficients(
        figure, other, fraction, between, surface, area, negative, positive, grade, caution
    )


def roof_figure(edition: str, roof_shape: str, roof_angle_deg: float) -> Figure:
    """The figure a roof falls under (the first of two, where two are interpolated).

    Raises OutsideMethod, naming the limit, for a roof that none held here covers.
    """
    one_of("wind standard edition", edition, EDITIONS)
    one_of("roof shape", roof_shape, ROOF_SHAPES)
    # A slope typed as degrees and kept as a rise comes back with noise in its last digits, which
    # must not push a roof of 27 degrees over the limit.
    angle = round(within("roof angle", roof_angle_deg, 0.0, 45.0, "degrees"), 6)
    if roof_shape == "single-slope":
        if edition == "7-10":
            raise OutsideMethod(
                "roof shape is single-slope; of ASCE 7-10 gable and hip roofs alone are held"
            )
        within("roof angle of a single slope", angle, 0.0, 30.0, "degrees")
        roof = _band(angle, ((3.0, "low slope"), (10.0, "single slope 3-10")), "single slope 10-30")
    elif angle <= 7.0:
        roof = "low slope"
    elif edition == "7-10":
        if roof_shape == "hip":
            within("roof angle of a hip roof under ASCE 7-10", angle, 0.0, 27.0, "degrees")
        roof = _band(angle, ((27.0, "gable 7-27"),), "gable 27-45")
    elif roof_shape == "gable":
        roof = _band(angle, ((20.0, "gable 7-20"), (27.0, "gable 20-27")), "gable 27-45")
    elif edition == "7-16":
        if angle > 27.0:
            raise OutsideMethod(
                f"roof angle of a hip roof under ASCE 7-16 is {angle:g} degrees; the limits are 0 "
                "to 27: Figures 30.3-2H and 2I are not held here, for want of a sound reading"
            )
        roof = _band(angle, ((20.0, "hip 7-20 low"),), "hip 20-27")
    else:
        # From 27 to 45 degrees the first figure is that of 20 to 27.
        roof = _band(angle, ((20.0, "hip 7-20"),), "hip 20-27")
    return FIGURES[edition, roof]


def _band(angle: float, bands: tuple[tuple[float, str], ...], steepest: str) -> str:
    return next((roof for limit, roof in bands if angle <= limit), steepest)


def _second_figure(
    figure: Figure, angle: float, height_to_width: float | None
) -> tuple[Figure | None, float, str]:
    """The figure to interpolate toward, how far, and by what."""
    if figure.edition == "7-22" and figure.roof == "hip 20-27" and round(angle, 6) > 27.0:
        return FIGURES["7-22", "hip 45"], (angle - 27.0) / 18.0, f"({angle:.5g} - 27) / 18"
    if figure.roof == "hip 7-20 low":
        if height_to_width is None:
            raise OutsideMethod(
                "height_to_width (mean roof height over least horizontal dimension) is missing; "
                "ASCE 7-16 asks for it for hip roofs of 7 to 20 degrees"
            )
        ratio = within("mean roof height over least dimension", height_to_width, 0.0, 10.0, "")
        fraction = min(max((ratio - 0.5) / 0.3, 0.0), 1.0)
        by = f"({ratio:.5g} - 0.5) / 0.3, from 0 to 1 (h/B = {ratio:.5g})"
        return FIGURES["7-16", "hip 7-20 high"], fraction, by
    return None, 0.0, ""


def _overhang(figure: Figure) -> tuple[tuple[tuple[str, Curve], ...], str]:
    """The curves an overhang starts from, and their grade; OutsideMethod where none is certain."""
    if figure.overhang is not None:
        return figure.overhang, figure.overhang_grade
    if figure.overhang_refused:
        raise OutsideMethod(
            f"surface is overhang; the overhang coefficients of {figure.source} are not used: "
            f"{figure.overhang_refused}"
        )
    if figure.edition != "7-22" or figure.roof.startswith("single"):
        raise OutsideMethod(
            f"surface is overhang; no overhang coefficients are held for {figure.source}"
        )
    return figure.zones, max(figure.grade, "B", key=_GRADES.index)


def _formula(own: Curve, area: float) -> str:
    if own.segment(area) is None:
        return "GCp, where its curve is flat"
    return "GCp1 + (GCp2 - GCp1) log10(A/A1) / log10(A2/A1)"


def _worked(own: Curve, area: float) -> str:
    segment = own.segment(area)
    if segment is None:
        return f"{own.at(area):.5g}"
    (a1, g1), (a2, g2) = segment
    return f"{g1:g} + ({g2:g} - ({g1:g})) x log10({area:.5g}/{a1:g}) / log10({a2:g}/{a1:g})"
