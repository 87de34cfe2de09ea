"""What review says of a document: what it states, what is found in it, what could be planted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from specgen.checks import Finding
from specgen.engine import Engine
from specgen.review.outline import Outline
from specgen.values import Value


@dataclass(frozen=True, slots=True)
class Anchor:
    """Words of a document: ``block`` is the block's index, ``start`` and ``end`` bound them in its
    text. The whole block where both are 0."""

    block: int
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Statement:
    """One answer that a document gives, and the words that give it.

    ``raw`` is the answer as it would be typed in a brief, ``value`` the same read (None where the
    question does not take it, with ``fault`` saying why); ``confidence`` from 0 to 1;
    ``recognizer`` the id of the library's entry that found it.
    """

    question: str
    raw: object
    value: Value | None
    at: Anchor
    words: str
    confidence: float
    recognizer: str
    fault: str = ""


@dataclass(frozen=True)
class Understanding:
    """What a document states: every statement, and the one answer to each question that they come
    to (``answers``), with the statement that gave it (``given_by``)."""

    statements: tuple[Statement, ...]
    answers: Mapping[str, Value]
    given_by: Mapping[str, Statement]


@dataclass(frozen=True, slots=True)
class Found:
    """A finding in a document: ``at`` the words it is about (None: the whole document), ``fills``
    the clause of the library that would settle an omission, with its text; empty for none."""

    finding: Finding
    at: Anchor | None = None
    fills: str = ""
    fills_with: str = ""


@dataclass(frozen=True, slots=True)
class Coverage:
    """How a document covers a topic: the questions that this kind of roof raises and those that the
    document answers, by id; ``where`` the places that answer them."""

    topic: str
    raised: tuple[str, ...]
    answered: tuple[str, ...]
    where: tuple[str, ...]


@dataclass(frozen=True)
class Review:
    """A document reviewed; ``engine`` holds the answers that it states."""

    outline: Outline
    understanding: Understanding
    engine: Engine
    found: tuple[Found, ...]
    coverage: tuple[Coverage, ...]

    @property
    def conflicts(self) -> tuple[Found, ...]:
        return tuple(found for found in self.found if found.finding.kind == "conflict")


@dataclass(frozen=True, slots=True)
class Edit:
    """One change of a document's text.

    ``text`` replaces the text of the block; None removes the block; with ``after`` the text becomes
    a new paragraph of the same level below it.
    """

    block: int
    text: str | None
    after: bool = False


@dataclass(frozen=True, slots=True)
class Plant:
    """A fault to be put into a document that has none of its kind.

    ``kind`` names the fault (``bracket-left``); ``edits`` make it; ``finds`` are the ids of the
    findings of which one must name it; ``says`` tells what is wrong, ``because`` why, ``source``
    on what authority; ``topic`` is the library's topic that it belongs to, ``level`` 1 to 5 how
    hard it is to see.
    """

    kind: str
    edits: tuple[Edit, ...]
    finds: frozenset[str]
    says: str
    because: str
    source: str
    topic: str
    level: int
