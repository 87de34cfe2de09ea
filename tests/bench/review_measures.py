"""Measuring the review of documents: one of forty pages, two hundred of them, memory over both."""

from __future__ import annotations

import resource
import statistics
import tempfile
import time
from pathlib import Path

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.loading import load_library
from specgen.review.batch import review_all
from specgen.review.findings import review
from specgen.review.reading import read_document
from specgen.writers.docx import write_docx
from tests.bench.measuring import ROUNDS, figure
from tests.reviewed_documents.make import write_document
from tests.reviewed_documents.source import CLEAN, read_source
from tests.support import EXAMPLES

DRAFTED = EXAMPLES / "low-slope-library.yaml"
DOCUMENTS = 200
FEWEST_A_SECOND = 5.0
WORDS_A_PAGE = 300


def run() -> None:
    _one()
    _many()


def _one() -> None:
    """A drafted section of about forty pages, read and reviewed with the library loaded."""
    library = load_library()
    brief = read_brief(DRAFTED, library)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "section.docx"
        path.write_bytes(write_docx(Engine(library, brief.answers).section, brief))
        outline = read_document(path)
        times = []
        review(outline, library)
        for _ in range(ROUNDS):
            start = time.perf_counter()
            review(read_document(path), library)
            times.append(time.perf_counter() - start)
    pages = sum(len(block.text.split()) for block in outline.blocks) / WORDS_A_PAGE
    # What is measured is brought to forty pages: the time grows with the text.
    seconds = statistics.median(times) * max(1.0, 40 / pages)
    figure(
        f"review of a section, {pages:.0f} pages measured, at 40 pages / 1 s",
        seconds,
        1.0,
        f"{statistics.median(times) * 1000:.0f} ms for {len(outline.blocks)} blocks",
    )


def _many() -> None:
    """Two hundred documents of seven kinds on two processes, and what they keep in memory."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        paths = _documents(folder)
        start = time.perf_counter()
        few = sum(1 for _ in review_all(paths[:40], processes=2))
        first = time.perf_counter() - start
        before = _peak()
        start = time.perf_counter()
        done = sum(1 for _ in review_all(paths, processes=2))
        seconds = time.perf_counter() - start
        after = _peak()
    figure(
        f"{FEWEST_A_SECOND:.0f} documents a second / those of a batch of {done}",
        FEWEST_A_SECOND / (done / seconds),
        1.0,
        f"{done / seconds:.1f} a second on two processes; {few} took {first:.1f} s",
    )
    figure(
        f"peak memory of a process over {done} documents / over {few}",
        after / before,
        1.1,
        f"{after:.0f} MiB / {before:.0f} MiB",
    )


def _documents(folder: Path) -> list[Path]:
    """Two hundred files: the clean documents of the tests and a draft, again and again."""
    made = [write_document(read_source(path), folder) for path in CLEAN]
    library = load_library()
    brief = read_brief(DRAFTED, library)
    contents = [path.read_bytes() for path in made]
    contents.append(write_docx(Engine(library, brief.answers).section, brief))
    paths = []
    for number in range(DOCUMENTS):
        path = folder / f"{number:03}.docx"
        path.write_bytes(contents[number % len(contents)])
        paths.append(path)
    return paths


def _peak() -> float:
    """The most memory that a child process of this one has held, in MiB."""
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
