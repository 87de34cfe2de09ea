"""Faults of the text: what review's generator can plant in a section, as exercises take it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from specgen.library import Library
from specgen.review.designations import Named
from specgen.review.kinds import KINDS as FOUND_KINDS
from specgen.review.navigating import lists_standards
from specgen.review.outline import Block, Outline
from specgen.review.planting import plants_of
from specgen.review.shapes import Edit, Plant, Understanding
from specgen.review.standards_named import WALL_METHODS, named_standards


@dataclass(frozen=True, slots=True)
class WordFault:
    """A fault of the text that could be planted.

    ``at`` is the block to mark, counted before the edits: the block that they change, the one that
    they add below, or with ``missing`` the article that loses a paragraph. ``finds`` are the ids of
    the findings that name it.
    """

    kind: str
    level: int
    edits: tuple[Edit, ...]
    at: int
    missing: bool
    finds: frozenset[str]
    was: str
    says: str
    because: str
    source: str
    topic: str

    @property
    def added(self) -> bool:
        return any(edit.after for edit in self.edits)

    @property
    def touched(self) -> frozenset[int]:
        """The blocks that it changes, with their neighbors: what is added stands below one."""
        return frozenset(i for edit in self.edits for i in (edit.block, edit.block + 1))


# The kinds of the generator, by the kind and the level of exercises that take them.
_TAKEN: Mapping[str, tuple[str, int]] = {
    "choice-left": ("choice-left", 1),
    "blank-left": ("blank-left", 1),
    "decision-put-off": ("blank-left", 1),
    "writers-note-left": ("note-left", 1),
    "other-project-named": ("other-project", 2),
    "vague-words": ("vague-words", 2),
    "reference-broken": ("reference-broken", 2),
    "article-lost": ("article-lost", 2),
    "listed-for-nothing": ("list-and-text", 3),
    "cited-not-listed": ("list-and-text", 3),
    "title-swapped": ("wrong-title", 3),
    "criterion-dropped": ("no-criterion", 3),
    "clause-dropped": ("missing", 3),
    "installation-removed": ("missing", 3),
    "product-removed": ("missing", 3),
    "value-changed-once": ("two-figures", 3),
    "slope-changed-once": ("two-figures", 3),
    "warranty-shortened": ("two-figures", 3),
}


def word_faults(
    outline: Outline, understanding: Understanding, library: Library
) -> tuple[WordFault, ...]:
    """The faults that can be planted in a section, the same each time."""
    named = named_standards(outline, library)
    planted = (_taken(plant, outline) for plant in plants_of(outline, understanding, library))
    return (
        *(fault for fault in planted if fault is not None),
        *_not_in_force(outline, named, library),
        *_wall_methods(outline, named, library),
    )


def _taken(plant: Plant, outline: Outline) -> WordFault | None:
    """A plant as a fault with one right place; None where it has none."""
    if plant.kind not in _TAKEN:
        return None
    kind, level = _TAKEN[plant.kind]
    at, missing = _changed(plant.edits, outline), False
    # A tested assembly may differ from the one that is built; its figures are no second answer.
    if kind == "two-figures" and at is not None and outline.blocks[at].kind == "row":
        return None
    if plant.kind == "article-lost":
        at = _article_after(plant.edits[0].block, outline)
    elif all(edit.text is None for edit in plant.edits):
        at, missing = _article_of(plant.edits, outline), True
    if at is None:
        return None
    return WordFault(
        kind, level, plant.edits, at, missing, plant.finds, _before(plant.edits, outline),
        plant.says, plant.because, plant.source, plant.topic,
    )  # fmt: skip


def _changed(edits: Sequence[Edit], outline: Outline) -> int | None:
    """The one paragraph that edits change; None if they change several."""
    if len(edits) != 1 or not outline.blocks[edits[0].block].place:
        return None
    return edits[0].block


def _article_of(edits: Sequence[Edit], outline: Outline) -> int | None:
    """The one article that loses paragraphs and stays; None if there are several or it goes."""
    gone = [outline.blocks[edit.block] for edit in edits]
    titles = {(block.part, block.article) for block in gone}
    if len(titles) != 1 or any(block.kind == "article" for block in gone):
        return None
    if any(_leaves_a_head(block, gone, outline) for block in gone):
        return None
    title = titles.pop()
    return next(
        block.index
        for block in outline.blocks
        if block.kind == "article" and (block.part, block.article) == title
    )


def _leaves_a_head(block: Block, gone: Sequence[Block], outline: Outline) -> bool:
    """Whether a paragraph that leads a list is left without the list."""
    above, _, _ = block.place.rpartition(".")
    beside = [
        each
        for each in outline.blocks
        if each.kind == "paragraph" and each.place.rpartition(".")[0] == above
    ]
    return block.level > 1 and all(each in gone for each in beside)


def _article_after(article: int, outline: Outline) -> int | None:
    following = (b.index for b in outline.blocks if b.kind == "article" and b.index > article)
    return next(following, None)


def _before(edits: Sequence[Edit], outline: Outline) -> str:
    """What stood where the edits change something; nothing where they add."""
    first = outline.blocks[edits[0].block]
    return "" if edits[0].after else first.text


# ------------------------------------------------------------------------------- other standards


def _not_in_force(
    outline: Outline, named: Sequence[Named], library: Library
) -> Iterator[WordFault]:
    """A standard in force gives way, wherever it is named, to one that it replaced."""
    for old in library.standards.values():
        if old.status == "current" or old.id.startswith(("ASCE", "ANSI A58")):
            continue
        now = re.split(r" \(| with | or ", old.replaced_by)[0].rstrip(".")
        says = f"{old.id} is {old.status}; in its place stands {now}."
        finds = f"standard-{old.status}"
        yield from _renamed(outline, named, library, (now, old.id), "not-in-force", finds, says)


def _wall_methods(
    outline: Outline, named: Sequence[Named], library: Library
) -> Iterator[WordFault]:
    """A test for roofs gives way, wherever it is named, to the one for windows and walls."""
    for wall, roof in WALL_METHODS.items():
        says = f"{wall} tests windows and walls; {roof} is the test for roofs."
        finds = "standard-not-for-roofs"
        yield from _renamed(outline, named, library, (roof, wall), "wall-method", finds, says)


def _renamed(
    outline: Outline,
    named: Sequence[Named],
    library: Library,
    pair: tuple[str, str],
    kind: str,
    finds: str,
    says: str,
) -> Iterator[WordFault]:
    """The fault that puts the second standard of a pair in every place of the first, list and all;
    none where a reader could not tell it, or where the right place would not be plain."""
    right, wrong = (library.standards.get(name) for name in pair)
    if right is None or wrong is None or right.publisher != wrong.publisher:
        return
    places = [each for each in named if each.id == right.id]
    required = [e.block for e in places if e.block.part > 1 and e.block.kind == "paragraph"]
    if not required or any(each.id == wrong.id for each in named):
        return
    if any(other != right.id and right.id in other for other in {each.id for each in named}):
        return
    told = FOUND_KINDS[finds]
    yield WordFault(
        kind,
        1 if kind == "not-in-force" else 4,
        tuple(_rename(places, right.title, wrong.id, wrong.title)),
        required[0].index,
        False,
        frozenset((finds,)),
        required[0].text,
        says,
        told.because,
        told.source,
        "performance" if kind == "wall-method" else "project",
    )


def _rename(places: Iterable[Named], title: str, name: str, other: str) -> Iterator[Edit]:
    """Edits that put another designation at each place of one, with its title in the list."""
    texts: dict[int, str] = {}
    for each in reversed(list(places)):
        text = texts.get(each.block.index, each.block.text)
        text = text[: each.start] + name + text[each.end :]
        texts[each.block.index] = (
            text.replace(title, other) if lists_standards(each.block) else text
        )
    return (Edit(index, text) for index, text in sorted(texts.items()))
