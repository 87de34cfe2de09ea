"""Changes of answers in words: a figure as its limit, choices by their labels."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.domain import domain_of, typed
from specgen.engine import Engine
from specgen.study.saying import answer_words, value_words
from specgen.units import Quantity
from specgen.values import Value

Changes = dict[str, Value | None]


@dataclass(frozen=True, slots=True)
class Step:
    """One answer to change: every answer tried that does, the nearest first.

    ``values`` are answers as typed, empty for one taken back; ``says`` is the change in words
    (``2:12 or more``), ``now`` the present answer as shown.
    """

    question: str
    label: str
    now: str
    says: str
    values: tuple[str, ...]


def told(engine: Engine, group: list[Changes]) -> tuple[tuple[Step, ...], Changes]:
    """A group of changes, the same but for their last, as steps; and the nearest of them."""
    last = list(group[0])[-1]
    ordered = sorted(group, key=lambda changes: _distance(engine, last, changes[last]))
    nearest = ordered[0]
    steps = [
        _step(engine, name, [changes[name] for changes in ordered] if name == last else [value])
        for name, value in nearest.items()
    ]
    return tuple(steps), nearest


def _step(engine: Engine, name: str, values: list[Value | None]) -> Step:
    question = engine.library.questions[name]
    return Step(
        question=name,
        label=question.label,
        now=answer_words(engine.scope, name),
        says=_says(engine, name, values),
        values=tuple("" if value is None else typed(value) for value in values),
    )


def _says(engine: Engine, name: str, values: list[Value | None]) -> str:
    """The answers that do it, in words: a figure as its limit, choices by their labels."""
    question = engine.library.questions[name]
    if len(values) > 1 and set(map(as_typed, values)) >= set(map(as_typed, _others(engine, name))):
        return "any answer" if name not in engine.answers else "any other answer"
    if question.kind == "table":
        return "left unanswered" if values[0] is None else "answered with rows"
    if question.kind in ("text", "date"):
        return "left unanswered" if values[0] is None else "answered"
    if isinstance(values[0], Quantity | float):
        return _limit(engine, name, [v for v in values if isinstance(v, Quantity | float)])
    words = [
        "left unanswered" if value is None else value_words(value, engine.scope) for value in values
    ]
    if question.kind == "choices":
        words = words[:2]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _others(engine: Engine, name: str) -> list[Value]:
    present = engine.answers.get(name)
    return [value for value in domain_of(engine.library, name) if value != present]


def _limit(engine: Engine, name: str, values: list[Quantity | float]) -> str:
    """A figure, and whether all that were tried beyond it did the same."""
    nearest = values[0]
    sizes = {_size(value) for value in values}
    tried = {
        _size(value)
        for value in domain_of(engine.library, name)
        if isinstance(value, Quantity | float)
    }
    up = {size for size in tried if size >= _size(nearest)}
    down = {size for size in tried if size <= _size(nearest)}
    text = typed(nearest)
    present = engine.answers.get(name)
    if present is None:
        return _span(values, tried)
    if isinstance(present, Quantity | float):
        if _size(present) < _size(nearest) and len(up) > 1 and up <= sizes:
            return f"{text} or more"
        if _size(present) > _size(nearest) and len(down) > 1 and down <= sizes:
            return f"{text} or less"
    return text


def _span(values: list[Quantity | float], tried: set[float]) -> str:
    """Of a figure that has no answer yet, the answers that do it."""
    low, high = min(values, key=_size), max(values, key=_size)
    if len(values) == 1:
        return typed(low)
    within = {size for size in tried if _size(low) <= size <= _size(high)}
    if within != {_size(value) for value in values}:
        return typed(low)
    if _size(high) == max(tried):
        return f"{typed(low)} or more"
    if _size(low) == min(tried):
        return f"{typed(high)} or less"
    return f"{typed(low)} to {typed(high)}"


def _size(value: Quantity | float) -> float:
    return round(value.magnitude if isinstance(value, Quantity) else value, 9)


def _distance(engine: Engine, name: str, value: Value | None) -> float:
    """How far a figure is from the present one; choices keep their order."""
    present = engine.answers.get(name)
    if isinstance(value, Quantity | float) and isinstance(present, Quantity | float):
        return abs(_size(value) - _size(present))
    return 1e12 if value is None else 0.0


def as_typed(value: Value | None) -> object:
    """An answer as it would be typed; None for one taken back."""
    return None if value is None else typed(value)
