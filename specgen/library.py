"""What the library holds: questions, clauses and standards, in the order of the section."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from functools import cached_property
from types import MappingProxyType

from specgen.computing.registry import Calculation, Provided
from specgen.conditions import Expression
from specgen.patterns import Pattern
from specgen.questions import Column, Question
from specgen.wording import Text

# What a finding can be, the gravest first.
FINDING_KINDS = ("conflict", "omission", "ambiguity", "caution")


@dataclass(frozen=True, slots=True)
class Fact:
    """A condition with a name, read by many clauses."""

    id: str
    condition: Expression
    why: str
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Warrant:
    """What a warranty clause has warranted, for how many years (a text), and by whom."""

    what: Text
    years: Text
    by: str


@dataclass(frozen=True, slots=True)
class Clause:
    """One paragraph of the library.

    ``article`` is where it stands; ``under`` the clause below which it stands one level deeper, or
    None; ``submits`` pairs kinds of submittal with what is submitted; ``office`` is true if an
    office's folder gave it.
    """

    id: str
    article: str
    under: str | None
    when: Expression | None
    text: Text
    cites: tuple[str, ...]
    needs: tuple[str, ...]
    submits: tuple[tuple[str, Text], ...]
    warrants: Warrant | None
    table: str | None
    why: str
    source: str
    file: str
    line: int
    office: bool


@dataclass(frozen=True, slots=True)
class Standard:
    """An entry of the register of standards."""

    id: str
    title: str
    publisher: str
    kind: str
    status: str
    replaced_by: str
    governs: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Check:
    """One cross-check rule.

    ``settle`` are the ways out, each answers as typed by question; ``place`` the clause where its
    finding shows, or None; ``raises`` is a brief that must raise it, ``spares`` a near miss that
    must not.
    """

    id: str
    kind: str
    when: Expression
    says: Text
    because: str
    source: str
    settle: tuple[Mapping[str, object], ...]
    place: str | None
    raises: Mapping[str, object]
    spares: Mapping[str, object]
    file: str
    line: int
    office: bool


@dataclass(frozen=True, slots=True)
class Advice:
    """What an adviser says for or against one choice of a question, for this roof.

    ``weight`` is 1 for a nuance, 2 for a reason, 3 for one that nearly decides; ``check`` or
    ``clause`` is where the reason can be followed up.
    """

    id: str
    question: str
    choice: str
    aspect: str
    when: Expression | None
    speaks_for: bool
    weight: int
    says: Text
    source: str
    check: str | None
    clause: str | None
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Recognizer:
    """Words by which a section that somebody else wrote answers a question.

    A pattern of ``says`` answers where one of ``near`` is found in the same sentence or the label
    of its paragraph, one of ``under`` there, in the article's title or in a paragraph above, none
    of ``unless`` where ``near`` looks and none of ``outside`` where ``under`` does (no patterns: no
    such limit). ``also`` names the places where nothing is required and that are read all the same
    (see PLACES); ``negated`` is the answer that the words give with a no before them, empty for
    none, ``same`` where a no changes nothing; ``sure`` from 0 to 1 how directly they answer;
    ``several`` whether a section may rightly give two answers. ``given`` is a condition over the
    other answers of the document without which the words say nothing. A pattern whose answer is
    ``mention`` answers by ``negated`` alone; one whose answer is ``figure`` or ``row`` by what it
    captures.
    """

    id: str
    question: str
    says: tuple[Pattern, ...]
    near: tuple[str, ...]
    under: tuple[str, ...]
    unless: tuple[str, ...]
    outside: tuple[str, ...]
    also: tuple[str, ...]
    negated: str
    given: Expression | None
    sure: float
    several: bool
    file: str
    line: int


# Where a section names things without requiring them. ``related`` is the work of others and of
# other parts of the building, ``alternates`` what is priced beside the base bid.
PLACES = ("title", "references", "definitions", "submittals", "related", "alternates")


@dataclass(frozen=True, slots=True)
class ArticlePlan:
    """An article of the section; ``lists`` names what the program computes into it."""

    id: str
    title: str
    lists: str


@dataclass(frozen=True, slots=True)
class PartPlan:
    title: str
    articles: tuple[ArticlePlan, ...]


@dataclass(frozen=True, slots=True)
class SubmittalKind:
    """A kind of submittal, the article that lists it and the paragraph that leads its list."""

    id: str
    name: str
    article: str
    lead: str


@dataclass(frozen=True, slots=True)
class OptionPlan:
    """An answer offered at a stop of the guided reading, and what is right or wrong about it."""

    text: str
    right: bool
    says: str


@dataclass(frozen=True, slots=True)
class StopPlan:
    """A stop of the guided reading: the clause that is read, why it is there, and a question."""

    title: str
    clause: str
    why: str
    source: str
    question: str
    options: tuple[OptionPlan, ...]
    line: int


@dataclass(frozen=True, slots=True)
class ReadingPlan:
    """The guided reading: the answers of its brief as typed, and its stops in order."""

    title: str
    brief: Mapping[str, object]
    stops: tuple[StopPlan, ...]
    file: str
    line: int


@dataclass(frozen=True, eq=False)
class Library:
    """Everything the folder says, in the order in which the section has it.

    ``calculations`` are by the names of the values that they provide; ``arises`` has the condition
    of each by its id; ``reading`` is the guided reading, None where the library has none.
    """

    number: str
    title: str
    parts: tuple[PartPlan, ...]
    submittal_kinds: tuple[SubmittalKind, ...]
    questions: Mapping[str, Question]
    calculations: Mapping[str, Calculation]
    arises: Mapping[str, Expression | None]
    facts: Mapping[str, Fact]
    clauses: Mapping[str, Clause]
    standards: Mapping[str, Standard]
    checks: Mapping[str, Check]
    advice: Mapping[str, Advice]
    vague: tuple[str, ...] = ()
    recognizers: Mapping[str, Recognizer] = field(default_factory=dict)
    reading: ReadingPlan | None = None

    def __getstate__(self) -> dict[str, object]:
        """What is kept of a library: its fields, without what is worked out from them."""
        state = {each.name: getattr(self, each.name) for each in fields(self)}
        return {
            name: dict(value) if isinstance(value, MappingProxyType) else value
            for name, value in state.items()
        }

    def __setstate__(self, state: dict[str, object]) -> None:
        for name, value in state.items():
            kept = MappingProxyType(value) if isinstance(value, dict) else value
            object.__setattr__(self, name, kept)

    def rank_of(self, question: str) -> int:
        """The place of a question in the order in which they are asked."""
        return self._ranks[question]

    @cached_property
    def _ranks(self) -> Mapping[str, int]:
        return {question: rank for rank, question in enumerate(self.questions)}

    def kind_of(self, name: str) -> str:
        """The kind of a question or of a computed value; empty for a fact."""
        question = self.questions.get(name)
        if question is not None:
            return question.kind
        provided = self._provided.get(name)
        return provided.kind if provided is not None else ""

    def columns_of(self, name: str) -> tuple[Column, ...]:
        """The columns of a question or of a computed value of kind table."""
        question = self.questions.get(name)
        return question.columns if question is not None else self._provided[name].columns

    @cached_property
    def _provided(self) -> Mapping[str, Provided]:
        return {
            provided.id: provided
            for calculation in self.calculations.values()
            for provided in calculation.provides
        }

    @cached_property
    def top_level(self) -> Mapping[str, tuple[Clause, ...]]:
        """The clauses of each article that stand under no other."""
        return _grouped((c.article, c) for c in self.clauses.values() if c.under is None)

    @cached_property
    def children(self) -> Mapping[str, tuple[Clause, ...]]:
        """The clauses that stand one level below each clause."""
        return _grouped((c.under, c) for c in self.clauses.values() if c.under is not None)

    @cached_property
    def subtrees(self) -> Mapping[str, tuple[str, ...]]:
        """By id, each clause with all that stand below it, in their order."""

        def below(clause: Clause) -> Iterable[str]:
            yield clause.id
            for child in self.children.get(clause.id, ()):
                yield from below(child)

        return {clause.id: tuple(below(clause)) for clause in self.clauses.values()}


def _grouped(pairs: Iterable[tuple[str, Clause]]) -> Mapping[str, tuple[Clause, ...]]:
    groups: dict[str, list[Clause]] = {}
    for key, clause in pairs:
        groups.setdefault(key, []).append(clause)
    return {key: tuple(clauses) for key, clauses in groups.items()}
