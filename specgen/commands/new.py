"""`specgen new`: an empty brief."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from specgen.commands.common import library_of, refusal

SAYS = "Write an empty brief, every question a commented line."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("output", type=Path, help="the file to write; one that exists is kept")


def run(options: argparse.Namespace) -> int:
    from specgen.brief import empty_brief
    from specgen.files import replace_file

    if os.path.lexists(options.output):
        raise refusal(options.output, "this file exists; choose another name.")
    library = library_of(options)
    replace_file(options.output, empty_brief(library).encode())
    print(f"Wrote {options.output}: {len(library.questions)} questions, none answered yet.")
    return 0
