"""Sections by other hands: how they are read, what they are taken to say, what is found in them.

The sources in tests/reviewed_documents hold the outline and the answers that are meant.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import Brief, read_brief
from specgen.loading import load_library
from specgen.report import report_of
from specgen.review.findings import review
from specgen.review.reading import read_document
from specgen.review.shapes import Found, Review
from specgen.scope import Scope
from specgen.units import Quantity
from specgen.yamlread import Mapping, Sequence, read_yaml
from tests.reviewed_documents.make import FORMS, write_document
from tests.reviewed_documents.source import CLEAN, FLAWED, HERE, brief_of, read_source, shown
from tests.support import ROOT

EVERY_FORM = [(path, ".docx") for path in (*CLEAN, *FLAWED)] + [
    (HERE / "clean" / f"{name}.yaml", form) for name, forms in FORMS.items() for form in forms
]
# Of the answers that a clean document was written to give.
LEAST_RECALL = 0.9
MOST_FALSE_ALARMS = 1


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("documents")


@cache
def reviewed(path: Path, folder: Path, suffix: str = ".docx") -> Review:
    document = write_document(read_source(path), folder, suffix)
    return review(read_document(document), load_library())


@cache
def meant(path: Path, folder: Path) -> Brief:
    """The brief that a clean document's text comes to."""
    written = folder / path.name
    written.write_text(brief_of(path), encoding="utf-8")
    return read_brief(written, load_library())


@cache
def raised(path: Path, folder: Path) -> frozenset[str]:
    """The findings that the checks raise of the answers that are meant."""
    brief = meant(path, folder)
    scope = Scope(load_library(), brief.answers)
    return frozenset(each.id for each in report_of(brief, scope, assemble(scope)).standing)


def plain(value: object) -> object:
    """An answer without the way in which it was typed."""
    if isinstance(value, Quantity):
        return value.dimension, round(value.magnitude, 6)
    if isinstance(value, tuple):
        return tuple(plain(each) for each in value)
    if isinstance(value, Mapping | dict):
        return {name: plain(each) for name, each in value.items()}
    return value


def false_alarms(path: Path, folder: Path, suffix: str = ".docx") -> list[Found]:
    known = raised(path, folder)
    return [each for each in reviewed(path, folder, suffix).found if each.finding.id not in known]


def faults(path: Path) -> list[Mapping]:
    content = read_yaml(HERE / "flawed.yaml")
    assert isinstance(content, Mapping)
    listed = content[path.stem]
    assert isinstance(listed, Sequence)
    return list(listed)


def ids(item: object) -> str:
    return item.stem if isinstance(item, Path) else str(item)


@pytest.mark.parametrize(("path", "suffix"), EVERY_FORM, ids=ids)
def test_a_section_by_another_hand_is_read_into_the_outline_it_was_written_with(
    path: Path, suffix: str, folder: Path
) -> None:
    source = read_source(path)
    outline = read_document(write_document(source, folder, suffix))
    assert (outline.number, outline.title) == (source.number, source.title)
    placed = [
        (block.kind, block.number, block.place, block.text, block.article)
        for block in outline.blocks
        if block.kind not in ("title", "page", "loose") and block.part
    ]
    assert placed == [
        (
            line.kind,
            line.number,
            line.place,
            "\t".join(line.cells) if line.cells else shown(line.text),
            line.article,
        )
        for line in source.lines
    ]


@pytest.mark.parametrize("path", CLEAN, ids=ids)
def test_the_answers_that_a_clean_section_means_raise_nothing(path: Path, folder: Path) -> None:
    assert not raised(path, folder)


@pytest.mark.parametrize("path", CLEAN, ids=ids)
def test_a_clean_section_is_understood_as_it_was_meant(path: Path, folder: Path) -> None:
    understood = dict(reviewed(path, folder).understanding.answers)
    answers = meant(path, folder).answers
    wrong = {
        name: (value, answers[name])
        for name, value in understood.items()
        if name in answers and plain(value) != plain(answers[name])
    }
    assert not wrong
    missed = sorted(set(answers) - set(understood))
    assert len(missed) <= (1 - LEAST_RECALL) * len(answers), missed


@pytest.mark.parametrize("path", CLEAN, ids=ids)
def test_a_clean_section_raises_less_than_one_false_alarm(path: Path, folder: Path) -> None:
    alarms = [(each.finding.id, each.finding.says) for each in false_alarms(path, folder)]
    assert len(alarms) < MOST_FALSE_ALARMS, alarms


@pytest.mark.parametrize(
    ("path", "suffix"), [each for each in EVERY_FORM if each[1] != ".docx"], ids=ids
)
def test_what_is_found_does_not_hang_on_the_form_of_the_file(
    path: Path, suffix: str, folder: Path
) -> None:
    other = {(each.finding.id, each.finding.place) for each in reviewed(path, folder, suffix).found}
    assert other == {(each.finding.id, each.finding.place) for each in reviewed(path, folder).found}


@pytest.mark.parametrize("path", FLAWED, ids=ids)
def test_every_fault_of_a_flawed_section_is_found_at_its_place(path: Path, folder: Path) -> None:
    seen = reviewed(path, folder)
    missed = [fault["says"] for fault in faults(path) if not _is_found(fault, seen)]
    assert not missed, _told(seen)


@pytest.mark.parametrize("path", FLAWED, ids=ids)
def test_what_is_found_in_a_flawed_section_is_a_fault_of_it(path: Path, folder: Path) -> None:
    listed = faults(path)
    strange = [
        (each.finding.id, each.finding.place, each.finding.says)
        for each in reviewed(path, folder).found
        if not any(_names(fault, each) for fault in listed)
    ]
    assert len(strange) < MOST_FALSE_ALARMS, strange


@pytest.mark.parametrize("path", FLAWED, ids=ids)
def test_a_flawed_section_has_six_to_twelve_faults_and_stands_in_the_examples(
    path: Path, folder: Path
) -> None:
    assert 6 <= len(faults(path)) <= 12
    made = write_document(read_source(path), folder)
    kept = read_document(ROOT / "examples" / made.name)
    assert kept == read_document(made)


def _is_found(fault: Mapping, seen: Review) -> bool:
    if "noted" in fault:
        notes = [note for note in seen.outline.notes if note.block is not None]
        return any(
            fault["noted"] in note.says and seen.outline.blocks[note.block].place in fault["at"]
            for note in notes
            if note.block is not None
        )
    return any(_names(fault, each) and each.finding.kind == fault["kind"] for each in seen.found)


def _names(fault: Mapping, found: Found) -> bool:
    return found.finding.id in fault["finds"] and found.finding.place in fault["at"]


def _told(seen: Review) -> str:
    return "\n".join(
        f"{each.finding.kind} {each.finding.id} {each.finding.place}: {each.finding.says}"
        for each in seen.found
    )
