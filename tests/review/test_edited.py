"""A document changed: the outline that is worked out is the one that the changed file gives."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.review.edited import edit_docx, edited
from specgen.review.outline import Outline
from specgen.review.reading import read_document
from specgen.review.shapes import Edit
from tests.review.packages import (
    abstract,
    level,
    listed,
    num,
    package,
    paragraph,
    row,
    table,
    written,
)
from tests.review.test_reading_docx import HEADED, run, runs
from tests.reviewed_documents.make import write_document
from tests.reviewed_documents.source import CLEAN, read_source

LIST = abstract(1, level(0, "upperLetter", "%1."), level(1, "decimal", "%2.")) + num(1, 1)
AUTOMATIC = HEADED + "".join(
    listed(text, 1, depth)
    for text, depth in (("one", 0), ("below", 1), ("below too", 1), ("two", 0), ("three", 0))
)
TYPED = HEADED + "".join(
    map(paragraph, ("A.\tone", "1.\tbelow", "2.\tbelow too", "B.\ttwo", "C.\tthree"))
)


def key(found: Outline) -> list[tuple[object, ...]]:
    return [
        (b.kind, b.number, b.place, b.level, b.part, b.article, " ".join(b.text.split()))
        for b in found.blocks
    ]


def both(path: Path, edits: list[Edit]) -> Outline:
    """The outline after the edits, which the file after them must give too."""
    outline = read_document(path)
    before = path.read_bytes()
    edit_docx(path, outline, edits, path.with_name("out.docx"))
    assert path.read_bytes() == before
    ours = edited(outline, edits)
    assert key(read_document(path.with_name("out.docx"))) == key(ours)
    return ours


@pytest.mark.parametrize("body", [AUTOMATIC, TYPED], ids=["automatic", "typed"])
@pytest.mark.parametrize(
    ("edits", "places"),
    [
        ([Edit(3, "new words")], ["A", "A.1", "A.2", "B", "C"]),
        ([Edit(6, None)], ["A", "A.1", "A.2", "B"]),
        ([Edit(4, None)], ["A", "A.1", "B", "C"]),
        ([Edit(3, None), Edit(4, None), Edit(5, None)], ["A", "B"]),
        ([Edit(6, "more", after=True)], ["A", "A.1", "A.2", "B", "C", "D"]),
        ([Edit(4, "x", after=True), Edit(4, "y", after=True)],
         ["A", "A.1", "A.2", "A.3", "A.4", "B", "C"]),
        ([Edit(6, None), Edit(6, "instead", after=True)], ["A", "A.1", "A.2", "B", "C"]),
    ],
)  # fmt: skip
def test_numbers_stay_in_step(
    body: str, edits: list[Edit], places: list[str], tmp_path: Path
) -> None:
    path = written(tmp_path, package(body, numbering=LIST))
    found = both(path, edits)
    assert [b.place for b in found.blocks if b.kind == "paragraph"] == [f"1.1.{p}" for p in places]


def test_the_formatting_of_the_first_run_stays(tmp_path: Path) -> None:
    body = HEADED + runs(run("A. "), run("Panels", "<w:b/>"), run(" of zinc", "<w:i/>"))
    both(written(tmp_path, package(body)), [Edit(3, "Clips of steel")])
    import docx

    last = docx.Document(str(tmp_path / "out.docx")).paragraphs[-1]
    assert [(one.text, one.bold) for one in last.runs if one.text.strip()] == [
        ("A. ", None), ("Clips of steel", True),
    ]  # fmt: skip


def test_cells_are_reworded_each_in_its_own(tmp_path: Path) -> None:
    body = HEADED + table(row("Zone", "Spacing"), row("1", "24 in"), row("2", "12 in"))
    path = written(tmp_path, package(body))
    found = both(path, [Edit(4, "1\t18 in"), Edit(5, None), Edit(4, "3\t6 in", after=True)])
    assert [b.text for b in found.blocks[3:]] == ["Zone\tSpacing", "1\t18 in", "3\t6 in"]


def test_an_article_that_is_reworded_gives_its_paragraphs_its_new_name(tmp_path: Path) -> None:
    path = written(tmp_path, package(TYPED))
    assert both(path, [Edit(2, "EXTENT")]).blocks[-1].article == "EXTENT"


def test_a_gap_that_was_there_stays_one(tmp_path: Path) -> None:
    body = HEADED + "".join(map(paragraph, ("A. one", "B. two", "D. four", "E. five")))
    found = both(written(tmp_path, package(body)), [Edit(3, None)])
    assert [block.number for block in found.blocks[3:]] == ["A.", "C.", "D."]


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_edits_anywhere_give_the_outline_that_was_worked_out(path: Path, tmp_path: Path) -> None:
    document = write_document(read_source(path), tmp_path)
    outline = read_document(document)
    chance = random.Random(path.stem)
    leaves = [
        block.index
        for block, following in zip(outline.blocks, outline.blocks[1:], strict=False)
        if block.kind == "paragraph" and block.text and following.level <= block.level
    ]
    for _ in range(12):
        edits = [
            chance.choice(
                (Edit(at, None), Edit(at, "Words of our own"), Edit(at, "Added", after=True))
            )
            for at in sorted(chance.sample(leaves, 3))
        ]  # fmt: skip
        both(document, edits)


def test_a_document_that_is_not_the_one_that_was_read_is_refused(tmp_path: Path) -> None:
    path = written(tmp_path, package(TYPED))
    outline = read_document(path)
    other = written(tmp_path, package(HEADED), "b.docx")
    with pytest.raises(BadInput, match="not the document that was read"):
        edit_docx(other, outline, [Edit(5, "x")], tmp_path / "out.docx")
    assert not (tmp_path / "out.docx").exists()
