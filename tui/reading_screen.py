"""The guided reading: a paragraph in its article, why it is there, and a question about it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from tui.document_list import DocumentList
from tui.document_rows import Row, rows_of
from tui.frame import Frame
from tui.lead_strip import LeadStrip
from tui.marks import cut, plain, times
from tui.reading_strip import ReadingStrip
from tui.studies import SOON_SECONDS, ReadingUnderWay


class ReadingScreen(Frame):
    """Stop after stop; where one is stays with the reading when the screen goes away."""

    place = "study"
    help_text = (
        "The guided reading goes through the section of one roof in the order in which a specifier"
        " thinks. Above is an article, the cursor on its paragraph; below is why that paragraph is"
        " there, and a question with three answers.\n"
        "1, 2 or 3 answers, and then every answer says what is right or wrong about it: + is right,"
        " - is not. The first answer counts. Enter, n or the right arrow goes on, b or the left"
        " arrow back; tab goes to the article, to read in it with the arrows."
    )
    DEFAULT_CSS = """
    ReadingScreen #stop { height: 1; width: 100%; padding: 0 1; background: $surface; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(str(n), f"pick({n})", "answer", show=False) for n in range(1, 4)),
        Binding("n,right", "step(1)", "next stop"),
        Binding("b,left", "step(-1)", "stop before"),
        Binding("d", "in_document", "in the document"),
        Binding("escape", "leave_reading", "to study"),
    ]

    def __init__(self, under_way: ReadingUnderWay) -> None:
        super().__init__()
        self.under_way = under_way
        self._rows = rows_of(under_way.reading.engine.section)

    def compose_body(self) -> Iterable[Widget]:
        self.headline = Static("", id="stop", markup=False)
        self.article = DocumentList("article", lambda: None)
        self.strip = ReadingStrip()
        return self.headline, self.article, self.strip

    def on_mount(self) -> None:
        self.strip.focus()
        # Lines are laid out once it is known how wide they are, and a key may come before.
        self.set_timer(SOON_SECONDS, self._show)

    @on(events.Resize)
    def _resized(self) -> None:
        self._title()

    # -- what is shown -------------------------------------------------------------------------

    def _show(self) -> None:
        stop = self.under_way.stop
        rows = self._article_of(stop.place)
        places = [row.number for row in rows]
        self.article.put_rows(rows, places.index(stop.place) if stop.place in places else 0)
        self.strip.tell(stop, self.under_way.picked.get(self.under_way.at))
        self._title()

    def _article_of(self, place: str) -> list[Row]:
        """The article that a place such as 2.3.A.1 stands in, its title first."""
        article = ".".join(place.split(".")[:2])
        return [
            row
            for row in self._rows
            if row.number == article or row.number.startswith(f"{article}.")
        ]

    def _title(self) -> None:
        stop, reading = self.under_way.stop, self.under_way.reading
        where = f"Stop {stop.number} of {len(reading.stops)}: {stop.title}"
        right = (
            f"{self.under_way.right} of {len(self.under_way.picked)} right"
            if self.under_way.picked
            else ""
        )
        room = max(0, self.size.width - 2)
        where = cut(plain(where), max(0, room - len(right) - 2))
        gap = " " * max(2, room - len(where) - len(right))
        self.headline.update(Content.assemble((where, "bold"), gap, right))

    # -- reading on ----------------------------------------------------------------------------

    def action_pick(self, option: int) -> None:
        """Answer the question, once."""
        if self.under_way.at not in self.under_way.picked:
            self.under_way.picked[self.under_way.at] = option - 1
            self.strip.tell(self.under_way.stop, option - 1)
            self._title()

    def action_step(self, step: int) -> None:
        """Go to the next stop or the one before; after the last, back to the page of studies."""
        at = self.under_way.at + step
        if at >= len(self.under_way.reading.stops):
            self._finish()
        elif at >= 0:
            self.under_way.at = at
            self._show()

    def action_in_document(self) -> None:
        """Show the same clause in the document of the brief that is open."""
        self.roof_app.go_to_clause(self.under_way.stop.clause)

    def action_leave_reading(self) -> None:
        self.roof_app.show("study")

    @on(LeadStrip.Followed)
    def _followed(self, message: LeadStrip.Followed) -> None:
        if message.lead.kind == "onward":
            self.action_step(1)
        else:
            self.action_pick(int(message.lead.id) + 1)

    def _finish(self) -> None:
        answered, stops = len(self.under_way.picked), len(self.under_way.reading.stops)
        says = f"{self.under_way.right} of {times(stops, 'question')} answered right."
        if answered < stops:
            says += f" {stops - answered} not answered yet."
        self.roof_app.show("study")
        title = "You have read it all"
        self.app.notify(f"{says} p goes on to practice.", title=title, timeout=8, markup=False)
