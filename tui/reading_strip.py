"""What is told at a stop of the guided reading: why the paragraph is there, and a question."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from textual.binding import Binding, BindingType

from specgen.study.guided import Option, Stop
from tui.lead_strip import Block, Lead, LeadStrip, told

RIGHT, WRONG = "+", "-"
QUESTION = "question"
ONWARD = Lead("onward", "", "next stop")


class ReadingStrip(LeadStrip):
    """The options are chosen by their figure, a click, or the arrows and enter."""

    DEFAULT_CSS = "ReadingStrip { height: 62%; max-height: 100%; }"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "follow", "answer, go on"),
        Binding("up", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("left", "screen.step(-1)", "stop before", show=False),
        Binding("right", "screen.step(1)", "next stop", show=False),
        Binding("pageup", "turn(-1)", "page up", show=False),
        Binding("pagedown", "turn(1)", "page down", show=False),
        Binding("escape", "screen.leave_reading", "to study"),
    ]

    def __init__(self) -> None:
        super().__init__("")
        self._answered = False

    def tell(self, stop: Stop, picked: int | None) -> None:
        """A stop from its top; once an option is picked, from its question on."""
        self._answered = picked is not None
        blocks = [*stop_blocks(stop), *option_blocks(stop, picked)]
        self.show(blocks, stay=picked is not None)
        if picked is not None:
            self.cursor = picked
            self._show_question()

    def action_follow(self) -> None:
        """Pick the option under the cursor; once one is picked, go on."""
        if self._answered:
            self.post_message(self.Followed(ONWARD))
        else:
            super().action_follow()

    def action_turn(self, way: int) -> None:
        """Scroll by a screenful."""
        self.scroll_to_line(self.scroll_offset.y + way * max(1, self.size.height - 2))
        self.refresh()

    def _show_question(self) -> None:
        """Scroll so that the question stands on top, as far as there is something below it."""
        heads = [line[0].text.strip() for line in self._lines]
        self.scroll_to_line(heads.index(QUESTION))
        self.refresh()


def stop_blocks(stop: Stop) -> list[Block]:
    """The reason of the paragraph, and the question, which comes last."""
    blocks = [Block("why", told(stop.why))]
    if stop.source:
        blocks.append(Block("source", told(stop.source, "muted")))
    return [*blocks, Block("", told("")), Block(QUESTION, told(stop.question, "strong"))]


def option_blocks(stop: Stop, picked: int | None) -> Iterator[Block]:
    """The options; once one is picked, what is right or wrong about each."""
    for index, option in enumerate(stop.options):
        head, look = ("  ", "plain") if picked is None else _verdict(option, index == picked)
        yield Block(head, (Lead("option", str(index), option.text, str(index + 1), look=look),))
        if picked is not None:
            yield Block("  ", told(option.says))


def _verdict(option: Option, picked: bool) -> tuple[str, str]:
    sign = RIGHT if option.right else WRONG
    look = "in" if option.right else "out" if picked else "muted"
    return f"{sign} yours" if picked else sign, look
