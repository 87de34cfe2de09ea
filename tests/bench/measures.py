"""Measuring: the writing of a document, whole processes, and growth with library and brief."""

from __future__ import annotations

import gc
import io
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import docx

from specgen.assemble import assemble
from specgen.brief import Brief, read_brief
from specgen.cache import SWITCH
from specgen.calculations.wind import zone_pressures
from specgen.domain import can_be_tried, domain_of
from specgen.engine import Engine
from specgen.library import Library
from specgen.loading import load_library
from specgen.scope import Scope
from specgen.section import Section
from specgen.writers.docx import write_docx
from tests.bench.enlarge import enlarged_brief, enlarged_library
from tests.bench.measuring import figure, median, remark
from tests.support import EXAMPLES, ROOT

BRIEF = EXAMPLES / "low-slope-library.yaml"
BASELINE = "import docx, pydantic, jinja2, ruamel.yaml"


def run() -> None:
    library = load_library()
    brief = read_brief(BRIEF, library)
    _writing(library, brief)
    _processes()
    _growth()
    _calculations(library, brief)
    _changes(library, brief)


def _writing(library: Library, brief: Brief) -> None:
    """Assembling and writing N paragraphs against python-docx adding N and saving."""
    section = assemble(Scope(library, brief.answers))
    texts = [section.plain(p.spans) for p in section.paragraphs()]

    def ours() -> object:
        return write_docx(assemble(Scope(library, brief.answers)), brief)

    def plain() -> object:
        document = docx.Document()
        for text in texts:
            document.add_paragraph(text, style="List Number")
        stream = io.BytesIO()
        document.save(stream)
        return stream

    mine, theirs = median(ours), median(plain)
    figure(
        f"assemble and write {len(texts)} paragraphs / plain python-docx",
        mine / theirs,
        1.0,
        f"{mine:.0f} ms / {theirs:.0f} ms",
    )


def _process(*arguments: str) -> Callable[[], object]:
    def act() -> object:
        return subprocess.run(
            [sys.executable, *arguments], cwd=ROOT, check=True, stdout=subprocess.DEVNULL
        )

    return act


def _processes() -> None:
    with tempfile.TemporaryDirectory() as folder:
        output = str(Path(folder) / "a.docx")
        base = median(_process("-c", BASELINE))
        draft = median(_process("-m", "specgen", "draft", str(BRIEF), "-o", output))
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        os.environ[SWITCH] = "1"
        unkept = median(_process("-m", "specgen", "draft", str(BRIEF), "-o", output))
        del os.environ[SWITCH]
    empty = median(_process("-c", "pass"))
    shown = median(_process("-m", "specgen", "--help"))
    figure(
        "specgen draft, cold / a process that only imports",
        draft / base,
        3.0,
        f"{draft:.0f} ms / {base:.0f} ms, peak {peak:.0f} MiB",
    )
    remark(
        "the same where the library has changed since the last run",
        unkept / base,
        f"{unkept:.0f} ms / {base:.0f} ms",
    )
    figure(
        "specgen --help / (1.5 empty Python + 100 ms)",
        shown / (1.5 * empty + 100),
        1.0,
        f"{shown:.0f} ms, empty Python {empty:.0f} ms",
    )


def _growth() -> None:
    """Time and size with a library and a brief ten times larger; 10 is linear."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        library = load_library()
        large_folder = enlarged_library(library, folder / "library", 10)
        large_brief = enlarged_brief(BRIEF, folder / "brief.yaml", 10)
        os.environ[SWITCH] = "1"
        small_load = median(load_library, 5)
        large_load = median(lambda: load_library(large_folder), 3)
        del os.environ[SWITCH]
        figure(
            "load a library ten times larger / 10",
            large_load / small_load / 10,
            1.0,
            f"{large_load:.0f} ms / {small_load:.0f} ms",
        )
        small, large = library, load_library(large_folder)
        gc.disable()  # as the command does
        small_draft = median(lambda: _draft(small, BRIEF), 5)
        large_draft = median(lambda: _draft(large, large_brief), 3)
        gc.enable()
        size = sum(1 for _ in _draft(large, large_brief)[0].paragraphs())
        figure(
            "draft with library and brief ten times larger / 10",
            large_draft / small_draft / 10,
            1.0,
            f"{large_draft:.0f} ms / {small_draft:.0f} ms, {size} paragraphs",
        )


def _calculations(library: Library, brief: Brief) -> None:
    """All calculations of a brief, and uplift for ten thousand sets of inputs."""
    every = median(lambda: Scope(library, brief.answers).results())
    figure("all calculations of a brief / 5 ms", every / 5, 1.0, f"{every:.1f} ms")
    start = time.perf_counter()
    for step in range(10_000):
        zone_pressures(
            edition="7-16",
            speed_mph=90 + step % 100,
            exposure="bcd"[step % 3],
            enclosure="enclosed",
            roof_shape="gable",
            roof_angle_deg=2 + step % 40,
            mean_roof_height_ft=15 + step % 45,
            building_length_ft=160,
            building_width_ft=92,
            effective_area_sqft=10 + step % 90,
        )
    took = time.perf_counter() - start
    figure("uplift of 10,000 sets of inputs / 1 s", took, 1.0, f"{took:.2f} s")


def _changes(library: Library, brief: Brief) -> None:
    """One answer changed, with its findings, clauses and calculations; every option of a brief."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        large = load_library(enlarged_library(library, folder / "library", 10))
        large_brief = read_brief(enlarged_brief(BRIEF, folder / "brief.yaml", 10), large)
        small_times, total = _change_times(library, brief)
        large_times, _ = _change_times(large, large_brief)
    median, worst = statistics.median(small_times), max(small_times)
    figure("one answer changed, median / 5 ms", median / 5, 1.0, f"{median:.2f} ms")
    figure("one answer changed, worst / 16 ms", worst / 16, 1.0, f"{worst:.2f} ms")
    median = statistics.median(large_times)
    detail = f"{median:.2f} ms, worst {max(large_times):.1f} ms"
    figure("the same in a library ten times larger, median / 16 ms", median / 16, 1.0, detail)
    figure("every option of every question of a brief / 2 s", total / 2, 1.0, f"{total:.2f} s")


def _change_times(library: Library, brief: Brief) -> tuple[list[float], float]:
    """Milliseconds of each change, trying every answer worth trying, and the whole in seconds."""
    engine = Engine(library, brief.answers)
    engine.answering("metal", None)
    times = []
    began = time.perf_counter()
    for question in library.questions.values():
        if can_be_tried(question):
            for value in domain_of(library, question.id):
                start = time.perf_counter()
                engine.change_to(engine.answering(question.id, value))
                times.append((time.perf_counter() - start) * 1000)
    return times, time.perf_counter() - began


def _draft(library: Library, path: Path) -> tuple[Section, bytes]:
    brief = read_brief(path, library)
    section = assemble(Scope(library, brief.answers))
    return section, write_docx(section, brief)
