"""Every figure and every fact says where it comes from, and what is from memory is counted."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator, Mapping

import pytest

from specgen.brief import read_brief
from specgen.calculations.record import Step
from specgen.library import Clause, Library
from specgen.scope import Scope
from tests import from_memory
from tests.calculations.test_worked_lines import RECORDS
from tests.support import EXAMPLES, ROOT
from tests.test_reviewed import BOTH

# What stands between the marks of a template: answers and conditions, which have their own source.
_TEMPLATE = re.compile(r"\{%.*?%\}|\{\{.*?\}\}", re.DOTALL)
# A figure of the library's own in a template: q('24 in'), slope('6:12').
_QUANTITY = re.compile(r"\b(?:q|length|thickness|pressure|slope|temperature)\('")
# What is no figure although it has digits: the number of another section, a part of this one.
_NUMBER_OF_A_SECTION = re.compile(
    r"\bSection \d\d \d\d \d\d(?:\.\d\d)?|\bDivision \d\d|\bPart [123]"
)

# A source is something published and named, the trade's practice, something recalled, or worked
# out from what is named; a standard's source says where its title was read.
_PUBLISHED = re.compile(
    r"\b(?:AA|AAMA|ACI|AISI|ANSI|APA|ASCE|ASHRAE|ASTM|AWC|CDA|CFR|CRRC|EN|FM|IBC|IECC|IRC|ISO|IWUIC"
    r"|MasterFormat|NFPA|NIST|SMACNA|SPRI|TAS|UFC|UL|Florida (?:Building|Administrative) Code"
    r"|International Wildland-Urban Interface Code|Manufacturers' Standard Gauge|Wood Handbook"
    r"|Copper Development Association)\b"
)
_PRACTICE = re.compile(r"\bcommon practice\b|\bproduct evaluation practice\b")
_RECALLED = re.compile(r"\bfrom memory\b")
_WORKED_OUT = re.compile(
    r"\b(?:arithmetic|computed|density|elastic moduli|expansion|galvanic series|geometry"
    r"|melting point|statics|allowable = ultimate / factor|interpolation)\b"
)
_READ = re.compile(r"\bread (?:in|on|under)\b")
# Of a calculation's line also: what the brief gives, and what was measured and published.
_OF_A_LINE = re.compile(
    r"\btest records? of the brief\b|\bthe structural engineer\b|\bwater at 62\.4 lb/cu ft\b"
    r"|\bpublished\b|\bmean of\b|\broofing contractors' association\b|\bInvented report\b"
    r"|\bkg/cu m\b|\btechnical page\b|\bsheet table\b"
)

# The names of functions, and the numbers that turn one unit into another: in to ft or the rise in
# 12, sq in to sq ft, oz to lb, a share to percent; and the 1 of a reciprocal.
_FUNCTIONS = {"atan", "ceil", "floor", "max", "min", "sqrt"}
_UNIT_NUMBERS = {"1", "12", "16", "100", "144"}
_SYMBOL = re.compile(r"[^\W\d][\w,']*")
_PLAIN_NUMBER = re.compile(r"(?<![\w.])\d[\d.]*")


def figures_typed(clause: Clause) -> list[str]:
    """The figures that the library itself puts into the text of a clause."""
    text = clause.text.source
    typed = [mark for mark in re.findall(r"\{\{.*?\}\}", text, re.DOTALL) if _QUANTITY.search(mark)]
    plain = _TEMPLATE.sub(" ", text)
    for standard in sorted(clause.cites, key=len, reverse=True):
        plain = plain.replace(standard, " ")
    plain = _NUMBER_OF_A_SECTION.sub(" ", plain)
    return typed + re.findall(r"\S*\d\S*", plain)


def test_every_clause_with_a_figure_of_its_own_has_a_source(library: Library) -> None:
    without = {
        clause.id: figures
        for clause in library.clauses.values()
        if not clause.source and (figures := figures_typed(clause))
    }
    assert not without


def test_a_designation_and_a_section_number_are_no_figures(library: Library) -> None:
    """So that the test above looks at what it means to look at."""
    assert not figures_typed(library.clauses["coordinate-gutters"])
    assert not figures_typed(library.clauses["finish-pvdf-steel"])
    assert figures_typed(library.clauses["manufacturer-visits"]) == []
    assert figures_typed(library.clauses["delivery-storage-bearers"]) == ["{{ q('4 in') }}"]
    assert "95" in figures_typed(library.clauses["panel-thickness-steel"])


@pytest.mark.parametrize("kind", ["questions", "clauses", "checks", "advice", "standards"])
def test_every_source_is_published_practice_recalled_or_worked_out(
    library: Library, kind: str
) -> None:
    """A clause alone may do without: one that carries no figure and no fact of the trade."""
    entries: Mapping[str, Clause] = getattr(library, kind)
    unknown = {
        entry.id: entry.source
        for entry in entries.values()
        if (entry.source or kind != "clauses") and not _is_named(entry.source)
    }
    assert not unknown


def _is_named(source: str) -> bool:
    kinds = (_PUBLISHED, _PRACTICE, _RECALLED, _WORKED_OUT, _READ)
    return any(kind.search(source) for kind in kinds)


# ----------------------------------------------------------------------------------- calculations


@pytest.fixture(scope="module")
def records(library: Library) -> list[tuple[Step, ...]]:
    """The lines of every calculation of every brief of the examples and of the reviewed ones."""
    found = list(RECORDS.values())
    for path in (*sorted(EXAMPLES.glob("*.yaml")), *BOTH):
        for result in Scope(library, read_brief(path, library).answers).results():
            if result.outcome is not None:
                found.append(result.outcome.steps)
    return found


def test_every_line_with_a_formula_has_a_source_or_is_plain_arithmetic(
    records: list[tuple[Step, ...]],
) -> None:
    """Plain arithmetic: only symbols of its own record and numbers that turn units, put together
    by + - x / and rounding, least, greatest, root or angle."""
    faults = {
        f"{step.label}: {step.formula}"
        for steps in records
        for step in steps
        if step.formula and not step.source and not _is_plain(step, steps)
    }
    assert not faults


def test_the_sources_of_lines_are_named(records: list[tuple[Step, ...]]) -> None:
    unknown = {
        step.source
        for steps in records
        for step in steps
        if step.source and not _is_named(step.source) and not _OF_A_LINE.search(step.source)
    }
    assert not unknown


@pytest.mark.parametrize(
    ("formula", "plain"),
    [("G = w c L / 12", True), ("G = 0.7 w", False), ("G = w z", False), ("ceil(w c)", True)],
)
def test_a_factor_or_a_symbol_from_elsewhere_is_not_plain(formula: str, plain: bool) -> None:
    record = tuple(Step(symbol, symbol, 1.0, "") for symbol in ("w", "c", "L"))
    assert _is_plain(Step("G", "G", 1.0, "", formula), record) == plain


def _is_plain(step: Step, record: tuple[Step, ...]) -> bool:
    right = step.formula.partition(" = ")[2] or step.formula
    known = {other.symbol for other in record if other is not step} | _FUNCTIONS
    return set(_words(right)) <= known and set(_PLAIN_NUMBER.findall(right)) <= _UNIT_NUMBERS


def _words(formula: str) -> Iterator[str]:
    for word in _SYMBOL.findall(formula):
        yield word.rstrip(",")


# -------------------------------------------------------------------------------------- from memory


def test_developers_md_counts_what_is_from_memory(library: Library) -> None:
    """The list is longer than a page holds, so the page has the counts and says how to print it."""
    assert len(from_memory.rows(library)) > 120
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.partition("\n## From memory\n")[2].partition("\n## ")[0]
    assert "python -m tests.from_memory" in section
    assert from_memory.counts_table(library) in section


def test_the_list_prints_as_a_table() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.from_memory"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=120,
        check=True,
    )
    head, rule, *body = done.stdout.splitlines()
    assert head == "| kind | id | source |"
    assert rule == "|---|---|---|"
    assert all("memory" in row for row in body)
    assert {row.split(" | ")[0].strip("| ") for row in body} == set(from_memory.KINDS)
