"""`specgen calc`: the calculations of a brief, line by line."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import keep_apart, library_of

SAYS = "Show the calculations of a brief, with inputs, formulas, sources and cautions."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument("--json", action="store_true", help="every line, as JSON")
    parser.add_argument(
        "--html", type=Path, metavar="OUT", help="write one page with drawings, to read and print"
    )


def run(options: argparse.Namespace) -> int:
    from specgen.brief import read_brief
    from specgen.files import replace_file
    from specgen.scope import Scope

    keep_apart(options.brief, options.html)
    library = library_of(options)
    scope = Scope(library, read_brief(options.brief, library).answers)
    if options.html is not None:
        from specgen.writers.calculations_html import write_calculations_html

        replace_file(options.html, write_calculations_html(scope).encode())
        print(f"Wrote {options.html}.")
    elif options.json:
        import json

        from specgen.writers.calculations_json import calculations_json

        print(json.dumps(calculations_json(scope), indent=1))
    else:
        from specgen.writers.calculations_text import write_calculations_text

        print(write_calculations_text(scope), end="")
    return 0
