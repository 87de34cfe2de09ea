"""Faults of what is not there that can be planted: needs, products and installations taken out."""

from __future__ import annotations

from collections.abc import Iterator

from specgen.review.companions import COMPANIONS, Companion, products_of, works_of
from specgen.review.missing import covering, need_arises
from specgen.review.navigating import has_parts, is_related_work
from specgen.review.needs import NEEDS
from specgen.review.outline import Block
from specgen.review.planting_ground import Ground
from specgen.review.planting_words import plant_of
from specgen.review.shapes import Plant


def clauses_dropped(ground: Ground) -> Iterator[Plant]:
    """Every paragraph on something that this roof needs is taken out."""
    if not has_parts(ground.outline):
        return
    for need in NEEDS:
        if not need_arises(need, ground.engine):
            continue
        blocks = [*covering(need, ground.outline, ground.understanding)]
        held = {each.article for each in blocks}
        if not 0 < len(blocks) <= 4 or any(need.reads.search(title) for title in held):
            continue
        if any(need_fact in _answered(ground, blocks) for need_fact in need.when):
            continue
        yield plant_of(
            "clause-dropped", ground.without(blocks), f"missing-{need.id}",
            need.says, need.topic, need.level,
        )  # fmt: skip


def _answered(ground: Ground, blocks: list[Block]) -> set[str]:
    """The facts that blocks decide, which would not arise once they are gone."""
    there = {block.index for block in blocks}
    questions = {s.question for s in ground.understanding.statements if s.at.block in there}
    return {
        fact.id for fact in ground.library.facts.values() if questions & set(fact.condition.names)
    }


def installations_removed(ground: Ground) -> Iterator[Plant]:
    """Part 3 no longer installs a product of Part 2."""
    for companion in COMPANIONS if has_parts(ground.outline) else ():
        product = next(products_of(companion, ground.outline), None)
        blocks = _mentions(companion, ground, 3)
        if product is None or not 0 < len(blocks) <= 6 or _in_titles(companion, ground, blocks, 3):
            continue
        yield plant_of(
            "installation-removed", ground.without(blocks), "product-without-installation",
            f"Nothing installs the {companion.name} of {product.place or 'Part 2'}.",
            companion.topic, 3,
        )  # fmt: skip


def products_removed(ground: Ground) -> Iterator[Plant]:
    """Part 2 no longer describes what Part 3 installs."""
    for companion in COMPANIONS if has_parts(ground.outline) else ():
        work = next(works_of(companion, ground.outline), None)
        blocks = _mentions(companion, ground, 2)
        elsewhere = any(
            companion.described.search(block.text) and is_related_work(ground.outline, block)
            for block in ground.outline.said()
            if block.part == 1
        )
        if work is None or not companion.describes or elsewhere or not 0 < len(blocks) <= 4:
            continue
        if _in_titles(companion, ground, blocks, 2):
            continue
        yield plant_of(
            "product-removed", ground.without(blocks), "installation-without-product",
            f"Part 3 installs {companion.name} that Part 2 does not describe.", companion.topic, 3,
        )  # fmt: skip


def _mentions(companion: Companion, ground: Ground, part: int) -> list[Block]:
    return [
        block
        for block in ground.outline.said()
        if block.part == part and companion.installed.search(block.text)
    ]


def _in_titles(companion: Companion, ground: Ground, blocks: list[Block], part: int) -> bool:
    """Whether an article that stays when blocks are gone carries the product in its title."""
    gone = {edit.block for edit in ground.without(blocks)}
    return any(
        companion.installed.search(block.text)
        for block in ground.outline.blocks
        if block.kind == "article" and block.part == part and block.index not in gone
    )


MISSING_PLANTERS = (clauses_dropped, installations_removed, products_removed)
