"""The library's checks: each raised by its own brief, none by its near miss."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import Brief, read_brief
from specgen.checks import finding_of
from specgen.library import FINDING_KINDS, Check, Library
from specgen.loading import load_library
from specgen.questions import read_answer
from specgen.report import Report, report_of
from specgen.scope import Scope
from specgen.values import Value
from tests.support import EXAMPLES, brief_of

CHECKS = sorted(load_library().checks.values(), key=lambda check: check.id)
each_check = pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)


def _answers(library: Library, typed: object) -> dict[str, Value]:
    assert isinstance(typed, dict)
    return {name: read_answer(library.questions[name], raw) for name, raw in typed.items()}


def report_for(brief: Brief, library: Library) -> Report:
    scope = Scope(library, brief.answers)
    return report_of(brief, scope, assemble(scope))


@each_check
def test_its_brief_raises_it(library: Library, check: Check) -> None:
    finding = finding_of(check, Scope(library, _answers(library, dict(check.raises))))
    assert finding is not None
    assert "open:" not in finding.says, finding.says


@each_check
def test_its_near_miss_does_not(library: Library, check: Check) -> None:
    assert finding_of(check, Scope(library, _answers(library, dict(check.spares)))) is None


@each_check
def test_its_near_miss_is_near(check: Check) -> None:
    """Most differ in one answer; none in more than three."""
    raises, spares = dict(check.raises), dict(check.spares)
    names = set(raises) | set(spares)
    assert 1 <= sum(raises.get(name) != spares.get(name) for name in names) <= 3


@each_check
def test_each_way_to_settle_it_settles_it(library: Library, check: Check) -> None:
    raised = _answers(library, dict(check.raises))
    for way in check.settle:
        scope = Scope(library, {**raised, **_answers(library, dict(way))})
        assert finding_of(check, scope) is None, f"{way} does not settle {check.id}"


@each_check
def test_it_says_why_and_whence(check: Check) -> None:
    assert len(check.because) > 20
    assert check.because.rstrip().endswith((".", "?"))
    assert check.says.source.rstrip().endswith((".", "}"))
    assert check.source
    assert check.kind in FINDING_KINDS


@pytest.mark.parametrize("name", ["low-slope-library", "snow-country-lodge", "coastal-civic-hall"])
def test_the_complete_examples_raise_no_conflict(library: Library, name: str) -> None:
    report = report_for(read_brief(EXAMPLES / f"{name}.yaml", library), library)
    assert [finding.id for finding in report.conflicts] == []


def test_there_are_enough_checks_of_every_kind() -> None:
    assert len(CHECKS) >= 110
    assert {check.kind for check in CHECKS} == set(FINDING_KINDS)
    assert len({check.file for check in CHECKS}) >= 8


def _some_conflict(library: Library) -> Check:
    return next(check for check in CHECKS if check.kind == "conflict" and check.settle)


def _typed(check: Check) -> str:
    import json

    return "".join(f"{name}: {json.dumps(raw)}\n" for name, raw in dict(check.raises).items())


def test_a_waived_finding_is_listed_apart_with_reason_and_name(
    library: Library, tmp_path: Path
) -> None:
    check = _some_conflict(library)
    waiver = f"waive: [{{check: {check.id}, reason: Tested in 2019, by: the owner}}]\n"
    report = report_for(brief_of(_typed(check) + waiver, library, tmp_path), library)
    assert check.id not in [finding.id for finding in report.standing]
    waived = next(finding for finding in report.waived if finding.id == check.id)
    assert waived.waived == ("Tested in 2019", "the owner")


def test_a_waiver_that_no_longer_applies_is_itself_a_finding(
    library: Library, tmp_path: Path
) -> None:
    check = _some_conflict(library)
    text = (
        f"waive: [{{check: {check.id}, reason: r, by: b}}, {{check: nonsense, reason: r, by: b}}]\n"
    )
    report = report_for(brief_of(text, library, tmp_path), library)
    said = [f.says for f in report.standing if f.id == "waiver-without-finding"]
    assert len(said) == 2
    assert "it is not found here" in said[0]
    assert "There is no check nonsense" in said[1]
