"""What a standard is used for in a section, and why a check finds something in a brief or not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from specgen.document_checks import DOCUMENT_CHECKS, document_findings
from specgen.engine import Engine
from specgen.questions import read_answer
from specgen.section import numbered
from specgen.study.explained import FindingWhy, StandardWhy
from specgen.study.hanging import state_of
from specgen.study.saying import grounds_of
from specgen.study.ways import check_settled, read_directly, ways_to
from specgen.study.why import beside


def why_standard(engine: Engine, name: str) -> StandardWhy:
    """Every place that cites a standard and what for, and the clauses that would."""
    cited_at = {
        paragraph.reason.clause
        for paragraph in engine.section.paragraphs()
        if name in paragraph.reason.cites
    }
    citing = [clause for clause in engine.library.clauses.values() if name in clause.cites]
    return StandardWhy(
        standard=engine.library.standards[name],
        listed_at=_listed_at(engine, name),
        uses=tuple((beside(engine, c.id), c.why) for c in citing if c.id in cited_at),
        elsewhere=tuple(beside(engine, c.id) for c in citing if c.id not in cited_at),
    )


def _listed_at(engine: Engine, name: str) -> str:
    for article in engine.section.articles():
        for paragraph, number in numbered(article):
            if not paragraph.reason.clause and engine.section.plain(paragraph.spans).startswith(
                f"{name}, "
            ):
                return number
    return ""


def why_finding(engine: Engine, name: str) -> FindingWhy:
    """Why a check finds something here, or does not."""
    check = engine.library.checks.get(name)
    if check is None:
        return _why_in_document(engine, name)
    state = state_of(engine, check)
    first = read_directly(engine.library, check.when.names)
    ways = ways_to(engine, check_settled(check, state == "found"), first)
    place = engine.section.places.get(check.place or "", "")
    finding = engine.found.get(name)
    return FindingWhy(
        check=name,
        kind=check.kind,
        state=state,
        found=() if finding is None else (replace(finding, place=place),),
        grounds=grounds_of(check.when, engine.scope),
        ways=ways,
        settle=tuple(_settling(engine, name, way) for way in check.settle)
        if finding is not None
        else (),
        because=check.because,
        source=check.source,
    )


def _settling(engine: Engine, name: str, way: Mapping[str, object]) -> tuple[str, bool]:
    """A way that the check proposes, in words, and whether it settles it here."""
    questions = engine.library.questions
    answers = {each: read_answer(questions[each], raw) for each, raw in way.items()}
    words = " and ".join(
        f"{each}: {', '.join(map(str, raw)) if isinstance(raw, list) else raw}"
        for each, raw in way.items()
    )
    return words, name not in engine.answering_all(answers).found


def _why_in_document(engine: Engine, name: str) -> FindingWhy:
    check = next(each for each in DOCUMENT_CHECKS if each.id == name)
    found = tuple(f for f in document_findings(engine.scope, engine.section) if f.id == name)
    return FindingWhy(
        check=name,
        kind=check.kind,
        state="found" if found else "clear",
        found=found,
        grounds=(),
        ways=None,
        settle=(),
        because=check.because,
        source=check.source,
    )
