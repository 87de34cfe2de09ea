"""What each paragraph rests on: the answers and calculations that put it there and word it.

Names are a warrant: while the answers that are named stay as they are, whatever happens to the
others, the paragraph stays as it is. Of several warrants for one thing the shortest is kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from specgen.dependence import dependence_of
from specgen.library import Clause, Library
from specgen.scope import Scope
from specgen.section import Reason
from specgen.standing import Standings

Names = frozenset[str]
NOTHING: Names = frozenset()


class Grounds:
    """The grounds of everything that stands for one set of answers."""

    def __init__(self, scope: Scope, standings: Standings) -> None:
        self.scope = scope
        self.library: Library = scope.library
        self.standings = standings
        self._placing: dict[str, Names] = {}

    def placing(self, clause: Clause) -> Names:
        """What decides how a clause stands, with all that it stands under."""
        known = self._placing.get(clause.id)
        if known is None:
            known = self._placing[clause.id] = self._find_placing(clause)
        return known

    def _find_placing(self, clause: Clause) -> Names:
        above = NOTHING
        if clause.under is not None:
            upper = self.standings.get(clause.under)
            above = self.placing(self.library.clauses[clause.under])
            if upper is None or upper.stands is not True:
                return above
        standing = self.standings[clause.id]
        return standing.decided_by | above if standing.stands is True else standing.decided_by

    def waiting(self, question: str, siblings: Sequence[Clause]) -> Names:
        """What decides which of these clauses, all under the same one, wait on a question."""
        readers = dependence_of(self.library).reach(question).clauses
        found = {question}
        above = {clause.under for clause in siblings if clause.under is not None}
        for upper in above:
            found |= self.placing(self.library.clauses[upper])
        for clause in siblings:
            if clause.id in readers:
                found |= self.placing(clause)
        return frozenset(found)

    def reason_of(self, clause: Clause, cites: tuple[str, ...]) -> Reason:
        """The reason of a clause's own paragraph."""
        placing = self.placing(clause)
        names = self.standings[clause.id].because | placing
        return Reason(
            clause=clause.id,
            answers=self._answers(names),
            calculations=self._calculations(names),
            placed_by=self._ordered(placing),
            cites=cites,
            needs=clause.needs,
            why=clause.why,
            source=clause.source,
            office=clause.office,
        )

    def computed_reason(
        self,
        why: str,
        source: str,
        placing: Names,
        caused_by: Iterable[str] = (),
        wording: Names = NOTHING,
    ) -> Reason:
        """The reason of a paragraph that no clause wrote."""
        names = placing | wording
        return Reason(
            clause="",
            answers=self._answers(names),
            calculations=self._calculations(names),
            placed_by=self._ordered(placing),
            caused_by=tuple(caused_by),
            why=why,
            source=source,
        )

    def _ordered(self, names: Names) -> tuple[str, ...]:
        questions = sorted(names & self.library.questions.keys(), key=self.library.rank_of)
        return (*questions, *(name for name in self.library.calculations if name in names))

    def _answers(self, names: Names) -> tuple[tuple[str, str], ...]:
        ordered = sorted(names & self.library.questions.keys(), key=self.library.rank_of)
        return tuple((name, self.scope.shown(name)) for name in ordered)

    def _calculations(self, names: Names) -> tuple[tuple[str, str], ...]:
        computed = [name for name in self.library.calculations if name in names]
        return tuple(
            (name, "as tabled" if self.library.kind_of(name) == "table" else self.scope.shown(name))
            for name in computed
        )


def shortest(warrants: Iterable[Names]) -> Names:
    """Of several warrants for the same thing, the one with the fewest names."""
    return min(warrants, key=lambda names: (len(names), sorted(names)))
