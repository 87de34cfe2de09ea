"""Reading a brief, and every fault of it at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.brief import empty_brief, read_brief
from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from specgen.questions import MOST_ROWS
from specgen.units import Quantity
from specgen.values import Choice
from tests.support import brief_of, write_folder


def _faults(text: str, library: Library, folder: Path) -> list[str]:
    with pytest.raises(BadInput) as caught:
        brief_of(text, library, folder)
    return [f"{fault.line}: {fault.says}" for fault in caught.value.faults]


def test_answers_are_read_by_the_kind_of_their_question(small: Library, tmp_path: Path) -> None:
    brief = brief_of(
        "metal: Copper\nslope: 1:12\nsealed: yes\nwidth: 400 mm\ntests: [ul-580]\nvisits: 3\n"
        "issue_date: 2027-03-15\nproject_name: 007\n",
        small,
        tmp_path,
    )
    metal, width = brief.answers["metal"], brief.answers["width"]
    assert isinstance(metal, Choice)
    assert metal.id == "copper"
    assert isinstance(width, Quantity)
    assert width.to("mm") == pytest.approx(400)
    assert brief.answers["sealed"] is True
    assert brief.answers["project_name"] == "007"
    assert str(brief.answers["issue_date"]) == "2027-03-15"


def test_every_fault_is_named_at_once_with_its_line_and_the_nearest_right_word(
    small: Library, tmp_path: Path
) -> None:
    text = (
        "metl: steel\n"
        "metal: steal\n"
        "slope: 1/8:12\n"
        "width: 16\n"
        "sealed: perhaps\n"
        "issue_date: soon\n"
        "tests: [ul-580, ul-580]\n"
        "visits: 4.5.6\n"
        "schedule:\n"
        "- {zone: field, spacing: 24 in}\n"
        "- {zone: corner, spacng: 12 in}\n"
    )
    faults = _faults(text, small, tmp_path)
    assert faults[0] == "1: there is no question metl. Did you mean metal?"
    assert faults[1] == "2: metal has no choice 'steal'. Did you mean steel?"
    assert faults[2].startswith("3: slope is 1/8:12, below what is sensible here (1/4:12 to 24:12)")
    assert faults[3].startswith("4: width cannot be read: 16 has no unit")
    assert faults[4].startswith("5: sealed takes yes or no")
    assert faults[5].startswith("6: issue_date takes a date")
    assert faults[6].startswith("7: tests names a choice twice")
    assert faults[7].startswith("8: visits cannot be read")
    assert faults[8] == "11: schedule has no column spacng. Did you mean spacing?"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("- a\n", "`question: answer` lines"),
        ("metal:\n", "has no answer"),
        ("metal: [steel]\n", "takes one answer, not a list"),
        ("slope: {a: b}\n", "takes one answer, not a list"),
        ("tests: {a: b}\n", "takes a list of choices"),
        ("schedule: field\n", "takes a list of rows"),
        ("schedule: []\n", "takes a list of rows"),
        ("schedule: [field]\n", "takes rows written as names and values"),
        ("schedule: [{zone: field}]\n", "a row without spacing"),
        ("schedule: [{zone: field, spacing: [1]}]\n", "a row without spacing"),
        ("schedule: [{zone: field, spacing: 12}]\n", "spacing cannot be read"),
        (f"project_name: {'x' * 501}\n", "501 characters"),
        ('project_name: "a\\tb"\n', "cannot be printed"),
        ('project_name: "a\\uD800b"\n', ""),
        ("project_name: ''\n", "empty answer"),
    ],
)
def test_an_answer_of_the_wrong_kind_is_refused(
    text: str, says: str, small: Library, tmp_path: Path
) -> None:
    assert any(says in fault for fault in _faults(text, small, tmp_path))


def test_a_table_too_long_for_anybody_is_refused(small: Library, tmp_path: Path) -> None:
    rows = "- {zone: a, spacing: 1 in}\n" * (MOST_ROWS + 1)
    assert "5000 are the most" in _faults(f"schedule:\n{rows}", small, tmp_path)[0]


def test_an_empty_brief_names_every_question_and_answers_none(
    library: Library, tmp_path: Path
) -> None:
    text = empty_brief(library)
    for question in library.questions:
        assert f"\n# {question}:" in text
    assert not brief_of(text, library, tmp_path).answers


def test_an_empty_brief_spells_facts_out_and_leaves_the_choices_of_their_name(
    small_folder: Path, tmp_path: Path
) -> None:
    """A fact may have the name of a choice, and may stand for alternatives."""
    office = write_folder(
        tmp_path / "office",
        {
            "facts.yaml": "- {id: copper, is: \"metal == 'copper' or sealed\", why: w}\n",
            "questions/more.yaml": (
                '- {id: a, ask: "one\\ntwo", label: l, kind: yes-no, why: w, source: s,'
                " when: \"metal != 'copper' and copper\"}\n"
                "- {id: b, ask: b, label: l, kind: yes-no, why: w, source: s, when: copper}\n"
            ),
        },
    )
    text = empty_brief(load_library(small_folder, [office]))
    assert "Asked when metal != 'copper' and (metal == 'copper' or sealed).\n" in text
    assert "Asked when metal == 'copper' or sealed.\n" in text
    assert "# one two\n" in text


def test_a_finding_is_waived_once(small: Library, tmp_path: Path) -> None:
    waiver = "- {check: one, reason: r, by: b}\n"
    faults = _faults(f"waive:\n{waiver}{waiver}", small, tmp_path)
    assert faults == ["3: one is waived twice; keep one."]


def test_a_brief_of_nothing_but_waivers_answers_nothing(small: Library, tmp_path: Path) -> None:
    brief = brief_of("waive:\n- {check: one, reason: r, by: b}\n", small, tmp_path)
    assert not brief.answers
    assert [waiver.check for waiver in brief.waivers] == ["one"]


def test_an_empty_brief_answered_as_its_hints_say_is_a_brief(
    library: Library, tmp_path: Path
) -> None:
    lines = []
    for question in library.questions.values():
        if question.kind == "choice":
            lines.append(f"{question.id}: {question.choices[0].id}")
        elif question.kind == "choices":
            lines.append(f"{question.id}: [{question.choices[0].id}]")
        elif question.kind == "yes-no":
            lines.append(f"{question.id}: yes")
    assert len(brief_of("\n".join(lines), library, tmp_path).answers) == len(lines)


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(max_size=200))
def test_no_text_makes_reading_a_brief_fail_otherwise_than_with_a_sentence(
    small: Library, tmp_path: Path, text: str
) -> None:
    path = tmp_path / "any.yaml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        read_brief(path, small)
    except BadInput as error:
        assert all(fault.says for fault in error.faults)
