"""What a student has found and missed so far, by topic, kept in a file of her own."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from specgen.faults import BadInput, Fault
from specgen.files import replace_file
from specgen.study.practice_shapes import Grade

PLACE = "SPECGEN_SCORE"
MOST_BYTES = 200_000
_MOST_COUNT = 1_000_000_000
# A topic is weak below this share of faults found, counted as if two more had been found and missed
# half and half, so that one miss in a topic hardly seen does not rank before many.
WEAK_BELOW = 2 / 3


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
    named = os.environ.get(PLACE)
    if named:
        return Path(named)
    data = os.environ.get("XDG_DATA_HOME")
    folder = Path(data) if data and os.path.isabs(data) else Path.home() / ".local" / "share"
    return folder / "specgen" / "score.json"


def read_score(path: Path) -> tuple[Score, str]:
    """The score kept at ``path``, and a sentence if a damaged file was set aside (else empty).

    A damaged file is renamed beside itself and never written over. Raises BadInput if the file
    cannot be read, or is damaged and cannot be set aside.
    """
    try:
        if not path.exists():
            return Score(), ""
        if not path.is_file():
            raise BadInput([Fault(str(path), None, "this is not an ordinary file; name one.")])
        with path.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise BadInput([Fault(str(path), None, f"it cannot be read: {_reason(error)}.")]) from None
    try:
        if len(content) > MOST_BYTES:
            raise ValueError
        return _scored(json.loads(content)), ""
    except (ValueError, RecursionError):
        return Score(), _set_aside(path)


def with_grade(score: Score, grade: Grade) -> Score:
    """The score with one more exercise in it."""
    topics = dict(score.topics)
    for fault in grade.faults:
        before = topics.get(fault.planted.topic, Tally(0, 0))
        found = before.found + (fault.verdict == "found")
        topics[fault.planted.topic] = Tally(found, before.planted + 1)
    return Score(score.exercises + 1, topics)


def save_score(path: Path, score: Score) -> None:
    """Keep the score at ``path``, whole or not at all. Raises BadInput if it cannot be written."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        says = f"the folder {path.parent} cannot be made: {_reason(error)}."
        raise BadInput([Fault(str(path), None, says)]) from None
    topics = {
        topic: {"found": tally.found, "planted": tally.planted}
        for topic, tally in sorted(score.topics.items())
    }
    content = json.dumps({"exercises": score.exercises, "topics": topics}, indent=1)
    replace_file(path, f"{content}\n".encode())


def weak_topics(score: Score) -> tuple[str, ...]:
    """The topics of which fewer than two in three faults were found, the weakest first."""
    share = {
        topic: (tally.found + 1) / (tally.planted + 2)
        for topic, tally in score.topics.items()
        if tally.planted and tally.found < WEAK_BELOW * tally.planted
    }
    return tuple(sorted(share, key=lambda topic: (share[topic], topic)))


def _scored(held: object) -> Score:
    """The score that a file holds. Raises ValueError if it is none."""
    if not isinstance(held, dict) or not isinstance(held.get("topics"), dict):
        raise ValueError
    topics = {}
    for topic, tally in held["topics"].items():
        if not isinstance(tally, dict):
            raise ValueError
        found, planted = _count(tally.get("found")), _count(tally.get("planted"))
        if found > planted:
            raise ValueError
        topics[topic] = Tally(found, planted)
    return Score(_count(held.get("exercises")), topics)


def _count(held: object) -> int:
    if not isinstance(held, int) or isinstance(held, bool) or not 0 <= held <= _MOST_COUNT:
        raise ValueError
    return held


def _set_aside(path: Path) -> str:
    """Rename a damaged file to a name that is free; the sentence that tells of it."""
    for number in range(1, 1000):
        aside = path.with_name(f"{path.name}.damaged-{number}")
        if aside.exists():
            continue
        try:
            path.rename(aside)
        except OSError as error:
            says = f"it is damaged and cannot be set aside: {_reason(error)}."
            raise BadInput([Fault(str(path), None, says)]) from None
        return f"The score at {path} was damaged; it is kept as {aside.name}, and a new one begins."
    raise BadInput([Fault(str(path), None, "it is damaged, and so are 999 before it; move them.")])


def _reason(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)
