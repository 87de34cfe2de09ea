"""Whether a library holds together: every name, reference and citation leads somewhere."""

from __future__ import annotations

import re

from specgen.computing.registry import reads_of
from specgen.conditions import FAMILY, Expression, taken_as_yes
from specgen.faults import Fault, closed, nearest
from specgen.library import Advice, Check, Clause, Fact, Library, ReadingPlan, Recognizer
from specgen.patterns import figures_in
from specgen.questions import AnswerError, Question, read_answer


def faults_of(library: Library) -> list[Fault]:
    """Every reference in the library that leads nowhere, at its file and line."""
    checker = _Checker(library)
    for question in library.questions.values():
        if question.when is not None:
            checker.condition(question.when, question.id, question.file, question.line)
    for fact in library.facts.values():
        checker.condition(fact.condition, fact.id, fact.file, fact.line)
    for clause in library.clauses.values():
        checker.clause(clause)
    for check in library.checks.values():
        checker.check(check)
    for advice in library.advice.values():
        checker.advice(advice)
    for recognizer in library.recognizers.values():
        checker.recognizer(recognizer)
    if library.reading is not None:
        checker.reading(library.reading)
    checker.names()
    checker.circles()
    return checker.faults


class _Checker:
    def __init__(self, library: Library) -> None:
        self.library = library
        self.faults: list[Fault] = []
        self.articles = {article.id for part in library.parts for article in part.articles}
        self.kinds = {kind.id for kind in library.submittal_kinds}
        self.choices = {
            question.id: {choice.id for choice in question.choices}
            for question in library.questions.values()
            if question.choices
        }
        self.known = {*library.questions, *library.calculations, *library.facts}

    def condition(self, expression: Expression, owner: str, file: str, line: int) -> None:
        self.expression(expression, owner, file, line, is_condition=True)

    def expression(
        self,
        expression: Expression,
        owner: str,
        file: str,
        line: int,
        *,
        is_condition: bool = False,
    ) -> None:
        for name in sorted(expression.names - self.known):
            says = f"{owner}: no question or fact is called {name}.{nearest(name, self.known)}"
            self.faults.append(Fault(file, line, says))
        for article in sorted(expression.articles - self.articles):
            says = f"{owner}: no article is called {article}.{nearest(article, self.articles)}"
            self.faults.append(Fault(file, line, says))
        for name, literal in sorted(expression.literals):
            offered = self.choices.get(name)
            if offered is not None and literal not in offered:
                says = f"{owner}: {name} has no choice {literal}.{nearest(literal, offered)}"
                self.faults.append(Fault(file, line, says))
        for name in taken_as_yes(expression.tree, is_condition=is_condition):
            kind = "yes-no" if name in self.library.facts else self.library.kind_of(name)
            if kind and kind != "yes-no":
                says = f"{owner}: {name} is a {kind}, not yes or no; compare it with something."
                self.faults.append(Fault(file, line, says))
        for name, dimension in sorted(expression.measures):
            kind = self.library.kind_of(name)
            if kind and FAMILY.get(kind, kind) != dimension:
                says = f"{owner}: {name} is a {kind} and is compared with a {dimension}."
                self.faults.append(Fault(file, line, says))

    def clause(self, clause: Clause) -> None:
        library, file, line = self.library, clause.file, clause.line
        texts = [clause.text, *(text for _, text in clause.submits)]
        if clause.warrants is not None:
            texts += [clause.warrants.what, clause.warrants.years]
        expressions = [expression for text in texts for expression in text.expressions]
        if clause.when is not None:
            self.condition(clause.when, clause.id, file, line)
        for expression in expressions:
            self.expression(expression, clause.id, file, line)

        def fault(says: str, hint: str = "") -> None:
            self.faults.append(Fault(file, line, f"{clause.id} {says}.{hint}"))

        if clause.article not in self.articles:
            fault(
                f"stands in {clause.article}, which is no article",
                nearest(clause.article, self.articles),
            )
        if any(expression.articles for text in texts[1:] for expression in text.expressions):
            fault("uses ref() in what it submits or warrants; it goes in the text alone")
        for needed in clause.needs:
            if needed not in library.clauses:
                fault(f"needs {needed}, which does not exist", nearest(needed, library.clauses))
        for kind, _ in clause.submits:
            if kind not in self.kinds:
                fault(f"submits {kind}, which is no kind of submittal", nearest(kind, self.kinds))
        for cited in clause.cites:
            if cited not in library.standards:
                fault(
                    f"cites {cited}, which is not in the register",
                    nearest(cited, library.standards),
                )
            elif not cites_literally(clause.text.source, cited):
                fault(f"cites {cited}, which its text does not name")
        for named in designations_in(clause.text.source):
            if not any(cites_literally(cited, named) for cited in clause.cites):
                fault(f"names {named} in its text and does not cite it")
        if clause.table is not None and library.kind_of(clause.table) != "table":
            fault(f"prints the table {clause.table}, which is no question of kind table")

    def check(self, check: Check) -> None:
        """The names a check reads, the answers it proposes, and its two sample briefs."""
        file, line = check.file, check.line
        self.condition(check.when, check.id, file, line)
        for expression in check.says.expressions:
            self.expression(expression, check.id, file, line)
        if check.place is not None and check.place not in self.library.clauses:
            hint = nearest(check.place, self.library.clauses)
            says = f"{check.id} stands at {check.place}, which is no clause.{hint}"
            self.faults.append(Fault(file, line, says))
        for part, answers in (
            *(("settle", answers) for answers in check.settle),
            ("raises", check.raises),
            ("spares", check.spares),
        ):
            for name, raw in answers.items():
                self._answer(f"{check.id}, {part}", name, raw, file, line)

    def advice(self, advice: Advice) -> None:
        """The choice that it is about, the names it reads, and where its reason leads."""
        file, line = advice.file, advice.line
        if advice.when is not None:
            self.condition(advice.when, advice.id, file, line)
        for expression in advice.says.expressions:
            self.expression(expression, advice.id, file, line)
        if advice.choice not in self.choices.get(advice.question, set()):
            says = f"{advice.id}: {advice.question} has no choice {advice.choice}."
            self.faults.append(Fault(file, line, says))
        if advice.check is None and advice.clause is None:
            self.faults.append(Fault(file, line, f"{advice.id}: name the check or clause of it."))
        for name, known in (
            (advice.check, self.library.checks),
            (advice.clause, self.library.clauses),
        ):
            if name is not None and name not in known:
                says = f"{advice.id} leads to {name}, which does not exist.{nearest(name, known)}"
                self.faults.append(Fault(file, line, says))

    def recognizer(self, recognizer: Recognizer) -> None:
        """The question that it answers, and that each of its answers is one."""
        question = self.library.questions.get(recognizer.question)
        file, line = recognizer.file, recognizer.line
        if question is None:
            hint = nearest(recognizer.question, self.library.questions)
            says = f"{recognizer.id}: there is no question {recognizer.question}.{hint}"
            self.faults.append(Fault(file, line, says))
            return
        if recognizer.given is not None:
            self.condition(recognizer.given, recognizer.id, file, line)
        columns = {column.id for column in question.columns} or {"figure"}
        for pattern in recognizer.says:
            figures = figures_in(pattern.source)
            if pattern.answer == "mention":
                if not recognizer.negated:
                    says = f"{recognizer.id}: a mention answers by negated alone; give it."
                    self.faults.append(Fault(file, line, says))
            elif pattern.answer not in ("figure", "row"):
                self._answer(recognizer.id, question.id, pattern.answer, file, line)
            elif question.kind in ("choice", "choices", "yes-no"):
                says = f"{recognizer.id}: {question.id} takes no {pattern.answer}; name a choice."
                self.faults.append(Fault(file, line, says))
            elif not columns <= set(figures):
                missing = " and no ".join(sorted(columns - set(figures)))
                says = f"{recognizer.id}: {pattern.source[:60]} captures no {missing}."
                self.faults.append(Fault(file, line, says))
        if recognizer.negated not in ("", "same"):
            self._answer(recognizer.id, question.id, recognizer.negated, file, line)

    def reading(self, reading: ReadingPlan) -> None:
        """The answers of its brief, and that each stop reads a clause.

        An office may ask otherwise what the brief answers; the reading says so when it is opened.
        """
        for name, raw in reading.brief.items():
            question = self.library.questions.get(name)
            if question is None or not question.office:
                self._answer("the brief of the reading", name, raw, reading.file, reading.line)
        for stop in reading.stops:
            if stop.clause not in self.library.clauses:
                hint = nearest(stop.clause, self.library.clauses)
                says = f"{stop.title}: there is no clause {stop.clause}.{hint}"
                self.faults.append(Fault(reading.file, stop.line, says))

    def _answer(self, owner: str, name: str, raw: object, file: str, line: int) -> None:
        question = self.library.questions.get(name)
        if question is None:
            hint = nearest(name, self.library.questions)
            says = f"{owner}: there is no question {name}.{hint}"
            self.faults.append(Fault(file, line, says))
            return
        try:
            read_answer(question, raw)
        except AnswerError as error:
            self.faults.append(Fault(file, line, closed(f"{owner}: {name} {error}")))

    def names(self) -> None:
        """A name stands for one thing: a question, a fact or a computed value."""
        library = self.library
        for fact in library.facts.values():
            question = library.questions.get(fact.id)
            if question is not None:
                newer = question if question.office else fact
                says = f"{fact.id} would be a question and a fact; choose another id."
                self.faults.append(Fault(newer.file, newer.line, says))
        entries: list[Question | Fact] = [*library.questions.values(), *library.facts.values()]
        for entry in entries:
            if entry.id in library.calculations:
                says = f"{entry.id} is a computed value already; choose another id."
                self.faults.append(Fault(entry.file, entry.line, says))

    def circles(self) -> None:
        """Facts, asked-when conditions and calculations must not lead back to themselves."""
        edges: dict[str, frozenset[str]] = {
            fact.id: fact.condition.names for fact in self.library.facts.values()
        }
        for question in self.library.questions.values():
            edges[question.id] = question.when.names if question.when else frozenset()
        for provided, calculation in self.library.calculations.items():
            edges[provided] = reads_of(calculation, self.library.arises[calculation.id])
        finished: set[str] = set()
        for start in edges:
            path: list[str] = []
            stack: list[tuple[str, bool]] = [(start, False)]
            while stack:
                name, leaving = stack.pop()
                if leaving:
                    finished.add(path.pop())
                elif name in path:
                    circle = path[path.index(name) :]
                    # Calculations alone build on each other in one order: one of these is neither.
                    written: dict[str, Question | Fact] = {
                        **self.library.facts,
                        **self.library.questions,
                    }
                    owner = next(written[each] for each in circle if each in written)
                    says = f"{owner.id} depends on itself, through {', '.join(circle)}."
                    self.faults.append(Fault(owner.file, owner.line, says))
                    return
                elif name not in finished:
                    path.append(name)
                    stack.append((name, True))
                    stack.extend((next_name, False) for next_name in edges.get(name, ()))


_DESIGNATION = re.compile(
    r"\b(?:ASTM [A-G]\d+(?:/[A-G]\d+M)?|UL \d+|FM (?:Approvals )?\d{4}|AAMA \d+(?:\.\d)?|"
    r"TAS \d+|RAS \d+|NFPA \d+|ANSI/SPRI [A-Z]+-\d|ANSI/CRRC S\d+|ASCE/SEI 7-\d\d|PS \d)"
)


def designations_in(text: str) -> list[str]:
    """What in a text looks like the designation of a standard."""
    return _DESIGNATION.findall(text)


def cites_literally(text: str, designation: str) -> bool:
    """Whether a text names a standard, and not merely one whose designation begins the same."""
    start = text.find(designation)
    while start >= 0:
        end = start + len(designation)
        following = text[end : end + 1]
        if not following.isalnum() and not (following == "." and text[end + 1 : end + 2].isdigit()):
            return True
        start = text.find(designation, start + 1)
    return False
