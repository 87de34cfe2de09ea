"""What hangs on a question, a computed value or a fact: everything that reads it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from specgen.computing.registry import Calculation, reads_of
from specgen.dependence import dependence_of, names_in
from specgen.engine import Engine
from specgen.library import Check, Library
from specgen.study.explained import Hanging, NameWhy
from specgen.study.naming import Target
from specgen.study.saying import answer_words, grounds_of, label_of
from specgen.study.why import beside
from specgen.values import NOT_ASKED, Open


def why_name(engine: Engine, target: Target) -> NameWhy:
    """Everything that hangs on a question, value or fact."""
    library = engine.library
    name = target.name
    reach = dependence_of(library).reach(name)
    question = library.questions.get(name)
    calculation = library.calculations.get(name)
    fact = library.facts.get(name)
    value, _ = engine.scope.lookup(name)
    condition = question.when if question is not None else fact.condition if fact else None
    says = question.ask if question is not None else calculation.title if calculation else ""
    return NameWhy(
        kind=target.kind,
        name=name,
        label="named condition" if fact is not None else label_of(library, name),
        says=says,
        answer=answer_words(engine.scope, name),
        arises=value is not NOT_ASKED,
        asked=grounds_of(condition, engine.scope),
        inputs=tuple(_inputs(library, name)),
        facts=tuple(
            (each.id, each.condition.source, answer_words(engine.scope, each.id))
            for each in library.facts.values()
            if each.id in reach.names and each.id != name
        ),
        questions=tuple(
            (each.id, each.label, answer_words(engine.scope, each.id))
            for each in library.questions.values()
            if each.id in reach.names and each.id != name
        ),
        calculations=tuple(
            (each.title, tuple(provided.id for provided in each.provides))
            for each in _calculations(library)
            if each.id in reach.calculations and name not in {p.id for p in each.provides}
        ),
        clauses=tuple(_clauses(engine, name, reach.names, reach.clauses)),
        checks=tuple(_checks(engine, name, reach.names, reach.checks)),
        why=question.why if question is not None else fact.why if fact is not None else "",
        source=question.source if question is not None else "",
    )


def _inputs(library: Library, name: str) -> Iterable[str]:
    calculation = library.calculations.get(name)
    if calculation is not None:
        return sorted(reads_of(calculation, library.arises[calculation.id]))
    fact = library.facts.get(name)
    return sorted(fact.condition.names) if fact is not None else ()


def _calculations(library: Library) -> Iterator[Calculation]:
    seen: set[str] = set()
    for calculation in library.calculations.values():
        if calculation.id not in seen:
            seen.add(calculation.id)
            yield calculation


def _clauses(
    engine: Engine, name: str, names: frozenset[str], readers: frozenset[str]
) -> Iterator[Hanging]:
    """The clauses that read a name, themselves or through others, in the order of the section."""
    for clause in engine.library.clauses.values():
        if clause.id in readers:
            read = names_in(clause)
            how = beside(engine, clause.id)
            kind = "condition" if clause.when and _reads(clause.when.names, name, names) else "text"
            via = () if name in read else tuple(sorted(read & names))
            yield Hanging(clause.id, kind, how.place, how.state, via)


def _reads(read: frozenset[str], name: str, names: frozenset[str]) -> bool:
    return name in read or bool(read & names)


def _checks(
    engine: Engine, name: str, names: frozenset[str], readers: frozenset[str]
) -> Iterator[Hanging]:
    for check in engine.library.checks.values():
        if check.id in readers:
            read = check.when.names
            via = () if name in read else tuple(sorted(read & names))
            place = engine.section.places.get(check.place or "", "")
            yield Hanging(check.id, check.kind, place, state_of(engine, check), via)


def state_of(engine: Engine, check: Check) -> str:
    """Whether a check finds something, finds nothing, or waits."""
    holds, _ = engine.scope.holds(check.when)
    return "open" if isinstance(holds, Open) else "found" if holds else "clear"
