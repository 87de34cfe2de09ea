"""A student's marks judged against the faults of an exercise."""

from __future__ import annotations

from collections.abc import Iterable

from specgen.study.practice_shapes import Exercise, FaultGrade, Grade, Mark, MarkGrade

__all__ = ["FaultGrade", "Grade", "Mark", "MarkGrade", "grade"]


def grade(exercise: Exercise, marks: Iterable[Mark]) -> Grade:
    """The marks judged; the same marks, in any order, get the same grade."""
    raise NotImplementedError
