"""The topics of questions as a strip, with how many are answered of those asked."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Click, Resize
from textual.message import Message
from textual.widgets import Static

from tui.asked import Asked
from tui.marks import ANSWERED, OPEN, marks


class Topics(Static, can_focus=True):
    """One line, or two where there is room; a sign stands at the topic one is in."""

    DEFAULT_CSS = """
    Topics { height: 1; width: 100%; padding: 0 1; background: $surface; color: $text-muted; }
    Topics:focus { background: $panel; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "topic before", show=False),
        Binding("right", "step(1)", "topic after", show=False),
        Binding("enter,escape,down", "screen.to_card", "to the question", show=False),
    ]

    class Wanted(Message):
        """A topic was chosen."""

        def __init__(self, topic: str) -> None:
            super().__init__()
            self.topic = topic

    def __init__(self) -> None:
        super().__init__("", id="topics")
        self._asked: Asked | None = None
        self._topic = ""
        self._ends: list[tuple[int, int, str]] = []

    def show(self, asked: Asked, topic: str) -> None:
        """Show the counts, and where one is."""
        self._asked, self._topic = asked, topic
        self._paint()

    def on_resize(self, event: Resize) -> None:
        self._paint()

    def on_click(self, event: Click) -> None:
        for start, end, topic in self._ends:
            if start <= event.x < end:
                self.post_message(self.Wanted(topic))

    def action_step(self, step: int) -> None:
        """Go to the topic before or after."""
        if self._asked is None:
            return
        topics = [topic for topic, names in self._asked.topics.items() if names]
        at = topics.index(self._topic) + step if self._topic in topics else 0
        self.post_message(self.Wanted(topics[min(max(at, 0), len(topics) - 1)]))

    def _paint(self) -> None:
        asked = self._asked
        if asked is None or not self.size.width:
            return
        topics = [topic for topic, names in asked.topics.items() if names]
        shown = [self._shown(topic, asked) for topic in topics]
        here = topics.index(self._topic) if self._topic in topics else 0
        first, last = _window(shown, here, self.size.width - 6)
        parts: list[Content] = []
        at = 3
        self._ends = []
        for place in range(first, last):
            topic = topics[place]
            self._ends.append((at, at + len(shown[place]), topic))
            at += len(shown[place]) + 1
            style = "bold $text" if topic == self._topic else ""
            parts.append(Content.styled(shown[place], style) if style else Content(shown[place]))
        before = "<" if first else " "
        after = ">" if last < len(topics) else " "
        self.update(Content.assemble(f"{before} ", Content(" ").join(parts), f" {after}"))

    def _shown(self, topic: str, asked: Asked) -> str:
        names = asked.topics[topic]
        left = sum(1 for name in names if name in asked.open)
        count = f"{ANSWERED}{len(names)}" if not left else f"{OPEN}{len(names) - left}/{len(names)}"
        text = f"{topic} {count}"
        return f"{marks().cursor if topic == self._topic else ' '}{text} "


def _window(shown: list[str], here: int, width: int) -> tuple[int, int]:
    """Which of the topics fit around the one that one is in."""
    first, last = here, here + 1
    room = width - len(shown[here])
    while True:
        if last < len(shown) and len(shown[last]) + 1 <= room:
            room -= len(shown[last]) + 1
            last += 1
        elif first > 0 and len(shown[first - 1]) + 1 <= room:
            first -= 1
            room -= len(shown[first]) + 1
        else:
            return first, last
