"""What other answers would make of a section: the difference, its findings and its numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from specgen.brief import Brief
from specgen.checks import Finding
from specgen.document_checks import DOCUMENT_CHECKS, document_findings
from specgen.domain import typed
from specgen.engine import Engine
from specgen.faults import BadInput, Fault, closed, nearest
from specgen.library import Library
from specgen.questions import AnswerError, read_answer
from specgen.report import Report, report_on
from specgen.section import open_questions
from specgen.study.saying import answer_words, label_of
from specgen.study.tracked import Differences, differences
from specgen.values import Value
from specgen.yamlread import parse_yaml

WRITTEN_AS = "write each change as QUESTION=ANSWER, such as lowest_slope=1:12"


@dataclass(frozen=True, slots=True)
class AnswerChanged:
    """One answer, before and after, in words."""

    question: str
    label: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class NumberMoved:
    """A computed value, before and after, as shown."""

    name: str
    label: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class WhatIf:
    """What answers change: ``before`` and ``after`` are the engines, ``brief`` the brief after.

    ``opened`` and ``closed`` are the questions that the section newly waits on, or no longer does.
    """

    before: Engine
    after: Engine
    brief: Brief
    answers: tuple[AnswerChanged, ...]
    differences: Differences
    raised: tuple[Finding, ...]
    settled: tuple[Finding, ...]
    numbers: tuple[NumberMoved, ...]
    opened: tuple[str, ...]
    closed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Given:
    """Answers as typed and as read; None takes one back."""

    typed: Mapping[str, object]
    answers: Mapping[str, Value | None]


def read_changes(arguments: Iterable[str], library: Library) -> Given:
    """The changes ``QUESTION=ANSWER`` of a command, answers typed as in a brief.

    BadInput with every fault: no question of this name (with the nearest), an answer that the
    question does not take, the same question twice.
    """
    raw: dict[str, object] = {}
    answers: dict[str, Value | None] = {}
    faults: list[Fault] = []
    for argument in arguments:
        name, sign, text = argument.partition("=")
        name = name.strip()
        question = library.questions.get(name)
        if not sign:
            faults.append(Fault("the command", None, f"{argument[:60]}: {WRITTEN_AS}."))
        elif question is None:
            hint = nearest(name, library.questions) or " `specgen questions` lists them."
            faults.append(Fault("the command", None, f"there is no question {name[:60]}.{hint}"))
        elif name in answers:
            faults.append(Fault("the command", None, f"{name} is changed twice; keep one."))
        elif not text.strip():
            raw[name] = answers[name] = None
        else:
            try:
                raw[name] = _as_in_a_brief(text.strip())
                answers[name] = read_answer(question, raw[name])
            except AnswerError as error:
                faults.append(Fault("the command", None, closed(f"{name} {error}")))
    if faults:
        raise BadInput(faults)
    return Given(raw, answers)


def _as_in_a_brief(text: str) -> object:
    """An answer as the brief's reader would give it; lists and rows are written in brackets."""
    if not text.startswith("["):
        return text.strip("\"'") if text[0] in "\"'" else text
    content = parse_yaml(f"answer: {text}", "the command")
    return content["answer"] if isinstance(content, dict) else text


def what_if(engine: Engine, brief: Brief, given: Given) -> WhatIf:
    """The section, the findings and the numbers with other answers."""
    after = engine.answering_all(given.answers)
    written = {k: v for k, v in {**brief.typed, **given.typed}.items() if v is not None}
    following = replace(brief, answers=after.answers, typed=written)
    raised, settled = _findings(engine, brief, after, following)
    waiting = [question.question for question in open_questions(engine.section)]
    waits = [question.question for question in open_questions(after.section)]
    return WhatIf(
        before=engine,
        after=after,
        brief=following,
        answers=tuple(
            AnswerChanged(
                question=name,
                label=engine.library.questions[name].label,
                before=_told(engine, name),
                after=_told(after, name),
            )
            for name in given.answers
        ),
        differences=differences(engine.section, after.section),
        raised=raised,
        settled=settled,
        numbers=tuple(
            NumberMoved(name, label_of(engine.library, name), _figure(was), _figure(now))
            for name, was, now in engine.change_to(after).computed
        ),
        opened=tuple(name for name in waits if name not in waiting),
        closed=tuple(name for name in waiting if name not in waits),
    )


def _told(engine: Engine, name: str) -> str:
    """An answer in words, also one to a question that does not arise."""
    value = engine.answers.get(name)
    words = answer_words(engine.scope, name)
    if value is not None and words.startswith("not asked"):
        return f"{typed(value)} ({words})"
    return words


def _findings(
    engine: Engine, brief: Brief, after: Engine, following: Brief
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings that stand only after, and those that stood only before."""
    was, now = _report(engine, brief).standing, _report(after, following).standing
    return _without(now, was), _without(was, now)


def _report(engine: Engine, brief: Brief) -> Report:
    """The report of a brief whose checks an engine has run already."""
    checks, places = engine.library.checks, engine.section.places
    findings = [
        replace(finding, place=places.get(checks[finding.id].place or "", ""))
        for finding in engine.findings
    ]
    in_document = document_findings(engine.scope, engine.section)
    known = [*checks, *(check.id for check in DOCUMENT_CHECKS)]
    return report_on([*findings, *in_document], brief.waivers, known)


def _without(findings: Sequence[Finding], others: Sequence[Finding]) -> tuple[Finding, ...]:
    """Findings that the others do not have; one said otherwise is the same, its place aside."""
    known = {(other.id, "" if other.answers else other.says) for other in others}
    return tuple(f for f in findings if (f.id, "" if f.answers else f.says) not in known)


def _figure(shown: str) -> str:
    """A computed value as shown, a missing one as none."""
    return "none" if shown == "not asked" else shown
