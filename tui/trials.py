"""The answers that can be given to the question on the screen, each tried in the engine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from specgen.domain import domain_of, typed
from specgen.engine import Change, Engine
from specgen.faults import BadInput
from specgen.options import counsel_of
from specgen.questions import AnswerError, Question, read_answer
from specgen.values import Choice, Value


@dataclass(slots=True)
class Trial:
    """One answer to a question; ``change`` and ``following`` are there once it was tried.

    ``raw`` is the answer as typed, ``picked`` whether the brief has it (of several choices: whether
    this one is among them).
    """

    raw: object
    label: str
    value: Value
    means: str = ""
    picked: bool = False
    change: Change | None = None
    following: Engine | None = None
    counsel: tuple[str, ...] = field(default=())

    def run(self, engine: Engine, question: Question) -> None:
        """Try it; where the library cannot say a text with it, ``means`` tells why."""
        try:
            self.following = engine.answering(question.id, self.value)
        except BadInput as fault:
            self.means = str(fault)
            return
        self.change = engine.change_to(self.following)
        self.counsel = tuple(
            f"{'For' if spoken.speaks_for else 'Against'}, {spoken.aspect}: {spoken.says}"
            for spoken in counsel_of(self.following, question.id, self.value)
        )


def trials_of(engine: Engine, question: Question) -> list[Trial]:
    """The answers to a question in the library's order, none of them tried yet."""
    now = engine.answers.get(question.id)
    if question.kind == "choice":
        return [Trial(c.id, c.label, c, c.means, c == now) for c in question.choices]
    if question.kind == "yes-no":
        return [Trial(word, word, word == "yes", "", now is (word == "yes")) for word in _YES_NO]
    if question.kind == "choices":
        picked = picked_of(engine, question)
        return [_toggled(question, choice, picked) for choice in question.choices]
    if question.kind in ("text", "date", "table"):
        return []
    values = domain_of(engine.library, question.id)
    return [Trial(typed(value), typed(value), value, "", value == now) for value in values]


_YES_NO = ("yes", "no")


def picked_of(engine: Engine, question: Question) -> tuple[Choice, ...]:
    """The choices that the brief has picked, for a question that takes several."""
    now = engine.answers.get(question.id)
    return tuple(c for c in now if isinstance(c, Choice)) if isinstance(now, tuple) else ()


def _toggled(question: Question, choice: Choice, picked: Sequence[Choice]) -> Trial:
    """What would be picked if one choice were added, or taken away."""
    others = tuple(c for c in question.choices if (c in picked) != (c is choice))
    raw = [c.id for c in others]
    return Trial(raw, choice.label, others, choice.means, choice in picked)


def trial_of_typed(engine: Engine, question: Question, text: str) -> Trial | str:
    """What was typed, tried; or why it cannot be taken."""
    try:
        value = read_answer(question, text)
    except AnswerError as error:
        return str(error)
    trial = Trial(text, text, value)
    trial.run(engine, question)
    return trial


@dataclass(frozen=True, slots=True)
class Span:
    """Neighboring figures that would cause the same."""

    first: Trial
    last: Trial

    @property
    def label(self) -> str:
        if self.first is self.last:
            return self.first.label
        return f"{self.first.label} to {self.last.label}"


def spans_of(trials: Sequence[Trial]) -> list[Span]:
    """Tried figures, in order of size, where they cause the same put together."""
    spans: list[Span] = []
    for trial in trials:
        if trial.change is None:
            break
        if spans and _signature(spans[-1].first.change) == _signature(trial.change):
            spans[-1] = Span(spans[-1].first, trial)
        else:
            spans.append(Span(trial, trial))
    return spans


def _signature(change: Change | None) -> object:
    if change is None:
        return None
    raised, settled = ({f.id for f in found} for found in (change.raised, change.settled))
    return raised, settled, change.entered, change.left
