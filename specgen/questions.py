"""A question of the library, and reading the answer that somebody typed to it."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass

from specgen import units
from specgen.conditions import Expression
from specgen.faults import nearest
from specgen.showing import figure
from specgen.units import Quantity, UnitError
from specgen.values import Choice, Row, Value

# Kinds answered with a quantity, and the dimension of it.
QUANTITY_KINDS = (
    "length",
    "thickness",
    "pressure",
    "slope",
    "speed",
    "temperature",
    "leakage",
    "force",
)
KINDS = ("choice", "choices", "yes-no", "number", "text", "date", "table", *QUANTITY_KINDS)
COLUMN_KINDS = ("text", "number", *QUANTITY_KINDS)

# Names of a brief that are no questions: its waivers, and the answers that may not change.
RESERVED = ("waive", "fixed")

LONGEST_TEXT = 500
MOST_ROWS = 5000
# What XML 1.0 cannot carry, and line breaks.
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f\x85\u2028\u2029\ud800-\udfff\ufffe\uffff]")


class AnswerError(ValueError):
    """An answer that its question does not take; the message says what it would take.

    ``line`` is the line of a table's row or a list's item where that is known.
    """

    def __init__(self, says: str, line: int | None = None) -> None:
        super().__init__(says)
        self.line = line


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a question of kind table."""

    id: str
    label: str
    kind: str


@dataclass(frozen=True, slots=True)
class Question:
    """One decision about the roof.

    ``unit`` is the unit usually typed (or, for a number, what is counted); ``low`` and ``high``
    bound what is sensible; ``when`` is None for a question always asked; ``usual`` is a hint, never
    assumed; ``optional`` questions may rightly stay unanswered.
    """

    id: str
    topic: str
    ask: str
    label: str
    kind: str
    unit: str
    low: Value | None
    high: Value | None
    choices: tuple[Choice, ...]
    columns: tuple[Column, ...]
    when: Expression | None
    optional: bool
    usual: str
    why: str
    source: str
    file: str
    line: int
    office: bool


def read_answer(question: Question, raw: object) -> Value:
    """The value of an answer as it was typed; AnswerError, in a sentence, if it is not one.

    ``raw`` is what the YAML reader gives: a string, a list or a list of mappings.
    """
    if raw is None:
        raise AnswerError("has no answer; write one after the colon, or delete the line")
    if question.kind == "choices":
        return _read_choices(question, raw)
    if question.kind == "table":
        return _read_table(question, raw)
    if not isinstance(raw, str):
        raise AnswerError(f"takes one answer, not a list; {_expected(question)}")
    value = _read_scalar(question, raw)
    _check_range(question, value, raw)
    return value


def _read_scalar(question: Question, raw: str) -> Value:
    if question.kind == "choice":
        return _read_choice(question, raw)
    if question.kind == "yes-no":
        return _read_yes_no(raw)
    if question.kind == "date":
        return _read_date(raw)
    return _read_cell(question.kind, raw)


def _read_cell(kind: str, raw: str) -> Value:
    if kind == "text":
        return _read_words(raw)
    try:
        return units.read_number(raw) if kind == "number" else units.read(raw, kind)
    except UnitError as error:
        raise AnswerError(f"cannot be read: {error}") from None


def unprintable_in(text: str) -> bool:
    """Whether a text holds a line break, a control character or what XML cannot carry."""
    return _UNPRINTABLE.search(text) is not None


def _read_words(raw: str) -> str:
    text = raw.strip()
    if not text:
        raise AnswerError("has an empty answer")
    if len(text) > LONGEST_TEXT:
        raise AnswerError(f"has {len(text)} characters; {LONGEST_TEXT} are the most")
    if unprintable_in(text):
        raise AnswerError("holds a line break or a character that cannot be printed")
    return text


def _read_choice(question: Question, raw: str) -> Choice:
    wanted = raw.strip().lower()
    for choice in question.choices:
        if wanted in (choice.id, choice.label.lower()):
            return choice
    ids = [choice.id for choice in question.choices]
    hint = nearest(wanted, ids) or f" Choose from {', '.join(ids)}."
    raise AnswerError(f"has no choice {raw.strip()[:60]!r}.{hint}")


def _read_choices(question: Question, raw: object) -> tuple[Choice, ...]:
    if isinstance(raw, str):
        raw = [] if raw.strip().lower() in ("none", "") else raw.split(",")
    if not isinstance(raw, list) or not all(isinstance(item, str) for item in raw):
        raise AnswerError(f"takes a list of choices; {_expected(question)}")
    picked = [_read_choice(question, item) for item in raw]
    if len(set(picked)) < len(picked):
        raise AnswerError("names a choice twice")
    return tuple(choice for choice in question.choices if choice in picked)


def _read_yes_no(raw: str) -> bool:
    word = raw.strip().lower()
    if word in ("yes", "true", "y"):
        return True
    if word in ("no", "false", "n"):
        return False
    raise AnswerError(f"takes yes or no, not {raw.strip()[:40]!r}")


def _read_date(raw: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(raw.strip())
    except ValueError:
        raise AnswerError("takes a date as year-month-day, such as 2027-03-15") from None


def _read_table(question: Question, raw: object) -> tuple[Row, ...]:
    if not isinstance(raw, list) or not raw:
        raise AnswerError(f"takes a list of rows; {_expected(question)}")
    if len(raw) > MOST_ROWS:
        raise AnswerError(f"has {len(raw)} rows; {MOST_ROWS} are the most")
    lines = getattr(raw, "lines", [None] * len(raw))
    return tuple(_read_row(question, row, line) for row, line in zip(raw, lines, strict=True))


def _read_row(question: Question, raw: object, line: int | None) -> Row:
    if not isinstance(raw, dict):
        raise AnswerError(f"takes rows written as names and values; {_expected(question)}", line)
    ids = [column.id for column in question.columns]
    for key in raw:
        if key not in ids:
            hint = nearest(key, ids) or f" The columns are {', '.join(ids)}."
            raise AnswerError(f"has no column {key}.{hint}", line)
    cells = []
    for column in question.columns:
        cell = raw.get(column.id)
        if not isinstance(cell, str):
            raise AnswerError(f"has a row without {column.id}", line)
        try:
            cells.append(_read_cell(column.kind, cell))
        except AnswerError as error:
            raise AnswerError(f"{column.id} {error}", line) from None
    return tuple(cells)


def _check_range(question: Question, value: Value, raw: str) -> None:
    size = value.magnitude if isinstance(value, Quantity) else value
    if not isinstance(size, float):
        return
    low, high = (
        bound.magnitude if isinstance(bound, Quantity) else bound
        for bound in (question.low, question.high)
    )
    slack = 1e-9
    word = ""
    if isinstance(low, float) and size < low - slack:
        word = "below"
    elif isinstance(high, float) and size > high + slack:
        word = "above"
    if word:
        span = f"{_bound(question.low)} to {_bound(question.high)}"
        raise AnswerError(f"is {raw.strip()[:40]}, {word} what is sensible here ({span})")


def describe_range(question: Question) -> str:
    """How a figure is written and between which bounds, for a hint; empty where nothing bounds."""
    if question.low is None or question.high is None:
        return f"In {question.unit}." if question.unit else ""
    span = f"{_bound(question.low)} to {_bound(question.high)}"
    counted = f" {question.unit}" if question.kind == "number" and question.unit else ""
    return f"{span}{counted}."


def _bound(value: Value | None) -> str:
    if isinstance(value, Quantity):
        return value.typed
    return figure(value, 4) if isinstance(value, float) else "any"


def _expected(question: Question) -> str:
    """How an answer to this question is written, for a message."""
    ids = ", ".join(choice.id for choice in question.choices)
    if question.kind == "choices":
        return f"such as [{ids}]"
    if question.kind == "table":
        return "each row like {" + ", ".join(f"{c.id}: …" for c in question.columns) + "}"
    if question.kind == "choice":
        return f"one of {ids}"
    return f"a {question.kind}"


def describe(question: Question) -> dict[str, object]:
    """Every field of a question, as plain values for JSON."""
    return {
        "id": question.id,
        "topic": question.topic,
        "ask": question.ask,
        "label": question.label,
        "kind": question.kind,
        "unit": question.unit,
        "range": None if question.low is None else [_bound(question.low), _bound(question.high)],
        "choices": [
            {"id": c.id, "label": c.label, "text": c.text, "means": c.means}
            for c in question.choices
        ],
        "columns": [{"id": c.id, "label": c.label, "kind": c.kind} for c in question.columns],
        "when": question.when.source if question.when else None,
        "optional": question.optional,
        "usual": question.usual,
        "why": question.why,
        "source": question.source,
    }
