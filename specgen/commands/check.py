"""`specgen check`: what a brief contradicts or leaves out."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import library_of

SAYS = "Say what a brief contradicts or leaves out; ends with 1 if a conflict stands."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.assemble import assemble
    from specgen.brief import read_brief
    from specgen.report import report_of
    from specgen.scope import Scope
    from specgen.writers.findings_text import findings_json, write_findings

    library = library_of(options)
    brief = read_brief(options.brief, library)
    scope = Scope(library, brief.answers)
    report = report_of(brief, scope, assemble(scope))
    if options.json:
        import json

        print(json.dumps(findings_json(report), indent=1))
    else:
        print(write_findings(report), end="")
    return 1 if report.conflicts else 0
