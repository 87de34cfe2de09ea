"""The findings screen: what contradicts, is missing or unclear, and the ways to settle each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.timer import Timer
from textual.widget import Widget

from specgen.checks import Finding
from specgen.engine import Change
from tui.finding_reason import change_by, finding_reason, in_words, way_words
from tui.findings_list import FindingRow, FindingsList, finding_rows
from tui.lead_strip import Lead, LeadStrip
from tui.led_frame import LedFrame
from tui.slices import in_slices
from tui.wrapping import shown

# The letters that are no keys of this screen.
LEAD_KEYS = "abcdefghijklmnopqrtuvyz"


class FindingsScreen(LedFrame):
    """Everything that is found, live."""

    place = "findings"
    help_text = (
        "What is found, the gravest first: ! conflict, ? omission, ~ ambiguity, . caution; then"
        " what is waived.\n"
        "Below is the finding under the cursor. A digit settles it that way, and each way says"
        " what it would cause; enter goes to its place in the document; each answer that led to it"
        " has a letter: press it to go there. Tab steps into them with the arrows.\n"
        "s proposes the fewest changes that leave no conflict. w waives a finding, with a reason"
        " and a name; x takes a waiver back. ctrl+z undoes any of it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "to_place", "its place"),
        Binding("1", "way(1)", "settle this way"),
        Binding("s", "settle_all", "settle everything"),
        Binding("w", "waive", "waive"),
        Binding("x", "unwaive", "take waiver back", show=False),
        Binding("escape", "to_list", "back to the list", show=False),
        *(Binding(str(n), f"way({n})", "settle that way", show=False) for n in range(2, 10)),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._trying: Timer | None = None
        self._trials: list[Change | None] = []

    def compose_body(self) -> Iterable[Widget]:
        self.list = FindingsList("findings", self._tell_reason)
        self.strip = LeadStrip(LEAD_KEYS)
        self.strip.styles.height = "55%"
        return self.list, self.strip

    def on_mount(self) -> None:
        self.refresh_from(None)
        self.list.focus()

    # -- what is shown -------------------------------------------------------------------------

    @property
    def finding(self) -> Finding | None:
        """The finding under the cursor."""
        row = self.list.row
        return row.finding if row is not None else None

    def refresh_from(self, change: Change | None) -> None:
        rows = finding_rows(self.session.report, self.session.waivers)
        self.list.put_rows(rows, self._place_of_cursor(rows))
        self._tell_reason()

    def _place_of_cursor(self, rows: Sequence[FindingRow]) -> int:
        """The first conflict that was not there before, else the finding under the cursor.

        If that one is settled, where it was.
        """
        before = {row.finding.id for row in self.list.rows if row.finding is not None}
        if before:
            for index, row in enumerate(rows):
                found = row.finding
                if found is not None and found.kind == "conflict" and found.id not in before:
                    return index
        finding = self.finding
        same = [
            index
            for index, row in enumerate(rows)
            if finding is not None and row.finding is not None and row.finding.id == finding.id
        ]
        alike = [index for index in same if rows[index].finding == finding]
        return (alike or same or [self.list.cursor])[0]

    def _tell_reason(self) -> None:
        """Tell the finding at once, and what its ways would cause as soon as they were tried."""
        if self._trying is not None:
            self._trying.stop()
        self._trials = []
        self._show_reason()
        finding = self.finding
        if finding is not None and finding.waived is None:
            steps = [partial(self._try, way) for way in finding.settle]
            self._trying = in_slices(self, steps, partial(self._show_reason, stay=True))

    def _try(self, way: Mapping[str, object]) -> None:
        self._trials.append(change_by(self.session.engine, way))

    def _show_reason(self, *, stay: bool = False) -> None:
        row = self.list.row
        if row is None or row.finding is None:
            self.strip.show([])
            return
        engine = self.session.engine
        self.strip.show(finding_reason(row, row.finding, engine, self._trials), stay=stay)

    def go_to(self, name: str) -> None:
        """Put the cursor on what a check found, there where ``check 2.3.A`` names a place."""
        check, _, place = name.partition(" ")
        found = [
            (row.finding.place != place, index) for index, row in enumerate(self.list.rows)
            if row.finding is not None and row.finding.id == check
        ]  # fmt: skip
        if found:
            self.list.put_cursor(min(found)[1])
            self.list.focus()
        else:
            self.notify(f"{check} is not found as the brief stands.", markup=False)

    # -- settling ------------------------------------------------------------------------------

    def action_way(self, number: int) -> None:
        """Settle the finding that way."""
        finding = self.finding
        if finding is None or finding.waived is not None or number > len(finding.settle):
            self.notify("There is no such way to settle this.", timeout=2)
            return
        way = dict(finding.settle[number - 1])
        self.apply(way)

    def apply(self, way: dict[str, object]) -> None:
        """Give the answers of a way to settle, and say what came of it."""
        before = self.session.engine
        if self.roof_app.answer_all(way):
            change = before.change_to(self.session.engine)
            came = f"Settled {in_words(change.settled)}. " if change.settled else ""
            came += f"Raised {in_words(change.raised)}. " if change.raised else ""
            undo = "^Z" if len(way) == 1 else f"^Z {len(way)} times"
            says = f"{way_words(way, self.library)}. {came}{undo} takes it back."
            self.notify(shown(says), markup=False, timeout=4)

    def action_settle_all(self) -> None:
        """Propose the fewest changes that leave no conflict."""
        from tui.settle_all import SettleAll

        def chosen(way: dict[str, object] | None) -> None:
            if way:
                self.apply(way)

        self.app.push_screen(SettleAll(self.roof_app), chosen)

    def action_waive(self) -> None:
        """Waive the finding, with a reason and a name."""
        from tui.waive import Waive

        row, finding = self.list.row, self.finding
        if finding is None or finding.waived is not None or row is None or row.lapsed is not None:
            self.notify("There is nothing here to waive.", timeout=2)
            return

        def given(waiver: tuple[str, str] | None) -> None:
            if waiver is not None:
                self.roof_app.waive(finding.id, *waiver)

        waivers = self.session.waivers
        alike = [f for f in self.session.report.standing if f.id == finding.id]
        by = waivers[-1].by if waivers else ""
        self.app.push_screen(Waive(finding, len(alike), by), given)

    def action_unwaive(self) -> None:
        """Take a waiver back."""
        lead = self.strip.first("unwaive")
        if lead is None:
            self.notify("This is not waived.", timeout=2)
        else:
            self.roof_app.unwaive(lead.id)

    # -- leading on ----------------------------------------------------------------------------

    @on(FindingsList.Chosen)
    def action_to_place(self) -> None:
        """Go to the place of the finding in the document, else to its first answer."""
        self.follow_first("place", "question", none="This has no place in the document.")

    def lead_for(self, character: str) -> Lead | None:
        """By letter alone, and not the one that has a key of its own."""
        lead = super().lead_for(character) if character.isalpha() else None
        return None if lead is None or lead.kind == "unwaive" else lead

    def ways(self) -> Mapping[str, Callable[[str], object]]:
        app = self.roof_app
        return {
            "question": app.go_to_question,
            "number": app.go_to_number,
            "place": lambda place: app.show("document", place),
            "way": lambda index: self.action_way(int(index) + 1),
            "unwaive": app.unwaive,
        }
