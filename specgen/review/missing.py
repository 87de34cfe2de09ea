"""What this kind of roof needs and a document does not cover, with the clause that would fill"
" it."""

from __future__ import annotations

from collections.abc import Iterator

from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.review.kinds import found_of
from specgen.review.navigating import has_parts, is_related_work, lists_standards
from specgen.review.needs import NEEDS, Need
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Coverage, Found, Understanding
from specgen.spans import ArticleReference, Gap
from specgen.values import Open

# Questions that an office answers for itself; a section rarely prints them.
UNPRINTED = frozenset(
    (
        "project_number", "client", "issue", "issue_date", "units_shown", "building_length",
        "building_width", "overhang", "ground_elevation", "topographic_factor", "entrances_below",
        "public_work", "hail", "wildfire", "climate_zone", "occupancy", "ice_dams",
        "salt_water_distance", "ground_snow", "roof_shape", "product_basis",
    )
)  # fmt: skip


def missing_found(
    outline: Outline, understanding: Understanding, engine: Engine
) -> Iterator[Found]:
    """One omission for each need of this roof that the document does not cover."""
    if not has_parts(outline):
        return
    for need in NEEDS:
        if need_arises(need, engine) and not list(covering(need, outline, understanding)):
            clause, text = filling(need, engine)
            yield found_of(f"missing-{need.id}", need.says, fills=clause, fills_with=text)


def need_arises(need: Need, engine: Engine) -> bool:
    """Whether a need is known to arise for what a document states."""
    return not need.when or any(_is_known(engine, fact) for fact in need.when)


def _is_known(engine: Engine, name: str) -> bool:
    known = name in engine.library.facts or name in engine.library.questions
    return known and engine.scope.lookup(name)[0] is True


def covering(need: Need, outline: Outline, understanding: Understanding) -> Iterator[Block]:
    """The blocks of a document that cover a need."""
    answering = {
        statement.at.block
        for statement in understanding.statements
        if statement.question in need.questions and statement.question in understanding.answers
    }
    for block in outline.said():
        if block.hidden or lists_standards(block):
            continue
        if block.index in answering or (
            block.part in need.parts and _reads(need, block) and not is_related_work(outline, block)
        ):
            yield block


def _reads(need: Need, block: Block) -> bool:
    """Whether a block's words cover a need, or the title of the article that it stands in."""
    return bool(need.reads.search(block.text) or need.reads.search(block.article))


def filling(need: Need, engine: Engine) -> tuple[str, str]:
    """The clause that would fill a need, and its text as far as the answers reach."""
    engine = _as_if_wanted(need, engine)
    there = [name for name in need.clauses if name in engine.library.clauses]
    standing = [name for name in there if name in engine.standings]
    stand = [name for name in standing if engine.standings[name].stands is True]
    may = [name for name in standing if isinstance(engine.standings[name].stands, Open)]
    for name in (*stand, *may, *there):
        text = clause_text(name, engine)
        if text:
            return name, text
    return (there[0], "") if there else ("", "")


def _as_if_wanted(need: Need, engine: Engine) -> Engine:
    """The engine in which what is missing is wanted, so that its text asks for its figures."""
    asked = engine.library.questions.get(need.questions[0]) if need.questions else None
    if asked is None or asked.kind != "yes-no" or asked.id in engine.answers:
        return engine
    return engine.answering(asked.id, True)


def clause_text(name: str, engine: Engine) -> str:
    """The text of a clause with the answers put in, an open one named in parentheses.

    Empty where the clause prints an answer that this roof does not have.
    """
    clause = engine.library.clauses[name]
    try:
        spans, _ = engine.scope.text_of(clause.text, clause)
    except BadInput:
        return ""
    titles = {plan.id: plan.title for part in engine.library.parts for plan in part.articles}
    return "".join(
        f"the article {titles[span.article].capitalize()}"
        if isinstance(span, ArticleReference)
        else f"({span.text})"
        if isinstance(span, Gap)
        else span.text
        for span in spans
    )


def coverage_of(
    outline: Outline, understanding: Understanding, engine: Engine
) -> tuple[Coverage, ...]:
    """For each topic of the library the questions that this roof raises and those answered."""
    library = engine.library
    topics = dict.fromkeys(question.topic for question in library.questions.values())
    raised: dict[str, list[str]] = {topic: [] for topic in topics}
    for question in library.questions.values():
        asked, _ = engine.scope.holds(question.when)
        answered = question.id in understanding.answers
        if answered or (asked is True and not question.optional and question.id not in UNPRINTED):
            raised[question.topic].append(question.id)
    return tuple(
        Coverage(
            topic=topic,
            raised=tuple(questions),
            answered=tuple(name for name in questions if name in understanding.answers),
            where=_places(outline, understanding, questions),
        )
        for topic, questions in raised.items()
        if questions
    )


def _places(
    outline: Outline, understanding: Understanding, questions: list[str]
) -> tuple[str, ...]:
    """The places of the blocks that answer questions, in reading order."""
    blocks = {
        understanding.given_by[name].at.block
        for name in questions
        if name in understanding.given_by
    }
    places = (outline.blocks[index].place for index in sorted(blocks))
    return tuple(dict.fromkeys(place for place in places if place))
