"""The library's recognizers run over a document: each match a statement with its words.

A pattern is tried only on passages that hold one of its cues, and compiled the first time that one
does.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from specgen.library import Library, Recognizer
from specgen.patterns import Pattern, compiled, holds_amount, needs_amount, takes_words
from specgen.questions import AnswerError, Question, read_answer
from specgen.review.figures import typed
from specgen.review.negation import negated
from specgen.review.outline import Outline
from specgen.review.passages import Passage, passages_of
from specgen.review.shapes import Anchor, Statement
from specgen.values import Value

OPPOSITE = {"yes": "no", "no": "yes"}
# How many letters of a cue are looked for first; a shorter cue is searched for at once.
START = 3
# The name of a second figure that has to be alike: the other side of a square.
SAME = "same"
# How much less sure an answer is that is one of several offered, or an end of a range.
OFFERED = 0.45
# How much less sure where the words that limit it stand above and not beside it.
ABOVE = 0.97
# And where they stand among submittals, related work or the like, which require nothing.
MENTIONED = 0.9

_OFFER_BEFORE = re.compile(r"\d\S{0,8}(?:[ -](?:in|inch|inches|mm|ga|gauge|gage|oz))?\.?"
                           r"\s*(?:or|to|through|and/or)\s*$", re.IGNORECASE)  # fmt: skip
_OFFER_AFTER = re.compile(
    r"[ -]?\)?\s*(?:or|to|through|and/or)\s+"
    r"(?:\d[\d./-]*\s?-?(?:in|mm|ga|gauge|gage|oz|psf|year|ft)"
    r"|\d+$)",
    re.IGNORECASE,
)
_OFFERED_BETWEEN = re.compile(r"\b(?:or|and/or)\b|^\s*/\s*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Hit:
    """A match before it is judged against its neighbors."""

    statement: Statement
    figure: tuple[int, int]
    passage: Passage
    together: bool
    depends: bool


class Recognizers:
    """A library's recognizers, sifted by cue; patterns are compiled as they are needed."""

    def __init__(self, library: Library) -> None:
        self.questions = library.questions
        self._by_cue: dict[str, list[tuple[int, Recognizer, Pattern, bool]]] = {}
        rank = 0
        for recognizer in library.recognizers.values():
            for pattern in recognizer.says:
                rank += 1
                amount = needs_amount(pattern.source)
                for cue in pattern.cues:
                    self._by_cue.setdefault(cue, []).append((rank, recognizer, pattern, amount))
        # Most cues are ruled out by how they begin, before any is searched for.
        self._by_start: dict[str, list[str]] = {}
        for cue in self._by_cue:
            start = cue[:START] if len(cue) >= START else ""
            self._by_start.setdefault(start, []).append(cue)
        self._compiled: dict[tuple[str, bool], re.Pattern[str]] = {}

    def statements(self, outline: Outline) -> Iterator[Statement]:
        """Every statement of a document, passage by passage."""
        for passage in passages_of(outline):
            yield from _judged(self._hits(passage))

    def _hits(self, passage: Passage) -> Iterator[Hit]:
        low = passage.text.lower()
        has_amount = holds_amount(low)
        tried: dict[int, tuple[Recognizer, Pattern]] = {}
        starts = {low[at : at + START] for at in range(len(low) - START + 1)} | {""}
        for start in self._by_start.keys() & starts:
            for cue in self._by_start[start]:
                if cue in low:
                    for rank, recognizer, pattern, amount in self._by_cue[cue]:
                        if (not passage.place or passage.place in recognizer.also) and (
                            has_amount or not amount
                        ):
                            tried[rank] = (recognizer, pattern)
        for rank in sorted(tried):
            yield from self._matches(passage, *tried[rank])

    def _matches(self, passage: Passage, recognizer: Recognizer, pattern: Pattern) -> Iterator[Hit]:
        limited: float | None = None
        for match in self._of(pattern.source, passage.spelled).finditer(passage.text):
            if limited is None:
                limited = self._limits(passage, recognizer)
            if not limited:
                return
            hit = self._hit(passage, recognizer, pattern, match, limited)
            if hit is not None:
                yield hit

    def _limits(self, passage: Passage, recognizer: Recognizer) -> float:
        """How far the place of a passage lets a recognizer answer: 0 for not at all."""
        own = (passage.text, passage.label)
        wide = (*own, *passage.above)
        if recognizer.near and not self._found(recognizer.near, (*own, passage.head)):
            return 0.0
        if recognizer.unless and self._found(recognizer.unless, own):
            return 0.0
        if recognizer.outside and self._found(recognizer.outside, wide):
            return 0.0
        if not recognizer.under or self._found(recognizer.under, own):
            return 1.0
        return ABOVE if self._found(recognizer.under, passage.above) else 0.0

    def _found(self, patterns: Iterable[str], texts: Iterable[str]) -> bool:
        return any(self._of(pattern).search(text) for pattern in patterns for text in texts)

    def _hit(
        self,
        passage: Passage,
        recognizer: Recognizer,
        pattern: Pattern,
        match: re.Match[str],
        limited: float,
    ) -> Hit | None:
        question = self.questions[recognizer.question]
        start, end = match.span()
        answer = pattern.answer
        if (
            answer not in ("figure", "row")
            and recognizer.negated != "same"
            and negated(passage.text, start, end, passage.above, passage.label)
        ):
            said = recognizer.negated or (
                OPPOSITE.get(answer, "") if question.kind == "yes-no" and answer == "yes" else ""
            )
            if not said:
                return None
            answer = said
        elif answer == "mention":
            return None
        raw = _raw(question, answer, match)
        if SAME in match.re.groupindex and typed(question.kind, match[SAME]) != raw:
            return None
        value, fault = _read(question, raw)
        while passage.text[end - 1] in ".,;:| " and end - 1 > start:
            end -= 1
        sure = recognizer.sure * limited * (MENTIONED if passage.place else 1.0)
        figure = match.span("figure") if "figure" in match.re.groupindex else (start, end)
        # Temperatures are meant from one to the other: neither end is an alternative.
        ranged = question.kind == "temperature"
        if (
            answer == "figure"
            and not ranged
            and (offered := _offered(passage.text, *figure)) is not None
        ):
            sure *= OFFERED
            start, end = min(start, offered[0]), max(end, offered[1])
        statement = Statement(
            question=question.id,
            raw=raw,
            value=value,
            at=Anchor(passage.block, passage.start + start, passage.start + end),
            words=passage.text[start:end],
            confidence=round(sure, 3),
            recognizer=recognizer.id,
            fault=fault,
        )
        together = question.kind in ("choices", "table")
        return Hit(statement, figure, passage, together, recognizer.given is not None)

    def _of(self, source: str, spelled: bool = False) -> re.Pattern[str]:
        found = self._compiled.get((source, spelled))
        if found is None:
            if spelled and not takes_words(source):
                found = self._of(source)
            else:
                found = compiled(source, spelled=spelled)
            self._compiled[source, spelled] = found
        return found


@lru_cache(maxsize=4)
def recognizers_of(library: Library) -> Recognizers:
    """The recognizers of a library, their patterns kept compiled while it is in use."""
    return Recognizers(library)


def _raw(question: Question, answer: str, match: re.Match[str]) -> object:
    """What a brief would hold for a match."""
    if question.kind == "table":
        kinds = {column.id: column.kind for column in question.columns}
        return [{name: typed(kinds[name], match[name]) for name in kinds}]
    if answer == "figure":
        return typed(question.kind, match["figure"])
    return answer


def _read(question: Question, raw: object) -> tuple[Value | None, str]:
    try:
        return read_answer(question, raw), ""
    except AnswerError as error:
        return None, str(error)


def _offered(text: str, start: int, end: int) -> tuple[int, int] | None:
    """Where a figure and the other that is offered with it stand, or the ends of a range; None for
    a figure that stands alone."""
    begin = max(0, start - 24)
    before = _OFFER_BEFORE.search(text[begin:start])
    if before is not None:
        return begin + before.start(), end
    after = _OFFER_AFTER.match(text[end : end + 24])
    return (start, end + after.end()) if after is not None else None


def _judged(hits: Iterable[Hit]) -> Iterator[Statement]:
    """The statements of a passage: said once each, and less sure where several are offered."""
    kept: dict[tuple[str, str, bool], Hit] = {}
    for hit in hits:
        # What hangs on other answers may yet fall away, and must not hide what does not.
        key = (hit.statement.question, str(hit.statement.raw), hit.depends)
        before = kept.get(key)
        if before is None or hit.statement.confidence > before.statement.confidence:
            kept[key] = hit
    for hit in kept.values():
        yield _weighed(hit, kept.values())


def _weighed(hit: Hit, others: Iterable[Hit]) -> Statement:
    if hit.together:
        return hit.statement
    for other in others:
        if other is hit or other.statement.question != hit.statement.question:
            continue
        first, second = sorted((hit.figure, other.figure))
        between = hit.passage.text[first[1] : second[0]]
        if second[0] >= first[1] and len(between) < 40 and _OFFERED_BETWEEN.search(between):
            return _less_sure(hit.statement)
    return hit.statement


def _less_sure(statement: Statement) -> Statement:
    return replace(statement, confidence=round(statement.confidence * OFFERED, 3))
