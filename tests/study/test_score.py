"""The score by topic: kept whole, never lost, and what it finds weak."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.faults import BadInput
from specgen.study.practice_shapes import FaultGrade, Grade, Planted
from specgen.study.score import (
    Score,
    Tally,
    read_score,
    save_score,
    score_file,
    weak_topics,
    with_grade,
)


def graded(**topics: str) -> Grade:
    """A grade with one fault of each topic, found or missed."""
    faults = tuple(
        FaultGrade(
            Planted("2.2.A", "metals", 1, (), "", "", "", "", topic, 1), verdict, "It is so."
        )
        for topic, verdict in topics.items()
    )
    return Grade(faults, (), 0, 2)


TALLIES = st.tuples(st.integers(0, 50), st.integers(0, 50)).map(lambda n: Tally(n[0], sum(n)))
SCORES = st.builds(
    Score, st.integers(0, 99), st.dictionaries(st.sampled_from(["wind", "panel", "roof"]), TALLIES)
)


def test_an_exercise_adds_to_its_topics() -> None:
    score = with_grade(Score(), graded(wind="found", panel="missed"))
    score = with_grade(score, graded(wind="place-only"))
    assert score == Score(2, {"wind": Tally(1, 2), "panel": Tally(0, 1)})


def test_a_score_is_kept_and_read_again(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "score.json"
    score = Score(3, {"wind": Tally(1, 2)})
    save_score(path, score)
    assert read_score(path) == (score, "")
    assert [each.name for each in path.parent.iterdir()] == ["score.json"]


@given(SCORES)
def test_every_score_comes_back_as_it_was(score: Score) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "score.json"
        save_score(path, score)
        assert read_score(path) == (score, "")


def test_no_file_is_an_empty_score(tmp_path: Path) -> None:
    assert read_score(tmp_path / "none.json") == (Score(), "")


@pytest.mark.parametrize(
    "content",
    [
        b"", b"{", b"[]", b"\xff\xfe", b"[" * 100_000, b'{"exercises": 1}',
        b'{"exercises": -1, "topics": {}}', b'{"exercises": 1, "topics": {"wind": 3}}',
        b'{"exercises": 1, "topics": {"wind": {"found": 3, "planted": 2}}}',
        b'{"exercises": true, "topics": {}}', b'{"exercises": 1e3, "topics": {}}',
        b" " * 300_000,
    ],
)  # fmt: skip
def test_a_damaged_file_is_set_aside_and_told_of(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "score.json"
    path.write_bytes(content)
    score, told = read_score(path)
    assert score == Score()
    assert "damaged; it is kept as score.json.damaged-1" in told
    assert (tmp_path / "score.json.damaged-1").read_bytes() == content
    path.write_bytes(b"again")
    assert "score.json.damaged-2" in read_score(path)[1]
    assert (tmp_path / "score.json.damaged-1").read_bytes() == content


def test_a_folder_in_the_place_of_the_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="not an ordinary file"):
        read_score(tmp_path)
    with pytest.raises(BadInput, match="folder"):
        save_score(tmp_path, Score())


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("here")
    with pytest.raises(BadInput, match="cannot be made"):
        save_score(tmp_path / "file" / "score.json", Score())
    assert (tmp_path / "file").read_text() == "here"


def test_where_the_score_is_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("SPECGEN_SCORE", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert score_file() == tmp_path / "specgen" / "score.json"
    monkeypatch.setenv("XDG_DATA_HOME", "not/absolute")
    assert score_file() == Path.home() / ".local" / "share" / "specgen" / "score.json"
    monkeypatch.setenv("SPECGEN_SCORE", str(tmp_path / "mine.json"))
    assert score_file() == tmp_path / "mine.json"


def test_topics_below_two_in_three_are_weak_the_weakest_first() -> None:
    score = Score(9, {
        "wind": Tally(2, 3), "panel": Tally(1, 2), "roof": Tally(0, 6), "finish": Tally(0, 1),
        "support": Tally(0, 0),
    })  # fmt: skip
    assert weak_topics(score) == ("roof", "finish", "panel")


@given(SCORES)
def test_a_topic_in_which_all_was_found_is_never_weak(score: Score) -> None:
    assert not [t for t in weak_topics(score) if score.topics[t].found == score.topics[t].planted]
