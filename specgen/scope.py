"""What every name in a condition stands for, given a library and a set of answers.

A question that does not arise (its asked-when is no) has no value; one that may arise is open with
whatever it hangs on; one asked and unanswered is open with itself; a fact is its condition.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from specgen import units
from specgen.calculations.record import OutsideMethod
from specgen.computing.inputs import Inputs
from specgen.computing.registry import Calculation, Outcome
from specgen.conditions import Expression, LanguageError, decide
from specgen.faults import BadInput, Fault
from specgen.library import Advice, Check, Clause, Library
from specgen.spans import Span
from specgen.values import NOT_ASKED, Choice, Open, Value
from specgen.wording import Printer, Text, print_value, render

ALWAYS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Result:
    """A calculation as it stands for a brief.

    ``outcome`` is None where it does not arise, where it waits on questions, or where its method
    refused the inputs (``refused`` says why).
    """

    calculation: Calculation
    because: frozenset[str] = ALWAYS
    outcome: Outcome | None = None
    waits_on: frozenset[str] = ALWAYS
    refused: str = ""


class Scope:
    """Answers seen through the library, each name looked up once."""

    def __init__(self, library: Library, answers: Mapping[str, Value]) -> None:
        self.library = library
        self.answers = answers
        self._results: dict[str, Result] = {}
        self._known: dict[str, tuple[Value, frozenset[str]]] = {}
        self.printer = Printer(self._system(), self.label_of, self.first_question)

    def answering(
        self, answers: Mapping[str, Value], names: frozenset[str], calculations: frozenset[str]
    ) -> Scope:
        """The scope of other answers, keeping what none of these names and calculations read."""
        following = Scope(self.library, answers)
        following._known = {k: v for k, v in self._known.items() if k not in names}
        following._results = {k: v for k, v in self._results.items() if k not in calculations}
        return following

    def lookup(self, name: str) -> tuple[Value, frozenset[str]]:
        """The value of a question or fact, and the questions that made it so."""
        known = self._known.get(name)
        if known is None:
            known = self._known[name] = self._find(name)
        return known

    def holds(self, condition: Expression | None) -> tuple[bool | Open, frozenset[str]]:
        """Whether a condition holds (none always does), and the questions that decide it."""
        return (True, ALWAYS) if condition is None else decide(condition, self.lookup)

    def text_of(
        self, text: Text, owner: Clause | Check | Advice
    ) -> tuple[tuple[Span, ...], frozenset[str]]:
        """A text of the library with the answers put in, and the questions that it read.

        Raises BadInput, naming its owner's file and line, where it prints an answer that is not
        asked for.
        """
        try:
            return render(text, self.lookup, self.printer)
        except LanguageError as error:
            says = f"{owner.id}: {error}; narrow its `when`."
            raise BadInput([Fault(owner.file, owner.line, says)]) from None

    def shown(self, name: str) -> str:
        """The answer to a question as the section prints it."""
        value, _ = self.lookup(name)
        if isinstance(value, Open):
            return "open"
        return "not asked" if value is NOT_ASKED else print_value(value, self.printer)

    def label_of(self, name: str) -> str:
        """The noun phrase by which a question is called."""
        return self.library.questions[name].label

    def first_question(self, names: frozenset[str]) -> str:
        """Of several questions, the one that the library asks first."""
        return min(names, key=self.library.rank_of)

    def _find(self, name: str) -> tuple[Value, frozenset[str]]:
        fact = self.library.facts.get(name)
        if fact is not None:
            return decide(fact.condition, self.lookup)
        if name in self.library.calculations:
            return self._computed(name)
        question = self.library.questions[name]
        asked, because = self.holds(question.when)
        if isinstance(asked, Open):
            return asked, because
        if not asked:
            return NOT_ASKED, because
        value = self.answers.get(name)
        if value is None:
            value = NOT_ASKED if question.optional else Open(frozenset([name]))
        return value, because | {name}

    def result(self, calculation: Calculation) -> Result:
        """What a calculation gives for these answers, computed once."""
        known = self._results.get(calculation.id)
        if known is None:
            known = self._results[calculation.id] = self._run(calculation)
        return known

    def results(self) -> tuple[Result, ...]:
        """Every calculation of the library, in the order in which they build on each other."""
        distinct = {id(each): each for each in self.library.calculations.values()}
        return tuple(self.result(calculation) for calculation in distinct.values())

    def _computed(self, name: str) -> tuple[Value, frozenset[str]]:
        result = self.result(self.library.calculations[name])
        because = result.because | {name}
        if result.outcome is not None:
            return result.outcome.values.get(name, NOT_ASKED), because
        return (Open(result.waits_on) if result.waits_on else NOT_ASKED), because

    def _run(self, calculation: Calculation) -> Result:
        arises, because = self.holds(self.library.arises[calculation.id])
        if isinstance(arises, Open):
            return Result(calculation, because=because, waits_on=arises.waits_on)
        if not arises:
            return Result(calculation, because=because)
        values: dict[str, Value] = {}
        waits_on: frozenset[str] = frozenset()
        for name in (*calculation.needs, *calculation.takes):
            value, read = self.lookup(name)
            because |= read
            if isinstance(value, Open):
                waits_on |= value.waits_on
            elif value is NOT_ASKED and name in calculation.needs:
                return Result(calculation, because=because)
            values[name] = value
        if waits_on:
            return Result(calculation, because=because, waits_on=waits_on)
        try:
            outcome = calculation.run(Inputs(values))
        except OutsideMethod as error:
            settled_by = frozenset([calculation.settled_by])
            return Result(calculation, because=because, waits_on=settled_by, refused=str(error))
        return Result(calculation, because=because, outcome=outcome)

    def _system(self) -> units.System:
        """The units shown; both while that is not decided, which gives nothing away."""
        shown = self.answers.get("units_shown")
        if isinstance(shown, Choice) and shown.id == "inch-pound":
            return "inch-pound"
        return "si" if isinstance(shown, Choice) and shown.id == "si" else "both"
