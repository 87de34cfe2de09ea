"""`specgen study`: the screens opened at the guided reading and practice, without a brief."""

from __future__ import annotations

import argparse
import gc
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.commands.common import library_of, needs_a_terminal

if TYPE_CHECKING:
    from specgen.library import Library
    from specgen.session import Session

SAYS = (
    "Learn on screens: a guided reading of one section, and sections with faults in them to find."
)


def configure(parser: argparse.ArgumentParser) -> None:
    """The command takes the library's folders and nothing else."""


def run(options: argparse.Namespace) -> int:
    needs_a_terminal("specgen study")
    from tui.app import RoofApp

    library = library_of(options)
    with tempfile.TemporaryDirectory(prefix="specgen-") as folder:
        session = _session_on_the_reading(Path(folder), library)
        gc.freeze()
        gc.enable()
        app = RoofApp(session, first="study", kept=False)
        try:
            app.run()
        finally:
            changed = len(session.unsaved)
            session.close()
    if changed:
        print("What you changed in the roof of the reading was not kept; your score was.")
    return app.return_code or 0


def _session_on_the_reading(folder: Path, library: Library) -> Session:
    """A session on a copy of the brief of the guided reading, which goes away with its folder."""
    from specgen.briefedit import brief_text
    from specgen.session import Session

    path = folder / "reading.yaml"
    typed = library.reading.brief if library.reading is not None else {}
    path.write_text(brief_text("", typed), encoding="utf-8")
    return Session(path, library)
