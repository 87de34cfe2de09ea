"""`specgen settle`: the fewest answers to change so that no conflict is left."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import engine_of

SAYS = "Propose the fewest answers to change so that no conflict is left."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument(
        "--apply", action="store_true", help="write the first proposal into the brief"
    )


def run(options: argparse.Namespace) -> int:
    from specgen.briefedit import changed_brief
    from specgen.files import replace_file
    from specgen.report import report_of
    from specgen.settle import settle, typed_answers
    from specgen.writers.options_text import write_settlement

    brief, engine = engine_of(options)
    found = settle(engine, brief.fixed, frozenset(waiver.check for waiver in brief.waivers))
    print(write_settlement(found, engine), end="")
    for finding in report_of(brief, engine.scope, engine.section).conflicts:
        if finding.id not in engine.found:
            print(f"In the document, and settled there: {finding.id}. {finding.says}")
    if options.apply and found.ways:
        replace_file(options.brief, changed_brief(options.brief, typed_answers(found.ways[0])))
        print(f"Wrote the first into {options.brief}.")
    return 0 if found.settled else 1
