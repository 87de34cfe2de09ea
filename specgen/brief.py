"""The brief: the answers for one project, in one YAML file that a person reads and edits."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from specgen.faults import BadInput, Fault, closed, nearest
from specgen.library import Library
from specgen.questions import RESERVED, AnswerError, Question, describe_range, read_answer
from specgen.values import Value
from specgen.yamlread import Sequence, read_yaml

WAIVE, FIXED = RESERVED


@dataclass(frozen=True, slots=True)
class Waiver:
    """A finding that somebody answers for: the check's id, the reason, and who gave it."""

    check: str
    reason: str
    by: str


@dataclass(frozen=True, slots=True)
class Brief:
    """Answers by question id; ``typed`` holds them as they stand in the file.

    ``fixed`` are the questions whose answers may not be changed by a proposal.
    """

    path: Path
    answers: Mapping[str, Value]
    typed: Mapping[str, object]
    waivers: tuple[Waiver, ...] = ()
    fixed: frozenset[str] = frozenset()

    @property
    def whole(self) -> dict[str, object]:
        """Everything that stands in the file: the answers as typed, the waivers, what is fixed."""
        whole = dict(self.typed)
        if self.waivers:
            whole[WAIVE] = [
                {"check": waiver.check, "reason": waiver.reason, "by": waiver.by}
                for waiver in self.waivers
            ]
        if self.fixed:
            whole[FIXED] = sorted(self.fixed)
        return whole


def read_brief(path: Path, library: Library) -> Brief:
    """The brief at ``path``, every answer read by its question.

    Raises BadInput with every fault of the file: a question that does not exist (with the nearest
    that does), an answer of the wrong kind, out of range or not among the choices.
    """
    content = read_yaml(path)
    file = str(path)
    if content is None:
        return Brief(path, MappingProxyType({}), MappingProxyType({}))
    if isinstance(content, Sequence):
        raise BadInput([Fault(file, 1, "a brief is written as `question: answer` lines.")])
    answers: dict[str, Value] = {}
    faults: list[Fault] = []
    waivers = _waivers(content.pop(WAIVE, None), content.lines.get(WAIVE), file, faults)
    fixed = _fixed(content.pop(FIXED, None), content.lines.get(FIXED), library, file, faults)
    for name, raw in content.items():
        line = content.lines[name]
        question = library.questions.get(name)
        if question is None:
            hint = nearest(name, library.questions) or " `specgen questions` lists them."
            faults.append(Fault(file, line, f"there is no question {name[:60]}.{hint}"))
            continue
        try:
            answers[name] = read_answer(question, raw)
        except AnswerError as error:
            faults.append(Fault(file, error.line or line, closed(f"{name} {error}")))
    if faults:
        raise BadInput(faults)
    return Brief(path, MappingProxyType(answers), MappingProxyType(dict(content)), waivers, fixed)


def _waivers(raw: object, line: int | None, file: str, faults: list[Fault]) -> tuple[Waiver, ...]:
    """The waivers of a brief, each with its check, its reason and a name."""
    if raw is None and line is None:
        return ()
    wanted = "each waiver is written as {check: …, reason: …, by: …}"
    if not isinstance(raw, list):
        faults.append(Fault(file, line, f"{WAIVE} takes a list; {wanted}."))
        return ()
    found: list[Waiver] = []
    lines = getattr(raw, "lines", [line] * len(raw))
    for entry, at in zip(raw, lines, strict=True):
        keys = ("check", "reason", "by")
        if not isinstance(entry, dict) or set(entry) - set(keys):
            faults.append(Fault(file, at, f"{wanted}, and nothing more."))
            continue
        given = [entry.get(key) for key in keys]
        if not all(isinstance(text, str) and text.strip() for text in given):
            says = f"a waiver names its check, a reason and who gives it; {wanted}."
            faults.append(Fault(file, at, says))
            continue
        waiver = Waiver(*(text.strip() for text in given if isinstance(text, str)))
        if waiver.check in (other.check for other in found):
            faults.append(Fault(file, at, f"{waiver.check[:60]} is waived twice; keep one."))
            continue
        found.append(waiver)
    return tuple(found)


def _fixed(
    raw: object, line: int | None, library: Library, file: str, faults: list[Fault]
) -> frozenset[str]:
    """The questions that a brief marks as fixed."""
    if raw is None and line is None:
        return frozenset()
    if not isinstance(raw, list) or not all(isinstance(name, str) for name in raw):
        faults.append(Fault(file, line, f"{FIXED} takes a list of questions, such as [metal]."))
        return frozenset()
    for name in raw:
        if name not in library.questions:
            hint = nearest(name, library.questions)
            faults.append(Fault(file, line, f"{FIXED}: there is no question {name[:60]}.{hint}"))
    return frozenset(raw)


def empty_brief(library: Library) -> str:
    """A brief with every question as a commented line, grouped by topic."""
    lines = [
        "# A brief for specgen. Remove the # before a question to answer it; leave the rest.",
        "# What is left unanswered comes out as an open decision, never as a guess.",
    ]
    topic = ""
    for question in library.questions.values():
        if question.topic != topic:
            topic = question.topic
            heading = f"# ---- {topic.upper()} "
            lines += ["", heading.ljust(100, "-")]
        lines += ["", *_lines_of(question, library)]
    return "\n".join(lines) + "\n"


def _lines_of(question: Question, library: Library) -> list[str]:
    lines = [f"# {' '.join(question.ask.split())}"]
    if question.when is not None:
        lines.append(f"#   Asked when {_spelled_out(question.when.source, library)}.")
    for choice in question.choices:
        means = f": {choice.means}" if choice.means else ""
        lines.append(f"#   {choice.id} = {choice.label}{means}")
    hints = [_how_to_write(question)]
    if question.usual:
        hints.append(f"Usual: {question.usual}.")
    if question.optional:
        hints.append("May rightly stay unanswered.")
    if any(hints):
        lines.append(f"#   {' '.join(hint for hint in hints if hint)}")
    if question.kind == "table":
        lines.append(f"# {question.id}:")
        columns = ", ".join(f"{column.id}: " for column in question.columns)
        lines.append(f"# - {{{columns.rstrip()}}}")
    else:
        lines.append(f"# {question.id}:")
    return lines


def _spelled_out(condition: str, library: Library) -> str:
    """A condition with the facts that it names written as what they say of the answers."""

    def spelled(match: re.Match[str]) -> str:
        fact = library.facts.get(match[0])
        if fact is None:
            return match[0]
        said = _spelled_out(fact.condition.source, library)
        alone = match[0] == condition or not re.search(r"\b(and|or|not|if)\b", said)
        return said if alone else f"({said})"

    # Words in quotes are choices, whatever fact has their name.
    return re.sub(r"""'[^']*'|"[^"]*"|\w+""", spelled, condition)


def _how_to_write(question: Question) -> str:
    if question.kind == "yes-no":
        return "yes or no."
    if question.kind == "choices":
        return "A list, such as [" + ", ".join(c.id for c in question.choices[:2]) + "], or none."
    if question.kind == "date":
        return "year-month-day."
    if question.kind == "table":
        return "One line a row."
    return describe_range(question)
