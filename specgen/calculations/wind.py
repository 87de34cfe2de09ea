"""Design wind pressures on a roof by zone: components and cladding, ASCE 7 chapter 30 to 60 ft.

The envelope method of section 30.3: p = qh ((GCp) - (GCpi)), with Kd before the bracket in 7-22.
Everything an engineer needs to check a figure is in the steps, which are built when asked for.
"""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.record import OutsideMethod, Step
from specgen.calculations.wind_area import OWN_AREA
from specgen.calculations.wind_coefficients import Coefficients, one_of, roof_coefficients
from specgen.calculations.wind_velocity import VelocityPressure, velocity_pressure
from specgen.calculations.wind_zones import EdgeWidth, edge_width

# ASCE 7-16 and 7-22 Table 26.13-1, ASCE 7-10 Table 26.11-1 (which has no partially open).
INTERNAL = {"enclosed": 0.18, "partially-open": 0.18, "partially-enclosed": 0.55}
ENCLOSURES = (*INTERNAL, "open")
# ASCE 7 section 30.2.2: the least net pressure, either way, at strength level.
LEAST_STRENGTH_PSF = 16.0
# ASCE 7 section 2.4.1: 0.6 W in the combinations of allowable stress design.
ALLOWABLE_FACTOR = 0.6

CHECK_PRINT = (
    "The coefficients were read by way of secondary sources; a licensed design professional checks "
    "them against the printed figures before they are relied on."
)
NO_PARAPET = (
    "Low slope: no parapet is counted; the standard changes zones 2 and 3 behind one of 3 ft or "
    "more."
)
TORNADO = "Tornado loads of ASCE 7-22 chapter 32 (risk categories III and IV) are not covered."
OVERHANG = (
    "Overhang: the upward coefficient counts both faces, and the internal pressure is added as the "
    "equation has it, which is on the safe side; the downward one is the roof's."
)


@dataclass(frozen=True, slots=True)
class ZonePressure:
    """The design pressures of one zone, all positive, in psf.

    ``gcp_up`` (negative: away from the roof) and ``gcp_down`` are the external coefficients.
    ``net_up_psf`` and ``net_down_psf`` are at strength level before the minimum; strength and
    allowable (0.6 W) are what to design for.
    ``grade`` and ``caution`` say how well the coefficients are known (wind_curves).
    """

    zone: str
    gcp_up: float
    gcp_down: float
    net_up_psf: float
    net_down_psf: float
    strength_up_psf: float
    strength_down_psf: float
    allowable_up_psf: float
    allowable_down_psf: float
    grade: str
    caution: str


@dataclass(frozen=True, slots=True)
class WindResult:
    """Pressures of every zone of one roof at one effective wind area, and what they rest on.

    ``velocity`` holds qh; ``design_q_psf`` is qh with Kd in either edition; ``gcpi`` is taken with
    both signs; ``edge`` holds the edge width a. ``zones`` stand in the order of their names.
    """

    velocity: VelocityPressure
    coefficients: Coefficients
    edge: EdgeWidth
    enclosure: str
    gcpi: float
    design_q_psf: float
    zones: tuple[ZonePressure, ...]

    def zone(self, name: str) -> ZonePressure:
        """One zone by name; OutsideMethod naming those there are."""
        one_of("zone", name, tuple(zone.zone for zone in self.zones))
        return next(zone for zone in self.zones if zone.zone == name)

    @property
    def worst(self) -> ZonePressure:
        """The zone with the greatest uplift."""
        return max(self.zones, key=lambda zone: zone.net_up_psf)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What a careful engineer says beside all of it; the zones' own cautions come last."""
        said = [CHECK_PRINT, OWN_AREA]
        if self.coefficients.figure.roof == "low slope":
            said.append(NO_PARAPET)
        if self.coefficients.surface == "overhang":
            said.append(OVERHANG)
        if self.velocity.edition == "7-22":
            said.append(TORNADO)
        own = dict.fromkeys(zone.caution for zone in self.zones if zone.caution)
        return (*said, *own)

    @property
    def steps(self) -> tuple[Step, ...]:
        """The lines common to all zones, then those of the zone with the greatest uplift."""
        return (*self.common_steps, *self.zone_steps(self.worst.zone))

    @property
    def common_steps(self) -> tuple[Step, ...]:
        """From wind speed to velocity pressure, internal coefficient and effective wind area."""
        edition = self.velocity.edition
        table = "26.11-1" if edition == "7-10" else "26.13-1"
        return (
            *self.velocity.steps,
            Step(
                "GCpi",
                f"internal coefficient, {self.enclosure}, either sign",
                self.gcpi,
                "",
                source=f"ASCE {edition} Table {table}",
            ),
            Step(
                "A",
                "effective wind area",
                self.coefficients.area_sqft,
                "sq ft",
                source="ASCE 7 section 26.2",
                caution=OWN_AREA,
            ),
        )

    def zone_steps(self, name: str) -> tuple[Step, ...]:
        """Every line of one zone, from coefficients to allowable pressures."""
        zone = self.zone(name)
        return (
            *self.coefficients.zone_steps(name),
            *self.coefficients.positive_steps,
            *self._way("up", f"GCp,{name}", zone.gcp_up, zone),
            *self._way("down", "GCp,down", zone.gcp_down, zone),
        )

    def _way(self, way: str, symbol: str, gcp: float, zone: ZonePressure) -> tuple[Step, ...]:
        """Net, strength and allowable pressure, upward or downward."""
        up = way == "up"
        net = zone.net_up_psf if up else zone.net_down_psf
        strength = zone.strength_up_psf if up else zone.strength_down_psf
        allowable = zone.allowable_up_psf if up else zone.allowable_down_psf
        edition = self.velocity.edition
        q, figures = "qh", f"{self.velocity.qh_psf:.5g}"
        if self.velocity.kd_in_pressure != 1.0:
            q, figures = "qh Kd", f"{figures} x {self.velocity.kd_in_pressure:g}"
        # Upward the outside suction and the inside pressure add up; downward the reverse.
        formula = f"-{q} ({symbol} - GCpi)" if up else f"{q} ({symbol} + GCpi)"
        inside = f"({gcp:.5g} - {self.gcpi:g})" if up else f"({gcp:.5g} + {self.gcpi:g})"
        equation = "30.4-1" if edition == "7-10" else "30.3-1"
        least = "the minimum governs" if strength > net else ""
        return (
            Step(
                f"p,{way}", f"net pressure, zone {zone.zone}, {way}, strength level", net, "psf",
                formula, f"{'-' if up else ''}{figures} x {inside}",
                f"ASCE {edition} Equation {equation}",
            ),
            Step(
                f"pu,{way}", f"design pressure, zone {zone.zone}, {way}, strength level", strength,
                "psf", f"max(p,{way}, {LEAST_STRENGTH_PSF:g})",
                f"max({net:.5g}, {LEAST_STRENGTH_PSF:g})", f"ASCE {edition} section 30.2.2", least,
            ),
            Step(
                f"pa,{way}", f"design pressure, zone {zone.zone}, {way}, allowable (0.6 W)",
                allowable, "psf", f"{ALLOWABLE_FACTOR} pu,{way}",
                f"{ALLOWABLE_FACTOR} x {strength:.5g}", "ASCE 7 section 2.4.1",
            ),
        )  # fmt: skip


def internal_coefficient(edition: str, enclosure: str) -> float:
    """GCpi, to be taken with both signs; OutsideMethod for open buildings.

    Source: ASCE 7-16 and 7-22 Table 26.13-1; ASCE 7-10 Table 26.11-1.
    """
    one_of("enclosure", enclosure, ENCLOSURES)
    if enclosure == "open":
        raise OutsideMethod(
            "enclosure is open; chapter 30 gives the roofs of open buildings net coefficients of "
            "their own, and the method of GCp and GCpi does not hold for them: it takes enclosed, "
            "partially open and partially enclosed buildings"
        )
    if enclosure == "partially-open" and edition == "7-10":
        raise OutsideMethod(
            "enclosure is partially-open; ASCE 7-10 knows enclosed and partially enclosed alone"
        )
    return INTERNAL[enclosure]


def zone_pressures(
    *,
    edition: str,
    speed_mph: float,
    exposure: str,
    enclosure: str,
    roof_shape: str,
    roof_angle_deg: float,
    mean_roof_height_ft: float,
    building_length_ft: float,
    building_width_ft: float,
    effective_area_sqft: float,
    ground_elevation_ft: float = 0.0,
    topographic_factor: float = 1.0,
    kz_from: str = "equation",
    exposure_b_floor: bool = False,
    surface: str = "roof",
) -> WindResult:
    """Upward and downward design pressures of every zone of a roof, or of its overhang.

    p = qh ((GCp) - (GCpi)) (7-10, 7-16) or qh Kd ((GCp) - (GCpi)) (7-22), the worse sign of GCpi
    each way, not less than 16 psf at strength level; allowable = 0.6 p. Editions "7-10", "7-16",
    "7-22"; exposures "b", "c", "d"; enclosures "enclosed", "partially-open", "partially-enclosed";
    shapes "gable", "hip", "single-slope"; surfaces "roof", "overhang".

    Raises OutsideMethod, naming the input and its limits: speed 85 to 220 mph, height 5 to 60 ft
    (below 15 ft with Kz at 15 ft), plan 6 to 2000 ft, angle 0 to 45 degrees (single slope 30; hip
    under 7-16 and 7-10 27), Kzt 1 to 3, elevation 0 to 12,000 ft, area 0.1 to 10,000 sq ft; open
    buildings; overhangs without a certain coefficient. Source: ASCE 7-16 and 7-22 sections 30.2.2
    and 30.3, ASCE 7-10 section 30.4; overhangs by the same equation (from memory).
    """
    gcpi = internal_coefficient(edition, enclosure)
    velocity = velocity_pressure(
        edition=edition,
        speed_mph=speed_mph,
        exposure=exposure,
        mean_roof_height_ft=mean_roof_height_ft,
        topographic_factor=topographic_factor,
        ground_elevation_ft=ground_elevation_ft,
        kz_from=kz_from,
        exposure_b_floor=exposure_b_floor,
    )
    edge = edge_width(
        building_length_ft=building_length_ft,
        building_width_ft=building_width_ft,
        mean_roof_height_ft=mean_roof_height_ft,
        roof_angle_deg=roof_angle_deg,
    )
    coefficients = roof_coefficients(
        edition=edition,
        roof_shape=roof_shape,
        roof_angle_deg=roof_angle_deg,
        effective_area_sqft=effective_area_sqft,
        height_to_width=edge.height_ft / edge.least_ft,
        surface=surface,
    )
    q = velocity.qh_psf * velocity.kd_in_pressure
    down, grade, caution = coefficients.positive, coefficients.grade, coefficients.caution
    net_down = q * (down + gcpi)
    strength_down = max(net_down, LEAST_STRENGTH_PSF)
    zones = []
    for name, gcp in coefficients.negative:
        net_up = q * (gcpi - gcp)
        strength_up = max(net_up, LEAST_STRENGTH_PSF)
        zones.append(
            ZonePressure(
                name,
                gcp,
                down,
                net_up,
                net_down,
                strength_up,
                strength_down,
                ALLOWABLE_FACTOR * strength_up,
                ALLOWABLE_FACTOR * strength_down,
                grade,
                caution,
            )
        )
    return WindResult(velocity, coefficients, edge, enclosure, gcpi, q, tuple(zones))
