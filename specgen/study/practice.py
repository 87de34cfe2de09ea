"""Exercises: a section for an invented project, with faults planted that a student is to find."""

from __future__ import annotations

from collections.abc import Iterable

from specgen.library import Library
from specgen.study.practice_shapes import Exercise, Kind, Planted

__all__ = ["Exercise", "Kind", "Planted", "exercise"]


def exercise(library: Library, level: int, seed: int, weak: Iterable[str] = ()) -> Exercise:
    """The exercise of a level (1 to 5) and a seed; topics in ``weak`` are chosen more often.

    The same library, level, seed and weak topics give the same exercise.
    """
    raise NotImplementedError
