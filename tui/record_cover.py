"""Which test records stand for this roof, as the calculation of the attachment has it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from specgen.calculations.coverage import Coverage
from specgen.calculations.record import OutsideMethod
from specgen.computing.attachment import ASSEMBLY, coverages
from specgen.computing.inputs import Inputs
from specgen.scope import Scope
from specgen.values import NOT_ASKED, Open

RECORDS = "test_records"


@dataclass(frozen=True, slots=True)
class Cover:
    """What is said of each record that is an answer, in its order; ``waits_on`` are the questions
    that have to be answered before anything can be."""

    each: Sequence[Coverage] = ()
    waits_on: tuple[str, ...] = ()


def cover_of(scope: Scope, question: str) -> Cover:
    """What is said of the rows of a question; nothing unless they are test records."""
    if question != RECORDS or any(name not in scope.library.questions for name in ASSEMBLY):
        return Cover()
    values = {name: scope.lookup(name)[0] for name in (*ASSEMBLY, RECORDS)}
    waits_on = [name for name in ASSEMBLY if isinstance(values[name], Open)]
    if waits_on or any(values[name] is NOT_ASKED for name in ASSEMBLY):
        return Cover((), tuple(waits_on))
    try:
        return Cover(coverages(Inputs(values)))
    except OutsideMethod:
        return Cover()


def carried_by(scope: Scope, report: str) -> list[str]:
    """The roof zones whose clip spacing is read from a report, each with the spacing."""
    if "computed_spacing" not in scope.library.calculations:
        return []
    ids = [column.id for column in scope.library.columns_of("computed_spacing")]
    value, _ = scope.lookup("computed_spacing")
    if not isinstance(value, tuple):
        return []
    place = ids.index("report")
    return [
        str(row[0])
        for row in value
        if isinstance(row, tuple) and report in str(row[place]).split(", ")
    ]
