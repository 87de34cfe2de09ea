"""What an exercise is, how its marks are judged, and what a stop of the guided reading is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from specgen.review.outline import Outline


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of fault that a student may name: ``words`` as it is picked from a list, ``means`` a
    sentence on what it is, ``topic`` the library's topic to which it belongs."""

    id: str
    words: str
    means: str
    topic: str


@dataclass(frozen=True, slots=True)
class Planted:
    """A fault in an exercise, and its one right answer: ``kind`` (a Kind's id) at ``place``.

    ``place`` is the number of a paragraph (``2.3.A.1``), or of an article (``2.3``) where a
    paragraph is missing. A mark at one of ``also``, where the same words stand again or what they
    are held against, is taken for it. ``block`` is the index of the paragraph or article in the
    exercise's outline; ``was`` what stood there before, empty for nothing. ``says`` tells what is
    wrong, ``because`` why, ``source`` on what authority; ``level`` 1 to 5 how hard it is to see.
    """

    place: str
    kind: str
    block: int
    also: tuple[str, ...]
    was: str
    says: str
    because: str
    source: str
    topic: str
    level: int


@dataclass(frozen=True)
class Exercise:
    """A section for an invented project with faults in it.

    ``project`` and ``location`` are the invented names; ``outline`` is the section as the student
    reads it; ``planted`` its faults in reading order; ``kinds`` every kind that may be named, those
    that are not planted here too; ``articles`` the numbers of those to be read, among which all
    faults stand.
    """

    level: int
    seed: int
    project: str
    location: str
    outline: Outline
    planted: tuple[Planted, ...]
    kinds: tuple[Kind, ...]
    articles: tuple[str, ...]

    @cached_property
    def places(self) -> Mapping[str, int]:
        """The block of every place that may be marked: articles and paragraphs, by number."""
        found: dict[str, int] = {}
        for block in self.outline.blocks:
            if block.place and block.kind in ("article", "paragraph"):
                found.setdefault(block.place, block.index)
        return found

    def kind(self, name: str) -> Kind:
        """The kind with an id."""
        return next(kind for kind in self.kinds if kind.id == name)


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """What a student says: at this place (``2.3.A``, or ``2.3`` for an article) this kind of
    fault."""

    place: str
    kind: str


@dataclass(frozen=True, slots=True)
class MarkGrade:
    """How a mark is judged: ``right``, ``wrong-kind`` or ``false-alarm``, and why in a sentence."""

    mark: Mark
    verdict: str
    says: str


@dataclass(frozen=True, slots=True)
class FaultGrade:
    """Whether a planted fault was ``found``, its place seen but not what is wrong
    (``place-only``), or ``missed``; ``says`` in a sentence. Reason and source are the fault's."""

    planted: Planted
    verdict: str
    says: str


@dataclass(frozen=True, slots=True)
class Grade:
    """A student's marks judged: ``points`` of ``most``, never below 0."""

    faults: tuple[FaultGrade, ...]
    marks: tuple[MarkGrade, ...]
    points: int
    most: int


@dataclass(frozen=True, slots=True)
class Option:
    """One of the three answers to a stop's question, whether it is right, and what is right or
    wrong about it."""

    text: str
    right: bool
    says: str


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop of the guided reading.

    ``number`` from 1; ``title`` what it is about; ``clause`` the clause whose paragraph is read,
    ``place`` and ``article`` (number and title) where it stands in the example, ``text`` what it
    says there; ``why`` on why it is there, with its ``source``; ``question`` and its three
    ``options``, one of them right.
    """

    number: int
    title: str
    clause: str
    place: str
    article: str
    text: str
    why: str
    source: str
    question: str
    options: tuple[Option, ...]

    @property
    def right(self) -> int:
        """The index of the right option."""
        return next(index for index, option in enumerate(self.options) if option.right)
