"""Planted faults are found, in clean documents of many styles, and clean documents raise few.

`python -m tests.review.test_planting` prints, kind by kind, how many are found in every document,
and what the clean ones raise.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.library import Library
from specgen.loading import load_library
from specgen.review.edited import edited
from specgen.review.findings import review
from specgen.review.outline import Outline
from specgen.review.planting import plant, plants_of
from specgen.review.reading import read_document
from specgen.review.section_outline import outline_of_section
from specgen.review.shapes import Plant, Review
from tests.reviewed_documents.make import write_document
from tests.reviewed_documents.source import CLEAN, read_source
from tests.support import EXAMPLES

DRAFTED = ("low-slope-library", "snow-country-lodge", "coastal-civic-hall")
DOCUMENTS = (*(path.stem for path in CLEAN), *DRAFTED)
FEWEST_KINDS = 25
RECALL = 0.95
MOST_ALARMS = 1.0


@cache
def held_library() -> Library:
    """The library that comes with specgen, loaded once."""
    return load_library()


@cache
def document(name: str) -> Outline:
    """A clean document: one of the six as read from its DOCX, or a draft of a clean brief."""
    if name in DRAFTED:
        library = held_library()
        brief = read_brief(EXAMPLES / f"{name}.yaml", library)
        return outline_of_section(Engine(library, brief.answers).section, name)
    source = read_source(next(path for path in CLEAN if path.stem == name))
    with tempfile.TemporaryDirectory() as folder:
        return read_document(write_document(source, Path(folder)))


@cache
def before(name: str) -> Review:
    return review(document(name), held_library())


@cache
def plants(name: str) -> tuple[Plant, ...]:
    return plants_of(document(name), before(name).understanding, held_library())


def is_found(name: str, planted: Plant) -> bool:
    """Whether a finding that was not there before names the fault."""
    after = review(edited(document(name), planted.edits), held_library())
    new = Counter(each.finding.id for each in after.found)
    new.subtract(each.finding.id for each in before(name).found)
    return any(new[finding] > 0 for finding in planted.finds)


def one_of_each_kind() -> Iterator[tuple[str, Plant]]:
    """A plant of each kind, from one document after another, so that all take part."""
    for number, kind in enumerate(sorted(kinds())):
        names = [name for name in DOCUMENTS if any(each.kind == kind for each in plants(name))]
        name = names[number % len(names)]
        yield name, next(each for each in plants(name) if each.kind == kind)


def kinds() -> set[str]:
    return {each.kind for name in DOCUMENTS for each in plants(name)}


def test_there_are_many_kinds_of_fault_and_each_document_takes_most() -> None:
    assert len(kinds()) >= FEWEST_KINDS
    for name in DOCUMENTS:
        assert len({each.kind for each in plants(name)}) >= 15, name


def test_one_fault_of_every_kind_is_found() -> None:
    missed = [(name, each.kind) for name, each in one_of_each_kind() if not is_found(name, each)]
    assert len(missed) <= (1 - RECALL) * len(kinds()), missed


def test_clean_documents_raise_less_than_one_finding_each() -> None:
    alarms = {name: [e.finding.id for e in before(name).found] for name in DOCUMENTS[:6]}
    print(alarms)
    assert sum(map(len, alarms.values())) < MOST_ALARMS * len(alarms), alarms
    assert [name for name in DOCUMENTS if before(name).conflicts] == []


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_plant_changes_something_and_says_what_is_wrong(name: str) -> None:
    read = document(name)
    for each in plants(name):
        assert each.edits
        assert all(edit.after or edit.text != read.blocks[edit.block].text for edit in each.edits)
        assert each.finds
        assert each.says.endswith((".", "!"))
        assert each.because
        assert each.source
        assert 1 <= each.level <= 5
        assert each.topic in {question.topic for question in held_library().questions.values()}


def test_what_is_planted_is_the_same_each_time() -> None:
    name = DOCUMENTS[0]
    again = plants_of(document(name), before(name).understanding, held_library())
    assert again == plants(name)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_plants_of_one_exercise_do_not_touch_one_another(seed: int) -> None:
    name, library = "low-slope-library", held_library()
    chosen = plant(document(name), before(name).understanding, library, seed, 6)
    assert len(chosen) == 6
    assert chosen == plant(document(name), before(name).understanding, library, seed, 6)
    blocks = [edit.block for each in chosen for edit in each.edits]
    assert len(blocks) == len(set(blocks))
    assert len({each.kind for each in chosen}) == 6


def test_another_seed_plants_others() -> None:
    name, library = "low-slope-library", held_library()
    chosen = {
        tuple(
            each.kind for each in plant(document(name), before(name).understanding, library, s, 4)
        )
        for s in range(6)
    }
    assert len(chosen) > 1


def test_all_plants_of_one_exercise_are_found_together() -> None:
    name, library = "low-slope-library", held_library()
    chosen = plant(document(name), before(name).understanding, library, 7, 5)
    edits = tuple(edit for each in chosen for edit in each.edits)
    after = {each.finding.id for each in review(edited(document(name), edits), library).found}
    assert [each.kind for each in chosen if not each.finds & after] == []


def figures() -> Iterator[str]:
    """Found and planted, kind by kind over all documents; then what the clean ones raise."""
    planted, found = Counter[str](), Counter[str]()
    for name in DOCUMENTS:
        for each in plants(name):
            planted[each.kind] += 1
            if is_found(name, each):
                found[each.kind] += 1
            else:
                print(f"missed in {name}: {each.kind}: {each.says}", file=sys.stderr)
    for kind in sorted(planted):
        yield f"{kind:<24} {found[kind]:>4} of {planted[kind]:>4}"
    yield f"{'together':<24} {found.total():>4} of {planted.total():>4}"
    clean = DOCUMENTS[:6]
    alarms = Counter(e.finding.kind for name in clean for e in before(name).found)
    yield f"{len(clean)} clean documents raise {alarms.total()}: {dict(alarms)}"


if __name__ == "__main__":
    for line in figures():
        print(line)
