"""`specgen options`: what each answer to a question would cause."""

from __future__ import annotations

import argparse
from pathlib import Path

from specgen.commands.common import engine_of, question_named, refusal

SAYS = "Show for every answer to a question what it would cause."


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument("question", help="the question, such as seam")
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.options import options_of
    from specgen.writers.options_text import options_json, write_options

    _, engine = engine_of(options)
    name = question_named(options.question, engine.library)
    question = engine.library.questions[name]
    found = options_of(engine, name)
    if not found:
        says = f"{name} takes a {question.kind}, which cannot be tried out."
        raise refusal("the command", says)
    if options.json:
        import json

        print(json.dumps(options_json(question, found), indent=1))
    else:
        print(write_options(question, found, engine.library), end="")
    return 0
