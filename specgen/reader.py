"""The folders of questions, clauses, checks and standards read and joined into one Library.

An office lays its own folders over it: an entry with the id of one that exists replaces it, a new
id adds. Everything that does not hold together is reported at once, with file, line and a sentence.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from specgen.computing.registry import CALCULATIONS, available
from specgen.entries import (
    AdviceEntry,
    CheckEntry,
    ClauseEntry,
    Entry,
    FactEntry,
    QuestionEntry,
    ReadingEntry,
    RecognizerEntry,
    SectionEntry,
    StandardEntry,
    shape_entry,
)
from specgen.faults import BadInput, Fault, nearest
from specgen.files import is_folder
from specgen.integrity import faults_of
from specgen.language import parse_condition
from specgen.library import (
    Advice,
    ArticlePlan,
    Check,
    Clause,
    Fact,
    Library,
    PartPlan,
    ReadingPlan,
    Recognizer,
    Standard,
    SubmittalKind,
)
from specgen.questions import Question
from specgen.shaping import Shaper, faults_of_section
from specgen.yamlread import Mapping as YamlMapping
from specgen.yamlread import Sequence, read_yaml

MOST_FILES = 500
DEEPEST_LEVEL = 4
_COMPUTED_FROM = {name for calculation in CALCULATIONS for name in calculation.inputs}

EntryShape = TypeVar("EntryShape", bound=Entry)


@dataclass
class LibraryReader:
    """Gathers entries and faults over all folders, then joins them into a Library."""

    faults: list[Fault] = field(default_factory=list)
    section: SectionEntry | None = None
    questions: dict[str, Question] = field(default_factory=dict)
    facts: dict[str, Fact] = field(default_factory=dict)
    clauses: dict[str, Clause] = field(default_factory=dict)
    standards: dict[str, Standard] = field(default_factory=dict)
    checks: dict[str, Check] = field(default_factory=dict)
    advice: dict[str, Advice] = field(default_factory=dict)
    recognizers: dict[str, Recognizer] = field(default_factory=dict)
    reading: ReadingPlan | None = None
    seen: dict[tuple[Path, str, str], tuple[str, int]] = field(default_factory=dict)
    after: dict[str, str] = field(default_factory=dict)

    # -- reading -----------------------------------------------------------------------------

    def read_folder(self, folder: Path, *, office: bool) -> None:
        if not is_folder(folder):
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
        shaper = Shaper(file, office, self.faults)
        if kind == "section.yaml":
            self._read_section(content, file)
        elif kind == "reading.yaml":
            self._read_reading(content, shaper)
        elif kind == "standards.yaml":
            for entry, line in self._entries(content, StandardEntry, folder, file):
                self.standards[entry.id] = shaper.standard(entry, line)
        elif kind == "facts.yaml":
            for fact_entry, line in self._entries(content, FactEntry, folder, file):
                fact = shaper.fact(fact_entry, line)
                if fact is not None:
                    self.facts[fact.id] = fact
        elif kind == "advice.yaml":
            for advice, line in self._entries(content, AdviceEntry, folder, file):
                self.advice[advice.id] = shaper.advice(advice, line)
        elif kind == "questions":
            for question, line in self._entries(content, QuestionEntry, folder, file):
                self._ask(shaper.question(question, path.stem, line))
        elif kind.startswith("part-"):
            for clause, line in self._entries(content, ClauseEntry, folder, file):
                self.clauses[clause.id] = shaper.clause(clause, line)
                if clause.after is not None:
                    self.after[clause.id] = clause.after
        elif kind == "checks":
            for check_entry, line in self._entries(content, CheckEntry, folder, file):
                check = shaper.check(check_entry, line)
                if check is not None:
                    self.checks[check.id] = check
        elif kind == "recognizers":
            for known, line in self._entries(content, RecognizerEntry, folder, file):
                self.recognizers[known.id] = shaper.recognizer(known, line)
        else:
            says = (
                "a library has section, standards, facts, advice, reading, questions/, checks/, "
                "recognizers/, part-…/."
            )
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

    def _ask(self, question: Question) -> None:
        """Take up a question; one that calculations read keeps its kind when it is replaced."""
        first = self.questions.get(question.id)
        if first is not None and question.id in _COMPUTED_FROM and _form(first) != _form(question):
            columns = " and columns" if first.columns else ""
            says = f"{question.id} is a {first.kind} to the calculations; keep its kind{columns}."
            self.faults.append(Fault(question.file, question.line, says))
        self.questions[question.id] = question

    def _read_section(self, content: Any, file: str) -> None:
        section = shape_entry(content, SectionEntry, file, 1)
        if isinstance(section, list):
            self.faults.extend(section)
            return
        self.section = section
        says = (f"section: {fault}" for fault in faults_of_section(section))
        self.faults.extend(Fault(file, None, each) for each in says)

    def _read_reading(self, content: Any, shaper: Shaper) -> None:
        reading = shape_entry(content, ReadingEntry, shaper.file, 1)
        if isinstance(reading, list):
            self.faults.extend(reading)
            return
        self.reading = shaper.reading(reading, content["stops"].lines, content.line)

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
            recognizers=MappingProxyType(self.recognizers),
            reading=self.reading,
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
        order = list(self.clauses)
        placed: set[str] = set()
        for new, anchor in self.after.items():
            if anchor not in self.clauses:
                hint = nearest(anchor, self.clauses)
                self._fault_at(
                    self.clauses[new], f"stands after {anchor}, which does not exist", hint
                )
                continue
            if anchor == new:
                self._fault_at(self.clauses[new], "stands after itself")
                continue
            order.remove(new)
            index = order.index(anchor) + 1
            while order[index : index + 1] and order[index] in placed & self._following(anchor):
                index += 1
            order.insert(index, new)
            placed.add(new)
        self.clauses = {name: self.clauses[name] for name in order}

    def _following(self, anchor: str) -> set[str]:
        """The clauses that stand after one, or after one that does."""
        found: set[str] = set()
        before = {anchor}
        while before:
            before = {new for new, after in self.after.items() if after in before} - found
            found |= before
        return found

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


def _form(question: Question) -> tuple[object, ...]:
    """What a calculation relies on in a question that it reads."""
    return question.kind, *((column.id, column.kind) for column in question.columns)


def _renamed(raw: YamlMapping, old: str, new: str) -> YamlMapping:
    copy = YamlMapping(raw.line)
    for key, value in raw.items():
        copy[new if key == old else key] = value
        copy.lines[new if key == old else key] = raw.lines[key]
    return copy
