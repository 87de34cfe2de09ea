"""The explanation of whatever somebody names."""

from __future__ import annotations

from specgen.engine import Engine
from specgen.study.absent import why_absent
from specgen.study.explained import Explanation
from specgen.study.hanging import why_name
from specgen.study.leaning import why_finding, why_standard
from specgen.study.naming import clause_named, paragraphs_numbered, target_named
from specgen.study.why import why_paragraph


def explain(engine: Engine, name: str) -> Explanation:
    """Why what is named stands, or what hangs on it.

    A clause that waits is explained by the open decision it waits in, one that is out by what keeps
    it out. BadInput with the nearest right names if there is nothing of this name.
    """
    target = target_named(name, engine.library, engine.section)
    if target.kind == "paragraph":
        return why_paragraph(engine, target.name)
    if target.kind == "clause":
        return explain_absence(engine, target.name)
    if target.kind == "standard":
        return why_standard(engine, target.name)
    if target.kind == "finding":
        return why_finding(engine, target.name)
    return why_name(engine, target)


def explain_absence(engine: Engine, name: str) -> Explanation:
    """Why a clause does not stand; why it does, where it does."""
    clause = clause_named(name, engine.library)
    absent = why_absent(engine, clause)
    if absent is not None:
        return absent
    return why_paragraph(engine, engine.section.places[clause])


def numbers_of(engine: Engine) -> tuple[str, ...]:
    """The number of every paragraph of a section, in reading order."""
    return tuple(paragraphs_numbered(engine.section))
