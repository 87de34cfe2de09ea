"""Measuring study: explanations, other answers tried, and the map of the whole library."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterable
from functools import partial
from typing import TypeVar

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.library import Library
from specgen.loading import load_library
from specgen.questions import Question
from specgen.study.absent import why_absent
from specgen.study.asking import explain, numbers_of
from specgen.study.whatif import Given, what_if
from specgen.values import Value
from tests.bench.measuring import figure, milliseconds
from tests.support import EXAMPLES

BRIEF = EXAMPLES / "low-slope-library.yaml"
PROMISED_MS = 50
Of = TypeVar("Of")


def run() -> None:
    library = load_library()
    brief = read_brief(BRIEF, library)
    engine = Engine(library, brief.answers)
    explain(engine, numbers_of(engine)[0])
    _each("why, every paragraph of a section", explain, engine, numbers_of(engine))
    _each("why, every question", explain, engine, library.questions)
    absent = [name for name in library.clauses if name not in engine.section.places]
    _each("why --not, every clause that is absent", why_absent, engine, absent)

    def tried(engine: Engine, given: Given) -> object:
        return what_if(engine, brief, given)

    _each("whatif, one answer to every question", tried, engine, _changes(library, engine))
    _maps(library)


def _changes(library: Library, engine: Engine) -> Iterable[Given]:
    from specgen.domain import can_be_tried, domain_of

    for question in library.questions.values():
        if can_be_tried(question):
            value = _other(question, domain_of(library, question.id), engine)
            yield Given({question.id: "tried"}, {question.id: value})


def _other(question: Question, values: Iterable[Value], engine: Engine) -> Value | None:
    """An answer to a question that the brief does not have, or none."""
    present = engine.answers.get(question.id)
    return next((value for value in values if value != present), None)


def _maps(library: Library) -> None:
    from specgen.study.relations import relations_of
    from specgen.writers.map_html import write_map_html

    seconds = milliseconds(lambda: write_map_html(relations_of(library))) / 1000
    figure("the map of the whole library as a page / 1 s", seconds, 1.0, f"{seconds:.2f} s")


def _each(
    what: str, act: Callable[[Engine, Of], object], engine: Engine, each: Iterable[Of]
) -> None:
    """The median and the worst of many acts against what is promised of each."""
    times = sorted(milliseconds(partial(act, engine, one)) for one in each)
    middle, worst = statistics.median(times), times[-1]
    within = sum(1 for taken in times if taken < PROMISED_MS) / len(times)
    figure(
        f"{what}, median / {PROMISED_MS} ms",
        middle / PROMISED_MS,
        1.0,
        f"{middle:.1f} ms, worst {worst:.0f} ms, {within:.1%} of {len(times)} within",
    )
