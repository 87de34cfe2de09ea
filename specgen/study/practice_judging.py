"""A section with faults in it held against the review: whether all of them and nothing else is
found there, and where each of them is rightly marked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from specgen.review.edited import edited
from specgen.review.findings import review
from specgen.review.outline import Outline
from specgen.review.shapes import Edit, Found, Review
from specgen.review.standards_named import named_standards
from specgen.study.practice_answers import Wrong, Wronged, before, held_against, place_of, worst
from specgen.study.practice_projects import Project
from specgen.study.practice_shapes import Planted
from specgen.study.practice_words import WordFault

# Kinds whose findings stand at another place than the one to mark.
_FOUND_ELSEWHERE = frozenset(("missing", "two-figures", "list-and-text", "article-lost"))


@dataclass(frozen=True, slots=True)
class Draft:
    """A section with its faults, ready to be read."""

    outline: Outline
    planted: tuple[Planted, ...]


def judged(
    base: Project, held: Wronged, outline: Outline, words: Sequence[WordFault]
) -> Draft | set[WordFault]:
    """The section with the faults of the text put in it; or those of them that are not found there,
    or that bring something else with them.

    No edit may touch a block in which a wrong answer stands.
    """
    edits = tuple(edit for fault in words for edit in fault.edits)
    planted_in = edited(outline, edits)
    moved = _moved(outline, edits)
    done = review(planted_in, base.engine.library)
    own: dict[WordFault, list[Found]] = {fault: [] for fault in words}
    faulty: set[WordFault] = set()
    more = False
    for found in done.found:
        if _of_an_answer(found, base, held):
            continue
        fault = next((each for each in words if _names(found, each, moved)), None)
        if fault is None:
            more = True
            faulty |= {each for each in words if _beside(found, each, moved)}
        else:
            own[fault].append(found)
    faulty |= {fault for fault, found in own.items() if not _told(fault, found)}
    if more or faulty:
        return faulty or set(words)
    planted = [_of_the_text(fault, own[fault], moved, done) for fault in words]
    for wrong in held.findings:
        blocks = [moved[index] for index in standing_in(wrong, held, outline)]
        planted.append(_of_the_roof(wrong, base, held, blocks, planted_in))
    if _overlap(planted):
        return set(words)
    return Draft(planted_in, tuple(sorted(planted, key=lambda each: each.block)))


def unplanned(drafted: Review, base: Project, held: Wronged) -> bool:
    """Whether a review of the section before its edits finds more than the wrong answers."""
    return any(not _of_an_answer(found, base, held) for found in drafted.found)


def _of_an_answer(found: Found, base: Project, held: Wronged) -> bool:
    """Whether a finding is one that the wrong answers raise or bring."""
    name = found.finding.id
    if any(name in wrong.brings for wrong in held.findings):
        return True
    return name in held.engine.found and name not in base.engine.found


def _names(found: Found, fault: WordFault, moved: Mapping[int, int]) -> bool:
    """Whether a finding is the one by which a fault is known."""
    if found.finding.id not in fault.finds:
        return False
    if fault.kind in _FOUND_ELSEWHERE or found.at is None:
        return True
    return found.at.block in _blocks(fault, moved)


def _beside(found: Found, fault: WordFault, moved: Mapping[int, int]) -> bool:
    return found.at is None or found.at.block in _blocks(fault, moved)


def _told(fault: WordFault, found: Sequence[Found]) -> bool:
    """Whether a fault is found, and a missing paragraph or a wrong figure once."""
    once = ("missing", "two-figures", "article-lost", "list-and-text")
    return len(found) == 1 if fault.kind in once else bool(found)


def _blocks(fault: WordFault, moved: Mapping[int, int]) -> set[int]:
    """The blocks of a fault as they are counted after the edits."""
    return {moved[edit.block] + edit.after for edit in fault.edits if edit.block in moved}


def _moved(outline: Outline, edits: Iterable[Edit]) -> dict[int, int]:
    """Where each block that stays has gone."""
    gone = {edit.block for edit in edits if edit.text is None}
    added = Counter(edit.block for edit in edits if edit.after)
    moved: dict[int, int] = {}
    index = 0
    for block in outline.blocks:
        if block.index not in gone:
            moved[block.index] = index
            index += 1
        index += added[block.index]
    return moved


# ---------------------------------------------------------------------------- where it is marked


def standing_in(wrong: Wrong, held: Wronged, outline: Outline) -> tuple[int, ...]:
    """The blocks of a drafted section in which a wrong answer stands: the one to mark first, then
    those that say it again or that it is held against."""
    at = place_of(wrong, held.engine)
    assert at is not None  # `wronged` gives none without its place
    also = dict.fromkeys(place for place in held_against(wrong, held) if place != at)
    return tuple(_block_at(outline, place) for place in (at, *also))


def _of_the_roof(
    wrong: Wrong, base: Project, held: Wronged, blocks: Sequence[int], outline: Outline
) -> Planted:
    finding = worst(wrong, held)
    at, *also = (outline.blocks[index].place for index in blocks)
    return Planted(
        place=at,
        kind=wrong.kind,
        block=blocks[0],
        also=tuple(also),
        was=before(wrong, base, held),
        says=finding.says,
        because=finding.because,
        source=finding.source,
        topic=held.engine.library.questions[wrong.question].topic,
        level=wrong.level,
    )


def _of_the_text(
    fault: WordFault, found: Sequence[Found], moved: Mapping[int, int], done: Review
) -> Planted:
    outline = done.outline
    place = outline.blocks[moved[fault.at] + fault.added].place
    also = [outline.blocks[index].place for index in sorted(_also(fault, found, moved, done))]
    return Planted(
        place=place,
        kind=fault.kind,
        block=_block_at(outline, place),
        also=tuple(dict.fromkeys(each for each in also if each and each != place)),
        was=fault.was,
        says=fault.says,
        because=fault.because,
        source=fault.source,
        topic=fault.topic,
        level=fault.level,
    )


def _also(
    fault: WordFault, found: Sequence[Found], moved: Mapping[int, int], done: Review
) -> Iterator[int]:
    """The other blocks at which a fault may be seen: where it is found, where the same is said, and
    every place that names a standard which the list lacks."""
    yield from _blocks(fault, moved)
    for each in found:
        if each.at is not None:
            yield each.at.block
        yield from (
            statement.at.block
            for statement in done.understanding.statements
            if statement.question in each.finding.answers
        )
    if fault.kind == "list-and-text" and fault.missing:
        named = named_standards(done.outline, done.engine.library)
        yield from (each.block.index for each in named if fault.was.startswith(each.id))


def _block_at(outline: Outline, place: str) -> int:
    """The paragraph or article of a number; a table's rows carry the number of their paragraph."""
    return next(
        block.index
        for block in outline.blocks
        if block.place == place and block.kind in ("article", "paragraph")
    )


def _overlap(planted: Sequence[Planted]) -> bool:
    """Whether two faults share the one right answer of either."""
    right = Counter(each.place for each in planted)
    return any(count > 1 for count in right.values())
