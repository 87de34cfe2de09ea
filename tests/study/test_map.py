"""The map: every relation of the library, drawn so that it can be searched."""

from __future__ import annotations

import itertools
import json
import re

import pytest

from specgen.dependence import dependence_of, names_in
from specgen.library import Library
from specgen.study.layout import SIZE, lanes_of, ring_of
from specgen.study.naming import Target, relation_named
from specgen.study.relations import Relations, relations_of
from specgen.writers.map_html import write_map_html
from specgen.writers.map_text import map_json, write_map


@pytest.fixture(scope="module")
def relations(library: Library) -> Relations:
    return relations_of(library)


def test_everything_of_the_library_is_on_it_once(library: Library, relations: Relations) -> None:
    wanted = {f"question:{name}" for name in library.questions}
    wanted |= {f"clause:{name}" for name in library.clauses}
    wanted |= {f"check:{name}" for name in library.checks}
    wanted |= {f"standard:{name}" for name in library.standards}
    wanted |= {f"calculation:{each.id}" for each in library.calculations.values()}
    assert {node.key for node in relations.nodes} == wanted
    assert len(relations.nodes) == len(wanted)


def test_a_question_is_joined_with_every_clause_and_check_that_reads_it(
    library: Library, relations: Relations
) -> None:
    facts = library.facts
    for question in library.questions:
        told = {edge.target for edge in relations.out_of.get(f"question:{question}", ())}
        for clause in library.clauses.values():
            read = set(names_in(clause))
            for name in list(read & facts.keys()):
                read |= facts[name].condition.names
            if question in read:
                assert f"clause:{clause.id}" in told
        reach = dependence_of(library).reach(question)
        for check in reach.checks if question != "units_shown" else ():
            if question in library.checks[check].when.names:
                assert f"check:{check}" in told


def test_every_citation_and_companion_is_an_edge(library: Library, relations: Relations) -> None:
    edges = {(edge.source, edge.target, edge.kind) for edge in relations.edges}
    assert len(edges) == len(relations.edges)
    for clause in library.clauses.values():
        for cited in clause.cites:
            assert (f"clause:{clause.id}", f"standard:{cited}", "cites") in edges
        for needed in clause.needs:
            assert (f"clause:{clause.id}", f"clause:{needed}", "needs") in edges


def test_no_two_dots_of_the_ring_touch_and_no_two_labels_overlap(relations: Relations) -> None:
    ring = ring_of(relations)
    angles = sorted(spot.angle % 360 for spot in ring.spots.values())
    assert len(angles) == len(relations.nodes)
    assert min(b - a for a, b in itertools.pairwise(angles)) > 0.1
    middles = sorted(arc.middle % 360 for arc in ring.arcs)
    # A label is 9.5 px high and stands 354 px from the center: 1.5 degrees.
    assert min(b - a for a, b in itertools.pairwise(middles)) > 1.5
    assert all(0 < spot.x < SIZE and 0 < spot.y < SIZE for spot in ring.spots.values())


def test_a_neighborhood_holds_what_is_joined_and_every_row_has_its_place(
    library: Library, relations: Relations
) -> None:
    for name in ("seam", "metal", "static-head-test", "ASTM E2140", "snap-lock-below-2-12"):
        around = relations.around(relation_named(name, library))
        assert all(around.center in (edge.source, edge.target) for edge in around.edges)
        lanes = lanes_of(around)
        assert lanes.spots.keys() == around.by_key.keys()
        places = [(spot.x, spot.y) for spot in lanes.spots.values()]
        assert len(set(places)) == len(places)
        assert all(0 < y < lanes.height and 0 < x < lanes.width for x, y in places)


def test_the_page_needs_nothing_beside_it_and_can_be_read_back(relations: Relations) -> None:
    page = write_map_html(relations)
    assert not re.search(r"""(?:src|href)=|@import|url\(|fetch\(|XMLHttp""", page)
    assert re.findall(r"https?://[^\"' ]+", page) == ["http://www.w3.org/2000/svg"]
    assert "%%" not in page
    text = page.partition('id="data">')[2].partition("</script>")[0]
    data = json.loads(text)
    assert len(data["nodes"]) == len(relations.nodes)
    assert len(data["edges"]) == len(relations.edges)
    assert page.count('class="dot ') == len(relations.nodes)


def test_a_text_of_the_library_cannot_break_out_of_the_page(library: Library) -> None:
    from dataclasses import replace

    relations = relations_of(library)
    bad = replace(relations.nodes[0], says="</script><img src=x>", label='"><b>', name="<x>")
    page = write_map_html(Relations((bad, *relations.nodes[1:]), ()))
    assert "<img" not in page
    assert "<b>" not in page


def test_the_tree_of_all_names_every_question_and_article(
    library: Library, relations: Relations
) -> None:
    text = write_map(relations)
    for name in library.questions:
        assert re.search(rf"─ {name}  ", text), name
    assert text.count("├─") + text.count("└─") > len(library.questions)


def test_the_tree_of_one_names_all_that_it_is_joined_with(relations: Relations) -> None:
    around = relations.around(Target("question", "seam"))
    text = write_map(around)
    for node in around.nodes:
        assert node.name in text
    assert len(map_json(around)["edges"]) == len(around.edges)  # type: ignore[arg-type]
