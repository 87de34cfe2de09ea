"""Checks of the document itself: what no condition over answers can see.

Each is a function over the section, with the id and kind of the finding that it gives. They matter
most for an office's own clauses; the library's are held to them by its tests.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from specgen.checks import Finding
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section, numbered, open_questions
from specgen.values import Choice

# Editions of ASCE 7 that a later one supersedes, and the codes that still adopt them: IBC 2018 and
# 2021 and IRC 2021 adopt 7-16 (from memory).
ADOPTED = {"ASCE/SEI 7-16": ("ibc-2018", "ibc-2021", "irc-2021")}
_FIGURE = re.compile(r"\d+(?:[-/.,]\d+)*")
_CRITERION = re.compile(
    r"\bclass\b|\bno (?:leak|water)|\bwithout leak|\bpass|\brat(?:ed|ing)\b|\bnot less than\b", re.I
)


@dataclass(frozen=True, slots=True)
class DocumentCheck:
    """A check over the section tree: its id and kind, why it is one, and what finds it."""

    id: str
    kind: str
    because: str
    source: str
    find: Callable[[Scope, Section], Iterator[tuple[str, str]]]


def document_findings(scope: Scope, section: Section) -> Iterator[Finding]:
    """The findings of every document check, each with its place."""
    for check in DOCUMENT_CHECKS:
        for says, place in check.find(scope, section):
            yield Finding(
                id=check.id,
                kind=check.kind,
                says=says,
                because=check.because,
                source=check.source,
                place=place,
                answers=(),
                settle=(),
            )


def _open_in_construction(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    return _open_in(scope, section, ("for-construction",))


def _open_in_pricing(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    return _open_in(scope, section, ("for-permit", "for-bid"))


def _open_in(scope: Scope, section: Section, issues: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    issue = scope.answers.get("issue")
    waiting = open_questions(section)
    if isinstance(issue, Choice) and issue.id in issues and waiting:
        names = ", ".join(item.question for item in waiting[:8])
        more = f" and {len(waiting) - 8} more" if len(waiting) > 8 else ""
        yield f"The section is {issue.text}, and is open on {names}{more}.", ""


def _missing_companions(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    present = {paragraph.reason.clause for paragraph in section.paragraphs()}
    for paragraph in section.paragraphs():
        if paragraph.decision is not None:
            present.update(paragraph.decision.clauses)
    for paragraph, number, _ in section.required:
        for needed in paragraph.reason.needs:
            if needed not in present:
                yield f"{paragraph.reason.clause} stands without {needed}, which it needs.", number


def _outdated_standards(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    code = scope.answers.get("code")
    adopted_by = code.id if isinstance(code, Choice) else ""
    for paragraph, number, _ in section.required:
        for cited in paragraph.reason.cites:
            standard = scope.library.standards[cited]
            if standard.status != "current" and adopted_by not in ADOPTED.get(cited, ()):
                replaced = standard.replaced_by.rstrip(".")
                yield f"{cited} is {standard.status}; instead: {replaced}.", number


def _unbounded_tests(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    """Tests asked for in a paragraph that names neither figure nor class nor outcome."""
    for article in section.articles():
        if article.id != "performance":
            continue
        for paragraph, number in numbered(article):
            text = section.plain(paragraph.spans)
            tests = [c for c in paragraph.reason.cites if _is_test(scope.library, c)]
            bare = text
            for cited in paragraph.reason.cites:
                bare = bare.replace(cited, "")
            if tests and not _FIGURE.search(bare) and not _CRITERION.search(bare):
                yield f"{', '.join(tests)} is asked for without a criterion: {text}", number


def _is_test(library: Library, cited: str) -> bool:
    return library.standards[cited].kind == "test method"


def _vague_words(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    for _, number, text in section.required:
        for found in _vague_in(text, scope.library.vague):
            yield f'"{found}" cannot be measured or priced: {text}', number


# Texts stay the same from one answer to the next; reading each once keeps a screen quick.
@lru_cache(maxsize=4096)
def _vague_in(text: str, vague: tuple[str, ...]) -> tuple[str, ...]:
    pattern = _vague_pattern(vague)
    return tuple(found[0] for found in pattern.finditer(text)) if pattern is not None else ()


@lru_cache(maxsize=4)
def _vague_pattern(vague: tuple[str, ...]) -> re.Pattern[str] | None:
    words = "|".join(re.escape(word) for word in vague)
    return re.compile(rf"(?<!\w)(?:{words})(?!\w)", re.I) if vague else None


def _said_twice(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    first: dict[str, str] = {}
    for _, number, text in section.required:
        words = text.lower()
        if words in first and len(words) > 20:
            yield f"The same requirement stands at {first[words]}: {text}", number
        first.setdefault(words, number)


def _values_differ(scope: Scope, section: Section) -> Iterator[tuple[str, str]]:
    first: dict[str, tuple[str, str]] = {}
    for _, number, text in section.required:
        words = _without_figures(text)
        if "#" not in words or len(words) < 20:
            continue
        known = first.setdefault(words, (text, number))
        if known[0].lower() != text.lower():
            yield f"The same words with other figures stand at {known[1]}: {known[0]}", number


@lru_cache(maxsize=4096)
def _without_figures(text: str) -> str:
    return _FIGURE.sub("#", text.lower())


DOCUMENT_CHECKS = (
    DocumentCheck(
        "open-decision-in-construction",
        "conflict",
        "What is issued for construction is built from; a roofer cannot build a question.",
        "common practice",
        _open_in_construction,
    ),
    DocumentCheck(
        "open-decision-in-pricing",
        "omission",
        "Each bidder prices an open question in its own way, and the lowest guess wins.",
        "common practice",
        _open_in_pricing,
    ),
    DocumentCheck(
        "companion-missing",
        "omission",
        "A product without its installation, or an installation without its product, is built by"
        " guess.",
        "common practice",
        _missing_companions,
    ),
    DocumentCheck(
        "standard-not-current",
        "ambiguity",
        "A laboratory does not test to a withdrawn standard, and two editions give two answers.",
        "the register of standards",
        _outdated_standards,
    ),
    DocumentCheck(
        "test-without-criterion",
        "omission",
        "A method without a pressure, a rate or a class can be run by anybody, failed by nobody.",
        "common practice",
        _unbounded_tests,
    ),
    DocumentCheck(
        "vague-words",
        "ambiguity",
        "Words without a measure are read one way by who prices and another by who inspects.",
        "common practice",
        _vague_words,
    ),
    DocumentCheck(
        "said-twice",
        "ambiguity",
        "What is said twice is changed once.",
        "common practice",
        _said_twice,
    ),
    DocumentCheck(
        "same-words-other-figures",
        "conflict",
        "Two figures for one requirement leave the choice to whoever gains by it.",
        "common practice",
        _values_differ,
    ),
)
