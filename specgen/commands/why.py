"""`specgen why`: why something stands in a section, or does not."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.commands.common import engine_of, refusal

if TYPE_CHECKING:
    from specgen.engine import Engine
    from specgen.study.explained import Explanation

SAYS = "Say why a paragraph stands, what would remove it, and what hangs on an answer."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument(
        "target",
        nargs="*",
        metavar="NAME",
        help="a paragraph such as 2.3.A.1, or a clause, standard, question or finding;"
        " without it, every paragraph in a line",
    )
    parser.add_argument(
        "--not",
        dest="absent",
        metavar="CLAUSE",
        help="why this clause is not in the section, and what would bring it in",
    )
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.writers.why_text import overview_json, why_json, write_overview, write_why

    if options.target and options.absent:
        raise refusal("the command", "it asks why and why not at once; ask for one of them.")
    _, engine = engine_of(options)
    if options.target or options.absent:
        found = _explained(engine, options)
        values, text = why_json(found), write_why(found)
    else:
        values = overview_json(engine.section)
        text = write_overview(engine.section, engine.library)
    if options.json:
        import json

        print(json.dumps(values, indent=1))
    else:
        print(text, end="")
    return 0


def _explained(engine: Engine, options: argparse.Namespace) -> Explanation:
    from specgen.study.asking import explain, explain_absence

    if options.absent:
        return explain_absence(engine, options.absent)
    return explain(engine, " ".join(options.target))
