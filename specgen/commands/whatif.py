"""`specgen whatif`: what other answers would make of a section."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import engine_of, keep_apart, refusal

SAYS = "Show what other answers would change in a section; -o writes it as tracked changes."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers; it is kept")
    parser.add_argument(
        "changes",
        nargs="+",
        metavar="QUESTION=ANSWER",
        help="an answer as typed in a brief; with nothing after the = it is taken back",
    )
    parser.add_argument(
        "-o", "--output", type=Path, help="a .docx whose differences are tracked changes"
    )
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.study.whatif import read_changes, what_if
    from specgen.writers.whatif_text import whatif_json, write_whatif

    output: Path | None = options.output
    if output is not None and output.suffix.lower() != ".docx":
        raise refusal(output, "tracked changes are written as .docx; give it this ending.")
    keep_apart(options.brief, output)
    brief, engine = engine_of(options)
    found = what_if(engine, brief, read_changes(options.changes, engine.library))
    if output is not None:
        from specgen.files import replace_file
        from specgen.writers.docx_tracked import write_tracked

        replace_file(output, write_tracked(found.after.section, found.brief, found.differences))
    if options.json:
        import json

        print(json.dumps(whatif_json(found), indent=1))
        return 0
    print(write_whatif(found), end="")
    if output is not None:
        print(f"Wrote {output}: accept every change for the section after, reject for before.")
    return 0
