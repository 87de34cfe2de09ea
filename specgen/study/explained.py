"""What an explanation holds: of a paragraph, a standard, a name that conditions read, a finding."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.checks import Finding
from specgen.library import Standard
from specgen.study.saying import Ground
from specgen.study.ways import Ways


@dataclass(frozen=True, slots=True)
class Beside:
    """Another clause: its place where it stands, and whether it is ``in``, ``out`` or ``open``."""

    clause: str
    place: str
    state: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Given:
    """An answer that a paragraph rests on; ``places`` tells whether it decides that the paragraph
    stands, or only words it."""

    question: str
    label: str
    answer: str
    places: bool


@dataclass(frozen=True, slots=True)
class Number:
    """A computed value that a paragraph rests on, and the answers that it was computed from."""

    name: str
    label: str
    value: str
    title: str
    inputs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ParagraphWhy:
    """Why a paragraph stands.

    ``kind`` is ``clause``, ``open`` (a decision that clauses wait on) or ``computed`` (a line that
    the program lists). ``under`` are the clauses it stands under, the uppermost first; ``grounds``
    what decided its own condition and theirs; ``caused_by`` the clauses behind a computed line or
    those that wait on an open decision; ``removal`` what would remove it, None where nothing does
    because it stands in every section.
    """

    kind: str
    number: str
    article: str
    text: str
    clause: str
    question: str
    under: tuple[Beside, ...]
    grounds: tuple[Ground, ...]
    given: tuple[Given, ...]
    numbers: tuple[Number, ...]
    caused_by: tuple[Beside, ...]
    removal: Ways | None
    needs: tuple[Beside, ...]
    needed_by: tuple[Beside, ...]
    standards: tuple[Standard, ...]
    submits: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]
    why: str
    source: str
    office: bool


@dataclass(frozen=True, slots=True)
class AbsentWhy:
    """Why a clause does not stand.

    ``state`` is ``out`` or ``open``; ``held_by`` the clause above it that keeps it out, empty where
    its own condition does; ``grounds`` what decided that; ``ways`` the smallest changes that bring
    it in, and ``text`` how it reads after the first of them.
    """

    clause: str
    article: str
    state: str
    held_by: str
    grounds: tuple[Ground, ...]
    ways: Ways
    text: str
    why: str
    source: str
    needs: tuple[Beside, ...]
    standards: tuple[Standard, ...]


@dataclass(frozen=True, slots=True)
class StandardWhy:
    """What a standard does in this section: every place that cites it, and where it is listed.

    ``elsewhere`` are the clauses of the library that would cite it if they stood.
    """

    standard: Standard
    listed_at: str
    uses: tuple[tuple[Beside, str], ...]
    elsewhere: tuple[Beside, ...]


@dataclass(frozen=True, slots=True)
class Hanging:
    """A clause or check that reads a name, ``via`` the facts, questions and values in between;
    ``state`` is in, out, open for a clause, and found, clear, open for a check."""

    id: str
    kind: str
    place: str
    state: str
    via: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NameWhy:
    """Everything that hangs on a question, a computed value or a fact.

    ``kind`` says which; ``asked`` is what decided whether a question arises, or a fact holds;
    ``arises`` whether there is an answer or value to speak of; ``inputs`` are what a value is
    computed from or a fact reads.
    """

    kind: str
    name: str
    label: str
    says: str
    answer: str
    arises: bool
    asked: tuple[Ground, ...]
    inputs: tuple[str, ...]
    facts: tuple[tuple[str, str, str], ...]
    questions: tuple[tuple[str, str, str], ...]
    calculations: tuple[tuple[str, tuple[str, ...]], ...]
    clauses: tuple[Hanging, ...]
    checks: tuple[Hanging, ...]
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class FindingWhy:
    """Why a check finds something here, or does not.

    ``found`` is None where it does not; ``state`` is found, clear or open; ``ways`` the smallest
    changes that settle it, or that would raise it; ``settle`` the answers that the check itself
    proposes, each with whether it settles it here.
    """

    check: str
    kind: str
    state: str
    found: tuple[Finding, ...]
    grounds: tuple[Ground, ...]
    ways: Ways | None
    settle: tuple[tuple[str, bool], ...]
    because: str
    source: str


Explanation = ParagraphWhy | AbsentWhy | StandardWhy | NameWhy | FindingWhy
