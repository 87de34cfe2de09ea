"""Reading the folder of questions, clauses and standards into one immutable Library.

An office lays its own folders over it: an entry with the id of one that exists replaces it, a new
id adds. Everything that does not hold together is reported at once, with file, line and a sentence.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from specgen.computing.registry import CALCULATIONS, available
from specgen.conditions import Expression, LanguageError
from specgen.entries import (
    AdviceEntry,
    CheckEntry,
    ClauseEntry,
    Entry,
    FactEntry,
    QuestionEntry,
    SectionEntry,
    StandardEntry,
    shape_entry,
)
from specgen.faults import BadInput, Fault, nearest
from specgen.integrity import faults_of
from specgen.language import parse_condition, parse_text
from specgen.library import (
    FINDING_KINDS,
    Advice,
    ArticlePlan,
    Check,
    Clause,
    Fact,
    Library,
    PartPlan,
    Standard,
    SubmittalKind,
    Warrant,
)
from specgen.questions import (
    COLUMN_KINDS,
    KINDS,
    QUANTITY_KINDS,
    AnswerError,
    Column,
    Question,
    read_answer,
    unprintable_in,
)
from specgen.values import Choice
from specgen.wording import Text
from specgen.yamlread import Mapping as YamlMapping
from specgen.yamlread import Sequence, read_yaml

MOST_FILES = 500
DEEPEST_LEVEL = 4


EntryShape = TypeVar("EntryShape", bound=Entry)


@dataclass
class LibraryReader:
    """Gathers entries and faults over all folders, then joins them into a Library."""

    faults: list[Fault] = field(default_factory=list)
    section: SectionEntry | None = None
    section_file: str = ""
    questions: dict[str, Question] = field(default_factory=dict)
    facts: dict[str, Fact] = field(default_factory=dict)
    clauses: dict[str, Clause] = field(default_factory=dict)
    standards: dict[str, Standard] = field(default_factory=dict)
    checks: dict[str, Check] = field(default_factory=dict)
    advice: dict[str, Advice] = field(default_factory=dict)
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
        elif kind == "advice.yaml":
            for advice, line in self._entries(content, AdviceEntry, folder, file):
                self._add_advice(advice, file, line)
        elif kind == "questions":
            for question, line in self._entries(content, QuestionEntry, folder, file):
                self._add_question(question, path.stem, file, line, office)
        elif kind.startswith("part-"):
            for clause, line in self._entries(content, ClauseEntry, folder, file):
                self._add_clause(clause, file, line, office)
        elif kind == "checks":
            for check, line in self._entries(content, CheckEntry, folder, file):
                self._add_check(check, file, line, office)
        else:
            says = "a library has section, standards, facts, advice, questions/, checks/, part-…/."
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

    def _text(self, source: str, owner: str, file: str, line: int) -> Text:
        source = " ".join(source.split("\n"))
        if unprintable_in(source):
            says = f"{owner}: the text holds a character that cannot be printed."
            self.faults.append(Fault(file, line, says))
            return parse_text("")
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

    def _add_check(self, entry: CheckEntry, file: str, line: int, office: bool) -> None:
        when = self._condition(entry.when, entry.id, file, line)
        if entry.kind not in FINDING_KINDS:
            hint = nearest(entry.kind, FINDING_KINDS)
            says = f"{entry.id}: {entry.kind} is no kind of finding.{hint}"
            self.faults.append(Fault(file, line, says))
        if when is None:
            return
        self.checks[entry.id] = Check(
            id=entry.id,
            kind=entry.kind,
            when=when,
            says=self._text(entry.says, entry.id, file, line),
            because=entry.because,
            source=entry.source,
            settle=tuple(entry.settle),
            place=entry.place,
            raises=entry.raises,
            spares=entry.spares,
            file=file,
            line=line,
            office=office,
        )

    def _add_advice(self, entry: AdviceEntry, file: str, line: int) -> None:
        if entry.speaks not in ("for", "against") or not 1 <= entry.weight <= 3:
            says = f"{entry.id}: it speaks for or against, with a weight of 1, 2 or 3."
            self.faults.append(Fault(file, line, says))
        self.advice[entry.id] = Advice(
            id=entry.id,
            question=entry.question,
            choice=entry.choice,
            aspect=entry.aspect,
            when=self._condition(entry.when, entry.id, file, line),
            speaks_for=entry.speaks == "for",
            weight=entry.weight,
            says=self._text(entry.says, entry.id, file, line),
            source=entry.source,
            check=entry.check,
            clause=entry.clause,
            file=file,
            line=line,
        )

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
        questions = self._in_order_of_topics(self.section.topics)
        arises = {
            calculation.id: parse_condition(calculation.when) if calculation.when else None
            for calculation in CALCULATIONS
        }
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
            questions=MappingProxyType(questions),
            calculations=MappingProxyType(available({**questions, **self.facts}, arises)),
            arises=MappingProxyType(arises),
            facts=MappingProxyType(self.facts),
            clauses=MappingProxyType(self.clauses),
            standards=MappingProxyType(self.standards),
            checks=MappingProxyType(self.checks),
            advice=MappingProxyType(self.advice),
            vague=tuple(self.section.vague),
        )
        faults = faults_of(library)
        if faults:
            raise BadInput(faults)
        return library

    def _in_order_of_topics(self, topics: list[str]) -> dict[str, Question]:
        """The questions as they are asked: topic by topic, an office's own topics last."""
        ranks = {topic: rank for rank, topic in enumerate(topics)}
        ordered = sorted(
            self.questions.values(), key=lambda question: ranks.get(question.topic, len(ranks))
        )
        return {question.id: question for question in ordered}

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
