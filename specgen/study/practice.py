"""Exercises: a section for an invented project, with faults planted that a student is to find.

Faults of the roof are wrong answers from which the whole section is drafted; faults of the text are
edits of what was drafted. What comes out is reviewed, and an exercise in which anything is found
that was not planted, or a fault that was planted is not found, is thrown away.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from typing import TypeVar

from specgen.faults import BadInput, Fault
from specgen.library import Library
from specgen.review.findings import review
from specgen.review.shapes import Review
from specgen.study.practice_answers import WRONG, Wrong, Wronged, raised, wronged
from specgen.study.practice_judging import Draft, judged, standing_in, unplanned
from specgen.study.practice_kinds import KINDS
from specgen.study.practice_projects import Project, headed_outline, project
from specgen.study.practice_shapes import Exercise, Kind, Planted
from specgen.study.practice_words import WordFault, word_faults

__all__ = ["LEVELS", "Exercise", "Kind", "Planted", "exercise"]

LEVELS = (1, 2, 3, 4, 5)
PROJECTS = 40
MOST_TRIES = 12
_WEAK_WEIGHT = 4.0
_LEVEL_WEIGHT = 3.0
# How hard the faults of each level are, as many of them as the level's number; so many of them are
# faults of the roof; and so many articles are to be read, where not all of them.
_HARD = {1: (1,), 2: (1, 2), 3: (2, 3), 4: (3, 4), 5: (4, 5)}
_OF_THE_ROOF = {1: 0, 2: 0, 3: 1, 4: 2, 5: 5}
_ARTICLES = {1: 3, 2: 6, 3: 10, 4: 16}

Chosen = TypeVar("Chosen", Wrong, WordFault)


def exercise(library: Library, level: int, seed: int, weak: Iterable[str] = ()) -> Exercise:
    """The exercise of a level (1 to 5) and a seed; faults of the topics in ``weak`` are chosen more
    often.

    The same library, level, seed and weak topics give the same exercise. Raises BadInput where the
    level is none, or no exercise can be written with an office's clauses in the library.
    """
    if level not in LEVELS:
        raise BadInput([Fault("the command", None, f"the levels are 1 to 5; {level} is none.")])
    topics = frozenset(weak)
    chance = random.Random(f"{level} {seed} {' '.join(sorted(topics))}")
    for _ in range(MOST_TRIES):
        try:
            base = project(library, chance.randrange(PROJECTS), low=level == LEVELS[-1])
        except LookupError:  # clauses that spoil sixteen draws spoil the next
            break
        draft = _Choosing(base, level, topics, chance).draft()
        if draft is not None:
            return _exercise(draft, base, level, seed, chance)
    says = "no exercise can be written with the clauses of this library; try without --library."
    raise BadInput([Fault("the library", None, says)])


def _exercise(
    draft: Draft, base: Project, level: int, seed: int, chance: random.Random
) -> Exercise:
    heads = [block.place for block in draft.outline.blocks if block.kind == "article"]
    needed = {
        ".".join(place.split(".")[:2])
        for each in draft.planted
        for place in (each.place, *each.also)
    }
    wanted = _ARTICLES.get(level, len(heads)) - len(needed)
    others = [place for place in heads if place not in needed]
    read = needed | set(chance.sample(others, max(0, min(wanted, len(others)))))
    return Exercise(
        level=level,
        seed=seed,
        project=base.name,
        location=base.place,
        outline=draft.outline,
        planted=draft.planted,
        kinds=KINDS,
        articles=tuple(place for place in heads if place in read),
    )


class _Choosing:
    """Chooses the faults of one exercise, each of another kind, until what comes out is sound."""

    def __init__(
        self, base: Project, level: int, weak: frozenset[str], chance: random.Random
    ) -> None:
        self.base = base
        self.level = level
        self.weak = weak
        self.chance = chance
        self.library = base.engine.library

    def draft(self) -> Draft | None:
        """The exercise's section with faults enough; None if this project has no room for them."""
        held = self._wronged()
        if held is None:
            return None
        wrongs = tuple(held.findings)
        count = self.level - len(wrongs)
        drafted = self.base.reviewed if not wrongs else self._reviewed(held)
        if wrongs and unplanned(drafted, self.base, held):
            return None
        outline = drafted.outline
        fitting = word_faults(outline, drafted.understanding, self.library) if count else ()
        taken = {wrong.kind for wrong in wrongs}
        kept = {index for wrong in wrongs for index in standing_in(wrong, held, outline)}
        fitting = tuple(fault for fault in fitting if not fault.touched & kept)
        banned: set[WordFault] = set()
        for _ in range(MOST_TRIES):
            open_ = [f for f in fitting if f not in banned and f.kind not in taken]
            words = self._apart(self._mixed(self._of_level(open_)), count)
            if len(words) < count:
                return None
            outcome = judged(self.base, held, outline, words)
            if isinstance(outcome, Draft):
                return outcome
            if not outcome:
                return None
            banned |= outcome
        return None

    def _reviewed(self, held: Wronged) -> Review:
        section = headed_outline(held.engine.section, self.base.name, self.base.place)
        return review(section, self.library)

    def _wronged(self) -> Wronged | None:
        """The project with as many wrong answers as the level has, each of another kind."""
        if _OF_THE_ROOF[self.level] == 0:
            return wronged(self.base, ())
        chosen: list[Wrong] = []
        held: Wronged | None = None
        for wrong in self._mixed(self._of_level(each for each in WRONG if raised(each, self.base))):
            if len(chosen) == _OF_THE_ROOF[self.level]:
                break
            if any(wrong.kind == other.kind for other in chosen):
                continue
            following = wronged(self.base, (*chosen, wrong))
            if following is not None:
                chosen.append(wrong)
                held = following
        return held if len(chosen) == _OF_THE_ROOF[self.level] else None

    def _of_level(self, faults: Iterable[Chosen]) -> list[Chosen]:
        return [fault for fault in faults if fault.level in _HARD[self.level]]

    def _mixed(self, faults: Sequence[Chosen]) -> list[Chosen]:
        """The faults by chance, those of weak topics and of the level itself rather before others;
        every kind once before any kind comes again, so that many places make no kind frequent."""
        rounds: dict[str, int] = {}
        keyed: list[tuple[int, float, Chosen]] = []
        for fault in sorted(faults, key=self._turn):
            turn = rounds[fault.kind] = rounds.get(fault.kind, -1) + 1
            keyed.append((turn, self._turn(fault), fault))
        return [fault for _, _, fault in sorted(keyed, key=lambda each: each[:2])]

    def _turn(self, fault: Chosen) -> float:
        """A number by chance, the lower the sooner: a fault of twice the weight comes first twice
        as often."""
        weight = _LEVEL_WEIGHT if fault.level == self.level else 1.0
        weight *= _WEAK_WEIGHT if self._topic(fault) in self.weak else 1.0
        return self.chance.expovariate(weight)

    def _topic(self, fault: Wrong | WordFault) -> str:
        if isinstance(fault, WordFault):
            return fault.topic
        question = self.library.questions.get(fault.question)
        return question.topic if question is not None else ""

    @staticmethod
    def _apart(faults: Iterable[WordFault], count: int) -> tuple[WordFault, ...]:
        """So many faults, each of another kind, that touch no block in common."""
        chosen: list[WordFault] = []
        for fault in faults:
            if len(chosen) == count:
                break
            if any(fault.kind == each.kind or fault.touched & each.touched for each in chosen):
                continue
            chosen.append(fault)
        return tuple(chosen)
