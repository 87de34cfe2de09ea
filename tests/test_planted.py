"""Planted faults: one answer of a right brief made wrong must be found, and must have been right.

`python -m tests.test_planted` prints what is found, family by family, and what right briefs raise.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.library import FINDING_KINDS
from specgen.loading import load_library
from specgen.questions import read_answer
from specgen.report import report_of
from specgen.scope import Scope
from specgen.yamlread import Mapping, Sequence, read_yaml
from tests.support import EXAMPLES, ROOT

CLEAN = ROOT / "tests" / "reviewed" / "clean"
PLANTED = ROOT / "tests" / "planted.yaml"
COMPLETE = ("low-slope-library", "snow-country-lodge", "coastal-civic-hall")
# The families of contradictions, in the order of the report.
FAMILIES = (
    "slope",
    "test-against-support",
    "engineering",
    "movement",
    "metals",
    "finish-and-warranty",
    "underlayment-moisture-heat",
    "regional",
    "seaming-and-labor",
    "document",
)
FEWEST_A_FAMILY = 3


@dataclass(frozen=True, slots=True)
class Plant:
    """One answer of one brief changed, and the check that must find it.

    ``raw`` is the answer as typed, or None where the plant takes the answer away.
    """

    family: str
    question: str
    raw: object
    brief: str
    finds: str

    @property
    def id(self) -> str:
        to = self.raw if isinstance(self.raw, str) else "nothing" if self.raw is None else "others"
        return f"{self.brief}-{self.question}-{to}-{self.finds}"


def _plants() -> Iterator[Plant]:
    content = read_yaml(PLANTED)
    assert isinstance(content, Sequence)
    for entry in content:
        assert isinstance(entry, Mapping)
        assert set(entry) == {"family", "change", "on", "finds"}, entry
        assert entry["family"] in FAMILIES, entry
        ((question, raw),) = entry["change"].items()
        for brief in entry["on"]:
            yield Plant(entry["family"], question, raw, brief, entry["finds"])


PLANTS = tuple(_plants())
CLEAN_BRIEFS = (*COMPLETE, *sorted(path.stem for path in CLEAN.glob("*.yaml")))


def path_of(brief: str) -> Path:
    """The file of a clean brief, which is a complete example or stands among the reviewed."""
    return (EXAMPLES if brief in COMPLETE else CLEAN) / f"{brief}.yaml"


@cache
def findings(brief: str, question: str = "", raw: str | None = None) -> tuple[tuple[str, str], ...]:
    """(kind, check) of everything found in a clean brief with one answer changed, or with none.

    ``raw`` is the repr of the answer as typed, which can be held in a cache where a list cannot.
    """
    library = load_library()
    read = read_brief(path_of(brief), library)
    answers = dict(read.answers)
    if question:
        answers.pop(question, None)
        typed = _typed[raw] if raw is not None else None
        if typed is not None:
            answers[question] = read_answer(library.questions[question], typed)
    scope = Scope(library, answers)
    return tuple((each.kind, each.id) for each in report_of(read, scope, assemble(scope)).standing)


_typed: dict[str, object] = {repr(plant.raw): plant.raw for plant in PLANTS}


def is_found(plant: Plant) -> bool:
    found = findings(plant.brief, plant.question, repr(plant.raw))
    return plant.finds in {check for _, check in found}


@pytest.mark.parametrize("plant", PLANTS, ids=[plant.id for plant in PLANTS])
def test_a_planted_fault_is_found_and_was_not_there(plant: Plant) -> None:
    assert plant.finds not in {check for _, check in findings(plant.brief)}
    found = findings(plant.brief, plant.question, repr(plant.raw))
    assert plant.finds in {check for _, check in found}, f"found instead: {found}"


def test_a_plant_stands_once() -> None:
    assert [
        name for name, count in Counter(plant.id for plant in PLANTS).items() if count > 1
    ] == []


def test_every_family_is_planted() -> None:
    """And each of the clean briefs takes part."""
    planted = Counter(plant.family for plant in PLANTS)
    assert [family for family in FAMILIES if planted[family] < FEWEST_A_FAMILY] == []
    assert set(CLEAN_BRIEFS) == {plant.brief for plant in PLANTS}


def test_all_is_found_and_no_right_brief_raises_a_conflict() -> None:
    print(figures())
    assert [plant.id for plant in PLANTS if not is_found(plant)] == []
    assert [each for each in CLEAN_BRIEFS if "conflict" in dict(findings(each))] == []


def figures() -> str:
    """Found and planted, family by family; then what the clean briefs raise, kind by kind."""
    lines = []
    for family in FAMILIES:
        planted = [plant for plant in PLANTS if plant.family == family]
        found = sum(map(is_found, planted))
        lines.append(f"{family}: found {found} of {len(planted)} planted")
    lines.append(f"together: found {sum(map(is_found, PLANTS))} of {len(PLANTS)} planted")
    alarms = Counter(kind for brief in CLEAN_BRIEFS for kind, _ in findings(brief))
    kinds = ", ".join(f"{kind} {alarms[kind]}" for kind in FINDING_KINDS)
    lines.append(f"{len(CLEAN_BRIEFS)} clean briefs raise: {kinds}")
    return "\n".join(lines)


if __name__ == "__main__":
    print(figures())
