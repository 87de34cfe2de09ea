"""What the screens share that have a list, and below it a strip that leads on from its cursor."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from textual import events, on

from tui.frame import Frame
from tui.lead_strip import Lead, LeadStrip
from tui.line_list import LineList


class LedFrame(Frame):
    """A list of lines, and a ``strip`` of leads, each followed by its letter or a click."""

    strip: LeadStrip

    def ways(self) -> Mapping[str, Callable[[str], object]]:
        """Where each kind of lead goes, given its id."""
        raise NotImplementedError

    def lead_for(self, character: str) -> Lead | None:
        """The lead that a character stands for."""
        return self.strip.lead_of(character)

    def follow(self, lead: Lead) -> None:
        self.ways()[lead.kind](lead.id)

    def follow_first(self, *kinds: str, none: str) -> None:
        """Follow the first lead of the first kind that there is one of; else say so."""
        for kind in kinds:
            lead = self.strip.first(kind)
            if lead is not None:
                self.follow(lead)
                return
        self.notify(none, timeout=2)

    def action_to_list(self) -> None:
        self.query(LineList).first().focus()

    def on_key(self, event: events.Key) -> None:
        lead = self.lead_for(event.character) if event.character else None
        if lead is not None:
            event.stop()
            self.follow(lead)

    @on(LeadStrip.Followed)
    def _followed(self, message: LeadStrip.Followed) -> None:
        self.follow(message.lead)
