"""`specgen settle`: the fewest answers to change so that no conflict is left."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path

from specgen.commands.common import engine_of, refusal

SAYS = "Propose the fewest answers to change so that no conflict is left."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument(
        "--apply", action="store_true", help="write the first proposal into the brief"
    )


def run(options: argparse.Namespace) -> int:
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
        replace_file(options.brief, _changed(options.brief, typed_answers(found.ways[0])))
        print(f"Wrote the first into {options.brief}.")
    return 0 if found.settled else 1


def _changed(brief: Path, answers: Mapping[str, object]) -> bytes:
    """The brief with some answers changed; BadInput if it is laid out so that this cannot be."""
    from specgen.briefedit import brief_text
    from specgen.faults import BadInput
    from specgen.yamlread import parse_yaml, read_text, read_yaml

    changed = brief_text(read_text(brief), answers)
    before = read_yaml(brief)
    wanted = {**(before if isinstance(before, dict) else {}), **answers}
    try:
        written = parse_yaml(changed, str(brief))
    except BadInput:
        written = None
    if written != wanted:
        says = "its layout cannot be changed from here; write the answers into it by hand."
        raise refusal(brief, says)
    return changed.encode()
