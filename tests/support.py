"""Helpers of the tests: a small library, drafting from text, running the command."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from specgen.assemble import assemble
from specgen.brief import Brief, read_brief
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section

ROOT = Path(__file__).parent.parent
EXAMPLES = ROOT / "examples"

SMALL_FOLDER = ROOT / "tests" / "small_library"
SMALL_LIBRARY = {
    path.relative_to(SMALL_FOLDER).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(SMALL_FOLDER.rglob("*.yaml"))
}


def write_folder(folder: Path, files: Mapping[str, str]) -> Path:
    """The files written below a folder."""
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content.lstrip("\n"), encoding="utf-8")
    return folder


def brief_of(text: str, library: Library, folder: Path) -> Brief:
    """A brief read from the text of its file."""
    path = folder / "brief.yaml"
    path.write_text(text, encoding="utf-8")
    return read_brief(path, library)


def section_of(text: str, library: Library, folder: Path) -> Section:
    """The section drafted from the text of a brief."""
    return assemble(Scope(library, brief_of(text, library, folder).answers))


def texts_of(section: Section) -> dict[str, str]:
    """The plain text of every clause's paragraph, by clause id."""
    return {
        paragraph.reason.clause: section.plain(paragraph.spans)
        for paragraph in section.paragraphs()
        if paragraph.reason.clause
    }


def specgen(*arguments: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """The command run as a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "specgen", *map(str, arguments)],
        capture_output=True,
        text=True,
        cwd=cwd or ROOT,
        env=None,
        timeout=120,
        check=False,
    )
