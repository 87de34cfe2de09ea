"""`specgen library`: the library read and judged as strictly as a brief."""

from __future__ import annotations

import argparse

from specgen.commands.common import library_of

SAYS = "Read the whole library and say what it holds, and what in it is never used."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--quick", action="store_true", help="only read it; do not search for what is never used"
    )


def run(options: argparse.Namespace) -> int:
    library = library_of(options)
    print(
        f"{len(library.questions)} questions, {len(library.facts)} facts,"
        f" {len(library.clauses)} clauses, {len(library.checks)} checks,"
        f" {len(library.advice)} pieces of advice, {len(library.standards)} standards,"
        f" {len(library.recognizers)} recognizers;"
        " every reference leads somewhere."
    )
    if options.quick:
        return 0
    from specgen.idle import idle_parts

    idle = idle_parts(library)
    for head, names in idle.heads():
        if names:
            print(f"{head}: {', '.join(names)}.")
    return 0
