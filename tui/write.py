"""The write screen: what can be written, where each goes, and what stands in the way."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static
from textual.worker import Worker, WorkerState

from specgen.engine import Change
from specgen.faults import BadInput
from specgen.writers.outputs import for_construction
from tui.busy import Busy
from tui.cursor_list import CursorList, Part
from tui.dialog import AskLine
from tui.frame import Frame
from tui.head import open_count
from tui.marks import ANSWERED, COLORS, KINDS, OPEN, plain, times
from tui.writing import OUTPUTS, Job, Output, write_output


class OutputList(CursorList):
    """What can be written, one a line."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "screen.write", "write it"),
        Binding("e", "screen.path", "where to"),
    ]

    def clicked(self, again: bool) -> None:
        if again:
            self.screen.action_write()  # type: ignore[attr-defined]


class WriteScreen(Frame):
    """Drafting the section, its registers, the calculation record and the findings."""

    place = "write"
    help_text = (
        "What can be written of this brief, and where it goes: beside the brief, unless you say "
        "otherwise (e). Enter writes what the cursor is on; a whole new file takes the place of "
        "one that is there. Notes (n) give each paragraph its reason as a comment in the DOCX.\n"
        "A section may be written at any time: what is open stands in it, marked. Issued for "
        "construction it is refused while conflicts stand, unless c writes them as comments. "
        "Everything is written from the answers on the screen, saved in the brief or not."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "notes", "notes"),
        Binding("c", "with_conflicts", "conflicts as comments"),
        Binding("a", "write_all", "write all"),
        Binding("o", "to_open", "what is open", show=False),
    ]
    DEFAULT_CSS = """
    WriteScreen #ready { height: auto; padding: 1 1 0 1; }
    WriteScreen #asked { height: auto; padding: 0 1; color: $text-muted; margin-bottom: 1; }
    WriteScreen OutputList { height: auto; max-height: 60%; padding: 0 1; }
    WriteScreen Busy { margin-top: 1; padding: 0 1; }
    WriteScreen #told {
        height: 1fr; padding: 0 1; text-wrap: nowrap; text-overflow: ellipsis;
    }
    """
    AUTO_FOCUS = "OutputList"

    def __init__(self) -> None:
        super().__init__()
        self._paths: dict[str, Path] = {}
        self._wrote: dict[str, str] = {}
        self._notes = False
        self._with_conflicts = False
        self._waiting: list[Output] = []
        self._now: Output | None = None
        self._lines: list[Content] = []

    def compose_body(self) -> Iterable[Widget]:
        yield Static("", id="ready", markup=False)
        yield Static("", id="asked", markup=False)
        yield OutputList("outputs")
        yield Busy()
        yield Static("", id="told", markup=False)

    @property
    def outputs(self) -> OutputList:
        return self.query_one(OutputList)

    @property
    def output(self) -> Output:
        """What the cursor is on."""
        return OUTPUTS[self.outputs.cursor]

    def path_of(self, output: Output) -> Path:
        """Where an output goes."""
        return self._paths.get(output.id) or output.path_beside(self.roof_app.written_beside)

    # -- what is shown -------------------------------------------------------------------------

    def on_mount(self) -> None:
        self.refresh_from(None)

    @on(events.ScreenResume)
    def _come_back(self) -> None:
        self._show_outputs()

    @on(events.Resize)
    def _resized(self) -> None:
        self._show_outputs()

    def refresh_from(self, change: Change | None) -> None:
        self._wrote.clear()
        self.query_one("#ready", Static).update(Content("\n").join(self._ready()))
        self._show_asked()
        self._show_outputs()

    def go_to(self, name: str) -> None:
        """Put the cursor on an output."""
        for index, output in enumerate(OUTPUTS):
            if output.id == name:
                self.outputs.action_move(index - self.outputs.cursor)

    def _ready(self) -> Iterable[Content]:
        """What stands in the way of a finished section, and where it is settled."""
        conflicts = len(self.session.report.conflicts)
        waiting = open_count(self.session)
        if conflicts:
            says = f"{times(conflicts, 'conflict')} in the answers. F3 shows each and settles it."
            yield Content.styled(f"{KINDS['conflict']} {says}", f"bold {COLORS['conflict']}")
            if for_construction(self.session.brief):
                yield Content(
                    "  The issue is for construction: the section is written once they are"
                    " settled or waived, or with c as comments."
                )
        if waiting:
            says = f"{times(waiting, 'question')} open. F1 asks; in the section each is marked."
            yield Content(f"{OPEN} {says}")
        if not conflicts and not waiting:
            yield Content.styled(f"{ANSWERED} Nothing is open and nothing conflicts.", "bold")
        elif not conflicts:
            yield Content(f"{ANSWERED} Nothing conflicts.")

    def _show_asked(self) -> None:
        """What the DOCX carries besides, each with the key that turns it on or off."""
        asked = (
            (self._notes, "n", "notes: the reason of each paragraph"),
            (self._with_conflicts, "c", "the conflicts that stand"),
        )
        lines = [
            Content.assemble(
                f"{ANSWERED if on else ' '} {key}  ", f"{says}, as comments in the DOCX: ",
                ("yes" if on else "no", "bold $text"),
            )
            for on, key, says in asked
        ]  # fmt: skip
        self.query_one("#asked", Static).update(Content("\n").join(lines))

    def _show_outputs(self) -> None:
        rows = [self._row(output) for output in OUTPUTS]
        self.outputs.put_rows(rows)

    def _row(self, output: Output) -> list[Part]:
        path = self.path_of(output)
        written = output.id in self._wrote
        row: list[Part] = [
            (f"{ANSWERED if written else ' '} ", "settled"),
            (f"{output.says}, {output.more}".ljust(37), "strong"),
            (f"{_shown(path)}  ", "number"),
        ]
        if written:
            row.append(("written", "settled"))
        elif path.exists():
            row.append(("there already", "muted"))
        return row

    # -- what is asked for ---------------------------------------------------------------------

    def action_notes(self) -> None:
        """With notes, or without."""
        self._notes = not self._notes
        self._show_asked()

    def action_with_conflicts(self) -> None:
        """Conflicts as comments, or an issue for construction refused."""
        self._with_conflicts = not self._with_conflicts
        self._show_asked()

    def action_to_open(self) -> None:
        self.roof_app.show("roof")

    def action_path(self) -> None:
        """Say where the output under the cursor goes."""
        output = self.output

        def given(line: str | None) -> None:
            if line:
                self._paths[output.id] = Path(line).expanduser()
                self._wrote.pop(output.id, None)
                self._show_outputs()

        def refuse(line: str) -> str:
            right = Path(line).suffix.lower() == f".{output.ending}"
            return "" if right else f"The name ends in .{output.ending}."

        path = str(self.path_of(output))
        self.app.push_screen(AskLine(f"Where to write {output.more}", path, refuse), given)

    # -- writing -------------------------------------------------------------------------------

    def action_write(self) -> None:
        """Write the output under the cursor."""
        self._begin([self.output])

    def action_write_all(self) -> None:
        """Write every output, one after the other."""
        self._begin(list(OUTPUTS))

    def _begin(self, wanted: list[Output]) -> None:
        if self._now is not None:
            self.notify("One moment: it is still being written.", timeout=2)
            return
        self._waiting = wanted
        self._lines.clear()
        self._write_next()

    def _write_next(self) -> None:
        if not self._waiting:
            self._now = None
            self.query_one(Busy).end()
            self.outputs.focus()
            return
        output = self._now = self._waiting.pop(0)
        path = self.path_of(output)
        self.query_one(Busy).begin(f"Writing {_shown(path)}")
        session = self.session
        job = Job(session.brief, session.library, self._notes, self._with_conflicts)
        work = partial(write_output, output, path, job)
        self.run_worker(work, name="write", thread=True, exit_on_error=False)

    @on(Worker.StateChanged)
    def _written(self, event: Worker.StateChanged) -> None:
        output = self._now
        if event.worker.name != "write" or output is None:
            return
        path = _shown(self.path_of(output))
        if event.state is WorkerState.SUCCESS:
            self._wrote[output.id] = path
            self._show_outputs()
            self._say(f"{ANSWERED} Wrote {path}: {event.worker.result}.")
        elif event.state is WorkerState.ERROR:
            self._say_failed(event.worker.error)
        else:
            return
        self._write_next()

    def _say_failed(self, error: BaseException | None) -> None:
        faults = error.faults if isinstance(error, BadInput) else ()
        for fault in faults:
            self._say(f"{KINDS['conflict']} {fault.says}", f"bold {COLORS['conflict']}")
        if not faults:
            self._say(f"{KINDS['conflict']} It failed: {error}.", f"bold {COLORS['conflict']}")

    def _say(self, says: str, style: str = "") -> None:
        self._lines.append(Content.styled(plain(says), style))
        told = self.query_one("#told", Static)
        told.update(Content("\n").join(self._lines[-max(1, told.size.height) :]))


def _shown(path: Path) -> str:
    """A path as it was given, or below the home folder from there."""
    try:
        return f"~/{path.relative_to(Path.home())}" if path.is_absolute() else str(path)
    except (ValueError, RuntimeError):
        return str(path)
