"""`specgen questions`: the questions, by topic."""

from __future__ import annotations

import argparse

from specgen.commands.common import library_of

SAYS = "List the questions."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.questions import describe

    library = library_of(options)
    if options.json:
        import json

        print(json.dumps([describe(question) for question in library.questions.values()], indent=1))
        return 0
    topic = ""
    width = max(len(name) for name in library.questions)
    for question in library.questions.values():
        if question.topic != topic:
            topic = question.topic
            print(topic)
        print(f"  {question.id.ljust(width)}  {question.ask}")
    return 0
