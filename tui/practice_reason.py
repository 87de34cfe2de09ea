"""What is told of the paragraph under the cursor: its marks; once graded, what was wrong there."""

from __future__ import annotations

from collections.abc import Iterator

from specgen.study.grading import FaultGrade, MarkGrade
from tui.document_rows import Row
from tui.lead_strip import Block, Lead, told
from tui.practice_list import LOOKS, SIGNS
from tui.studies import STATE_OF_FAULT, STATE_OF_MARK, ExerciseUnderWay
from tui.wrapping import Piece

HINT = (
    "If something is wrong here, m marks it and asks what. What is missing is marked at the title"
    " of its article."
)


def practice_reason(row: Row, under_way: ExerciseUnderWay) -> list[Block]:
    """Everything that may be told of a row by now."""
    if under_way.grade is None:
        return list(_marks(row, under_way))
    return list(_graded(row, under_way))


def _marks(row: Row, under_way: ExerciseUnderWay) -> Iterator[Block]:
    marks = under_way.marks_at(row.number)
    title = [Piece(row.number, "strong")]
    if row.kind == "article":
        title.append(Piece(f"  {row.words}", "strong"))
    yield Block("", tuple(title))
    for mark in marks:
        kind = under_way.exercise.kind(mark.kind)
        yield Block("marked", (Piece(f"{kind.words}: ", "gap"), Piece(kind.means, "muted")))
    if marks:
        yield Block("", (Lead("mark", marks[-1].kind, "take it back", key="x"),))
    else:
        yield Block("", told(HINT, "muted"))


def _graded(row: Row, under_way: ExerciseUnderWay) -> Iterator[Block]:
    faults = under_way.faults_at(row.number)
    for fault in faults:
        yield from _fault(row, fault)
    if not faults:
        yield Block("", (Piece(f"{row.number}: ", "strong"), Piece("nothing was planted here.")))
    for graded in under_way.graded_at(row.number):
        yield _mark(graded, under_way)
    if not faults:
        yield from _rest(under_way)


def _fault(row: Row, fault: FaultGrade) -> Iterator[Block]:
    planted, state = fault.planted, STATE_OF_FAULT[fault.verdict]
    verdict = Piece(f"{SIGNS[state]} {fault.says}", LOOKS[state])
    yield Block("", (Piece(f"{row.number} ", "strong"), verdict))
    yield Block("wrong", told(planted.says))
    if planted.was:
        yield Block("was", told(planted.was, "muted"))
    yield Block("why", told(planted.because))
    yield Block("source", told(planted.source))
    if planted.also:
        yield Block("also", told(", ".join(planted.also)))


def _mark(graded: MarkGrade, under_way: ExerciseUnderWay) -> Block:
    state = STATE_OF_MARK[graded.verdict]
    says = Piece(graded.says, LOOKS[state])
    if state == "found":
        return Block("marked", (says,))
    words = under_way.exercise.kind(graded.mark.kind).words
    return Block("marked", (Piece(f"{words}: ", "strong"), says))


def _rest(under_way: ExerciseUnderWay) -> Iterator[Block]:
    """Where the faults stand, each a key away."""
    grade = under_way.grade
    for fault in grade.faults if grade is not None else ():
        state = STATE_OF_FAULT[fault.verdict]
        planted = fault.planted
        words = under_way.exercise.kind(planted.kind).words
        lead = Lead("place", planted.place, planted.place, told=told(words))
        yield Block(f"{SIGNS[state]} {state}", (lead,))
