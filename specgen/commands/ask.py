"""`specgen ask`: the screens on which questions are answered and everything else is seen.

It is the one module of the engine's side that knows the screens, and only while it runs.
"""

from __future__ import annotations

import argparse
import contextlib
import gc
from pathlib import Path

from specgen.commands.common import library_of, needs_a_terminal, refusal

SAYS = (
    "Answer questions on screens, and see what each answer does; this is what specgen alone does."
)


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "brief",
        type=Path,
        nargs="?",
        help="the brief, new if there is none; left out: choose on the first page",
    )


def run(options: argparse.Namespace) -> int:
    needs_a_terminal("specgen ask")
    from specgen.journal import BriefTaken
    from specgen.session import Session
    from tui.app import RoofApp

    brief: Path | None = options.brief
    if brief is not None and not brief.name:
        raise refusal(brief, "this is a folder; name the file in it.")
    library = library_of(options)
    session = None
    if brief is not None:
        with contextlib.suppress(BriefTaken):  # the first page tells of it
            session = Session(brief, library)
    # The library stays as long as the screens do: it need not be looked through again and again.
    gc.freeze()
    gc.enable()
    app = RoofApp(session, library=library, wanted=brief)
    try:
        app.run()
    finally:
        if app.is_open:
            app.session.close()
    if app.is_open and not app.session.saved:
        kept = len(app.session.unsaved)
        print(f"{app.session.path}: {kept} not saved, kept beside it for the next time.")
    return app.return_code or 0
