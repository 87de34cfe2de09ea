"""The answers that a document gives, as a brief with the words and the place of each."""

from __future__ import annotations

from specgen.briefedit import brief_text
from specgen.domain import typed
from specgen.library import Library
from specgen.questions import Question
from specgen.review.outline import Outline
from specgen.review.shapes import Statement, Understanding
from specgen.values import Choice, Value

LONGEST_WORDS = 90


def partial_brief(understanding: Understanding, outline: Outline, library: Library) -> str:
    """A brief that `specgen check` reads: every answer that the document states, above it where
    and in which words; what is stated and cannot be taken, last, as comments."""
    lines = [
        f"# Answers that {_in_line(outline.name or 'the document')} states, each with its place.",
        "# What it leaves out is left out here.",
    ]
    topic = ""
    for name, value in understanding.answers.items():
        question = library.questions[name]
        if question.topic != topic:
            topic = question.topic
            lines += ["", f"# ---- {topic.upper()} ".ljust(100, "-")]
        lines += [*_grounds(understanding, name, outline), *_answer(question, value)]
    refused = [each for each in understanding.statements if each.value is None]
    if refused:
        lines += ["", "# Stated, and not taken:"]
        lines += [f"# {each.question} {each.fault}; {_where(each, outline)}" for each in refused]
    return "\n".join(lines) + "\n"


def _grounds(understanding: Understanding, name: str, outline: Outline) -> list[str]:
    """Where an answer was found; every place for one that several places give together."""
    given = understanding.given_by[name]
    value = understanding.answers[name]
    if not isinstance(value, tuple):
        return [f"# {_where(given, outline)}"]
    said = [each for each in understanding.statements if each.question == name]
    return list(dict.fromkeys(f"# {_where(each, outline)}" for each in said if each.value))


def _where(statement: Statement, outline: Outline) -> str:
    block = outline.blocks[statement.at.block]
    place = block.place or block.article or "without a number"
    sure = "" if statement.confidence >= 0.7 else ", not sure"
    return f"{_in_line(place)}{sure}: {_in_line(statement.words)}"


def _in_line(words: str) -> str:
    """Words on one line of a comment."""
    line = " ".join("".join(c if c.isprintable() else " " for c in words).split())
    return line if len(line) <= LONGEST_WORDS else line[: LONGEST_WORDS - 1].rstrip() + "…"


def _answer(question: Question, value: Value) -> list[str]:
    return brief_text("", {question.id: _raw(question, value)}).rstrip("\n").split("\n")


def _raw(question: Question, value: Value) -> object:
    """A value as a brief is edited with it: a word, a list of words, or rows of words."""
    if not isinstance(value, tuple):
        return typed(value)
    if question.kind == "choices":
        return [item.id for item in value if isinstance(item, Choice)]
    ids = [column.id for column in question.columns]
    return [
        {name: typed(cell) for name, cell in zip(ids, row, strict=True)}
        for row in value
        if isinstance(row, tuple)
    ]
