"""A document held against the library, itself and the office's brief: everything that is found."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from specgen.brief import Brief
from specgen.checks import Finding
from specgen.engine import Engine
from specgen.library import FINDING_KINDS, Library
from specgen.review.against_brief import against_brief
from specgen.review.companions import companions_found, unbounded_tests
from specgen.review.contradictions import contradictions
from specgen.review.kinds import place_of, quoted
from specgen.review.leftovers import leftovers_found
from specgen.review.missing import coverage_of, missing_found
from specgen.review.outline import Outline
from specgen.review.references_found import numbers_found, references_found
from specgen.review.shapes import Anchor, Found, Review, Statement, Understanding
from specgen.review.standards_named import named_standards, standards_found
from specgen.review.understanding import understand
from specgen.review.wording_found import other_figures, vague_words

# Checks of how a brief was made up, which a finished document cannot be held to.
_OF_BRIEFS = frozenset(("computed-pressures-unconfirmed", "one-record-for-all-bidders"))
_MOST_QUOTED = 3
_LONGEST_QUOTE = 60
_COUNTED = re.compile(r"[\s-]{1,2}\w{1,20}")


def review(outline: Outline, library: Library, brief: Brief | None = None) -> Review:
    """Everything found in a document, the gravest kind first, each kind in reading order.

    ``brief`` is the office's own, held against what the document says.
    """
    understanding = understand(outline, library)
    engine = Engine(library, understanding.answers)
    found = [*_everything(outline, understanding, engine, brief)]
    return Review(
        outline=outline,
        understanding=understanding,
        engine=engine,
        found=_in_order(_once(found), outline),
        coverage=coverage_of(outline, understanding, engine),
    )


def _everything(
    outline: Outline, understanding: Understanding, engine: Engine, brief: Brief | None
) -> Iterator[Found]:
    library = engine.library
    yield from checks_found(outline, understanding, engine)
    yield from contradictions(understanding, outline, library)
    if brief is not None:
        yield from against_brief(outline, understanding, library, brief)
    yield from missing_found(outline, understanding, engine)
    yield from companions_found(outline, engine)
    yield from unbounded_tests(outline, engine)
    yield from standards_found(outline, engine.scope, named_standards(outline, library))
    yield from leftovers_found(outline, _project(brief))
    yield from vague_words(outline, library)
    yield from other_figures(outline)
    yield from references_found(outline)
    yield from numbers_found(outline)


def _project(brief: Brief | None) -> str:
    name = brief.answers.get("project_name") if brief is not None else None
    return name if isinstance(name, str) else ""


# ------------------------------------------------------------------------- the library's checks


def checks_found(outline: Outline, understanding: Understanding, engine: Engine) -> Iterator[Found]:
    """The library's checks that fire from what a document states, on the words that state it.

    A check that asks of an optional question whether it is answered says nothing of a document
    that leaves it out.
    """
    for finding in engine.findings:
        if finding.id in _OF_BRIEFS:
            continue
        decided = [name for name in finding.answers if name in engine.library.questions]
        asked = engine.library.checks[finding.id].when.names
        if any(name in asked and left_out(name, engine) for name in decided):
            continue
        given = [understanding.given_by[name] for name in decided if name in understanding.given_by]
        if given:
            yield _anchored(finding, _as_settled(finding, given), outline)


def left_out(name: str, engine: Engine) -> bool:
    """Whether a question that decided a check was rightly left unanswered by a brief."""
    return engine.library.questions[name].optional and name not in engine.answers


def _as_settled(finding: Finding, given: list[Statement]) -> list[Statement]:
    """Statements, those first that the first ways to settle would change."""
    order: dict[str, int] = {}
    for at, way in enumerate(finding.settle):
        for name in way:
            order.setdefault(name, at)
    return sorted(given, key=lambda statement: order.get(statement.question, len(finding.settle)))


def _anchored(finding: Finding, given: list[Statement], outline: Outline) -> Found:
    """A check's finding on the first statement's words, with the words of the others."""
    at = given[0].at
    block = outline.blocks[at.block]
    placed = replace(finding, says=_with_words(finding.says, given, outline), place=place_of(block))
    return Found(placed, at)


def _with_words(says: str, given: list[Statement], outline: Outline) -> str:
    """What a check says, with what the document says elsewhere that decided it."""
    spans: list[Anchor] = []
    for at in (statement.at for statement in given[1:] if statement.at.block != given[0].at.block):
        near = next((span for span in spans if _beside(span, at)), None)
        if near is None:
            spans.append(at)
        else:
            start, end = min(near.start, at.start), max(near.end, at.end)
            spans[spans.index(near)] = Anchor(at.block, start, end)
    if not spans:
        return says
    return f"{says} Read with {'; '.join(_words(span, outline) for span in spans[:_MOST_QUOTED])}."


def _beside(first: Anchor, second: Anchor) -> bool:
    """Whether two words of one block can be quoted as one phrase."""
    start, end = min(first.start, second.start), max(first.end, second.end)
    return first.block == second.block and end - start <= _LONGEST_QUOTE


def _words(at: Anchor, outline: Outline) -> str:
    """Words in quotation marks with their place; a bare figure with what it counts."""
    block = outline.blocks[at.block]
    counted = (
        _COUNTED.match(block.text, at.end) if block.text[at.start : at.end].isdigit() else None
    )
    end = counted.end() if counted else at.end
    place = f" at {block.place}" if block.place else ""
    return f"{quoted(block, at.start, end, _LONGEST_QUOTE)}{place}"


# ------------------------------------------------------------------------------ order and doubles


def _once(found: Iterable[Found]) -> Iterator[Found]:
    """Findings without those that say the same of the same words."""
    seen: set[tuple[object, ...]] = set()
    for each in found:
        key = (each.finding.id, each.at, each.finding.says)
        if key not in seen:
            seen.add(key)
            yield each


def _in_order(found: Iterable[Found], outline: Outline) -> tuple[Found, ...]:
    """By gravity, then as they stand in the document; what concerns all of it last."""
    last = len(outline.blocks)
    return tuple(
        sorted(
            found,
            key=lambda each: (
                FINDING_KINDS.index(each.finding.kind),
                each.at.block if each.at is not None else last,
                each.at.start if each.at is not None else 0,
            ),
        )
    )
