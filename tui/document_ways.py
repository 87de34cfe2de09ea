"""What would remove a paragraph and what needs it, sought beside the keys once the cursor rests."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from textual.screen import Screen
from textual.timer import Timer
from textual.worker import Worker, WorkerState

from specgen.engine import Engine
from specgen.study.explained import ParagraphWhy
from specgen.study.steps import Step
from specgen.study.ways import Ways
from specgen.study.why import why_paragraph
from tui.document_rows import Row
from tui.lead_strip import Block, Lead, told
from tui.marks import times
from tui.wrapping import Piece

REST_SECONDS = 0.12
WORK = "ways"


class WaysOut:
    """The blocks that end the reason of a paragraph, known for the answers as they stand."""

    def __init__(self, screen: Screen[None]) -> None:
        self._screen = screen
        self._engine: Engine | None = None
        self._known: dict[str, list[Block]] = {}
        self._resting: Timer | None = None

    def blocks_of(self, row: Row, engine: Engine) -> list[Block]:
        """What is known of a row by now; what is not is sought if the cursor stays on it."""
        if engine is not self._engine:
            self._engine, self._known = engine, {}
        if self._resting is not None:
            self._resting.stop()
        if row.paragraph is None or row.gone or not row.number:
            return []
        if row.number not in self._known:
            self._resting = self._screen.set_timer(REST_SECONDS, partial(self._seek, row.number))
        return self._known.get(row.number, [])

    def found(self, event: Worker.StateChanged) -> bool:
        """Whether a worker has come back with what was sought for the answers that still stand."""
        if event.worker.name != WORK or event.state is not WorkerState.SUCCESS:
            return False
        result: tuple[Engine, str, list[Block]] | None = event.worker.result
        if result is None or result[0] is not self._engine:
            return False
        _, number, blocks = result
        self._known[number] = blocks
        return True

    def _seek(self, number: str) -> None:
        engine = self._engine
        if engine is None:
            return
        # An engine fills itself as it is asked: one of its own keeps the worker apart from the keys
        work = partial(_ways_out, engine, engine.answering_all({}), number)
        self._screen.run_worker(
            work, name=WORK, group=WORK, exclusive=True, thread=True, exit_on_error=False
        )


def _ways_out(asked: Engine, engine: Engine, number: str) -> tuple[Engine, str, list[Block]]:
    return asked, number, ways_out(why_paragraph(engine, number))


def ways_out(found: ParagraphWhy) -> list[Block]:
    """What would remove a paragraph, and the clauses that need it beside them."""
    return [*_removed(found), *_needed(found)]


def _removed(found: ParagraphWhy) -> Iterator[Block]:
    if found.kind == "open":
        return
    if found.removal is None:
        if found.under or found.grounds:
            yield Block("goes if", told("never: it stands in every section"))
    elif found.removal.ways:
        for index, way in enumerate(found.removal.ways):
            yield Block("or" if index else "goes if", tuple(_steps(way)))
    else:
        yield Block("goes if", told(_none_found(found.removal), "muted"))


def _steps(way: tuple[Step, ...]) -> Iterator[Piece | Lead]:
    for index, step in enumerate(way):
        if index:
            yield Piece("and ")
        more = (Piece(step.says), Piece(f" (now {step.now})", "muted"))
        yield Lead("question", step.question, f"{step.label}:", told=more)


def _none_found(removal: Ways) -> str:
    if not removal.tried:
        return "no other answer alone removes it; more together were not tried"
    return f"nothing that was tried removes it, up to {times(removal.tried, 'answer')} together"


def _needed(found: ParagraphWhy) -> Iterator[Block]:
    """Those that need it, without those that are told already as standing beside it."""
    told_of = {each.clause for each in found.needs}
    needing = [each for each in found.needed_by if each.clause not in told_of]
    for index, each in enumerate(needing):
        lead = Lead("clause", each.clause, f"{each.place} {each.clause}".strip())
        yield Block("and" if index else "needed", (Piece("by "), lead))
