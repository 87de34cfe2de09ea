"""The numbers screen: every calculation with what it is made of, what it gives and who reads it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.widget import Widget

from specgen.drawing_chart import chart_of
from specgen.drawing_plan import roof_plan
from specgen.engine import Change, Engine
from specgen.writers.calculations_shown import Shown, shown_results
from tui.lead_strip import LeadStrip
from tui.led_frame import LedFrame
from tui.number_lines import NumberRow, Subject, body_rows, head_row, heading_row, table_rows
from tui.number_reason import number_reason
from tui.number_tables import chart_as_lines, plan_as_lines
from tui.numbers_list import NumbersList
from tui.numbers_saved import engine_as_saved

# The letters that are no keys of this screen.
LEAD_KEYS = "abcdeghijklnopqstvwxyz"


class NumbersScreen(LedFrame):
    """The calculations, live."""

    place = "numbers"
    help_text = (
        "Every calculation in a line: * computed, o open, ! outside its method; its telling figure,"
        " . how many cautions, = moved by the last answers. Enter unfolds it: what it is made from,"
        " what it gives, the roof plan and the chart, and every line that led there.\n"
        "On an input enter goes to its question; on a value, to the first clause that reads it."
        " Below is what is known of the line under the cursor; each letter there leads on.\n"
        "Tables such as the test records are listed last; enter opens their rows. r opens the test"
        " records from anywhere here."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "into", "unfold or follow"),
        Binding("f", "formulas", "formulas"),
        Binding("u", "unfold_all", "unfold all"),
        Binding("m", "next_moved", "next moved"),
        Binding("r", "rows", "test records"),
        Binding("space", "fold", "fold", show=False),
        Binding("right", "fold(True)", "unfold", show=False),
        Binding("left", "fold(False)", "fold", show=False),
        Binding("escape", "to_list", "back to the list", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._unfolded: set[str] = set()
        self._formulas = False
        self._behind = False
        self._engine: Engine | None = None
        self._now: Mapping[str, Shown] = {}
        self._before: Mapping[str, Shown] = {}

    def compose_body(self) -> Iterable[Widget]:
        self.list = NumbersList("numbers", self._tell)
        self.strip = LeadStrip(LEAD_KEYS)
        self.strip.styles.height = "32%"
        return self.list, self.strip

    def on_mount(self) -> None:
        self._engine = engine_as_saved(self.session)
        self._now = _by_id(self._engine)
        self.refresh_from(None)
        self.list.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A screen that is not made yet takes no key."""
        return self.is_mounted and super().check_action(action, parameters)

    @on(events.ScreenResume)
    def _come_back(self) -> None:
        if self._behind:
            self._behind = False
            self.refresh_from(None)

    @on(events.Resize)
    def _make_lines_anew(self) -> None:
        self.call_after_refresh(self._show)

    # -- what is shown -------------------------------------------------------------------------

    def refresh_from(self, change: Change | None) -> None:
        """Show the calculations; what differs from those shown last has moved."""
        if self.app.screen is not self:  # rows are being edited over it
            self._behind = True
            return
        engine = self.session.engine
        if engine is not self._engine:
            self._engine, self._before = engine, self._now
            self._now = _by_id(engine)
        self._show()

    def _show(self) -> None:
        rows = list(self._rows())
        self.list.put_rows(rows, self._place_of_cursor(rows))
        self._tell()

    def _rows(self) -> Iterator[NumberRow]:
        scope, width = self.session.engine.scope, self.list.room
        for each in self._now.values():
            calculation = each.result.calculation.id
            before = self._before.get(calculation)
            unfolded = calculation in self._unfolded
            yield heading_row(each, width, unfolded, _has_moved(each, before))
            if unfolded:
                yield from self._drawings(each, width)
                yield from body_rows(scope, each, before, width, self._formulas)
                yield NumberRow(Subject("head", calculation), ((),))
        yield from table_rows(scope, width)

    def _drawings(self, each: Shown, width: int) -> Iterator[NumberRow]:
        """The roof plan or the chart of a calculation, where it has one."""
        outcome, calculation = each.result.outcome, each.result.calculation.id
        if outcome is None:
            return
        scope = self.session.engine.scope
        plan = roof_plan(scope, outcome.plan)
        if plan is not None:
            yield head_row("Roof plan by roof zone", calculation)
            subject = Subject("drawing", calculation, "plan")
            yield NumberRow(subject, tuple(plan_as_lines(scope, plan, width)))
        chart = chart_of(scope, outcome.series)
        if chart is not None:
            yield head_row("Movement against length of panel", calculation)
            subject = Subject("drawing", calculation, "chart")
            yield NumberRow(subject, tuple(chart_as_lines(chart, width)))

    def _place_of_cursor(self, rows: list[NumberRow]) -> int:
        """Where the row under the cursor is now; if it is gone, its calculation."""
        row = self.list.row
        if row is None:
            return 0
        places = {each.subject: place for place, each in reversed(list(enumerate(rows)))}
        heading = Subject("calculation", row.subject.calculation)
        return places.get(row.subject, places.get(heading, self.list.cursor))

    def _tell(self) -> None:
        row = self.list.row
        if row is not None:
            blocks = number_reason(row, self.session.engine, self._now, self._before)
            self.strip.show(blocks)

    # -- moving --------------------------------------------------------------------------------

    def go_to(self, name: str) -> None:
        """Unfold a calculation (or that of a computed value) and put the cursor there."""
        calculation = self.library.calculations.get(name)
        wanted = calculation.id if calculation is not None else name
        if wanted not in self._now:
            self.notify(f"{name} is not computed.", markup=False)
            return
        self._unfolded.add(wanted)
        self._show()
        subject = Subject("calculation", wanted)
        if calculation is not None:
            subject = Subject("value", wanted, name)
        for sought in (subject, Subject("calculation", wanted)):
            for place, row in enumerate(self.list.rows):
                if row.subject == sought:
                    self.list.put_cursor(place)
                    self.list.show_from(place if sought.kind == "calculation" else None)
                    self.list.focus()
                    return

    def action_next_moved(self) -> None:
        """Go to the next calculation that the last answers moved, round the end."""
        rows = self.list.rows
        for distance in range(1, len(rows) + 1):
            place = (self.list.cursor + distance) % len(rows)
            name = rows[place].subject.calculation
            is_heading = rows[place].subject.kind == "calculation"
            if is_heading and _has_moved(self._now[name], self._before.get(name)):
                self.list.put_cursor(place)
                return
        self.notify("No number has moved.", timeout=2)

    # -- folding -------------------------------------------------------------------------------

    def action_fold(self, unfold: bool | None = None) -> None:
        """Fold or unfold the calculation of the row under the cursor."""
        row = self.list.row
        name = row.subject.calculation if row is not None else ""
        if not name:
            return
        unfold = name not in self._unfolded if unfold is None else unfold
        if unfold == (name in self._unfolded):
            return
        (self._unfolded.add if unfold else self._unfolded.discard)(name)
        self._show()
        if unfold:
            self.list.show_from(self.list.cursor)

    def action_unfold_all(self) -> None:
        """Unfold every calculation that has something below it; fold all if they are unfolded."""
        names = {name for name, each in self._now.items() if each.state != "not needed"}
        self._unfolded = set() if names <= self._unfolded else names
        self._show()

    def action_formulas(self) -> None:
        """Show the formula of every step, or hide it."""
        self._formulas = not self._formulas
        self._show()

    # -- leading on ----------------------------------------------------------------------------

    @on(NumbersList.Chosen)
    def action_into(self) -> None:
        """Unfold a calculation; follow an input to its question and a value to its clause."""
        row = self.list.row
        if row is None:
            return
        kind = row.subject.kind
        if kind == "calculation":
            self.action_fold()
        elif kind == "step":
            self.action_formulas()
        else:
            lead = self.strip.first(_LEADS.get(kind, "question"))
            if lead is None:
                self.notify("No clause reads this.", timeout=2)
            else:
                self.follow(lead)

    def action_rows(self) -> None:
        """Open the table under the cursor, else the test records, else the first table."""
        row = self.list.row
        names = [each.subject.name for each in self.list.rows if each.subject.kind == "table"]
        here = row.subject.name if row is not None else ""
        wanted = here if here in names else "test_records" if "test_records" in names else ""
        if wanted or names:
            self.roof_app.edit_table(wanted or names[0])
        else:
            self.notify("No table is asked for.", timeout=2)

    def ways(self) -> Mapping[str, Callable[[str], object]]:
        app = self.roof_app
        return {
            "question": app.go_to_question,
            "clause": app.go_to_clause,
            "finding": app.go_to_finding,
            "number": self.go_to,
            "rows": app.edit_table,
        }


# Where enter leads from a row.
_LEADS = {
    "table": "rows",
    "from question": "question",
    "from value": "number",
    "value": "clause",
}


def _by_id(engine: Engine) -> Mapping[str, Shown]:
    return {each.result.calculation.id: each for each in shown_results(engine.scope)}


def _has_moved(each: Shown, before: Shown | None) -> bool:
    """Whether a calculation stands otherwise than before, or gives other figures."""
    if before is None:
        return False
    return (each.state, each.values, each.tables) != (before.state, before.values, before.tables)
