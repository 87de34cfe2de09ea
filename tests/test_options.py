"""What each answer would cause, and what settles a brief."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.brief import read_brief
from specgen.domain import domain_of, typed
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.idle import idle_parts
from specgen.library import Library
from specgen.loading import load_library
from specgen.options import options_of
from specgen.questions import read_answer
from specgen.settle import settle
from specgen.values import Value
from tests.support import EXAMPLES, ROOT, SMALL_LIBRARY, brief_of, specgen, write_folder

SETTLING = {
    **SMALL_LIBRARY,
    "checks/small.yaml": (ROOT / "tests" / "small_checks.yaml").read_text(encoding="utf-8"),
}
TRIED = ("metal", "sealed", "slope", "coating")


@pytest.fixture(scope="module")
def settling(tmp_path_factory: pytest.TempPathFactory) -> Library:
    return load_library(write_folder(tmp_path_factory.mktemp("settling"), SETTLING))


def _engine(library: Library, folder: Path, text: str) -> Engine:
    return Engine(library, brief_of(text, library, folder).answers)


def test_every_choice_shows_what_it_raises_and_settles(settling: Library, tmp_path: Path) -> None:
    engine = _engine(settling, tmp_path, "metal: copper\nsealed: yes\nslope: 1:12\n")
    metal = {option.answer: option for option in options_of(engine, "metal")}
    assert metal["copper"].current
    assert metal["copper"].conflicts == ("one",)
    assert [finding.id for finding in metal["steel"].change.settled] == ["one"]
    assert "steel-sheet" in metal["steel"].change.entered
    assert "copper-sheet" in metal["steel"].change.left


def test_a_figure_is_tried_at_its_bounds_at_each_limit_and_between(settling: Library) -> None:
    tried = [typed(value) for value in domain_of(settling, "slope")]
    assert tried == ["1/4:12", "0.625:12", "1:12", "1.5:12", "2:12", "13:12", "24:12"]


def test_words_and_rows_are_not_tried(settling: Library, tmp_path: Path) -> None:
    engine = _engine(settling, tmp_path, "metal: copper\n")
    assert options_of(engine, "project_name") == ()
    assert options_of(engine, "schedule") == ()


def test_settling_changes_the_fewest_answers_and_shows_ties(
    settling: Library, tmp_path: Path
) -> None:
    found = settle(_engine(settling, tmp_path, "metal: copper\nsealed: yes\nslope: 3:12\n"))
    assert found.searched == 1
    assert set(found.ways) == {(("metal", "steel"),), (("sealed", "no"),)}


def test_settling_takes_the_nearest_figure(settling: Library, tmp_path: Path) -> None:
    text = "slope: 1:12\nsealed: no\nmetal: copper\nfixed: [sealed, metal]\n"
    brief = brief_of(text, settling, tmp_path)
    found = settle(Engine(settling, brief.answers), brief.fixed)
    assert found.ways == ((("slope", "2:12"),),)


def test_fixed_answers_that_contradict_each_other_are_named(
    settling: Library, tmp_path: Path
) -> None:
    text = "metal: copper\nsealed: yes\nfixed: [metal, sealed]\n"
    brief = brief_of(text, settling, tmp_path)
    found = settle(Engine(settling, brief.answers), brief.fixed)
    assert found.complete
    assert not found.settled
    assert [(f.id, names) for f, names in found.stuck] == [("one", ("metal", "sealed"))]


def test_a_conflict_that_somebody_answers_for_is_left_to_stand(
    settling: Library, tmp_path: Path
) -> None:
    engine = _engine(settling, tmp_path, "metal: copper\nsealed: yes\n")
    found = settle(engine, waived=frozenset(["one"]))
    assert found.settled
    assert found.ways == ()


def test_settling_gives_up_when_its_patience_is_over_and_says_so(
    settling: Library, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("specgen.settle.PATIENCE_SECONDS", -1.0)
    found = settle(_engine(settling, tmp_path, "metal: copper\nsealed: yes\n"))
    assert (found.settled, found.complete, found.searched) == (False, False, 0)
    assert [finding.id for finding, _ in found.stuck] == ["one"]


LEVEL = """
- id: wider
  kind: conflict
  when: width < length('12 in') and width < depth
  says: Too narrow.
  because: b
  source: s
  settle: []
  raises: {width: 8 in, depth: 40 in}
  spares: {width: 12 in, depth: 40 in}
"""


def test_no_answer_is_proposed_that_its_question_refuses(tmp_path: Path) -> None:
    depth = "- {id: depth, ask: a, label: depth, kind: length, why: w, source: s}\n"
    files = {**SMALL_LIBRARY, "questions/more.yaml": depth, "checks/level.yaml": LEVEL}
    library = load_library(write_folder(tmp_path / "lib", files))
    text = "width: 8 in\ndepth: 40 in\nfixed: [depth]\n"
    found = settle(_engine(library, tmp_path, text), frozenset(["depth"]))
    assert found.ways
    for way in found.ways:
        for name, answer in way:
            read_answer(library.questions[name], answer)


@pytest.mark.parametrize(
    ("name", "entry"),
    [
        (
            "checks/odd.yaml",
            '- {id: odd, kind: conflict, when: sealed, says: "{{ coating }}", because: b,'
            " source: s, settle: [], raises: {sealed: yes}, spares: {sealed: no}}\n",
        ),
        (
            "advice.yaml",
            "- {id: odd, question: metal, choice: copper, aspect: a, speaks: for, weight: 1,"
            ' says: "{{ coating }}", source: s, clause: scope}\n',
        ),
    ],
)
def test_what_a_check_or_advice_prints_though_it_is_not_asked_is_a_fault_of_the_library(
    tmp_path: Path, name: str, entry: str
) -> None:
    library = load_library(write_folder(tmp_path / "lib", {**SMALL_LIBRARY, name: entry}))
    with pytest.raises(BadInput, match=r"yaml, line 1: odd: it prints coating"):
        options_of(_engine(library, tmp_path, "metal: copper\nsealed: yes\n"), "metal")


def test_every_answer_tried_is_one_that_its_question_takes(library: Library) -> None:
    """Choices that a condition looks for in a list were once tried as bare words."""
    for question in library.questions.values():
        for value in domain_of(library, question.id):
            several = question.kind in ("choices", "table")
            assert isinstance(value, tuple) == several, (question.id, value)
            assert several or read_answer(question, typed(value)) is not None


def _values(library: Library, name: str) -> tuple[Value, ...]:
    return domain_of(library, name)


@settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.data())
def test_settling_agrees_with_brute_force(settling: Library, data: st.DataObject) -> None:
    """No fewer changes would do, and where it says none is possible none is."""
    answers = {n: data.draw(st.sampled_from(_values(settling, n))) for n in TRIED}
    fixed = frozenset(data.draw(st.sets(st.sampled_from(TRIED))))
    found = settle(Engine(settling, answers), fixed)
    free = [name for name in TRIED if name not in fixed]
    least = None
    for size in range(len(free) + 1):
        for names in itertools.combinations(free, size):
            for values in itertools.product(*(_values(settling, name) for name in names)):
                changed = {**answers, **dict(zip(names, values, strict=True))}
                if not Engine(settling, changed).conflicts:
                    least = size
                    break
            if least is not None:
                break
        if least is not None:
            break
    if least is None:
        assert found.stuck
        assert found.complete
    else:
        assert found.settled
        assert found.searched == least
        for way in found.ways:
            changed = dict(answers)
            for name, answer in way:
                assert name not in fixed
                changed[name] = read_answer(settling.questions[name], answer)
            assert not Engine(settling, changed).conflicts


def test_what_is_never_used_is_found(settling: Library) -> None:
    idle = idle_parts(settling)
    assert idle.clauses == ("never",)
    assert idle.checks == ("never",)
    assert idle.standards == ()


def test_the_commands_show_options_and_settle_a_brief(tmp_path: Path, library: Library) -> None:
    brief = tmp_path / "roof.yaml"
    text = (EXAMPLES / "low-slope-library.yaml").read_text()
    brief.write_text(text.replace("seam: double-lock", "seam: snap-lock", 1))
    shown = specgen("options", brief, "seam")
    assert shown.returncode == 0, shown.stderr
    assert "snap-lock" in shown.stdout
    options = json.loads(specgen("options", brief, "seam", "--json").stdout)["options"]
    assert {option["answer"] for option in options} == {
        choice.id for choice in library.questions["seam"].choices
    }
    assert specgen("check", brief).returncode == 1
    settled = specgen("settle", brief, "--apply")
    assert settled.returncode == 0, settled.stdout + settled.stderr
    assert specgen("check", brief).returncode == 0
    kept = [line for line in text.splitlines() if line.startswith("#")]
    assert all(line in brief.read_text().splitlines() for line in kept)
    assert not Engine(library, read_brief(brief, library).answers).conflicts


def test_settling_writes_no_brief_that_would_not_be_read(tmp_path: Path) -> None:
    brief = tmp_path / "roof.yaml"
    text = "{seam: snap-lock, lowest_slope: '1/2:12', metal: coated-steel}\n"
    brief.write_text(text)
    settled = specgen("settle", brief, "--apply")
    assert settled.returncode == 2
    assert "write the answers into it by hand" in settled.stderr
    assert brief.read_text() == text


def test_settling_names_the_conflicts_that_only_the_document_shows(tmp_path: Path) -> None:
    brief = tmp_path / "roof.yaml"
    brief.write_text("issue: for-construction\n")
    settled = specgen("settle", brief)
    assert "There is no conflict" in settled.stdout
    assert "settled there: open-decision-in-construction." in settled.stdout


def test_the_seam_is_ranked_with_reasons_that_lead_somewhere(library: Library) -> None:
    engine = Engine(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)
    options = options_of(engine, "seam")
    assert options[0].answer == "double-lock"
    assert options[-1].conflicts
    aspects = {counsel.aspect for option in options for counsel in option.counsel}
    assert {"slope", "labor", "length", "look", "availability"} <= aspects
    for option in options:
        for counsel in option.counsel:
            assert counsel.check in library.checks or counsel.clause in library.clauses


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["options", "BRIEF", "seem"], "Did you mean seam?"),
        (["options", "BRIEF", "project_name"], "cannot be tried out"),
    ],
)
def test_what_cannot_be_shown_is_refused(arguments: list[str], says: str) -> None:
    brief = str(EXAMPLES / "low-slope-library.yaml")
    result = specgen(*[brief if argument == "BRIEF" else argument for argument in arguments])
    assert result.returncode == 2
    assert says in result.stderr
