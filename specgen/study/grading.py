"""A student's marks judged against the faults of an exercise."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from specgen.study.practice_shapes import Exercise, FaultGrade, Grade, Mark, MarkGrade, Planted

__all__ = ["FaultGrade", "Grade", "Mark", "MarkGrade", "grade"]

FOUND_POINTS = 2
PLACE_POINTS = 1
ALARM_COSTS = 1


def grade(exercise: Exercise, marks: Iterable[Mark]) -> Grade:
    """The marks judged; the same marks, in any order, get the same grade.

    A fault found at its place and named counts two points, one whose place alone was marked one;
    each mark where nothing of its kind is wrong takes one off, down to none in all.
    """
    order = exercise.places
    given = sorted(dict.fromkeys(marks), key=lambda mark: (order.get(mark.place, len(order)), mark))
    right = {mark: _meant(mark, exercise.planted) for mark in given}
    graded = tuple(_mark(exercise, mark, right[mark]) for mark in given)
    found = {fault for fault in right.values() if fault is not None}
    places = {mark.place for mark in given}
    faults = tuple(_fault(exercise, each, found, places) for each in exercise.planted)
    points = sum(_POINTS[each.verdict] for each in faults)
    points -= ALARM_COSTS * sum(each.verdict == "false-alarm" for each in graded)
    return Grade(faults, graded, max(0, points), FOUND_POINTS * len(faults))


_POINTS: Mapping[str, int] = {"found": FOUND_POINTS, "place-only": PLACE_POINTS, "missed": 0}


def _meant(mark: Mark, planted: Sequence[Planted]) -> Planted | None:
    """The fault that a mark names at one of its places."""
    elsewhere = any(each.place == mark.place and each.kind != mark.kind for each in planted)
    return next((each for each in planted if _taken(mark, each, elsewhere)), None)


def _taken(mark: Mark, fault: Planted, elsewhere: bool) -> bool:
    """Whether a mark is taken for a fault. What is missing from an article may be marked at any
    paragraph of it that has no fault of its own (``elsewhere``)."""
    if mark.kind != fault.kind:
        return False
    if mark.place == fault.place or mark.place in fault.also:
        return True
    inside = mark.place.startswith(f"{fault.place}.")
    return fault.kind == "missing" and inside and not elsewhere


def _mark(exercise: Exercise, mark: Mark, meant: Planted | None) -> MarkGrade:
    words = exercise.kind(mark.kind).words
    if meant is not None:
        says = f"Right: {words}."
        if mark.place != meant.place:
            says = f"Right: {words}. It belongs at {meant.place}."
        return MarkGrade(mark, "right", says)
    if any(each.place == mark.place for each in exercise.planted):
        return MarkGrade(mark, "wrong-kind", f"Something is wrong at {mark.place}, but not this.")
    inside = [each.place for each in exercise.planted if each.place.startswith(f"{mark.place}.")]
    if inside and exercise.places.get(mark.place) is not None:
        says = f"Nothing of this kind was planted at {mark.place} itself; look below it."
        return MarkGrade(mark, "false-alarm", says)
    return MarkGrade(mark, "false-alarm", f"Nothing of this kind was planted at {mark.place}.")


def _fault(exercise: Exercise, fault: Planted, found: set[Planted], places: set[str]) -> FaultGrade:
    words = exercise.kind(fault.kind).words
    if fault in found:
        return FaultGrade(fault, "found", f"Found: {words}.")
    if fault.place in places:
        return FaultGrade(fault, "place-only", f"You saw the place; it is {words}.")
    return FaultGrade(fault, "missed", f"Missed: {words}.")
