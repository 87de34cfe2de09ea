"""The calculation record as a page: whole, escaped, drawn to scale, and needing nothing else."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from lxml import etree, html

from specgen.library import Library
from specgen.scope import Scope
from specgen.writers.calculations_html import write_calculations_html
from specgen.writers.calculations_svg import spread
from specgen.writers.calculations_typeset import breakable, formula_html
from tests.writers.test_calculations_shown import BRIEF, STEPS, record_of

SEAMS = ("snap-lock", "single-lock", "double-lock", "batten")


def _page(library: Library, folder: Path, brief: str = BRIEF) -> str:
    return write_calculations_html(record_of(library, folder, brief))


def _words(page: str) -> str:
    return " ".join(_tree(page).text_content().split())


def _tree(page: str) -> Any:
    return html.fromstring(page)


def _drawings(page: str) -> list[Any]:
    """The outermost drawings; one that is no XML raises."""
    depth, start = 0, 0
    found: list[Any] = []
    for match in re.finditer(r"<svg\b|</svg>", page):
        if match[0] == "<svg":
            start = match.start() if depth == 0 else start
            depth += 1
        else:
            depth -= 1
            if depth == 0:
                found.append(etree.fromstring(page[start : match.end()]))
    return found


def _area(points: str) -> float:
    pairs = [[float(part) for part in pair.split(",")] for pair in points.split()]
    turned = [*pairs[1:], pairs[0]]
    return abs(sum(a * d - c * b for (a, b), (c, d) in zip(pairs, turned, strict=True))) / 2


def test_the_page_needs_nothing_beside_it(library: Library, tmp_path: Path) -> None:
    page = _page(library, tmp_path)
    assert "http" not in page
    assert "<script" not in page.lower()
    assert not re.search(r"\b(src|href)=|@import|url\((?!#)", page)


def test_answers_are_escaped_wherever_they_stand(library: Library, tmp_path: Path) -> None:
    brief = BRIEF.replace("Upfield", "</title><script>alert(1)</script>").replace(
        "clip_kind: two-piece",
        'clip_kind: two-piece\ntest_records: [{test: "<i>x</i>", support: "<svg onload=y>",'
        " metal: m, thickness: 24 ga, width: 16 in, seam: s, clip: c, fastener: f, spacing: 12 in,"
        ' ultimate: 90 psf, factor: "2", report: r}]',
    )
    page = _page(library, tmp_path, brief)
    for markup in ("<b>", "<i>", "<script", "<svg onload", "Report <1>", "<in>", "<of>"):
        assert markup not in page
    words = _words(page)
    for text in ("Mill & <b>Weir</b>", "<script>alert(1)</script>", "<i>x</i>", "Report <1>"):
        assert text in words


def test_every_step_of_every_outcome_is_there(library: Library, tmp_path: Path) -> None:
    scope = record_of(library, tmp_path)
    tree = _tree(write_calculations_html(scope))
    lines = [
        "".join(row.find_class("line")[0].itertext())
        for row in tree.xpath("//table[@class='lines']/tbody/tr")
    ]
    computed = [result.outcome for result in scope.results() if result.outcome]
    assert len(lines) == sum(len(outcome.steps) for outcome in computed)
    assert lines[: len(STEPS)] == ["1.1", "1.2", "1.3"]
    words = " ".join(tree.text_content().split())
    for step in STEPS:
        assert step.label[1:] in words
        assert step.source in words
        assert step.caution in words
    assert "= 0.00256 × 0.92" not in words  # the sign is the style sheet's
    assert "0.00256 × 0.92 × 1 × 0.85 × 0.975 × 1102" in words
    assert "6.7 × 10−6" in words


def test_a_caution_said_twice_refers_to_the_line_that_said_it(
    library: Library, tmp_path: Path
) -> None:
    record = record_of(library, tmp_path)
    result = record._results["wind"]
    assert result.outcome is not None
    object.__setattr__(result.outcome, "steps", (STEPS[1], STEPS[1]))
    words = _words(write_calculations_html(record))
    assert "As at line 1.1." in words


def test_what_is_open_or_refused_is_shown(library: Library, tmp_path: Path) -> None:
    words = _words(_page(library, tmp_path))
    assert "Not computed. Panel width is 90 in; the limits are 6 to 36 <in>." in words
    assert library.questions["panel_width"].ask in words
    assert library.questions["ground_snow"].ask in words
    assert "What is open" in words


def test_inputs_are_listed_with_their_answers(library: Library, tmp_path: Path) -> None:
    tree = _tree(_page(library, tmp_path))
    rows = {
        cells[2]: cells[1]
        for row in tree.xpath("//section[@id='inputs']/table/tbody/tr")
        if len(cells := [cell.text_content() for cell in row]) == 4
    }
    assert rows["panel_width"] == "16 in"
    assert rows["seam_height"] == "2 in"
    assert rows["ground_snow"] == "open"
    assert "zone_pressures" not in rows  # it does not arise where pressures are computed


@pytest.mark.parametrize("seam", SEAMS)
@pytest.mark.parametrize("system", ["inch-pound", "si", "both"])
def test_every_drawing_is_sound_xml(
    library: Library, tmp_path: Path, seam: str, system: str
) -> None:
    brief = BRIEF.replace("seam: double-lock", f"seam: {seam}")
    page = _page(library, tmp_path, brief.replace("shown: inch-pound", f"shown: {system}"))
    drawings = _drawings(page)
    assert len([d for d in drawings if d.get("class") != "swatch"]) == 4
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)


def test_the_zones_of_the_plan_are_drawn_to_scale(library: Library, tmp_path: Path) -> None:
    plan = next(d for d in _drawings(_page(library, tmp_path)) if d.xpath(".//g[@class='zone']"))
    zones = plan.xpath(".//g[@class='zone']")
    scale = float(zones[0].get("data-scale"))
    drawn = {
        zone.get("data-zone"): sum(_area(polygon.get("points")) for polygon in zone)
        for zone in zones
    }
    for zone, feet in {"Zone 1": 92 * 32, "Zone 2": 992, "Zone 3": 64}.items():
        assert drawn[zone] / scale**2 == pytest.approx(feet, rel=0.01)
    texts = ["".join(text.itertext()) for text in plan.iter("text")]
    assert "100 ft" in texts
    assert "40 ft" in texts
    assert "ridge" in texts


def test_layers_are_drawn_to_scale_and_carry_their_questions(
    library: Library, tmp_path: Path
) -> None:
    section = next(
        d for d in _drawings(_page(library, tmp_path)) if d.xpath(".//g[@data-layer='support']")
    )
    heights = {
        layer.get("data-layer"): float(layer.find("rect").get("height"))
        for layer in section.xpath(".//g[@class='layer']")
        if layer.find("rect") is not None
    }
    assert heights["insulation-1"] == pytest.approx(heights["insulation-2"])
    assert heights["insulation-1"] / heights["cover-board"] == pytest.approx(2.5 / 0.5, rel=0.01)
    assert heights["vapor-retarder"] >= 3
    layer = section.xpath(".//g[@data-layer='insulation-1']")[0]
    assert layer.get("data-questions").split() == [
        "insulation",
        "insulation_thickness",
        "insulation_layers",
    ]
    words = ["".join(text.itertext()) for text in section.iter("text")]
    assert "not to scale" in words
    assert "thickness not in the brief; not to scale" in words


def test_a_brief_without_answers_makes_a_page_too(library: Library, small: Library) -> None:
    for each in (library, small):
        page = write_calculations_html(Scope(each, {}))
        assert len(_drawings(page)) == 2


def test_the_same_brief_makes_the_same_page(library: Library, tmp_path: Path) -> None:
    assert _page(library, tmp_path) == _page(library, tmp_path)


@pytest.mark.parametrize(
    ("typed", "typeset"),
    [
        ("F_s = (D + S cos(theta)) sin(theta) L", "F<sub>s</sub> = (D + S cos(θ)) sin(θ) L"),
        ("2.01 (z/zg)^(2/α)", "2.01 (z/z<sub>g</sub>)<sup>2/α</sup>"),
        ("-qh (GCp,3 - GCpi)", "−q<sub>h</sub> (GC<sub>p,3</sub> − GC<sub>pi</sub>)"),
        ("sqrt(p / 0.00256)", "√(p / 0.00256)"),
        ("6.7e-06 x 12", "6.7 × 10<sup>−6</sup> × 12"),
        ("<b>", "&lt;b&gt;"),
        ("R1 + R2", "R<sub>1</sub> + R<sub>2</sub>"),
    ],
)
def test_formulas_are_typeset(typed: str, typeset: str) -> None:
    assert formula_html(typed) == typeset


def test_labels_are_spread_no_closer_than_their_room() -> None:
    places = spread([10, 11, 12, 90], [20, 20, 20, 20], 0, 100)
    assert all(b - a >= 20 for a, b in pairwise(places))
    assert places[0] >= 10
    assert places[-1] <= 90


def test_a_long_word_may_break_and_stays_escaped() -> None:
    assert breakable("<" + "a" * 30) == "&lt;" + "a" * 11 + "<wbr>" + "a" * 12 + "<wbr>" + "a" * 7
    assert breakable("metallic-coated") == "metallic-coated"
