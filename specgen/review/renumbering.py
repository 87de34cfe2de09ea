"""Numbers of paragraphs kept in step after some were taken out or added."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from specgen.review.labels import Label, label_of
from specgen.review.number_formats import letters, roman
from specgen.review.outline import Block


@dataclass(frozen=True, slots=True)
class Standing:
    """A block of the changed document, the one that it was or was added after, and which."""

    block: Block
    old: Block
    added: bool = False


@dataclass(frozen=True, slots=True)
class _Step:
    """Where a label stands in its run of labels: which run, what that starts with, how many counts
    it is behind the label before it."""

    run: int
    start: int
    step: int
    label: Label


def renumbered(outline: Sequence[Block], standing: Sequence[Standing]) -> list[Block]:
    """The changed blocks with their numbers and places in step.

    ``outline`` are the blocks before the change. A gap that was there stays one, and so does the
    start of a list; articles and paths of figures (``2.1.3``) keep their numbers.
    """
    steps = _steps(outline)
    now: dict[int, int] = {}
    cited: dict[int, str] = {}
    head = above = ""
    result: list[Block] = []
    for one in standing:
        block = one.block
        step = steps.get(one.old.index) if block.kind == "paragraph" else None
        if block.kind in ("part", "article"):
            cited, head, above = {}, block.place, block.place
        elif block.kind == "row":
            block = replace(block, place=above if block.place else "")
        elif step is not None and block.number:
            by = 1 if one.added else step.step
            value = now[step.run] + by if step.run in now else step.start + max(by, 1) - 1
            now[step.run] = value
            number = _written(step.label, value)
            cited = {level: shown for level, shown in cited.items() if level < block.level}
            cited[block.level] = number.strip("().: ")
            place = ".".join(filter(None, [head, *(cited[level] for level in sorted(cited))]))
            block = replace(block, number=number, place=place if block.place else "")
            above = block.place or above
        elif block.kind == "paragraph":
            above = block.place or above
        result.append(block)
    return result


def _steps(outline: Sequence[Block]) -> dict[int, _Step]:
    """How each counted label follows the one before it, by the index of its block."""
    steps: dict[int, _Step] = {}
    last: dict[int, _Step] = {}
    for block in outline:
        if block.kind in ("part", "article"):
            last = {}
        if block.kind != "paragraph" or not block.number:
            continue
        label = label_of(block.number)
        if not label.value or label.form in ("part", "path", "other", "•"):
            continue
        last = {level: step for level, step in last.items() if level <= block.level}
        before = last.get(block.level)
        value = label.value
        if before is not None and before.label.form == label.form and value > before.label.value:
            step = _Step(before.run, before.start, value - before.label.value, label)
        elif before is not None and label.roman == before.label.value + 1:
            roman_label = replace(label, form=before.label.form, value=label.roman)
            step = _Step(before.run, before.start, 1, roman_label)
        else:
            step = _Step(block.index, value, 1, label)
        steps[block.index] = last[block.level] = step
    return steps


def _written(label: Label, value: int) -> str:
    """The label with another count, in its own form."""
    if value == label.value:
        return label.shown
    core = label.cited
    if core.isdigit():
        written = str(value).zfill(len(core) if core.startswith("0") else 1)
    elif label.form.strip("().") in ("i", "I"):
        written = roman(value)
    else:
        written = letters(value)
    return label.shown.replace(core, written.upper() if core.isupper() else written, 1)
