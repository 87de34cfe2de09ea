"""Entries of the library's files made into what the library holds: conditions and texts parsed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from specgen.conditions import Expression, LanguageError
from specgen.entries import (
    AdviceEntry,
    CheckEntry,
    ClauseEntry,
    FactEntry,
    QuestionEntry,
    ReadingEntry,
    RecognizerEntry,
    SectionEntry,
    StandardEntry,
)
from specgen.faults import Fault, closed, nearest
from specgen.language import parse_condition, parse_text
from specgen.library import (
    FINDING_KINDS,
    PLACES,
    Advice,
    Check,
    Clause,
    Fact,
    OptionPlan,
    ReadingPlan,
    Recognizer,
    Standard,
    StopPlan,
    Warrant,
)
from specgen.patterns import Pattern, PatternError, judge, read_pattern
from specgen.questions import (
    COLUMN_KINDS,
    KINDS,
    QUANTITY_KINDS,
    RESERVED,
    AnswerError,
    Column,
    Question,
    read_answer,
    unprintable_in,
)
from specgen.units import Quantity
from specgen.values import Choice, Value
from specgen.wording import Text


@dataclass(frozen=True, slots=True)
class Shaper:
    """Shapes the entries of one file; what is wrong with them is added to ``faults``."""

    file: str
    office: bool
    faults: list[Fault]

    def _condition(self, source: str | None, owner: str, line: int) -> Expression | None:
        if source is None:
            return None
        try:
            return parse_condition(source)
        except LanguageError as error:
            self.faults.append(Fault(self.file, line, f"{owner}: {error}."))
            return None

    def _text(self, source: str, owner: str, line: int) -> Text:
        source = " ".join(source.split("\n"))
        if unprintable_in(source):
            says = f"{owner}: the text holds a character that cannot be printed."
            self.faults.append(Fault(self.file, line, says))
            return parse_text("")
        try:
            return parse_text(source)
        except LanguageError as error:
            self.faults.append(Fault(self.file, line, f"{owner}: {error}."))
            return parse_text("")

    def standard(self, entry: StandardEntry, line: int) -> Standard:
        if entry.status not in ("current", "superseded", "withdrawn"):
            says = f"{entry.id}: the status is current, superseded or withdrawn."
            self.faults.append(Fault(self.file, line, says))
        elif (entry.status != "current") != bool(entry.replaced_by):
            says = f"{entry.id}: replaced_by goes with a status that is not current."
            self.faults.append(Fault(self.file, line, says))
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

    def fact(self, entry: FactEntry, line: int) -> Fact | None:
        condition = self._condition(entry.condition, entry.id, line)
        if condition is None:
            return None
        return Fact(entry.id, condition, entry.why, self.file, line)

    def question(self, entry: QuestionEntry, topic: str, line: int) -> Question:
        self.faults.extend(Fault(self.file, line, says) for says in _faults_of_question(entry))
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
            when=self._condition(entry.when, entry.id, line),
            optional=entry.optional,
            usual=entry.usual,
            why=entry.why,
            source=entry.source,
            file=self.file,
            line=line,
            office=self.office,
        )
        if entry.range and entry.kind in ("number", *QUANTITY_KINDS):
            try:
                low, high = (read_answer(question, bound) for bound in entry.range)
                question = replace(question, low=low, high=high)
                if _size(low) > _size(high):
                    raise AnswerError("has its highest before its lowest")
            except (AnswerError, ValueError) as error:
                self.faults.append(Fault(self.file, line, f"{entry.id}: its range {error}."))
        return question

    def check(self, entry: CheckEntry, line: int) -> Check | None:
        when = self._condition(entry.when, entry.id, line)
        if entry.kind not in FINDING_KINDS:
            hint = nearest(entry.kind, FINDING_KINDS)
            says = f"{entry.id}: {entry.kind} is no kind of finding.{hint}"
            self.faults.append(Fault(self.file, line, says))
        if when is None:
            return None
        return Check(
            id=entry.id,
            kind=entry.kind,
            when=when,
            says=self._text(entry.says, entry.id, line),
            because=entry.because,
            source=entry.source,
            settle=tuple(entry.settle),
            place=entry.place,
            raises=entry.raises,
            spares=entry.spares,
            file=self.file,
            line=line,
            office=self.office,
        )

    def advice(self, entry: AdviceEntry, line: int) -> Advice:
        if entry.speaks not in ("for", "against") or not 1 <= entry.weight <= 3:
            says = f"{entry.id}: it speaks for or against, with a weight of 1, 2 or 3."
            self.faults.append(Fault(self.file, line, says))
        return Advice(
            id=entry.id,
            question=entry.question,
            choice=entry.choice,
            aspect=entry.aspect,
            when=self._condition(entry.when, entry.id, line),
            speaks_for=entry.speaks == "for",
            weight=entry.weight,
            says=self._text(entry.says, entry.id, line),
            source=entry.source,
            check=entry.check,
            clause=entry.clause,
            file=self.file,
            line=line,
        )

    def recognizer(self, entry: RecognizerEntry, line: int) -> Recognizer:
        says: list[Pattern] = []
        for answer, patterns in entry.says.items():
            for pattern in patterns:
                try:
                    says.append(read_pattern(answer, pattern))
                except PatternError as error:
                    self._pattern_fault(entry.id, pattern, error, line)
        limits = (entry.near, entry.under, entry.unless, entry.outside)
        for pattern in (pattern for patterns in limits for pattern in patterns):
            try:
                judge(pattern)
            except PatternError as error:
                self._pattern_fault(entry.id, pattern, error, line)
        if not 0 < entry.sure <= 1:
            says_so = f"{entry.id}: sure is above 0 and at most 1."
            self.faults.append(Fault(self.file, line, says_so))
        for place in entry.also:
            if place not in PLACES:
                says_so = f"{entry.id}: {place} is no such place.{nearest(place, PLACES)}"
                self.faults.append(Fault(self.file, line, says_so))
        return Recognizer(
            id=entry.id,
            question=entry.question,
            says=tuple(says),
            near=tuple(entry.near),
            under=tuple(entry.under),
            unless=tuple(entry.unless),
            outside=tuple(entry.outside),
            also=tuple(entry.also),
            negated=entry.negated,
            given=self._condition(entry.given, entry.id, line),
            sure=entry.sure,
            several=entry.several,
            file=self.file,
            line=line,
        )

    def reading(self, entry: ReadingEntry, lines: Sequence[int], line: int) -> ReadingPlan:
        """The guided reading; ``lines`` are those of its stops."""
        for stop, at in zip(entry.stops, lines, strict=True):
            if len(stop.options) != 3 or sum(option.right for option in stop.options) != 1:
                says = f"{stop.title}: a stop has three options, one of them right."
                self.faults.append(Fault(self.file, at, says))
        return ReadingPlan(
            title=entry.title,
            brief=entry.brief,
            stops=tuple(
                StopPlan(
                    stop.title,
                    stop.clause,
                    stop.why,
                    stop.source,
                    stop.question,
                    tuple(OptionPlan(o.text, o.right, o.says) for o in stop.options),
                    at,
                )
                for stop, at in zip(entry.stops, lines, strict=True)
            ),
            file=self.file,
            line=line,
        )

    def _pattern_fault(self, owner: str, pattern: str, error: PatternError, line: int) -> None:
        says = closed(f"{owner}: the pattern {pattern[:60]} {error}")
        self.faults.append(Fault(self.file, line, says))

    def clause(self, entry: ClauseEntry, line: int) -> Clause:
        owner = entry.id
        if (entry.at is None) == (entry.under is None):
            self.faults.append(Fault(self.file, line, f"{owner}: give either `at` or `under`."))
        warrants = None
        if entry.warrants is not None:
            warrants = Warrant(
                self._text(entry.warrants.what, owner, line),
                self._text(entry.warrants.years, owner, line),
                entry.warrants.by,
            )
        return Clause(
            id=entry.id,
            article=entry.at or "",
            under=entry.under,
            when=self._condition(entry.when, owner, line),
            text=self._text(entry.text, owner, line),
            cites=tuple(entry.cites),
            needs=tuple(entry.needs),
            submits=tuple(
                (kind, self._text(what, owner, line)) for kind, what in entry.submits.items()
            ),
            warrants=warrants,
            table=entry.table,
            why=entry.why,
            source=entry.source,
            file=self.file,
            line=line,
            office=self.office,
        )


def _size(bound: Value) -> float:
    """What bounds of a range are ordered by."""
    assert isinstance(bound, Quantity | float)  # only these kinds have a range
    return bound.magnitude if isinstance(bound, Quantity) else bound


def faults_of_section(entry: SectionEntry) -> Iterable[str]:
    """What is wrong with the plan of a section: the ids of its articles, and what they list."""
    articles = [article for part in entry.parts for article in part.articles]
    ids = [article.id for article in articles]
    for index, article in enumerate(articles):
        # Bookmarks of a word processor are made of these, and end after 40 letters.
        if not re.fullmatch(r"[a-z][a-z0-9-]{0,30}", article.id):
            yield f"the id of an article is a short word like panels, not {article.id[:60]}."
        if article.id in ids[:index]:
            yield f"the article {article.id} stands twice."
        if article.lists not in ("", "standards", "submittals"):
            yield f"{article.id} lists standards or submittals, not {article.lists[:60]}."
    for kind in entry.submittals:
        if kind.article not in ids:
            hint = nearest(kind.article, ids)
            yield f"{kind.id} is listed in {kind.article[:60]}, which is no article.{hint}"


def _faults_of_question(entry: QuestionEntry) -> Iterable[str]:
    if not re.fullmatch(r"[a-z][a-z0-9_]*", entry.id):
        yield f"the id of a question is written like lowest_slope, not {entry.id}."
    if entry.id in RESERVED:
        yield f"{entry.id} is a name that a brief keeps for itself; choose another id."
    if entry.kind not in KINDS:
        yield f"{entry.id}: {entry.kind} is no kind of question.{nearest(entry.kind, KINDS)}"
    if (entry.kind in ("choice", "choices")) != bool(entry.choices):
        yield f"{entry.id}: choices go with the kinds choice and choices."
    yield from _faults_of_ids(entry.id, "choice", [choice.id for choice in entry.choices])
    yield from _faults_of_ids(entry.id, "column", [column.id for column in entry.columns])
    if (entry.kind == "table") != bool(entry.columns):
        yield f"{entry.id}: columns go with the kind table."
    if entry.range is not None and len(entry.range) != 2:
        yield f"{entry.id}: a range is the lowest and the highest."
    for column in entry.columns:
        if column.kind not in COLUMN_KINDS:
            hint = nearest(column.kind, COLUMN_KINDS)
            yield f"{entry.id}: {column.kind} is no kind of column.{hint}"


def _faults_of_ids(owner: str, what: str, ids: list[str]) -> Iterable[str]:
    """The ids of choices or columns: each a word that a brief can hold as it is, and used once."""
    for index, each in enumerate(ids):
        if not re.fullmatch(r"[a-z0-9][a-z0-9._-]*", each):
            yield f"{owner}: the id of a {what} is written like double-lock, not {each}."
        if each in ids[:index]:
            yield f"{owner}: the {what} {each} stands twice."
