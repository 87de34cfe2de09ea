"""Answers written into a brief's text, all else kept."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.brief import read_brief
from specgen.briefedit import brief_text
from specgen.library import Library
from tests.briefs import raw_answer
from tests.support import EXAMPLES


@pytest.mark.parametrize(
    ("text", "changes", "expected"),
    [
        ("metal: zinc  # wish\nb: 1\n", {"metal": "steel"}, "metal: steel  # wish\nb: 1\n"),
        ("# head\n", {"metal": "steel"}, "# head\nmetal: steel\n"),
        ("", {"tests": ["a", "b"]}, "tests: [a, b]\n"),
        ("metal: zinc\n# next\nslope: 1:12\n", {"metal": None}, "# next\nslope: 1:12\n"),
        ("a: 'x # y'  # note\n", {"a": "z"}, "a: z  # note\n"),
        ("t:\n- {a: 1}\n\n# b\nb: 1\n", {"t": [{"a": "3, 4"}]}, 't:\n- {a: "3, 4"}\n\n# b\nb: 1\n'),
        ("t:\n  - {a: 1}\nb: 1\n", {"t": None}, "b: 1\n"),
        ("a: 1\n", {"b": "x: y"}, 'a: 1\nb: "x: y"\n'),
        ("a: 1\r\nb: 2 # c\r\n", {"b": "3", "d": "4"}, "a: 1\r\nb: 3 # c\r\nd: 4\r\n"),
    ],
)  # fmt: skip
def test_an_answer_is_changed_where_it_stands(
    text: str, changes: dict[str, object], expected: str
) -> None:
    assert brief_text(text, changes) == expected


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 2**32))
def test_what_is_written_is_read_back_and_every_comment_is_kept(
    library: Library, tmp_path: Path, seed: int
) -> None:
    chance = random.Random(seed)
    source = chance.choice(sorted(EXAMPLES.glob("*.yaml")))
    text = source.read_text(encoding="utf-8")
    changes: dict[str, object] = {
        question.id: None if chance.random() < 0.3 else raw_answer(question, chance)
        for question in chance.sample(list(library.questions.values()), 6)
    }
    path = tmp_path / "brief.yaml"
    path.write_text(brief_text(text, changes), encoding="utf-8")
    wanted = {**read_brief(source, library).typed, **changes}
    assert dict(read_brief(path, library).typed) == {
        name: answer for name, answer in wanted.items() if answer is not None
    }
    kept = path.read_text(encoding="utf-8").splitlines()
    assert all(line in kept for line in text.splitlines() if line.startswith("#"))
