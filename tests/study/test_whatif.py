"""What other answers change: the difference of two sections, findings and numbers."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.domain import can_be_tried, domain_of
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.library import Library
from specgen.report import report_of
from specgen.study.tracked import differences
from specgen.study.whatif import WhatIf, read_changes, what_if
from specgen.writers.whatif_text import whatif_json, write_whatif
from tests.support import EXAMPLES, texts_of


def changed(library: Library, *arguments: str, name: str = "low-slope-library") -> WhatIf:
    brief = read_brief(EXAMPLES / f"{name}.yaml", library)
    return what_if(Engine(library, brief.answers), brief, read_changes(arguments, library))


def test_paragraphs_in_out_and_reworded_are_those_that_differ(
    library: Library, example: Path
) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    before = texts_of(engine.section)
    for name in ("seam", "metal", "lowest_slope", "support", "units_shown"):
        for value in domain_of(library, name)[::3]:
            section = engine.answering(name, value).section
            after = texts_of(section)
            states: dict[str, set[str]] = {"in": set(), "out": set(), "changed": set()}
            for line in differences(engine.section, section).changed:
                if line.paragraph is not None and line.paragraph.reason.clause:
                    states[line.state].add(line.paragraph.reason.clause)
            assert states["in"] == after.keys() - before.keys()
            assert states["out"] == before.keys() - after.keys()
            reworded = {n for n in before.keys() & after.keys() if before[n] != after[n]}
            assert reworded <= states["changed"]


def test_both_sides_of_every_line_read_as_the_sections_do(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "coastal-civic-hall.yaml", library).answers)
    for question in list(library.questions.values())[::4]:
        if can_be_tried(question):
            after = engine.answering(question.id, domain_of(library, question.id)[0])
            found = differences(engine.section, after.section)
            for side, section in (("before", engine.section), ("after", after.section)):
                read = [
                    line.read(side)
                    for line in found.lines
                    if line.role == "paragraph" and getattr(line, side)
                ]
                shown = [
                    "".join(
                        getattr(span, "text", None) or section.plain_span(span)
                        for span in paragraph.spans
                    )
                    for paragraph in section.paragraphs()
                ]
                assert read == shown


def test_findings_raised_and_settled_are_those_of_both_reports(library: Library) -> None:
    found = changed(library, "seam=snap-lock", "client=")
    brief = read_brief(EXAMPLES / "low-slope-library.yaml", library)
    was = {f.id for f in report_of(brief, found.before.scope, found.before.section).standing}
    now = {f.id for f in report_of(found.brief, found.after.scope, found.after.section).standing}
    assert {f.id for f in found.raised} == now - was
    assert {f.id for f in found.settled} == was - now
    assert "snap-lock-below-2-12" in now - was
    assert found.opened == ("client",)


def test_numbers_that_move_are_told_before_and_after(library: Library) -> None:
    found = changed(library, "panel_run=60 ft")
    moved = {each.name: (each.before, each.after) for each in found.numbers}
    before, after = moved["panel_movement"]
    assert before != after
    assert found.answers[0].after == "60 ft"


def test_an_answer_taken_back_is_open_and_one_given_again_changes_nothing(
    library: Library,
) -> None:
    assert changed(library, "seam=").answers[0].after == "open"
    same = changed(library, "seam=double-lock")
    assert not same.differences.changed
    assert write_whatif(same).endswith("The section stays as it is.\n")


def test_lists_and_rows_are_typed_as_in_a_brief(library: Library) -> None:
    given = read_changes(
        [
            "penetrations=[pipes, curbs]",
            "zone_pressures=[{zone: Zone 1, upward: 30 psf, downward: 16 psf}]",
            "project_name=Mill: the second",
            "lowest_slope=1:12",
        ],
        library,
    )
    assert given.typed["penetrations"] == ["pipes", "curbs"]
    assert given.typed["project_name"] == "Mill: the second"
    assert len(str(given.answers["zone_pressures"])) > 20


@pytest.mark.parametrize(
    ("argument", "says"),
    [
        ("seem=snap-lock", "there is no question seem. Did you mean seam?"),
        ("seam=snaplock", "Did you mean snap-lock?"),
        ("seam", "write each change as QUESTION=ANSWER"),
        ("lowest_slope=steep", "lowest_slope cannot be read"),
        ("lowest_slope=90:12", "above what is sensible"),
        ("penetrations=[pipes", "the command"),
    ],
)
def test_a_change_that_cannot_be_read_says_what_would_do(
    library: Library, argument: str, says: str
) -> None:
    with pytest.raises(BadInput, match=says.replace("?", r"\?")):
        read_changes([argument], library)


def test_the_same_question_twice_is_refused(library: Library) -> None:
    with pytest.raises(BadInput, match="seam is changed twice"):
        read_changes(["seam=batten", "seam=snap-lock"], library)


def test_what_is_told_names_every_difference_once(library: Library) -> None:
    found = changed(library, "lowest_slope=3:12")
    text = write_whatif(found)
    assert "slope of ~~1/2:12~~ ++3:12++ at" in " ".join(text.split())
    lines = [line for line in found.differences.changed if line.role == "paragraph"]
    shown = [line for line in text.splitlines() if line[:4] in ("  + ", "  - ", "  ~ ")]
    assert len(shown) == len(lines)


def test_the_json_carries_every_piece(library: Library) -> None:
    found = changed(library, "metal=aluminum", "project_name=Other Hall")
    values = json.loads(json.dumps(whatif_json(found)))
    assert len(values["lines"]) == len(found.differences.changed)
    assert values["heads"]["project"]
    for line, shown in zip(found.differences.changed, values["lines"], strict=True):
        after = "".join(p["text"] for p in shown["pieces"] if p["state"] != "out")
        assert after == line.read("after")
