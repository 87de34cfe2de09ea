"""Reading the folder of questions, clauses and standards into one immutable Library.

An office lays its own folders over it: an entry with the id of one that exists replaces it, a new
id adds. Everything that does not hold together is reported at once, with file, line and a sentence.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from specgen.conditions import Choice, Expression, LanguageError, parse_condition, parse_text
from specgen.entries import (
    ClauseEntry,
    Entry,
    FactEntry,
    QuestionEntry,
    SectionEntry,
    StandardEntry,
    shape_entry,
)
from specgen.faults import BadInput, Fault, nearest
from specgen.questions import (
    COLUMN_KINDS,
    KINDS,
    QUANTITY_KINDS,
    AnswerError,
    Column,
    Question,
    read_answer,
)
from specgen.yamlread import Mapping as YamlMapping
from specgen.yamlread import Sequence, read_yaml

MOST_FILES = 500
DEEPEST_LEVEL = 4


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

    what: Expression
    years: Expression
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
    text: Expression
    cites: tuple[str, ...]
    needs: tuple[str, ...]
    submits: tuple[tuple[str, Expression], ...]
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


@dataclass(frozen=True)
class Library:
    """Everything the folder says, in the order in which the section has it."""

    number: str
    title: str
    parts: tuple[PartPlan, ...]
    submittal_kinds: tuple[SubmittalKind, ...]
    questions: Mapping[str, Question]
    facts: Mapping[str, Fact]
    clauses: Mapping[str, Clause]
    standards: Mapping[str, Standard]

    @cached_property
    def top_level(self) -> Mapping[str, tuple[Clause, ...]]:
        """The clauses of each article that stand under no other."""
        return _grouped((c.article, c) for c in self.clauses.values() if c.under is None)

    @cached_property
    def children(self) -> Mapping[str, tuple[Clause, ...]]:
        """The clauses that stand one level below each clause."""
        return _grouped((c.under, c) for c in self.clauses.values() if c.under is not None)


def _grouped(pairs: Iterable[tuple[str, Clause]]) -> Mapping[str, tuple[Clause, ...]]:
    groups: dict[str, list[Clause]] = {}
    for key, clause in pairs:
        groups.setdefault(key, []).append(clause)
    return {key: tuple(clauses) for key, clauses in groups.items()}


def load_library(base: Path | None = None, overlays: Iterable[Path] = ()) -> Library:
    """The library at ``base`` (the one that comes with specgen) with an office's folders over it.

    Raises BadInput with every fault of every file.
    """
    if base is None:
        from clauses import FOLDER as base
    reader = _Reader()
    reader.read_folder(base, office=False)
    for folder in overlays:
        reader.read_folder(folder, office=True)
    return reader.library()


EntryShape = TypeVar("EntryShape", bound=Entry)


@dataclass
class _Reader:
    """Gathers entries and faults over all folders, then joins them into a Library."""

    faults: list[Fault] = field(default_factory=list)
    section: SectionEntry | None = None
    section_file: str = ""
    questions: dict[str, Question] = field(default_factory=dict)
    facts: dict[str, Fact] = field(default_factory=dict)
    clauses: dict[str, Clause] = field(default_factory=dict)
    standards: dict[str, Standard] = field(default_factory=dict)
    seen: dict[tuple[Path, str, str], tuple[str, int]] = field(default_factory=dict)
    after: dict[str, str] = field(default_factory=dict)

    # -- reading -----------------------------------------------------------------------------

    def read_folder(self, folder: Path, *, office: bool) -> None:
        if not folder.is_dir():
            raise BadInput([Fault(str(folder), None, "there is no such folder of clauses.")])
        files = sorted(p for p in folder.rglob("*.yaml") if ".." not in p.parts)
        if len(files) > MOST_FILES or not files:
            count = f"more than {MOST_FILES}" if files else "no"
            raise BadInput([Fault(str(folder), None, f"the folder holds {count} YAML files.")])
        for path in files:
            try:
                self._read_file(path, folder, office)
            except BadInput as error:
                self.faults.extend(error.faults)

    def _read_file(self, path: Path, folder: Path, office: bool) -> None:
        content = read_yaml(path)
        kind = path.relative_to(folder).parts[0]
        file = str(path)
        if kind == "section.yaml":
            self._read_section(content, file)
        elif kind == "standards.yaml":
            for entry, line in self._entries(content, StandardEntry, folder, file):
                self.standards[entry.id] = _standard(entry)
                self._check_replacement(entry, file, line)
        elif kind == "facts.yaml":
            for fact, line in self._entries(content, FactEntry, folder, file):
                self._add_fact(fact, file, line)
        elif kind == "questions":
            for question, line in self._entries(content, QuestionEntry, folder, file):
                self._add_question(question, path.stem, file, line, office)
        elif kind.startswith("part-"):
            for clause, line in self._entries(content, ClauseEntry, folder, file):
                self._add_clause(clause, file, line, office)
        elif kind != "checks":
            says = "a library has section.yaml, standards.yaml, facts.yaml, questions/ and part-…/."
            self.faults.append(Fault(file, None, f"this file is not part of a library; {says}"))

    def _entries(
        self, content: Any, shape: type[EntryShape], folder: Path, file: str
    ) -> Iterable[tuple[EntryShape, int]]:
        if content is None:
            return
        if not isinstance(content, Sequence):
            self.faults.append(Fault(file, 1, "a file of the library is a list of entries."))
            return
        for raw, line in zip(content, content.lines, strict=True):
            if shape is FactEntry and isinstance(raw, YamlMapping) and "is" in raw:
                raw = _renamed(raw, "is", "condition")
            entry = shape_entry(raw, shape, file, line)
            if isinstance(entry, list):
                self.faults.extend(entry)
                continue
            name: str = getattr(entry, "id")  # noqa: B009 - every listed shape has one
            first = self.seen.setdefault((folder, shape.__name__, name), (file, line))
            if first != (file, line):
                says = f"the id {name} stands twice, first in {first[0]}, line {first[1]}."
                self.faults.append(Fault(file, line, says))
                continue
            yield entry, line

    def _read_section(self, content: Any, file: str) -> None:
        section = shape_entry(content, SectionEntry, file, 1)
        if isinstance(section, list):
            self.faults.extend(section)
        else:
            self.section, self.section_file = section, file

    def _condition(self, source: str | None, owner: str, file: str, line: int) -> Expression | None:
        if source is None:
            return None
        try:
            return parse_condition(source)
        except LanguageError as error:
            self.faults.append(Fault(file, line, f"{owner}: {error}."))
            return None

    def _text(self, source: str, owner: str, file: str, line: int) -> Expression:
        try:
            return parse_text(source)
        except LanguageError as error:
            self.faults.append(Fault(file, line, f"{owner}: {error}."))
            return parse_text("")

    def _check_replacement(self, entry: StandardEntry, file: str, line: int) -> None:
        if entry.status not in ("current", "superseded", "withdrawn"):
            says = f"{entry.id}: the status is current, superseded or withdrawn."
            self.faults.append(Fault(file, line, says))
        elif (entry.status != "current") != bool(entry.replaced_by):
            says = f"{entry.id}: replaced_by goes with a status that is not current."
            self.faults.append(Fault(file, line, says))

    def _add_fact(self, entry: FactEntry, file: str, line: int) -> None:
        condition = self._condition(entry.condition, entry.id, file, line)
        if condition is not None:
            self.facts[entry.id] = Fact(entry.id, condition, entry.why, file, line)

    def _add_question(
        self, entry: QuestionEntry, topic: str, file: str, line: int, office: bool
    ) -> None:
        self.faults.extend(Fault(file, line, says) for says in _faults_of_question(entry))
        question = Question(
            id=entry.id,
            topic=topic,
            ask=entry.ask,
            label=entry.label,
            kind=entry.kind,
            unit=entry.unit,
            low=None,
            high=None,
            choices=tuple(Choice(c.id, c.label, c.text or c.label, c.means) for c in entry.choices),
            columns=tuple(Column(c.id, c.label, c.kind) for c in entry.columns),
            when=self._condition(entry.when, entry.id, file, line),
            optional=entry.optional,
            usual=entry.usual,
            why=entry.why,
            source=entry.source,
            file=file,
            line=line,
            office=office,
        )
        if entry.range and entry.kind in ("number", *QUANTITY_KINDS):
            try:
                low, high = (read_answer(question, bound) for bound in entry.range)
                question = replace(question, low=low, high=high)
            except (AnswerError, ValueError) as error:
                self.faults.append(Fault(file, line, f"{entry.id}: its range {error}."))
        self.questions[entry.id] = question

    def _add_clause(self, entry: ClauseEntry, file: str, line: int, office: bool) -> None:
        owner = entry.id
        if (entry.at is None) == (entry.under is None):
            self.faults.append(Fault(file, line, f"{owner}: give either `at` or `under`."))
        warrants = None
        if entry.warrants is not None:
            warrants = Warrant(
                self._text(entry.warrants.what, owner, file, line),
                self._text(entry.warrants.years, owner, file, line),
                entry.warrants.by,
            )
        if entry.after is not None:
            self.after[entry.id] = entry.after
        self.clauses[entry.id] = Clause(
            id=entry.id,
            article=entry.at or "",
            under=entry.under,
            when=self._condition(entry.when, owner, file, line),
            text=self._text(entry.text, owner, file, line),
            cites=tuple(entry.cites),
            needs=tuple(entry.needs),
            submits=tuple(
                (kind, self._text(what, owner, file, line)) for kind, what in entry.submits.items()
            ),
            warrants=warrants,
            table=entry.table,
            why=entry.why,
            source=entry.source,
            file=file,
            line=line,
            office=office,
        )

    # -- joining -----------------------------------------------------------------------------

    def library(self) -> Library:
        if self.section is None:
            self.faults.append(Fault("section.yaml", None, "the library has no section.yaml."))
            raise BadInput(self.faults)
        if not self.faults:
            self._place_clauses()
        if self.faults:
            raise BadInput(self.faults)
        library = Library(
            number=self.section.number,
            title=self.section.title,
            parts=tuple(
                PartPlan(p.title, tuple(ArticlePlan(a.id, a.title, a.lists) for a in p.articles))
                for p in self.section.parts
            ),
            submittal_kinds=tuple(
                SubmittalKind(s.id, s.name, s.article, s.lead) for s in self.section.submittals
            ),
            questions=MappingProxyType(self.questions),
            facts=MappingProxyType(self.facts),
            clauses=MappingProxyType(self.clauses),
            standards=MappingProxyType(self.standards),
        )
        faults = faults_of(library)
        if faults:
            raise BadInput(faults)
        return library

    def _place_clauses(self) -> None:
        """Give every clause under another the article of that other, and order the clauses."""
        for clause in list(self.clauses.values()):
            article = self._article_of(clause)
            if article is not None and article != clause.article:
                self.clauses[clause.id] = replace(clause, article=article)
        for new, anchor in self.after.items():
            if anchor not in self.clauses:
                self._fault_at(self.clauses[new], f"stands after {anchor}, which does not exist")
                continue
            clause = self.clauses.pop(new)
            items = list(self.clauses.items())
            index = [name for name, _ in items].index(anchor) + 1
            self.clauses = dict([*items[:index], (new, clause), *items[index:]])

    def _article_of(self, clause: Clause) -> str | None:
        level = 1
        upper = clause
        while upper.under is not None:
            if upper.under not in self.clauses:
                hint = nearest(upper.under, self.clauses)
                self._fault_at(clause, f"stands under {upper.under}, which does not exist", hint)
                return None
            level += 1
            upper = self.clauses[upper.under]
            if level > DEEPEST_LEVEL:
                self._fault_at(clause, f"stands deeper than level {DEEPEST_LEVEL}")
                return None
        return upper.article

    def _fault_at(self, clause: Clause, says: str, hint: str = "") -> None:
        self.faults.append(Fault(clause.file, clause.line, f"{clause.id} {says}.{hint}"))


def _renamed(raw: YamlMapping, old: str, new: str) -> YamlMapping:
    copy = YamlMapping(raw.line)
    for key, value in raw.items():
        copy[new if key == old else key] = value
        copy.lines[new if key == old else key] = raw.lines[key]
    return copy


def _standard(entry: StandardEntry) -> Standard:
    return Standard(
        entry.id,
        entry.title,
        entry.publisher,
        entry.kind,
        entry.status,
        entry.replaced_by,
        entry.governs,
        entry.source,
        entry.note,
    )


def _faults_of_question(entry: QuestionEntry) -> Iterable[str]:
    if not re.fullmatch(r"[a-z][a-z0-9_]*", entry.id):
        yield f"the id of a question is written like lowest_slope, not {entry.id}."
    if entry.kind not in KINDS:
        yield f"{entry.id}: {entry.kind} is no kind of question.{nearest(entry.kind, KINDS)}"
    if (entry.kind in ("choice", "choices")) != bool(entry.choices):
        yield f"{entry.id}: choices go with the kinds choice and choices."
    if (entry.kind == "table") != bool(entry.columns):
        yield f"{entry.id}: columns go with the kind table."
    if entry.range is not None and len(entry.range) != 2:
        yield f"{entry.id}: a range is the lowest and the highest."
    for column in entry.columns:
        if column.kind not in COLUMN_KINDS:
            yield f"{entry.id}: {column.kind} is no kind of column."


# ------------------------------------------------------------------------------ what hangs together


def faults_of(library: Library) -> list[Fault]:
    """Every reference in the library that leads nowhere, at its file and line."""
    checker = _Checker(library)
    for question in library.questions.values():
        if question.when is not None:
            checker.expression(question.when, question.id, question.file, question.line)
    for fact in library.facts.values():
        checker.expression(fact.condition, fact.id, fact.file, fact.line)
    for clause in library.clauses.values():
        checker.clause(clause)
    checker.circles()
    return checker.faults


class _Checker:
    def __init__(self, library: Library) -> None:
        self.library = library
        self.faults: list[Fault] = []
        self.articles = {article.id for part in library.parts for article in part.articles}
        self.kinds = {kind.id for kind in library.submittal_kinds}
        self.choices = {
            question.id: {choice.id for choice in question.choices}
            for question in library.questions.values()
            if question.choices
        }
        self.known = {*library.questions, *library.facts}

    def expression(self, expression: Expression, owner: str, file: str, line: int) -> None:
        for name in sorted(expression.names - self.known):
            says = f"{owner}: no question or fact is called {name}.{nearest(name, self.known)}"
            self.faults.append(Fault(file, line, says))
        for article in sorted(expression.articles - self.articles):
            says = f"{owner}: no article is called {article}.{nearest(article, self.articles)}"
            self.faults.append(Fault(file, line, says))
        for name, literal in sorted(expression.literals):
            offered = self.choices.get(name)
            if offered is not None and literal not in offered:
                says = f"{owner}: {name} has no choice {literal}.{nearest(literal, offered)}"
                self.faults.append(Fault(file, line, says))

    def clause(self, clause: Clause) -> None:
        library, file, line = self.library, clause.file, clause.line
        expressions = [clause.text, *(text for _, text in clause.submits)]
        if clause.when is not None:
            expressions.append(clause.when)
        if clause.warrants is not None:
            expressions += [clause.warrants.what, clause.warrants.years]
        for expression in expressions:
            self.expression(expression, clause.id, file, line)

        def fault(says: str, hint: str = "") -> None:
            self.faults.append(Fault(file, line, f"{clause.id} {says}.{hint}"))

        if clause.article not in self.articles:
            fault(f"stands in {clause.article}, which is no article",
                  nearest(clause.article, self.articles))
        for needed in clause.needs:
            if needed not in library.clauses:
                fault(f"needs {needed}, which does not exist", nearest(needed, library.clauses))
        for kind, _ in clause.submits:
            if kind not in self.kinds:
                fault(f"submits {kind}, which is no kind of submittal", nearest(kind, self.kinds))
        for cited in clause.cites:
            if cited not in library.standards:
                fault(f"cites {cited}, which is not in the register",
                      nearest(cited, library.standards))
            elif not cites_literally(clause.text.source, cited):
                fault(f"cites {cited}, which its text does not name")
        for named in designations_in(clause.text.source):
            if not any(cites_literally(cited, named) for cited in clause.cites):
                fault(f"names {named} in its text and does not cite it")
        if clause.table is not None:
            question = library.questions.get(clause.table)
            if question is None or question.kind != "table":
                fault(f"prints the table {clause.table}, which is no question of kind table")

    def circles(self) -> None:
        """Facts and asked-when conditions must not lead back to themselves."""
        edges: dict[str, frozenset[str]] = {
            fact.id: fact.condition.names for fact in self.library.facts.values()
        }
        for question in self.library.questions.values():
            edges[question.id] = question.when.names if question.when else frozenset()
        finished: set[str] = set()
        for start in edges:
            path: list[str] = []
            stack: list[tuple[str, bool]] = [(start, False)]
            while stack:
                name, leaving = stack.pop()
                if leaving:
                    finished.add(path.pop())
                elif name in path:
                    owner = self.library.facts.get(name) or self.library.questions[name]
                    says = f"{name} depends on itself, through {', '.join(path)}."
                    self.faults.append(Fault(owner.file, owner.line, says))
                    return
                elif name not in finished:
                    path.append(name)
                    stack.append((name, True))
                    stack.extend((next_name, False) for next_name in edges.get(name, ()))


_DESIGNATION = re.compile(
    r"\b(?:ASTM [A-G]\d+(?:/[A-G]\d+M)?|UL \d+|FM (?:Approvals )?\d{4}|AAMA \d+(?:\.\d)?|"
    r"TAS \d+|RAS \d+|NFPA \d+|ANSI/SPRI [A-Z]+-\d|ANSI/CRRC S\d+|ASCE/SEI 7-\d\d|PS \d)"
)


def designations_in(text: str) -> list[str]:
    """What in a text looks like the designation of a standard."""
    return _DESIGNATION.findall(text)


def cites_literally(text: str, designation: str) -> bool:
    """Whether a text names a standard, and not merely one whose designation begins the same."""
    start = text.find(designation)
    while start >= 0:
        end = start + len(designation)
        following = text[end : end + 1]
        if not following.isalnum() and not (following == "." and text[end + 1 : end + 2].isdigit()):
            return True
        start = text.find(designation, start + 1)
    return False
