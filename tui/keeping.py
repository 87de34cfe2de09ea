"""Keeping what was answered: saving, leaving, taking up what was left, and not writing over others.

Every answer is in the journal beside the brief before the next key; these are the moments at which
the brief itself is written, or at which somebody has to choose between two versions of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.brief import FIXED, WAIVE
from specgen.faults import BadInput
from specgen.files import same_file
from specgen.journal import journal_of
from specgen.library import Library
from specgen.session import BriefChanged, Session
from tui.dialog import AskLine, Dialog, Way
from tui.marks import cut, times

if TYPE_CHECKING:
    from tui.app import RoofApp

MOST_LINES = 8
LONGEST_ANSWER = 40


def save(app: RoofApp) -> None:
    """Save the brief; where it was changed on disk, ask what to do."""
    session = app.session
    if not app.is_kept:
        says = "This brief goes away when you leave. `specgen ask` opens one that is kept."
        app.notify(says, title="Not saved", timeout=4, markup=False)
        return
    if session.saved and not session.changed_on_disk:
        app.notify(f"{session.path.name} holds everything already.", timeout=2, markup=False)
        return
    if save_now(app):
        app.notify(f"Saved in {session.path}.", timeout=2, markup=False)


def save_now(app: RoofApp, *, leaving: bool = False) -> bool:
    """Save, and tell whether that was done; if not, what can be done instead is asked or said."""
    try:
        app.session.save()
    except BriefChanged:
        _ask_changed(app, leaving)
        return False
    except BadInput as error:
        app.notify(str(error), title="Not saved", severity="error", timeout=12, markup=False)
        return False
    app.saved()
    return True


def leave(app: RoofApp) -> None:
    """Leave, asking first what becomes of answers that are not saved."""
    if not app.is_open or not app.is_kept or app.session.saved:
        app.exit()
        return
    session = app.session
    name, count = session.path.name, times(len(session.unsaved), "answer")
    ways = (
        Way("s", "save and leave", f"{name} then holds them"),
        Way("k", "keep for next time", "they are offered again"),
        Way("b", "back to work"),
    )

    def chosen(key: str | None) -> None:
        if key == "k" or (key == "s" and save_now(app, leaving=True)):
            app.exit()

    says = f"{count} not yet saved in {name}:\n" + told_unsaved(session)
    app.push_screen(Dialog("Leave specgen?", says, ways), chosen)


def offer_recovered(app: RoofApp) -> None:
    """Tell what was found beside the brief, and ask whether it is wanted."""
    session = app.session
    name = session.path.name
    ways: tuple[Way, ...] = (
        Way("t", "take them up", "go on where it was left; nothing is saved yet"),
        Way("d", "drop them", f"go on from {name} as it was saved"),
    )

    def chosen(key: str | None) -> None:
        if key == "d":
            _reload(app)

    says = f"Given the last time and not saved in {name}:\n" + told_unsaved(session)
    if session.saved:
        says = f"What was given the last time is in {name} already."
        ways = (Way("t", "go on"),)
    app.push_screen(Dialog("Answers were left behind", says, ways), chosen)


def told_unsaved(session: Session) -> str:
    """What is not saved, a line each, the rest counted."""
    lines = list(_told(session))
    shown = lines[:MOST_LINES]
    if len(lines) > MOST_LINES:
        shown = [*lines[: MOST_LINES - 1], f"  and {len(lines) - MOST_LINES + 1} more"]
    return "\n".join(shown)


def _told(session: Session) -> Iterator[str]:
    for name, raw in session.unsaved.items():
        yield f"  {label_of(name, session.library)}: {told_answer(raw)}"


def label_of(name: str, library: Library) -> str:
    """How a line of a brief is called."""
    if name == WAIVE:
        return "waived findings"
    return "answers that stay" if name == FIXED else library.questions[name].label


def told_answer(raw: object) -> str:
    """An answer as typed, in a few words."""
    if raw is None:
        return "taken back"
    if isinstance(raw, list):
        if raw and isinstance(raw[0], dict):
            return times(len(raw), "row")
        return cut(", ".join(map(str, raw)), LONGEST_ANSWER) or "none"
    return cut(str(raw), LONGEST_ANSWER)


def _ask_changed(app: RoofApp, leaving: bool) -> None:
    """The brief was changed on disk: both versions are kept until somebody chooses."""
    session = app.session
    name = session.path.name
    mine = len(session.unsaved)
    there = session.path.exists()
    ways = [
        Way("a", "take up the file, and mine on top", "theirs, with my answers given again"),
        Way("r", "reload the file", f"gives up {times(mine, 'answer')} of mine"),
        Way("o", "save mine in another file", "leaves theirs as it is"),
        Way("b", "back to work", "decide later"),
    ]
    if not mine:
        ways = [Way("r", "reload the file", "nothing of mine is lost"), *ways[2:]]
    if not there:
        ways = ways[-2:]
    says = f"{name} {'was changed' if there else 'is gone'} since it was opened here."
    says += " Neither version was written over."
    if mine:
        says += f"\nNot saved here:\n{told_unsaved(session)}"

    def chosen(key: str | None) -> None:
        if key == "r":
            _reload(app)
        elif key == "a" and _tried(app, app.session.take_both):
            app.changed(None)
            app.saved()
            app.notify(f"Now ctrl+s saves both in {name}.", timeout=4, markup=False)
        elif key == "o":
            _ask_beside(app, leaving)

    app.push_screen(Dialog("Changed by another program", says, ways), chosen)


def _reload(app: RoofApp) -> None:
    if _tried(app, app.session.take_theirs):
        app.changed(None)
        app.saved()


def _tried(app: RoofApp, step: Callable[[], object]) -> bool:
    """Whether a step on the brief could be done; if not, why is said and nothing has changed."""
    try:
        step()
    except BadInput as error:
        app.notify(str(error), title="Not taken up", severity="error", timeout=12, markup=False)
        return False
    return True


def _ask_beside(app: RoofApp, leaving: bool) -> None:
    """Ask for another name, and save the brief as it stands under it."""
    path = app.session.path

    def given(line: str | None) -> None:
        if not line:
            return
        other = Path(line)
        if _tried(app, lambda: app.session.save_beside(other)):
            app.notify(f"Saved in {other}.", timeout=4, markup=False)
            if same_file(other, path):
                _reload(app)
            if leaving:
                app.exit()

    head = "Save my version in"
    app.push_screen(AskLine(head, str(free_name(path)), _refuse_over), given)


def _refuse_over(line: str) -> str:
    """Why nothing can be saved under a name; empty if it can."""
    return f"{line} exists; choose another name." if Path(line).exists() else ""


def free_name(path: Path) -> Path:
    """The path with the least number in its name that no file has: ``roof-2.yaml``."""
    if not path.exists():
        return path
    for number in range(2, 1000):
        other = path.with_name(f"{path.stem}-{number}{path.suffix}")
        if not other.exists() and not journal_of(other).exists():
            return other
    return path.with_name(f"{path.stem}-other{path.suffix}")
