"""Reviewed briefs: what a consultant finds in each is what the checks raise, and nothing else."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.loading import load_library
from specgen.report import Report, report_of
from specgen.scope import Scope
from specgen.section import open_questions
from specgen.values import Choice
from specgen.yamlread import Mapping, Sequence, read_yaml
from tests.support import ROOT

REVIEWED = ROOT / "tests" / "reviewed"
EXPECTED = ".expected"
CLEAN = sorted((REVIEWED / "clean").glob("*.yaml"))
FLAWED = sorted(
    path for path in (REVIEWED / "flawed").glob("*.yaml") if not path.stem.endswith(EXPECTED)
)
BOTH = [*CLEAN, *FLAWED]
# Between them the clean briefs give each of these answers.
SPREAD: dict[str, set[object]] = {
    "metal": {"coated-steel", "aluminum", "zinc", "copper", "stainless"},
    "seam": {"snap-lock", "single-lock", "double-lock", "batten"},
    "support": {
        "wood-deck",
        "steel-deck",
        "steel-deck-insulated",
        "concrete",
        "open-framing",
        "existing-roof",
    },
    "finish": {"pvdf", "smp", "acrylic", "anodic", "mill", "natural", "preweathered"},
    "forming": {"factory", "site"},
    "seaming_means": {"powered", "hand"},
    "design_responsibility": {"pressures-given", "computed", "delegated"},
    "spacing_basis": {"schedule", "computed", "delegated"},
    "hvhz": {True, False},
    "underlayment": {"self-adhering", "synthetic", "felt", "none"},
}


@cache
def report(path: Path) -> Report:
    """What is found in the brief at ``path``."""
    library = load_library()
    brief = read_brief(path, library)
    scope = Scope(library, brief.answers)
    return report_of(brief, scope, assemble(scope))


def expected(path: Path) -> dict[str, str]:
    """What a consultant says of a flawed brief, by the check that must raise it."""
    content = read_yaml(path.with_name(f"{path.stem}{EXPECTED}.yaml"))
    assert isinstance(content, Sequence)
    said: dict[str, str] = {}
    for entry in content:
        assert isinstance(entry, Mapping)
        assert set(entry) == {"check", "says"}, entry
        assert entry["check"] not in said, entry
        said[entry["check"]] = entry["says"]
    return said


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_a_clean_brief_raises_no_conflict(path: Path) -> None:
    assert [f"{each.id}: {each.says}" for each in report(path).conflicts] == []


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_a_clean_brief_leaves_nothing_out(path: Path) -> None:
    left_out = [each for each in report(path).standing if each.kind == "omission"]
    assert [f"{each.id}: {each.says}" for each in left_out] == []


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_a_flawed_brief_raises_what_a_consultant_finds(path: Path) -> None:
    """Exactly the expected conflicts, and the expected omissions among what else is raised."""
    said = set(expected(path))
    conflicts = {each.id for each in report(path).conflicts}
    omissions = {each.id for each in report(path).standing if each.kind == "omission"}
    assert conflicts - said == set(), "raised and not expected"
    assert said - conflicts - omissions == set(), "expected and not raised"


@pytest.mark.parametrize("path", FLAWED, ids=lambda path: path.stem)
def test_a_flawed_brief_has_its_story_and_sentences(path: Path) -> None:
    assert path.read_text(encoding="utf-8").startswith("# ")
    said = expected(path)
    assert len(said) >= 3
    for sentence in said.values():
        assert len(sentence) > 30
        assert sentence.endswith(".")


@pytest.mark.parametrize("path", BOTH, ids=lambda path: path.stem)
def test_every_question_is_answered(path: Path) -> None:
    library = load_library()
    scope = Scope(library, read_brief(path, library).answers)
    assert [each.question for each in open_questions(assemble(scope))] == []
    unread = [name for name in scope.answers if library.questions[name].when is not None]
    assert [
        name for name in unread if scope.holds(library.questions[name].when)[0] is not True
    ] == []


def test_clean_briefs_spread_over_the_answers() -> None:
    library = load_library()
    seen: dict[str, set[object]] = {name: set() for name in SPREAD}
    for path in CLEAN:
        answers = read_brief(path, library).answers
        for name, values in seen.items():
            value = answers.get(name)
            values.add(value.id if isinstance(value, Choice) else value)
    assert {
        name: SPREAD[name] - values for name, values in seen.items() if SPREAD[name] - values
    } == {}


def test_there_are_twelve_of_each() -> None:
    assert (len(CLEAN), len(FLAWED)) == (12, 12)
