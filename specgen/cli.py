"""The command line: the commands' arguments, and what is made of what goes wrong."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from specgen.commands import (
    ask,
    calc,
    check,
    draft,
    library,
    new,
    options,
    practice,
    questions,
    reading,
    review,
    settle,
    study,
    whatif,
    why,
)
from specgen.commands import (
    map as map_,
)

COMMANDS = {
    "ask": ask,
    "draft": draft,
    "check": check,
    "review": review,
    "settle": settle,
    "options": options,
    "calc": calc,
    "why": why,
    "whatif": whatif,
    "map": map_,
    "study": study,
    "reading": reading,
    "practice": practice,
    "new": new,
    "questions": questions,
    "library": library,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    0 if it did what was asked, 1 if conflicts stand, 2 for what cannot be worked with, 130 if it
    was stopped.
    """
    given = sys.argv[1:] if arguments is None else list(arguments)
    chosen = _parser().parse_args(given or ["ask"])
    _never_choke_on_a_character()
    from specgen.faults import BadInput

    try:
        code: int = chosen.run(chosen)
        sys.stdout.flush()
        return code
    except BadInput as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 2
    except BrokenPipeError:
        _silence_stdout()
        return 0
    except OSError as error:
        _silence_stdout()
        print(f"The output cannot be written: {error.strerror or error}.", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("Stopped; nothing was written over.", file=sys.stderr)
        return 130


def run() -> None:
    """The command as a process of its own: it ends at once, having nothing left to tidy away."""
    gc.disable()  # a command ends before its garbage would matter
    if sys.stdout is None:  # closed by whoever started it
        sys.stdout = open(os.devnull, "w")  # noqa: SIM115
    if sys.stderr is None:
        sys.stderr = sys.stdout
    code = main()
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)


def _never_choke_on_a_character() -> None:
    """Print what can be printed, on a terminal without Unicode or of a name that is no text."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _silence_stdout() -> None:
    """Keep Python from complaining, as it ends, of an output that takes no more."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="specgen",
        description="Specify standing seam metal roofs: answers in, a three-part section out.",
        epilog="What a section requires is subject to the local code and to the licensed design"
        " professional who issues it.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, command in COMMANDS.items():
        sub = commands.add_parser(name, help=command.SAYS, description=command.SAYS)
        command.configure(sub)
        sub.add_argument(
            "--library",
            action="append",
            default=[],
            type=Path,
            metavar="DIR",
            help="an office's own folder of clauses, laid over the library (repeatable)",
        )
        sub.set_defaults(run=command.run)
    return parser
