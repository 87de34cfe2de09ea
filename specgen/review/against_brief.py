"""What a document says against the office's own brief."""

from __future__ import annotations

from collections.abc import Iterator

from specgen.brief import Brief
from specgen.library import Library
from specgen.review.kinds import found_of, quoted
from specgen.review.outline import Outline
from specgen.review.shapes import Found, Understanding
from specgen.review.understanding import same
from specgen.scope import Scope
from specgen.values import Value
from specgen.wording import print_value


def against_brief(
    outline: Outline, understanding: Understanding, library: Library, brief: Brief
) -> Iterator[Found]:
    """Each answer of the document that differs from the brief's."""
    scope = Scope(library, brief.answers)
    for name, stated in understanding.answers.items():
        decided = brief.answers.get(name)
        if decided is None or not _differ(stated, decided):
            continue
        statement = understanding.given_by.get(name)
        if statement is None:
            continue
        block = outline.blocks[statement.at.block]
        label = library.questions[name].label
        says = (
            f"{label[:1].upper()}{label[1:]}: the section says"
            f" {quoted(block, statement.at.start, statement.at.end)},"
            f" the brief {print_value(decided, scope.printer)}."
        )
        yield found_of("brief-differs", says, block, statement.at.start, statement.at.end)


def _differ(stated: Value, decided: Value) -> bool:
    """Whether two answers differ; of several choices the order does not count."""
    if isinstance(stated, tuple) and isinstance(decided, tuple):
        return {str(each) for each in stated} != {str(each) for each in decided}
    return not same(stated, decided)
