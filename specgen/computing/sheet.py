"""Strip, coil, layout and weight of the panels, from the answers under panel and roof."""

from __future__ import annotations

from typing import cast

from specgen.calculations.sheet import SeamKind, panels_across, strip_width, strips_from_coil
from specgen.calculations.weight import panel_transport, panel_weight
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.metals import metal_of
from specgen.computing.registry import Outcome


def compute(inputs: Inputs) -> Outcome:
    """Strip width, strips from the coil, panels across the longest eave, weight, transport."""
    coverage = inputs.figure("panel_width", "in")
    length_ft = inputs.figure("panel_run", "ft")
    strip = strip_width(
        coverage_in=coverage,
        seam_kind=cast("SeamKind", inputs.choice("seam")),
        seam_height_in=inputs.figure("seam_height", "in"),
        take_up_in=inputs.optional("seam_take_up", "in"),
    )
    layout = panels_across(
        plane_width_ft=inputs.figure("building_length", "ft"), coverage_in=coverage
    )
    weight = panel_weight(
        metal=metal_of(inputs),
        thickness_in=inputs.figure("panel_thickness", "in"),
        coverage_in=coverage,
        strip_in=strip.strip_in,
        length_ft=length_ft,
        cap_strip_in=strip.cap_strip_in,
    )
    limit_ft = inputs.optional("transport_limit", "ft")
    site_formed = inputs.choice("forming") == "site"
    transport = (
        panel_transport(length_ft=length_ft, site_formed=site_formed)
        if limit_ft is None
        else panel_transport(
            length_ft=length_ft, site_formed=site_formed, ordinary_ft=limit_ft, longest_ft=limit_ft
        )
    )
    steps = [*strip.steps, *layout.steps, *weight.steps, *transport.steps]
    coil = inputs.optional("coil_width", "in")
    if coil is not None:
        steps += strips_from_coil(strip_in=strip.strip_in, coil_width_in=coil).steps
    cautions = [f"{transport.shipping}."] if not transport.in_one_piece else []
    return Outcome(
        values={
            "strip_width": quantity(strip.strip_in, "length", "in", 4),
            "panels_across": float(layout.panels),
            "end_panel_width": quantity(layout.end_panel_in, "length", "in", 3),
            "panel_weight": quantity(weight.roof_psf, "pressure", "psf"),
        },
        steps=tuple(steps),
        cautions=tuple(cautions),
    )
