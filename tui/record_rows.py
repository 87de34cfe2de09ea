"""The rows of a table as typed: those that are answers, and those that are not finished yet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from weakref import WeakKeyDictionary

from specgen.questions import AnswerError, Question, read_answer
from specgen.session import Session

Row = dict[str, str]

# Rows that were begun and left, until they are finished or the program ends.
_begun: WeakKeyDictionary[Session, dict[str, list[tuple[int, Row]]]] = WeakKeyDictionary()


class Rows:
    """The rows of a question of kind table.

    A row is an answer when every cell of it is taken; until then it is kept here, at its place.
    """

    def __init__(self, question: Question, session: Session) -> None:
        self.question = question
        self.ids = [column.id for column in question.columns]
        self._session = session
        # What is said of a text in a column, and whether a row of such texts is finished.
        self._faults: list[dict[str, str]] = [{} for _ in self.ids]
        self._finished: dict[tuple[str, ...], bool] = {}
        self._alone = [replace(question, columns=(column,)) for column in question.columns]
        self._kept: list[Row] = []
        self._put_together(_begun.get(session, {}).get(question.id, []))

    def __len__(self) -> int:
        return len(self._kept)

    def __getitem__(self, place: int) -> Row:
        return self._kept[place]

    # -- what the brief has --------------------------------------------------------------------

    @property
    def answer(self) -> list[Row] | None:
        """The finished rows as the brief has them; None if there are none."""
        return [dict(row) for row in self._kept if self.is_finished(row)] or None

    def take_up(self) -> None:
        """Take up the rows of the brief, those that are not finished kept at their places."""
        if self._in_brief() != (self.answer or []):
            self._put_together(self._those_begun())

    def _in_brief(self) -> list[Row]:
        typed = self._session.typed_of(self.question.id)
        return [
            {name: str(row.get(name, "")) for name in self.ids}
            for row in (typed if isinstance(typed, list) else ())
            if isinstance(row, dict)
        ]

    def _those_begun(self) -> list[tuple[int, Row]]:
        """The rows that are not finished, with their places."""
        return [(n, row) for n, row in enumerate(self._kept) if not self.is_finished(row)]

    def _put_together(self, begun: list[tuple[int, Row]]) -> None:
        """The rows of the brief, and among them those that are begun, at their places."""
        self._kept = self._in_brief()
        for place, row in begun:
            self._kept.insert(min(place, len(self._kept)), row)

    def keep_begun(self) -> None:
        """Keep the rows that are not finished for the next time this table is shown."""
        _begun.setdefault(self._session, {})[self.question.id] = self._those_begun()

    # -- cells ---------------------------------------------------------------------------------

    def fault(self, column: int, text: str) -> str:
        """Why a cell is not taken; empty if it is."""
        known = self._faults[column].get(text)
        if known is None:
            known = self._faults[column][text] = self._find_fault(column, text)
        return known

    def _find_fault(self, column: int, text: str) -> str:
        name = self.ids[column]
        try:
            read_answer(self._alone[column], [{name: text}])
        except AnswerError as error:
            return str(error).removeprefix(f"{name} ")
        return ""

    def is_finished(self, row: Row) -> bool:
        """Whether every cell of a row is taken."""
        texts = tuple(row.values())
        known = self._finished.get(texts)
        if known is None:
            known = not any(self.fault(n, text) for n, text in enumerate(texts))
            self._finished[texts] = known
        return known

    def first_gap(self, place: int, start: int = 0) -> int | None:
        """The first cell of a row, from a column on, that is not taken yet, round the end."""
        row = self._kept[place]
        for step in range(len(self.ids)):
            column = (start + step) % len(self.ids)
            if self.fault(column, row[self.ids[column]]):
                return column
        return None

    # -- changing ------------------------------------------------------------------------------

    def put(self, place: int, column: int, text: str) -> None:
        """Set a cell; a row that was not there is begun."""
        if place == len(self._kept):
            self._kept.append(self._blank())
        self._kept[place][self.ids[column]] = text.strip()

    def add(self, place: int) -> None:
        """Begin a row."""
        self._kept.insert(place, self._blank())

    def copy(self, place: int) -> None:
        """Put a copy of a row below it."""
        self._kept.insert(place + 1, dict(self._kept[place]))

    def delete(self, place: int) -> Row:
        """Take a row out."""
        return self._kept.pop(place)

    def move(self, place: int, step: int) -> int:
        """Move a row up or down, and tell where it is then."""
        to = min(max(place + step, 0), len(self._kept) - 1)
        self._kept.insert(to, self._kept.pop(place))
        return to

    def put_block(self, place: int, column: int, cells: Sequence[Sequence[str]]) -> int:
        """Set cells from one on, beginning rows as needed; tell how many were not taken.

        A row that is finished takes only what leaves it so.
        """
        refused = 0
        for down, texts in enumerate(cells):
            at = place + down
            if at >= len(self._kept):
                self._kept.append(self._blank())
            finished = self.is_finished(self._kept[at])
            for across, text in enumerate(texts[: len(self.ids) - column]):
                fault = self.fault(column + across, text)
                refused += bool(fault)
                if not (fault and finished):
                    self._kept[at][self.ids[column + across]] = text.strip()
        return refused

    def _blank(self) -> Row:
        return dict.fromkeys(self.ids, "")


def pasted(text: str) -> list[list[str]]:
    """Cells as a spreadsheet copies them: a row a line, tabs between cells."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n").split("\n")
    return [list(_printable(line.split("\t"))) for line in lines if line.strip()]


def _printable(cells: Iterable[str]) -> Iterable[str]:
    for cell in cells:
        yield " ".join("".join(c if c.isprintable() else " " for c in cell).split())
