"""Measuring: the writing of a document, whole processes, and growth with library and brief."""

from __future__ import annotations

import io
import platform
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
from specgen.library import Library
from specgen.loading import load_library
from specgen.scope import Scope
from specgen.section import Section
from specgen.writers.docx import write_docx
from tests.bench.enlarge import enlarged_brief, enlarged_library
from tests.support import EXAMPLES, ROOT

ROUNDS = 9
BRIEF = EXAMPLES / "low-slope-library.yaml"
BASELINE = "import docx, pydantic, jinja2, ruamel.yaml"


def run() -> None:
    print(f"{platform.machine()}, Python {platform.python_version()}, {platform.system()}")
    library = load_library()
    brief = read_brief(BRIEF, library)
    _writing(library, brief)
    _processes()
    _growth()


def _median(act: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The median time of an act in milliseconds, after one round that does not count."""
    act()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        act()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def _line(what: str, value: float, goal: float, detail: str) -> None:
    verdict = "met" if value <= goal else "MISSED"
    print(f"{what:<62} {value:6.2f}  (goal {goal:.2f}, {verdict}; {detail})")


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

    mine, theirs = _median(ours), _median(plain)
    _line(
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
        base = _median(_process("-c", BASELINE))
        draft = _median(_process("-m", "specgen", "draft", str(BRIEF), "-o", output))
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    empty = _median(_process("-c", "pass"))
    shown = _median(_process("-m", "specgen", "--help"))
    _line(
        "specgen draft, cold / a process that only imports",
        draft / base,
        3.0,
        f"{draft:.0f} ms / {base:.0f} ms, peak {peak:.0f} MiB",
    )
    _line(
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
        small_load = _median(load_library, 5)
        large_load = _median(lambda: load_library(large_folder), 3)
        _line(
            "load a library ten times larger / 10",
            large_load / small_load / 10,
            1.0,
            f"{large_load:.0f} ms / {small_load:.0f} ms",
        )
        small, large = library, load_library(large_folder)
        small_draft = _median(lambda: _draft(small, BRIEF), 5)
        large_draft = _median(lambda: _draft(large, large_brief), 3)
        size = sum(1 for _ in _draft(large, large_brief)[0].paragraphs())
        _line(
            "draft with library and brief ten times larger / 10",
            large_draft / small_draft / 10,
            1.0,
            f"{large_draft:.0f} ms / {small_draft:.0f} ms, {size} paragraphs",
        )


def _draft(library: Library, path: Path) -> tuple[Section, bytes]:
    brief = read_brief(path, library)
    section = assemble(Scope(library, brief.answers))
    return section, write_docx(section, brief)
