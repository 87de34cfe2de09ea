"""A paragraph's reason names what it rests on: whatever it does not name may change freely."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.domain import domain_of
from specgen.engine import Engine
from specgen.library import Library
from specgen.questions import read_answer
from specgen.section import Paragraph, Section
from specgen.values import Value
from tests.briefs import raw_answer

Key = tuple[str, ...]


def keyed(section: Section) -> dict[Key, Paragraph]:
    """Every paragraph by what makes it the same in another section of the same library."""
    found: dict[Key, Paragraph] = {}

    def take(paragraphs: tuple[Paragraph, ...], above: Key) -> None:
        for paragraph in paragraphs:
            if paragraph.reason.clause:
                key: Key = (paragraph.reason.clause,)
            elif paragraph.decision is not None:
                key = (*above, "open", paragraph.decision.question)
            else:
                key = (*above, "computed", section_words(paragraph))
            found[key] = paragraph
            take(paragraph.children, key)

    for article in section.articles():
        take(article.paragraphs, (article.id,))
    return found


def section_words(paragraph: Paragraph) -> str:
    return repr(paragraph.spans)


def trials(library: Library, name: str, chance: random.Random) -> list[Value | None]:
    """Every answer worth trying to a question, some others, and none."""
    question = library.questions[name]
    others = [read_answer(question, raw_answer(question, chance)) for _ in range(2)]
    return [*domain_of(library, name), *others, None]


@pytest.mark.parametrize("part", range(4))
def test_an_answer_that_a_reason_does_not_name_changes_nothing_of_its_paragraph(
    library: Library, example: Path, part: int
) -> None:
    engine = Engine(library, read_brief(example, library).answers)
    before = keyed(engine.section)
    unnamed = {key: dict(p.reason.answers).keys() for key, p in before.items()}
    chance = random.Random(part)
    faults = set()
    for name in list(library.questions)[part::4]:
        for value in trials(library, name, chance):
            after = keyed(engine.answering(name, value).section)
            for key, paragraph in before.items():
                if name in unnamed[key]:
                    continue
                now = after.get(key)
                if now is None or (now.spans, now.tables) != (paragraph.spans, paragraph.tables):
                    faults.add(f"{name} changes {' / '.join(key)[:120]}")
    assert not faults
