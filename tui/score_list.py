"""The score as bars, a topic a line, the weak ones first."""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import Binding

from specgen.study.score import Score, weak_topics
from tui.line_list import LineList
from tui.marks import marks
from tui.wrapping import Line, Piece, shown

WIDEST_BAR = 40
WIDEST_TOPIC = 24


@dataclass(frozen=True, slots=True)
class TopicRow:
    """A topic: so many faults found of so many planted, and whether more practice is due."""

    topic: str
    found: int
    planted: int
    weak: bool


def topic_rows(score: Score) -> list[TopicRow]:
    """The topics of a score, the weak ones first as they are chosen from, then by their share."""
    weak = weak_topics(score)
    strong = [name for name in score.topics if name not in weak]
    strong.sort(key=lambda name: score.topics[name].found / max(1, score.topics[name].planted))
    return [
        TopicRow(name, score.topics[name].found, score.topics[name].planted, name in weak)
        for name in (*weak, *strong)
    ]


class ScoreList(LineList[TopicRow]):
    """A bar a topic; one can be chosen to be practiced."""

    BINDINGS = [Binding("enter", "screen.practice_topic", "practice this topic")]  # noqa: RUF012

    def lines_of(self, row: TopicRow, width: int) -> list[Line]:
        told = f"  {row.found} of {row.planted}"
        names = min(WIDEST_TOPIC, max(len(each.topic) for each in self.rows))
        room = max(5, min(WIDEST_BAR, width - names - len(" weak") - 12))
        full = round(room * row.found / max(1, row.planted))
        look = "omission" if row.weak else "in"
        return [
            (
                Piece(
                    f"{shown(row.topic)[:names].ljust(names)}  ", "strong" if row.weak else "plain"
                ),
                Piece(marks().full * full, look),
                Piece(marks().empty * (room - full), "muted"),
                Piece(told),
                Piece("  weak" if row.weak else "", look),
            )
        ]

    def key_of(self, row: TopicRow) -> object:
        return row, max(len(each.topic) for each in self.rows)
