"""The journal beside a brief: one line a change, on disk before anything follows from it."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path

from specgen.faults import BadInput, Fault


class BriefTaken(Exception):
    """Somebody else has this brief open."""


def journal_of(brief: Path) -> Path:
    """The journal beside a brief."""
    return brief.with_name(f".{brief.name}.journal")


def changes_in(path: Path) -> Mapping[str, object]:
    """What a journal changes, as typed by name; a line that was torn off is passed over."""
    changes: dict[str, object] = {}
    try:
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return changes
    for line in lines:
        try:
            found = json.loads(line)
        except ValueError:
            continue
        if isinstance(found, dict) and isinstance(found.get("name"), str):
            changes.pop(found["name"], None)
            changes[found["name"]] = found.get("typed")
    return changes


class Journal:
    """An open journal, held under a lock while it is open."""

    def __init__(self, brief: Path) -> None:
        """Open and lock it: BriefTaken if another process holds it, BadInput if it cannot be."""
        path = journal_of(brief)
        try:
            self._stream = path.open("a+", encoding="utf-8")
        except FileNotFoundError:
            says = f"the folder {brief.parent} does not exist; make it or choose another."
            raise BadInput([Fault(str(brief), None, says)]) from None
        except OSError as error:
            says = f"no journal can be kept beside the brief: {error.strerror}."
            raise BadInput([Fault(str(path), None, says)]) from None
        try:
            import fcntl

            fcntl.flock(self._stream.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
        except ImportError:  # a system without such locks
            return
        except OSError:
            self._stream.close()
            raise BriefTaken(str(brief)) from None

    def write(self, name: str, typed: object) -> None:
        """One change, flushed to disk. BadInput if the disk takes no more, with nothing lost."""
        try:
            self._stream.write(json.dumps({"name": name, "typed": typed}) + "\n")
            self._stream.flush()
            os.fsync(self._stream.fileno())
        except OSError as error:
            says = f"the change cannot be kept: {error.strerror}."
            raise BadInput([Fault(self._stream.name, None, says)]) from None

    def go_on(self) -> None:
        """Write what follows on a line of its own, after a line that may have been torn off."""
        self._stream.write("\n")
        self._stream.flush()

    def empty(self) -> None:
        """Forget every change: the brief holds them."""
        self._stream.seek(0)
        self._stream.truncate(0)
        self._stream.flush()
        os.fsync(self._stream.fileno())

    def release(self) -> None:
        """Let go of the lock and close it."""
        self._stream.close()
