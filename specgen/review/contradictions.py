"""Where a document answers one question twice, and differently."""

from __future__ import annotations

import re
from collections.abc import Iterable

from specgen.checks import Finding
from specgen.domain import typed
from specgen.library import Library
from specgen.questions import Question
from specgen.review.outline import Outline
from specgen.review.passages import plain
from specgen.review.recognizing import OFFERED
from specgen.review.shapes import Found, Statement, Understanding
from specgen.review.understanding import same
from specgen.units import Quantity
from specgen.values import Value

# The ids of what is found here.
STATED_TWICE = "stated-twice"
ALTERNATIVES_OPEN = "alternatives-open"
# How sure a statement has to be to contradict another.
SURE_TO_CONTRADICT = 0.6
# Kinds whose answers may stand side by side, or differ as words do.
TOGETHER = ("choices", "text", "date")

_LIMITED = re.compile(
    r"\s*(?:where|when|if|for (?!not\b|at\b|minimum|roof)|at (?!least|minimum)|unless|alternate"
    r"|option|on (?:curved|radius)|deduct|add\b)",
    re.IGNORECASE,
)
_LIMITED_AFTER = re.compile(
    r"[^.;]{0,12}\b(?:where|when|if|unless|(?:at|for|on) (?:the )?(?:curved|radius|tapered|canop"
    r"|entr|valley|hip|gutter|flashing|trim|porch|dormer|penthouse))",
    re.IGNORECASE,
)
_PART_OF_ROOF = re.compile(
    r"\b(?:roof (?:area |type |plane )?|area |building |wing |type |system |alternate |phase )"
    r"[a-h1-9]\b|\b(?:canop\w{1,3}|porch\w{0,2}|penthouse|addition|tower|dormers?|entrance)\b",
    re.IGNORECASE,
)
_METAL = re.compile(r"\b(?:steel|alumin(?:i)?um|zinc|copper)\b", re.IGNORECASE)


def contradictions(
    understanding: Understanding, outline: Outline, library: Library
) -> tuple[Found, ...]:
    """Each question that a document answers in two ways, once, with every place that does; and
    each that it leaves open by offering two."""
    by_question: dict[str, list[Statement]] = {}
    for statement in understanding.statements:
        by_question.setdefault(statement.question, []).append(statement)
    found: list[Found] = []
    for name, said in by_question.items():
        question = library.questions[name]
        several = {r.id for r in library.recognizers.values() if r.several}
        sure = [
            each
            for each in said
            if each.confidence >= SURE_TO_CONTRADICT
            and each.value is not None
            and each.recognizer not in several
            and not _limited(each, outline)
        ]
        if question.kind == "table":
            found.extend(_rows_against_rows(question, sure, outline))
        elif question.kind not in TOGETHER:
            found.extend(_against_each_other(question, sure, outline))
        if name not in understanding.answers and question.kind not in ("table", *TOGETHER):
            found.extend(_left_open(question, said, outline))
    return tuple(sorted(found, key=lambda each: each.at.block if each.at else 0))


def _against_each_other(
    question: Question, said: Iterable[Statement], outline: Outline
) -> Iterable[Found]:
    groups: list[list[Statement]] = []
    for statement in said:
        for group in groups:
            if _agree(question, group[0], statement, outline):
                group.append(statement)
                break
        else:
            groups.append([statement])
    if len(groups) < 2:
        return
    first, *others = sorted(groups, key=lambda group: (-len(group), group[0].at.block))
    for other in others[:1]:
        yield _stated_twice(question, question.label, [first, *others], other[-1], outline)


def _stated_twice(
    question: Question,
    what: str,
    groups: list[list[Statement]],
    at: Statement,
    outline: Outline,
) -> Found:
    unit = f" {question.unit}" if question.kind == "number" and question.unit else ""
    shown = [f"{_shown(group[0])}{unit} in {_places(group, outline)}" for group in groups]
    says = f"The {what} is {', '.join(shown[:-1])} and {shown[-1]}."
    settle = () if question.kind == "table" else tuple({question.id: g[0].raw} for g in groups)
    finding = Finding(
        id=STATED_TWICE,
        kind="conflict",
        says=says[0].upper() + says[1:],
        because="Two answers to one question: each bidder prices the cheaper, and the other is "
        "left to a dispute.",
        source="common practice",
        place=outline.blocks[at.at.block].place,
        answers=(question.id,),
        settle=settle,
    )
    return Found(finding, at.at)


def _rows_against_rows(
    question: Question, said: Iterable[Statement], outline: Outline
) -> Iterable[Found]:
    """Rows that give one zone two figures."""
    rows: dict[str, list[tuple[Statement, tuple[Value, ...]]]] = {}
    for statement in said:
        for row in statement.value if isinstance(statement.value, tuple) else ():
            if isinstance(row, tuple) and isinstance(row[0], str):
                rows.setdefault(row[0].casefold(), []).append((statement, row))
    for given in rows.values():
        first, row = given[0]
        for other, against in given[1:]:
            differ = any(not same(a, b) for a, b in zip(row[1:], against[1:], strict=True))
            if differ and other.at.block != first.at.block:
                what = f"{question.label} of {row[0]}"
                yield _stated_twice(question, what, [[first], [other]], other, outline)
                break


def _left_open(question: Question, said: Iterable[Statement], outline: Outline) -> Iterable[Found]:
    """The first place that offers two answers, of a question that nothing else answers."""
    for statement in said:
        if statement.confidence <= OFFERED:
            finding = Finding(
                id=ALTERNATIVES_OPEN,
                kind="ambiguity",
                says=f"The {question.label} is left open between two: “{statement.words.strip()}”.",
                because="The bidder chooses, and the owner learns which afterward.",
                source="common practice",
                place=outline.blocks[statement.at.block].place,
                answers=(question.id,),
                settle=({question.id: statement.raw},) if statement.value is not None else (),
            )
            yield Found(finding, statement.at)
            return


def _agree(question: Question, first: Statement, second: Statement, outline: Outline) -> bool:
    """Whether two statements say the same, or speak of different things."""
    assert first.value is not None
    assert second.value is not None
    if same(first.value, second.value):
        return True
    if first.at.block == second.at.block and _overlap(first, second):
        return True
    if question.kind == "slope" and _steeper_than_least(first, second):
        return True
    parts = [_named(_PART_OF_ROOF, each, outline) for each in (first, second)]
    metals = [_named(_METAL, each, outline) for each in (first, second)]
    return parts[0] != parts[1] or (
        question.kind == "thickness" and all(metals) and metals[0] != metals[1]
    )


def _overlap(first: Statement, second: Statement) -> bool:
    return first.at.start < second.at.end and second.at.start < first.at.end


def _steeper_than_least(first: Statement, second: Statement) -> bool:
    """Whether one is a least slope and the other a slope that keeps to it."""
    least = [each for each in (first, second) if each.recognizer == "slope-lowest"]
    if len(least) != 1:
        return False
    other = second if least[0] is first else first
    low, high = least[0].value, other.value
    if not isinstance(low, Quantity) or not isinstance(high, Quantity):
        return False
    return low.magnitude < high.magnitude


def _named(pattern: re.Pattern[str], statement: Statement, outline: Outline) -> frozenset[str]:
    """What of a kind is named in the block of a statement."""
    text = plain(outline.blocks[statement.at.block].text)
    return frozenset(match[0].casefold().strip() for match in pattern.finditer(text))


def _limited(statement: Statement, outline: Outline) -> bool:
    """Whether the words hold under a condition or for a part alone."""
    text = plain(outline.blocks[statement.at.block].text)
    start = max(text.rfind(mark, 0, statement.at.start) for mark in (". ", "; ")) + 1
    return bool(
        _LIMITED.match(text[start : start + 40]) or _LIMITED_AFTER.match(text[statement.at.end :])
    )


def _shown(statement: Statement) -> str:
    assert statement.value is not None
    if isinstance(statement.value, tuple):
        rows = statement.raw if isinstance(statement.raw, list) else []
        cells = [list(row.values())[1:] for row in rows if isinstance(row, dict)]
        return ", ".join(str(cell) for row in cells for cell in row)
    return getattr(statement.value, "label", "") or typed(statement.value)


def _places(group: list[Statement], outline: Outline) -> str:
    blocks = dict.fromkeys(each.at.block for each in group)
    names = [outline.blocks[b].place or outline.blocks[b].article or "the text" for b in blocks]
    kept = list(dict.fromkeys(names))[:4]
    return kept[0] if len(kept) == 1 else f"{', '.join(kept[:-1])} and {kept[-1]}"
