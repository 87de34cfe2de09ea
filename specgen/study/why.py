"""Why a paragraph stands: what put it there, what would remove it, and what goes with it."""

from __future__ import annotations

from collections.abc import Iterable

from specgen.computing.registry import reads_of
from specgen.dependence import names_in
from specgen.engine import Engine
from specgen.integrity import cites_literally
from specgen.library import Clause
from specgen.scope import Scope
from specgen.section import Article, Paragraph, Reason, numbered
from specgen.spans import Words, words_of
from specgen.study.explained import Beside, Given, Number, ParagraphWhy
from specgen.study.saying import Ground, answer_words, grounds_of, label_of
from specgen.study.ways import (
    Goal,
    Ways,
    clause_stands,
    compared_by,
    how_it_stands,
    lineage,
    read_directly,
    ways_to,
)
from specgen.values import Open


def why_paragraph(engine: Engine, number: str) -> ParagraphWhy:
    """Why the paragraph of this number stands; KeyError if the section has none."""
    article, paragraph, above = _placed(engine, number)
    reason = paragraph.reason
    kind = "clause" if reason.clause else "open" if paragraph.decision is not None else "computed"
    clause = engine.library.clauses.get(reason.clause)
    return ParagraphWhy(
        kind=kind,
        number=number,
        article=f"{article.number} {article.title}",
        text=engine.section.plain(paragraph.spans),
        clause=reason.clause,
        question=paragraph.decision.question if paragraph.decision is not None else "",
        under=tuple(beside(engine, each.id) for each in _uppers(engine, clause)),
        grounds=_placing_grounds(engine, paragraph, clause),
        given=_given(engine, reason),
        numbers=tuple(_numbers(engine, reason)),
        caused_by=tuple(beside(engine, each) for each in _causes(paragraph)),
        removal=_removal(engine, paragraph, above, article),
        needs=tuple(beside(engine, each) for each in reason.needs),
        needed_by=tuple(beside(engine, each) for each in needing(engine, reason.clause)),
        standards=tuple(engine.library.standards[cited] for cited in reason.cites),
        submits=_submits(engine, clause),
        findings=tuple(
            finding
            for finding in engine.findings
            if reason.clause and engine.library.checks[finding.id].place == reason.clause
        ),
        why=reason.why,
        source=reason.source,
        office=reason.office,
    )


def beside(engine: Engine, clause: str) -> Beside:
    """How another clause stands, with its place and its text where it does."""
    stands, _ = how_it_stands(engine.library.clauses[clause], engine.scope)
    state = "open" if isinstance(stands, Open) else "in" if stands else "out"
    text = ""
    if state == "in":
        text = engine.section.plain(engine.standings[clause].spans)
    return Beside(clause, engine.section.places.get(clause, ""), state, text)


def needing(engine: Engine, clause: str) -> Iterable[str]:
    """The clauses of this section that need a clause beside them."""
    return (
        each.id
        for each in engine.library.clauses.values()
        if clause in each.needs and each.id in engine.section.places
    )


def _placed(engine: Engine, number: str) -> tuple[Article, Paragraph, Paragraph | None]:
    """A paragraph with its article and the paragraph it stands under."""
    for article in engine.section.articles():
        if not number.startswith(f"{article.number}."):
            continue
        by_number = {each: paragraph for paragraph, each in numbered(article)}
        if number in by_number:
            return article, by_number[number], by_number.get(number.rpartition(".")[0])
    raise KeyError(number)


def _uppers(engine: Engine, clause: Clause | None) -> list[Clause]:
    return list(lineage(clause, engine.scope))[:-1] if clause is not None else []


def _causes(paragraph: Paragraph) -> tuple[str, ...]:
    if paragraph.decision is not None:
        return paragraph.decision.clauses
    return paragraph.reason.caused_by


def _placing_grounds(
    engine: Engine, paragraph: Paragraph, clause: Clause | None
) -> tuple[Ground, ...]:
    """What decided the condition of a clause and of all that it stands under."""
    if clause is None:
        return ()
    grounds: list[Ground] = []
    for each in lineage(clause, engine.scope):
        grounds += grounds_of(each.when, engine.scope)
        if each.table is not None:
            label = label_of(engine.library, each.table)
            grounds.append(Ground(f"{label}: answered", f"{label}: left out", "", (each.table,)))
    return tuple(dict.fromkeys(grounds))


def _given(engine: Engine, reason: Reason) -> tuple[Given, ...]:
    """The answers that a paragraph reads itself, and not only through a computed value."""
    through = {
        name
        for value, _ in reason.calculations
        for name in engine.scope.result(engine.library.calculations[value]).because
    }
    clause = engine.library.clauses.get(reason.clause)
    direct = _read_directly(engine, clause) if clause is not None else frozenset()
    return tuple(
        Given(
            question=name,
            label=engine.library.questions[name].label,
            answer=answer_words(engine.scope, name),
            places=name in reason.placed_by,
        )
        for name, _ in reason.answers
        if name not in through or name in direct
    )


def _read_directly(engine: Engine, clause: Clause) -> frozenset[str]:
    """The questions that a clause reads, and what it stands under, without a calculation."""
    names = (name for each in lineage(clause, engine.scope) for name in names_in(each))
    return read_directly(engine.library, names)


def _numbers(engine: Engine, reason: Reason) -> Iterable[Number]:
    """The computed values that a paragraph names itself."""
    clause = engine.library.clauses.get(reason.clause)
    for name, value in reason.calculations:
        calculation = engine.library.calculations[name]
        reads = reads_of(calculation, engine.library.arises[calculation.id])
        label = label_of(engine.library, name)
        if clause is not None:
            yield Number(name, label, value, calculation.title, tuple(sorted(reads)))


def _submits(engine: Engine, clause: Clause | None) -> tuple[tuple[str, str], ...]:
    if clause is None:
        return ()
    return tuple((each.kind, each.what) for each in engine.standings[clause.id].submittals)


# ---------------------------------------------------------------------------------------- removal


def _removal(
    engine: Engine, paragraph: Paragraph, above: Paragraph | None, article: Article
) -> Ways | None:
    """What would remove a paragraph; None where it stands in every section."""
    reason = paragraph.reason
    if not reason.placed_by:
        return None
    if reason.clause:
        clause = engine.library.clauses[reason.clause]
        return ways_to(engine, clause_stands(clause, False), compared_by(engine, clause))
    if paragraph.decision is not None:
        upper = above.reason.clause if above is not None else ""
        return ways_to(engine, _nothing_waits(engine, paragraph.decision.question, upper, article))
    lines = paragraph.children or (paragraph,)
    return ways_to(engine, _nothing_listed(engine, [words_of(line.spans) for line in lines]))


def _nothing_waits(engine: Engine, question: str, upper: str, article: Article) -> Goal:
    """Nothing in a place waits on a question any more."""
    library = engine.library
    siblings = library.children[upper] if upper else library.top_level[article.id]

    def goal(scope: Scope) -> tuple[bool, frozenset[str]]:
        for clause in siblings:
            stands, because = how_it_stands(clause, scope)
            if isinstance(stands, Open) and scope.first_question(stands.waits_on) == question:
                return False, because | {question}
        return True, frozenset()

    return goal


def _nothing_listed(engine: Engine, lines: list[str]) -> Goal:
    """None of these lines is listed: no clause that stands cites or submits what they say."""
    causes = [
        (clause, line)
        for line in lines
        for clause in engine.library.clauses.values()
        if _could_list(clause, line)
    ]

    def goal(scope: Scope) -> tuple[bool, frozenset[str]]:
        for clause, line in causes:
            stands, because = how_it_stands(clause, scope)
            if stands is True:
                lists, read = _lists(clause, line, scope)
                if lists:
                    return False, because | read
        return True, frozenset()

    return goal


def _could_list(clause: Clause, line: str) -> bool:
    if any(line.startswith(f"{cited}, ") for cited in clause.cites):
        return True
    return any(text.expressions or _listed_as(text.source, line) for _, text in clause.submits)


def _lists(clause: Clause, line: str, scope: Scope) -> tuple[bool, frozenset[str]]:
    """Whether a clause that stands puts a line into a list, and what it read for that."""
    for cited in clause.cites:
        if line.startswith(f"{cited}, "):
            spans, read = scope.text_of(clause.text, clause)
            text = "".join(span.text for span in spans if isinstance(span, Words))
            return cites_literally(text, cited), read
    for _, submitted in clause.submits:
        spans, read = scope.text_of(submitted, clause)
        if _listed_as(words_of(spans), line):
            return True, read
    return False, frozenset()


def _listed_as(what: str, line: str) -> bool:
    return line.lower().startswith(f"{what} (".lower())
