"""The engine: changing one answer gives what starting afresh would give."""

from __future__ import annotations

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.library import Library
from specgen.questions import read_answer
from specgen.values import Value
from tests.briefs import random_answers, raw_answer
from tests.support import EXAMPLES, texts_of

FEW = settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


@pytest.fixture(scope="module")
def engine(library: Library) -> Engine:
    return Engine(library, read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)


def _same(one: Engine, other: Engine) -> None:
    assert {n: (s.stands, s.text) for n, s in one.standings.items()} == {
        n: (s.stands, s.text) for n, s in other.standings.items()
    }
    assert one.findings == other.findings
    for name in one.library.calculations:
        assert one.scope.lookup(name)[0] == other.scope.lookup(name)[0], name
    assert one.section == other.section


@FEW
@given(st.integers(0, 2**32), st.sampled_from([0.0, 0.1, 0.5]))
def test_an_answer_changed_is_as_if_it_had_always_been(
    library: Library, seed: int, unanswered: float
) -> None:
    chance = random.Random(seed)
    answers = random_answers(library, chance, unanswered)
    engine = Engine(library, answers)
    for _ in range(3):
        question = chance.choice(list(library.questions.values()))
        value: Value | None = None
        if chance.random() < 0.8:
            value = read_answer(question, raw_answer(question, chance))
        engine = engine.answering(question.id, value)
        answers = {n: v for n, v in {**answers, question.id: value}.items() if v is not None}
        _same(engine, Engine(library, answers))


def test_an_engine_is_not_changed_by_the_next(engine: Engine) -> None:
    before = dict(engine.standings)
    engine.answering("metal", None)
    assert engine.standings == before


def test_the_change_names_what_comes_in_goes_out_and_moves(engine: Engine) -> None:
    aluminum = engine.library.questions["metal"].choices[1]
    change = engine.change_to(engine.answering("metal", aluminum))
    assert "panel-metal-aluminum" in change.entered
    assert "panel-metal-steel" in change.left
    assert "panel_movement" in {name for name, _, _ in change.computed}
    assert change.raised
    back = engine.answering("metal", aluminum).change_to(engine)
    assert back.entered == tuple(c for c in engine.standings if c in set(change.left))


def test_answering_as_before_changes_nothing(engine: Engine) -> None:
    change = engine.change_to(engine.answering("seam", engine.answers["seam"]))
    parts = (change.raised, change.settled, change.entered, change.left)
    assert not any((*parts, change.reworded, change.computed))


def test_units_change_every_text_that_prints_a_figure(engine: Engine) -> None:
    si = next(c for c in engine.library.questions["units_shown"].choices if c.id == "si")
    following = engine.answering("units_shown", si)
    change = engine.change_to(following)
    assert "panel-width" in change.reworded
    assert " in " not in texts_of(following.section)["panel-width"]
