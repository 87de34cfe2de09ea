"""What every name in a condition stands for, given a library and a set of answers.

A question that does not arise (its asked-when is no) has no value; one that may arise is open with
whatever it hangs on; one asked and unanswered is open with itself; a fact is its condition.
"""

from __future__ import annotations

from collections.abc import Mapping

from specgen import units
from specgen.conditions import Expression, decide
from specgen.library import Library
from specgen.spans import Span
from specgen.values import NOT_ASKED, Choice, Open, Value
from specgen.wording import Printer, Text, print_value, render

ALWAYS: frozenset[str] = frozenset()


class Scope:
    """Answers seen through the library, each name looked up once."""

    def __init__(self, library: Library, answers: Mapping[str, Value]) -> None:
        self.library = library
        self.answers = answers
        self._known: dict[str, tuple[Value, frozenset[str]]] = {}
        self.printer = Printer(self._system(), self.label_of)

    def lookup(self, name: str) -> tuple[Value, frozenset[str]]:
        """The value of a question or fact, and the questions that made it so."""
        known = self._known.get(name)
        if known is None:
            known = self._known[name] = self._find(name)
        return known

    def holds(self, condition: Expression | None) -> tuple[bool | Open, frozenset[str]]:
        """Whether a condition holds (none always does), and the questions that decide it."""
        return (True, ALWAYS) if condition is None else decide(condition, self.lookup)

    def text_of(self, text: Text) -> tuple[tuple[Span, ...], frozenset[str]]:
        """A text of the library with the answers put in."""
        return render(text, self.lookup, self.printer)

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
        return next(question for question in self.library.questions if question in names)

    def _find(self, name: str) -> tuple[Value, frozenset[str]]:
        fact = self.library.facts.get(name)
        if fact is not None:
            return decide(fact.condition, self.lookup)
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

    def _system(self) -> units.System:
        """The units shown; both while that is not decided, which gives nothing away."""
        shown = self.answers.get("units_shown")
        if isinstance(shown, Choice) and shown.id == "inch-pound":
            return "inch-pound"
        return "si" if isinstance(shown, Choice) and shown.id == "si" else "both"
