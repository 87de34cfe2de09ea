"""The guided reading: one example, stop by stop in the order in which a specifier thinks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from specgen.engine import Engine
from specgen.faults import BadInput, Fault, closed
from specgen.library import Library, ReadingPlan, StopPlan
from specgen.questions import AnswerError, read_answer
from specgen.section import Section, numbered
from specgen.study.practice_shapes import Option, Stop
from specgen.values import Value

__all__ = ["Option", "Reading", "Stop", "brief_of_reading", "guided_reading"]


@dataclass(frozen=True)
class Reading:
    """The reading of one example: its ``title``, the ``engine`` that holds its answers (the section
    is ``engine.section``), and its ``stops`` in order."""

    title: str
    engine: Engine
    stops: tuple[Stop, ...]


def guided_reading(library: Library) -> Reading:
    """The library's guided reading. Raises BadInput where the library has none, or where an
    office's clauses took out one that it stops at."""
    plan = _plan_of(library)
    engine = Engine(library, _answers(plan, library))
    gone = [stop for stop in plan.stops if stop.clause not in engine.section.places]
    if gone:
        raise BadInput([_not_there(stop, plan) for stop in gone])
    stops = (
        _stop(number, stop, engine.section) for number, stop in enumerate(plan.stops, 1)
    )  # fmt: skip
    return Reading(plan.title, engine, tuple(stops))


def _answers(plan: ReadingPlan, library: Library) -> dict[str, Value]:
    """The answers of the brief, read. BadInput for those that an office's questions do not take."""
    answers: dict[str, Value] = {}
    faults: list[Fault] = []
    for name, raw in plan.brief.items():
        try:
            answers[name] = read_answer(library.questions[name], raw)
        except AnswerError as error:
            says = closed(f"the brief of the reading: {name} {error}")
            faults.append(Fault(plan.file, plan.line, says))
    if faults:
        raise BadInput(faults)
    return answers


def brief_of_reading(library: Library) -> Mapping[str, object]:
    """The answers of the reading's brief, as typed. Raises BadInput where there is no reading."""
    return _plan_of(library).brief


def _plan_of(library: Library) -> ReadingPlan:
    if library.reading is None:
        says = "this library has no guided reading; it stands in reading.yaml."
        raise BadInput([Fault("the library", None, says)])
    return library.reading


def _not_there(stop: StopPlan, plan: ReadingPlan) -> Fault:
    says = (
        f"the reading stops at {stop.clause} ({stop.title}), which does not stand in the section of"
        " its brief; choose another clause or other answers."
    )
    return Fault(plan.file, stop.line, says)


def _stop(number: int, plan: StopPlan, section: Section) -> Stop:
    article, place, text = next(
        (article, place, section.plain(paragraph.spans))
        for article in section.articles()
        for paragraph, place in numbered(article)
        if paragraph.reason.clause == plan.clause
    )
    return Stop(
        number=number,
        title=plan.title,
        clause=plan.clause,
        place=place,
        article=f"{article.number} {article.title}",
        text=text,
        why=plan.why,
        source=plan.source,
        question=plan.question,
        options=tuple(Option(each.text, each.right, each.says) for each in plan.options),
    )
