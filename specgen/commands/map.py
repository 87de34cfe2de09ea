"""`specgen map`: what goes together in the library."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import library_of, refusal

SAYS = "Show what goes together: questions, clauses, checks and standards."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--of",
        nargs="+",
        metavar="NAME",
        help="only what this question, clause, check or standard is joined with",
    )
    parser.add_argument(
        "--html", type=Path, metavar="OUT", help="write a page with the map drawn, to be searched"
    )
    parser.add_argument("--json", action="store_true", help="every relation, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.study.naming import relation_named
    from specgen.study.relations import relations_of
    from specgen.writers.map_text import map_json, write_map

    if options.html is not None and options.html.suffix.lower() not in (".html", ".htm"):
        raise refusal(options.html, "the map is written as .html; give it this ending.")
    library = library_of(options)
    relations = relations_of(library)
    if options.of:
        relations = relations.around(relation_named(" ".join(options.of), library))
    if options.html is not None:
        from specgen.files import replace_file
        from specgen.writers.map_html import write_map_html

        replace_file(options.html, write_map_html(relations).encode())
    if options.json:
        import json

        print(json.dumps(map_json(relations), indent=1))
    elif options.html is not None:
        print(f"Wrote {options.html}: {len(relations.nodes)} things,"
              f" {len(relations.edges)} relations.")  # fmt: skip
    else:
        print(write_map(relations), end="")
    return 0
