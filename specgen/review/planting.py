"""Faults planted in a document: all that could be, and some that do not touch one another."""

from __future__ import annotations

import random

from specgen.library import Library
from specgen.review.contradictions import STATED_TWICE
from specgen.review.outline import Outline
from specgen.review.planting_answers import ANSWER_PLANTERS
from specgen.review.planting_ground import Ground
from specgen.review.planting_missing import MISSING_PLANTERS
from specgen.review.planting_words import WORD_PLANTERS
from specgen.review.shapes import Plant, Understanding


def plants_of(
    outline: Outline, understanding: Understanding, library: Library
) -> tuple[Plant, ...]:
    """Every fault that can be planted in a document, each only where it truly makes one.

    The same document gives the same plants in the same order.
    """
    ground = Ground(outline, understanding, library)
    return tuple(
        plant
        for planter in (*WORD_PLANTERS, *MISSING_PLANTERS, *ANSWER_PLANTERS)
        for plant in planter(ground)
    )


def plant(
    outline: Outline, understanding: Understanding, library: Library, seed: int, count: int
) -> tuple[Plant, ...]:
    """So many plants, fewer where there is no room, that do not touch one another.

    No two change one block or are named by one finding; kinds are repeated only when every kind
    has been taken. The same seed gives the same plants.
    """
    chance = random.Random(seed)
    candidates = list(plants_of(outline, understanding, library))
    chance.shuffle(candidates)
    chosen: list[Plant] = []
    blocks: set[int] = set()
    for again in (False, True):
        for each in candidates:
            if len(chosen) == count:
                break
            touched = _touched(each)
            if each in chosen or touched & blocks:
                continue
            if not again and any(each.kind == other.kind for other in chosen):
                continue
            if any(_own(each) & _own(other) for other in chosen) and not again:
                continue
            chosen.append(each)
            blocks |= touched
    return tuple(sorted(chosen, key=lambda each: min(edit.block for edit in each.edits)))


def _touched(each: Plant) -> set[int]:
    """The blocks that a plant changes, with their neighbors: what is added stands below one."""
    return {index for edit in each.edits for index in (edit.block, edit.block + 1)}


def _own(each: Plant) -> frozenset[str]:
    """The findings that name this plant and few others."""
    return each.finds - {STATED_TWICE, "same-words-other-figures"} or each.finds
