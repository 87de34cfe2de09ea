"""What is computed: each calculation's inputs, results, and when it arises."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module

from specgen.calculations.record import Step
from specgen.computing.inputs import Inputs
from specgen.conditions import Expression
from specgen.questions import Column
from specgen.values import Value


@dataclass(frozen=True, slots=True)
class Provided:
    """A value that a calculation gives, by the name under which clauses read it."""

    id: str
    label: str
    kind: str
    columns: tuple[Column, ...] = ()


@dataclass(frozen=True, slots=True)
class ZoneShape:
    """A roof zone in plan: a polygon in feet from the lower left corner of the building."""

    zone: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a calculation gave: values by name, the lines that led to them, and what to heed.

    ``plan`` are the zones of the roof where it found them, ``series`` rows of (length in ft,
    movement in in) for a chart.
    """

    values: Mapping[str, Value]
    steps: tuple[Step, ...]
    cautions: tuple[str, ...] = ()
    plan: tuple[ZoneShape, ...] = ()
    series: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation.

    ``needs`` must all be decided before it runs, ``takes`` may rightly be unanswered; ``when`` says
    whether it arises; ``settled_by`` names the question to answer otherwise where the method
    refuses its inputs; ``place`` is module:function of what computes it.
    """

    id: str
    title: str
    provides: tuple[Provided, ...]
    needs: tuple[str, ...]
    takes: tuple[str, ...]
    settled_by: str
    place: str
    when: str = ""

    @property
    def inputs(self) -> tuple[str, ...]:
        """The names whose values it takes."""
        return (*self.needs, *self.takes)

    def run(self, inputs: Inputs) -> Outcome:
        """Compute it. OutsideMethod if an input lies outside the limits of the method."""
        module, function = self.place.split(":")
        compute: Callable[[Inputs], Outcome] = getattr(import_module(module), function)
        return compute(inputs)


def _length(name: str, label: str) -> Provided:
    return Provided(name, label, "length")


CALCULATIONS: tuple[Calculation, ...] = (
    Calculation(
        id="wind",
        title="Wind uplift by roof zone",
        provides=(
            Provided(
                "computed_pressures",
                "computed wind pressures by roof zone",
                "table",
                (
                    Column("zone", "Roof zone", "text"),
                    Column("upward", "Uplift, allowable (0.6 W)", "pressure"),
                    Column("downward", "Downward, allowable (0.6 W)", "pressure"),
                    Column("upward_strength", "Uplift, strength", "pressure"),
                    Column("downward_strength", "Downward, strength", "pressure"),
                ),
            ),
            Provided("velocity_pressure", "velocity pressure at mean roof height", "pressure"),
            Provided(
                "zone_limits",
                "limits of the roof zones in plan",
                "table",
                (
                    Column("zone", "Roof zone", "text"),
                    Column("place", "Where", "text"),
                    Column("width", "Width", "length"),
                    Column("length", "Length", "length"),
                ),
            ),
        ),
        needs=(
            "wind_standard",
            "wind_speed",
            "exposure",
            "enclosure",
            "topographic_factor",
            "ground_elevation",
            "roof_shape",
            "lowest_slope",
            "building_length",
            "building_width",
            "mean_roof_height",
        ),
        takes=("kz_floor",),
        settled_by="design_responsibility",
        place="specgen.computing.wind:compute",
        when="design_responsibility == 'computed'",
    ),
    Calculation(
        id="attachment",
        title="Attachment by roof zone",
        provides=(
            Provided(
                "computed_spacing",
                "computed clip spacing by roof zone",
                "table",
                (
                    Column("zone", "Roof zone", "text"),
                    Column("required", "Uplift, allowable", "pressure"),
                    Column("spacing", "Clip spacing, not more than", "length"),
                    Column("load", "Load on a clip", "force"),
                    Column("used", "Used, percent", "number"),
                    Column("report", "Record", "text"),
                ),
            ),
            Provided(
                "ultimate_to_ask",
                "ultimate uplift to ask for by roof zone",
                "table",
                (
                    Column("zone", "Roof zone", "text"),
                    Column("required", "Uplift, allowable", "pressure"),
                    Column("ultimate", "Ultimate in the test, not less than", "pressure"),
                ),
            ),
            Provided("uncovered_records", "no test record covers this roof", "yes-no"),
            Provided("uplift_short", "a zone's uplift exceeds its record", "yes-no"),
        ),
        needs=(
            "design_responsibility",
            "support",
            "metal",
            "panel_thickness",
            "panel_width",
            "seam",
            "clip_kind",
        ),
        takes=(
            "test_records",
            "computed_pressures",
            "zone_pressures",
            "pressure_level",
            "clip_schedule",
            "clip_load_allowed",
            "spacing_module",
        ),
        settled_by="spacing_basis",
        place="specgen.computing.attachment:compute",
        when="design_responsibility != 'delegated'",
    ),
    Calculation(
        id="movement",
        title="Thermal movement",
        provides=(
            _length("panel_movement", "movement at the free end over the whole range"),
            _length("gap_needed", "gap needed at the free end"),
            _length("travel_needed", "clip travel needed each way"),
        ),
        needs=(
            "metal",
            "panel_run",
            "fixed_point",
            "support",
            "panel_temperature_low",
            "panel_temperature_high",
        ),
        takes=(
            "stainless_type",
            "deck_temperature_low",
            "deck_temperature_high",
            "setting_temperature",
            "clip_kind",
        ),
        settled_by="panel_run",
        place="specgen.computing.movement:compute",
    ),
    Calculation(
        id="sheet",
        title="Sheet, coil and panels across the roof",
        provides=(
            _length("strip_width", "width of the strip that a panel is formed from"),
            Provided("panels_across", "panels across a roof plane", "number"),
            _length("end_panel_width", "coverage width of the two end panels"),
            Provided("panel_weight", "weight of the panels", "pressure"),
        ),
        needs=(
            "metal",
            "panel_thickness",
            "panel_width",
            "seam",
            "seam_height",
            "panel_run",
            "building_length",
            "forming",
        ),
        takes=("stainless_type", "seam_take_up", "coil_width", "transport_limit"),
        settled_by="panel_width",
        place="specgen.computing.sheet:compute",
    ),
    Calculation(
        id="slope_loads",
        title="Loads along the slope",
        provides=(
            Provided("fixed_point_load", "load along the slope at the fixed point", "force"),
            Provided("snow_retention_load", "load along the slope on snow retention", "line load"),
            Provided("roof_snow", "roof snow load used", "pressure"),
        ),
        needs=(
            "wind_standard",
            "panel_weight",
            "lowest_slope",
            "panel_run",
            "panel_width",
            "ground_snow",
        ),
        takes=("roof_snow_load",),
        settled_by="roof_snow_load",
        place="specgen.computing.slope_loads:compute",
    ),
    Calculation(
        id="insulation",
        title="Insulation",
        provides=(
            Provided("computed_r", "thermal resistance of the layers", "number"),
            Provided("code_r", "thermal resistance that the energy code asks for", "number"),
            _length("fastener_length", "length of fasteners through board and deck"),
        ),
        needs=(
            "insulation",
            "insulation_thickness",
            "insulation_layers",
            "insulation_r",
            "code",
            "climate_zone",
            "support",
        ),
        takes=("cover_board", "fastener_penetration"),
        settled_by="insulation_r",
        place="specgen.computing.insulation:compute",
        when="rigid_insulation",
    ),
    Calculation(
        id="test_pressures",
        title="Test pressures",
        provides=(
            Provided("head_pressure", "pressure of the standing water", "pressure"),
            Provided("default_water_pressure", "water test pressure from the wind", "pressure"),
        ),
        needs=(),
        takes=(
            "air_pressure",
            "air_rate",
            "water_pressure",
            "static_head",
            "computed_pressures",
            "zone_pressures",
            "pressure_level",
            "building_length",
            "building_width",
        ),
        settled_by="water_pressure",
        place="specgen.computing.tests_of_air_and_water:compute",
        when="air_test or water_test or static_head_test",
    ),
)


def available(
    names: Mapping[str, object], arises: Mapping[str, Expression | None]
) -> dict[str, Calculation]:
    """The calculations, by the names they provide, all of whose inputs a library asks for.

    ``arises`` has the parsed ``when`` of each calculation by its id.
    """
    known = set(names)
    found: dict[str, Calculation] = {}
    for calculation in CALCULATIONS:
        if reads_of(calculation, arises[calculation.id]) <= known:
            for provided in calculation.provides:
                found[provided.id] = calculation
                known.add(provided.id)
    return found


def reads_of(calculation: Calculation, arises: Expression | None) -> frozenset[str]:
    """Every name that a calculation reads, those of its condition among them."""
    names = arises.names if arises is not None else frozenset()
    return names.union(calculation.needs, calculation.takes)
