"""One person's work on one brief: every answer on disk at once, nothing overwritten, all undoable.

A journal beside the brief takes each change before it counts; the brief itself is written when it
is saved, with its comments kept. The journal is held under a lock, so that the same brief opened
twice is noticed; what it holds is there again after a crash; and a brief that an editor has changed
meanwhile is never written over.
"""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from specgen.brief import FIXED, WAIVE, Brief, Waiver, read_brief
from specgen.briefedit import brief_text, changed_brief
from specgen.engine import Change, Engine
from specgen.faults import BadInput, Fault
from specgen.files import replace_file
from specgen.journal import Journal, changes_in, journal_of
from specgen.library import Library
from specgen.questions import read_answer
from specgen.report import Report, report_of
from specgen.yamlread import read_yaml

Typed = object


class BriefChanged(Exception):
    """The brief was changed on disk since it was opened; neither side was overwritten."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One change: a question (or ``waive``, ``fixed``), and what it was and is, as typed.

    None stands for no answer.
    """

    name: str
    before: Typed
    after: Typed


class Session:
    """An open brief.

    ``engine`` holds the answers as they stand; ``recovered`` counts the changes found in a journal
    that was left behind. Close it when done; ``saved`` tells whether the brief on disk is the same.
    """

    def __init__(self, path: Path, library: Library, *, recover: bool = True) -> None:
        """Open a brief, new if there is none.

        ``recover`` takes up the changes of a journal that was left behind; without it they are
        dropped. Raises BriefTaken if another session has it open, BadInput if it cannot be read.
        """
        self.path = path
        self.library = library
        self.engine: Engine
        left = changes_in(journal_of(path)) if recover else {}
        self._journal = Journal(path)
        try:
            self._take_up()
            self._done: list[Entry] = []
            self._undone: list[Entry] = []
            # What was left stays in the journal until it is saved: a crash now must not lose it.
            self._journal.go_on() if left else self._journal.empty()
            self.recovered = self._recover(left)
        except BaseException:
            self._journal.release()
            raise

    @staticmethod
    def left_behind(path: Path) -> int:
        """How many answers a journal beside a brief holds that never reached it; 0 for none."""
        return len(changes_in(journal_of(path)))

    def close(self) -> None:
        """Let go of the brief. A journal that holds nothing unsaved is removed."""
        if self.saved:
            with contextlib.suppress(OSError):
                journal_of(self.path).unlink()
        self._journal.release()

    # -- what stands ---------------------------------------------------------------------------

    @property
    def typed(self) -> Mapping[str, Typed]:
        """Every answer as typed."""
        return {name: raw for name, raw in self._state.items() if name not in (WAIVE, FIXED)}

    def typed_of(self, name: str) -> Typed:
        """An answer as typed, or None."""
        return self._state.get(name)

    @property
    def waivers(self) -> tuple[Waiver, ...]:
        return tuple(Waiver(**row) for row in self._waiver_rows())

    @property
    def fixed(self) -> frozenset[str]:
        """The questions whose answers no proposal may change."""
        names = self._state.get(FIXED)
        return frozenset(map(str, names)) if isinstance(names, list) else frozenset()

    @property
    def brief(self) -> Brief:
        """The brief as it stands, saved or not."""
        return Brief(self.path, self.engine.answers, self.typed, self.waivers, self.fixed)

    @property
    def report(self) -> Report:
        """Every finding as it stands, set against the waivers."""
        return report_of(self.brief, self.engine.scope, self.engine.section)

    # -- changing ------------------------------------------------------------------------------

    def answer(self, question: str, raw: Typed) -> Change:
        """Give, change or (None) take back an answer as typed; it is on disk when this returns.

        Raises AnswerError, with nothing changed, if the question does not take it.
        """
        if raw is not None:
            read_answer(self.library.questions[question], raw)
        return self._do(question, raw)

    def waive(self, check: str, reason: str, by: str) -> None:
        """Waive a finding, with a reason and a name."""
        self._do(WAIVE, [*self._rows_without(check), {"check": check, "reason": reason, "by": by}])

    def unwaive(self, check: str) -> None:
        """Take a waiver back."""
        self._do(WAIVE, self._rows_without(check) or None)

    def set_fixed(self, question: str, fixed: bool) -> None:
        """Mark an answer as one that no proposal may change, or no longer."""
        now = self.fixed | {question} if fixed else self.fixed - {question}
        self._do(FIXED, sorted(now) or None)

    @property
    def can_undo(self) -> bool:
        return bool(self._done)

    @property
    def can_redo(self) -> bool:
        return bool(self._undone)

    def undo(self) -> Change | None:
        """Take the last change back, saved or not; None if there is none."""
        if not self._done:
            return None
        entry = self._done.pop()
        self._undone.append(entry)
        return self._set(entry.name, entry.before)

    def redo(self) -> Change | None:
        """Make the change that was last taken back again; None if there is none."""
        if not self._undone:
            return None
        entry = self._undone.pop()
        self._done.append(entry)
        return self._set(entry.name, entry.after)

    def _do(self, name: str, raw: Typed) -> Change:
        before = self._state.get(name)
        change = self._set(name, raw)
        self._done.append(Entry(name, before, raw))
        self._undone.clear()
        return change

    def _set(self, name: str, raw: Typed) -> Change:
        """Put a change in the journal, then make it."""
        self._journal.write(name, raw)
        if raw is None:
            self._state.pop(name, None)
        else:
            self._state[name] = raw
        before = self.engine
        if name not in (WAIVE, FIXED):
            value = None if raw is None else read_answer(self.library.questions[name], raw)
            self.engine = before.answering(name, value)
        return before.change_to(self.engine)

    def _waiver_rows(self) -> list[dict[str, str]]:
        rows = self._state.get(WAIVE)
        return rows if isinstance(rows, list) else []

    def _rows_without(self, check: str) -> list[dict[str, str]]:
        return [row for row in self._waiver_rows() if row["check"] != check]

    # -- the brief on disk ---------------------------------------------------------------------

    @property
    def unsaved(self) -> Mapping[str, Typed]:
        """What differs from the brief on disk, as typed; None for an answer taken back."""
        names = self._saved_state.keys() | self._state.keys()
        return {
            name: self._state.get(name)
            for name in names
            if self._state.get(name) != self._saved_state.get(name)
        }

    @property
    def saved(self) -> bool:
        """Whether the brief on disk holds everything."""
        return not self.unsaved

    @property
    def changed_on_disk(self) -> bool:
        """Whether somebody else changed the brief since it was opened or saved."""
        return _content_hash(self.path) != self._opened

    def save(self) -> None:
        """Write every change into the brief, comments kept, and empty the journal.

        Raises BriefChanged, with nothing written, if the brief was changed on disk meanwhile.
        """
        if self.changed_on_disk:
            raise BriefChanged(str(self.path))
        self.save_beside(self.path)
        self._saved_state = dict(self._state)
        self._opened = _content_hash(self.path)
        self._journal.empty()

    def save_beside(self, path: Path) -> None:
        """Write the brief as it stands to another file, on the text of the brief on disk.

        Where that text can no longer be read, or is gone, the file is written without it.
        """
        there = self._typed_on_disk()
        if there is None:
            replace_file(path, brief_text("", self._state).encode())
            return
        changes = {
            name: self._state.get(name)
            for name in there.keys() | self._state.keys()
            if self._state.get(name) != there.get(name)
        }
        replace_file(path, changed_brief(self.path, changes))

    def take_theirs(self) -> None:
        """Forget what is unsaved and take up the brief as it is on disk; undo starts anew."""
        self._take_up()
        self._done, self._undone = [], []
        self._journal.empty()

    def take_both(self) -> int:
        """Take up the brief as it is on disk and give what is unsaved again on top of it.

        Undo starts anew, with these changes. Gives how many they are.
        """
        mine = dict(self.unsaved)
        self._take_up()
        self._done, self._undone = [], []
        return self._recover(mine)

    def _typed_on_disk(self) -> Mapping[str, Typed] | None:
        """What the brief on disk answers, as typed; None where it cannot be read."""
        if not self.changed_on_disk:
            return self._saved_state
        try:
            found = read_yaml(self.path)
        except BadInput:
            return None
        return found if isinstance(found, dict) else {}

    def _take_up(self) -> None:
        """Start from the brief on disk, or from nothing where there is none."""
        if self.path.exists():
            brief = read_brief(self.path, self.library)
        elif self.path.parent.is_dir():
            brief = Brief(self.path, {}, {})
        else:
            says = f"the folder {self.path.parent} does not exist; make it or choose another."
            raise BadInput([Fault(str(self.path), None, says)])
        self._state: dict[str, Typed] = brief.whole
        self._saved_state = dict(self._state)
        self._opened = _content_hash(self.path)
        self.engine = Engine(self.library, brief.answers)

    def _recover(self, left: Mapping[str, Typed]) -> int:
        """Make the changes of a journal again, those that can still be made."""
        wanted = {name: raw for name, raw in left.items() if self._takes(name, raw)}
        for name, raw in wanted.items():
            if self._state.get(name) != raw:
                self._do(name, raw)
        return len(self._done)

    def _takes(self, name: str, raw: Typed) -> bool:
        """Whether a change from a journal can still be made: its question may be gone."""
        if raw is None:
            return name in self.library.questions or name in (WAIVE, FIXED)
        if name == WAIVE:
            return isinstance(raw, list) and all(_is_waiver(row) for row in raw)
        if name == FIXED:
            return isinstance(raw, list) and all(each in self.library.questions for each in raw)
        question = self.library.questions.get(name)
        if question is None:
            return False
        try:
            read_answer(question, raw)
        except ValueError:
            return False
        return True


def _is_waiver(row: object) -> bool:
    return (
        isinstance(row, dict)
        and set(row) == {"check", "reason", "by"}
        and all(isinstance(word, str) for word in row.values())
    )


def _content_hash(path: Path) -> str:
    """A mark of a file's content; the same for no file and an empty one."""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return hashlib.sha256(b"").hexdigest()
