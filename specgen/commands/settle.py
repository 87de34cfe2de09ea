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
    from specgen.briefedit import brief_text
    from specgen.files import replace_file
    from specgen.settle import settle, typed_answers
    from specgen.writers.options_text import write_settlement
    from specgen.yamlread import read_text

    brief, engine = engine_of(options)
    found = settle(engine, brief.fixed)
    print(write_settlement(found, engine), end="")
    if options.apply and found.ways:
        changed = brief_text(read_text(options.brief), typed_answers(found.ways[0]))
        replace_file(options.brief, changed.encode())
        print(f"Wrote the first into {options.brief}.")
    return 0 if found.settled else 1
