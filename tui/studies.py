"""What a student is in the middle of: a reading and where in it, an exercise and its marks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from specgen.study.grading import FaultGrade, Grade, Mark, MarkGrade
from specgen.study.guided import Reading, Stop
from specgen.study.practice import Exercise

# After this the first frame of a screen has been painted.
SOON_SECONDS = 0.01

# Of two things to be told at one place, the one that stands first here gives the sign.
STATES = ("missed", "other", "found", "sound", "marked")
STATE_OF_FAULT: Mapping[str, str] = {"found": "found", "place-only": "other", "missed": "missed"}
STATE_OF_MARK: Mapping[str, str] = {
    "right": "found",
    "wrong-kind": "other",
    "false-alarm": "sound",
}


@dataclass
class ReadingUnderWay:
    """A reading: the stop that is shown, and the option picked at each stop, by its index."""

    reading: Reading
    at: int = 0
    picked: dict[int, int] = field(default_factory=dict)

    @property
    def stop(self) -> Stop:
        return self.reading.stops[self.at]

    @property
    def right(self) -> int:
        """How many of the questions answered were answered right."""
        stops = self.reading.stops
        return sum(stops[at].right == option for at, option in self.picked.items())


@dataclass
class ExerciseUnderWay:
    """An exercise, what is marked in it in the order of marking, and its grade once it has one."""

    exercise: Exercise
    marks: list[Mark] = field(default_factory=list)
    grade: Grade | None = None

    def marks_at(self, place: str) -> list[Mark]:
        return [mark for mark in self.marks if mark.place == place]

    def faults_at(self, place: str) -> list[FaultGrade]:
        """What was planted at a place, once it is graded."""
        faults = self.grade.faults if self.grade is not None else ()
        return [each for each in faults if each.planted.place == place]

    def graded_at(self, place: str) -> list[MarkGrade]:
        """How the marks at a place were judged."""
        marks = self.grade.marks if self.grade is not None else ()
        return [each for each in marks if each.mark.place == place]

    def states(self) -> dict[str, str]:
        """What stands in the margin, by place."""
        if self.grade is None:
            return {mark.place: "marked" for mark in self.marks}
        told = [(each.planted.place, STATE_OF_FAULT[each.verdict]) for each in self.grade.faults]
        told += [(each.mark.place, STATE_OF_MARK[each.verdict]) for each in self.grade.marks]
        told.sort(key=lambda pair: STATES.index(pair[1]), reverse=True)
        return dict(told)

    def notes(self) -> dict[str, tuple[str, ...]]:
        """What is written under the paragraphs, by place: what is marked, or what was wrong."""
        notes: dict[str, list[str]] = {}
        if self.grade is None:
            for mark in self.marks:
                words = self.exercise.kind(mark.kind).words
                notes.setdefault(mark.place, []).append(words)
        else:
            for fault in self.grade.faults:
                head = HEADS[STATE_OF_FAULT[fault.verdict]]
                says = f"{head}: {fault.planted.says}"
                notes.setdefault(fault.planted.place, []).append(says)
            for each in self.grade.marks:
                if each.mark.place not in notes:
                    notes[each.mark.place] = [each.says]
        return {place: tuple(each) for place, each in notes.items()}


HEADS: Mapping[str, str] = {
    "found": "found",
    "other": "seen, but not what is wrong",
    "missed": "missed",
    "sound": "nothing wrong here",
}
