"""The answers as they were saved, against which the numbers are set when they are first shown."""

from __future__ import annotations

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.session import Session


def engine_as_saved(session: Session) -> Engine:
    """The engine of the brief on disk; that of the session where nothing differs or can be read."""
    unsaved = session.unsaved
    names = [name for name in unsaved if name in session.library.questions]
    if not names:
        return session.engine
    if not session.path.exists():
        return session.engine.answering_all(dict.fromkeys(names, None))
    try:
        answers = read_brief(session.path, session.library).answers
    except BadInput:
        return session.engine
    return session.engine.answering_all({name: answers.get(name) for name in names})
