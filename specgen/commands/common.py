"""What several commands share: loading the library and a brief, and refusing."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from specgen.brief import Brief
    from specgen.engine import Engine
    from specgen.faults import BadInput
    from specgen.library import Library


def library_of(options: argparse.Namespace) -> Library:
    """The library with the office's folders that the command names."""
    from specgen.loading import load_library

    return load_library(overlays=options.library)


def engine_of(options: argparse.Namespace) -> tuple[Brief, Engine]:
    """The command's brief, and an engine that holds its answers."""
    from specgen.brief import read_brief
    from specgen.engine import Engine

    library = library_of(options)
    brief = read_brief(options.brief, library)
    return brief, Engine(library, brief.answers)


def refusal(path: Path | str, says: str) -> BadInput:
    """BadInput about one file as a whole."""
    from specgen.faults import BadInput, Fault

    return BadInput([Fault(str(path), None, says)])


def needs_a_terminal(command: str) -> None:
    """BadInput for a command of screens that has no terminal to show them on."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        says = (
            "the screens need a terminal to be shown on and keys to be read from;"
            " `specgen --help` lists the commands that do without."
        )
        raise refusal(command, says)


def keep_apart(brief: Path, *outputs: Path | None) -> None:
    """BadInput for a file to write that is the brief, or that the command names twice."""
    from specgen.files import same_file

    named = [brief]
    for path in outputs:
        if path is None:
            continue
        if any(same_file(path, other) for other in named):
            says = "this file is already named in the same command; choose another to write."
            raise refusal(path, says)
        named.append(path)


def question_named(name: str, library: Library) -> str:
    """The name, if it is a question; BadInput with the nearest that is if not."""
    from specgen.faults import nearest

    if name not in library.questions:
        hint = nearest(name, library.questions) or " `specgen questions` lists them."
        raise refusal("the command", f"there is no question {name[:60]}.{hint}")
    return name
