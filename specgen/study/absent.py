"""Why a clause does not stand, and the smallest change that brings it in."""

from __future__ import annotations

from dataclasses import replace

from specgen.engine import Engine
from specgen.library import Clause
from specgen.scope import Scope
from specgen.study.explained import AbsentWhy
from specgen.study.saying import Ground, grounds_of, label_of
from specgen.study.ways import (
    Ways,
    clause_stands,
    compared_by,
    how_it_stands,
    lineage,
    ways_to,
)
from specgen.study.why import beside
from specgen.values import NOT_ASKED, Open


def why_absent(engine: Engine, name: str) -> AbsentWhy | None:
    """Why the clause of this id does not stand, or None where it does."""
    clause = engine.library.clauses[name]
    stands, _ = how_it_stands(clause, engine.scope)
    if stands is True:
        return None
    holder, grounds = _held(clause, engine.scope)
    ways = ways_to(engine, clause_stands(clause, True), compared_by(engine, clause))
    ways, text = _tried(engine, clause, ways)
    titles = {plan.id: plan.title for part in engine.library.parts for plan in part.articles}
    return AbsentWhy(
        clause=name,
        article=titles[clause.article],
        state="open" if isinstance(stands, Open) else "out",
        held_by="" if holder is clause else holder.id,
        grounds=grounds,
        ways=ways,
        text=text,
        why=clause.why,
        source=clause.source,
        needs=tuple(beside(engine, each) for each in clause.needs),
        standards=tuple(engine.library.standards[cited] for cited in clause.cites),
    )


def _held(clause: Clause, scope: Scope) -> tuple[Clause, tuple[Ground, ...]]:
    """The uppermost clause that is out, or else open, and what decided that."""
    waiting: tuple[Clause, tuple[Ground, ...]] | None = None
    for each in lineage(clause, scope):
        holds, _ = scope.holds(each.when)
        if holds is False:
            return each, grounds_of(each.when, scope)
        if isinstance(holds, Open):
            waiting = waiting or (each, grounds_of(each.when, scope))
        elif each.table is not None:
            table, _ = scope.lookup(each.table)
            label = label_of(scope.library, each.table)
            wanted = f"{label}: answered"
            if table is NOT_ASKED:
                return each, (Ground(f"{label}: left out", wanted, "", (each.table,)),)
            if isinstance(table, Open):
                ground = Ground(wanted, "", "", (each.table,), is_open=True)
                waiting = waiting or (each, (ground,))
    assert waiting is not None  # a clause that neither is out nor waits stands
    return waiting


def _tried(engine: Engine, clause: Clause, ways: Ways) -> tuple[Ways, str]:
    """The ways that the engine confirms, and the clause's text after the first of them."""
    kept = []
    text = ""
    for steps, changes in zip(ways.ways, ways.changes, strict=True):
        following = engine.answering_all(changes)
        standing = following.standings.get(clause.id)
        if standing is None or standing.stands is not True:
            continue
        kept.append((steps, changes))
        text = text or following.section.plain(standing.spans)
    found = tuple(steps for steps, _ in kept), tuple(changes for _, changes in kept)
    return replace(ways, ways=found[0], changes=found[1]), text
