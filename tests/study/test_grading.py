"""Grading: the same marks get the same grade, and no mark is worth more than what was planted."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from specgen.faults import BadInput
from specgen.loading import load_library
from specgen.review.outline import Block, Outline
from specgen.study.grading import Mark, grade
from specgen.study.marking import kind_named, read_mark, read_marks
from specgen.study.practice import Exercise, Planted, exercise
from specgen.study.practice_kinds import KINDS


@cache
def made() -> Exercise:
    """An exercise with four faults."""
    return exercise(load_library(), 4, 8)


def right() -> list[Mark]:
    return [Mark(each.place, each.kind) for each in made().planted]


PLACES = st.sampled_from(["1.1", "1.2.D.3", "2.2.C", "2.2.G", "2.4.B", "3.4.A", "9.9", "2.1"])
MARKS = st.lists(st.builds(Mark, PLACES, st.sampled_from([kind.id for kind in KINDS])), max_size=9)


def small(*planted: Planted) -> Exercise:
    """An exercise of three paragraphs with faults that are given."""
    blocks = tuple(
        Block(index, kind, "Words.", place=place, level=level, part=2, article="PANELS")
        for index, (kind, place, level) in enumerate(
            (("article", "2.2", 0), ("paragraph", "2.2.A", 1), ("paragraph", "2.2.B", 1))
        )
    )
    outline = Outline("", "", "", blocks)
    return Exercise(1, 1, "A Hall", "A Town", outline, planted, KINDS, ("2.2",))


def fault(place: str, kind: str, *also: str) -> Planted:
    return Planted(place, kind, 1, also, "", "It is wrong.", "So.", "common practice", "panel", 1)


def test_all_right_marks_get_all_points() -> None:
    graded = grade(made(), right())
    assert graded.points == graded.most == 8
    assert {each.verdict for each in graded.faults} == {"found"}
    assert {each.verdict for each in graded.marks} == {"right"}


def test_no_marks_miss_everything() -> None:
    graded = grade(made(), [])
    assert graded.points == 0
    assert {each.verdict for each in graded.faults} == {"missed"}


@given(MARKS, st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None)
def test_the_same_marks_in_any_order_and_twice_get_the_same_grade(
    marks: list[Mark], chance: object
) -> None:
    mixed = [*marks, *marks]
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    assert grade(made(), mixed) == grade(made(), marks)


@given(MARKS)
@settings(max_examples=60, deadline=None)
def test_points_lie_between_none_and_most_and_every_mark_is_judged(marks: list[Mark]) -> None:
    graded = grade(made(), marks)
    assert 0 <= graded.points <= graded.most
    assert {each.mark for each in graded.marks} == set(marks)
    assert len(graded.faults) == 4
    assert all(each.says.endswith(".") for each in graded.faults)
    assert all(each.says.endswith(".") for each in graded.marks)


@given(MARKS)
@settings(max_examples=60, deadline=None)
def test_a_false_alarm_never_helps(marks: list[Mark]) -> None:
    before = grade(made(), marks)
    after = grade(made(), [*marks, Mark("3.4.E", "choice-left")])
    assert after.points == max(0, before.points - 1) or before.points == 0


def test_the_right_place_under_another_name_gets_half() -> None:
    graded = grade(small(fault("2.2.A", "movement")), [Mark("2.2.A", "metals")])
    assert (graded.points, graded.most) == (1, 2)
    assert graded.faults[0].verdict == "place-only"
    assert graded.marks[0].verdict == "wrong-kind"


def test_the_other_half_of_a_contradiction_counts_and_is_told_where_it_belongs() -> None:
    graded = grade(small(fault("2.2.B", "two-figures", "2.2.A")), [Mark("2.2.A", "two-figures")])
    assert graded.points == 2
    assert graded.marks[0].says.endswith("It belongs at 2.2.B.")


def test_what_is_missing_may_be_marked_at_any_sound_paragraph_of_its_article() -> None:
    lacking = small(fault("2.2", "missing"), fault("2.2.A", "movement"))
    assert grade(lacking, [Mark("2.2.B", "missing")]).points == 2
    assert grade(lacking, [Mark("2.2.A", "missing")]).marks[0].verdict == "wrong-kind"


def test_a_mark_on_the_article_of_a_paragraph_is_told_to_look_below() -> None:
    graded = grade(small(fault("2.2.A", "movement")), [Mark("2.2", "movement")])
    assert graded.marks[0].verdict == "false-alarm"
    assert "look below it" in graded.marks[0].says


# ----------------------------------------------------------------------------------- as typed


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("2.2.A movement", "movement"),
        ("2.2.a. 17", "movement"),
        ("2.2.A mov", "movement"),
        ("2.2.A little room", "movement"),
        ("2.2.A  a  requirement is missing", "missing"),
    ],
)
def test_a_mark_is_read_by_id_number_beginning_or_words(typed: str, kind: str) -> None:
    assert read_mark(typed, small()) == Mark("2.2.A", kind)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("2.2.A", "type a place and a kind"),
        ("2.2.Q movement", "there is no paragraph 2.2.Q here. Did you mean 2.2"),
        ("2.2.A moovement", "Did you mean movement?"),
        ("2.2.A a", "may be any of"),
        ("2.2.A 99", "there is no kind of fault 99"),
    ],
)
def test_a_mark_that_is_none_is_refused_with_what_is_near(typed: str, says: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_mark(typed, small())
    assert says in str(refused.value)


def test_every_kind_is_named_by_its_number_id_and_words() -> None:
    for number, kind in enumerate(KINDS, 1):
        assert {kind_named(each, small()) for each in (str(number), kind.id, kind.words)} == {kind}


def test_every_faulty_line_of_a_file_is_told_with_its_number() -> None:
    lines = ["# mine", "2.2.A movement", "", "nothing", "2.2.B what"]
    with pytest.raises(BadInput) as refused:
        read_marks(lines, "marks.txt", small())
    assert [(each.file, each.line) for each in refused.value.faults] == [
        ("marks.txt", 4), ("marks.txt", 5),
    ]  # fmt: skip
    assert read_marks(lines[:3], "marks.txt", small()) == [Mark("2.2.A", "movement")]
