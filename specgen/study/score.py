"""What a student has found and missed so far, by topic, kept in a file of her own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from specgen.study.practice_shapes import Grade


@dataclass(frozen=True, slots=True)
class Tally:
    """So many faults of a topic found, of so many planted."""

    found: int
    planted: int


@dataclass(frozen=True, slots=True)
class Score:
    """How many exercises were graded, and the tally of each topic, by the topic's id."""

    exercises: int = 0
    topics: Mapping[str, Tally] = field(default_factory=dict)


def score_file() -> Path:
    """Where the score is kept: SPECGEN_SCORE, else in the user's data folder."""
    raise NotImplementedError


def read_score(path: Path) -> tuple[Score, str]:
    """The score kept at ``path``, and a sentence if a damaged file was set aside (else empty)."""
    raise NotImplementedError


def with_grade(score: Score, grade: Grade) -> Score:
    """The score with one more exercise in it."""
    raise NotImplementedError


def save_score(path: Path, score: Score) -> None:
    """Keep the score at ``path``, whole or not at all. Raises BadInput if it cannot be written."""
    raise NotImplementedError


def weak_topics(score: Score) -> tuple[str, ...]:
    """The topics of which fewer than two in three faults were found, the weakest first."""
    raise NotImplementedError
