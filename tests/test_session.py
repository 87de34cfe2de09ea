"""A session on a brief: on disk at once, undoable, recovered after a kill, never written over."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.brief import read_brief
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.journal import BriefTaken, journal_of
from specgen.library import Library
from specgen.questions import AnswerError
from specgen.session import BriefChanged, Session
from tests.briefs import raw_answer
from tests.support import ROOT

TEXT = "# the office's brief\nmetal: steel   # the client's wish\nslope: 1:12\n"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "roof.yaml"
    path.write_text(TEXT)
    return path


@pytest.fixture
def session(path: Path, small: Library) -> Iterator[Session]:
    session = Session(path, small)
    yield session
    session.close()


def test_an_answer_is_in_the_journal_when_it_returns_and_in_the_brief_when_saved(
    session: Session, path: Path
) -> None:
    change = session.answer("metal", "copper")
    assert "copper-sheet" in change.entered
    assert "copper" in journal_of(path).read_text()
    assert path.read_text() == TEXT
    assert not session.saved
    session.save()
    assert path.read_text() == TEXT.replace("steel ", "copper ")
    assert session.saved
    assert journal_of(path).read_text() == ""


def test_a_wrong_answer_changes_nothing(session: Session, path: Path) -> None:
    with pytest.raises(AnswerError):
        session.answer("metal", "wood")
    assert session.saved
    assert journal_of(path).read_text() == ""


def test_undo_and_redo_go_all_the_way_and_past_a_save(session: Session, path: Path) -> None:
    for metal in ("copper", "steel", "copper"):
        session.answer("metal", metal)
    session.answer("color", "red")
    session.save()
    while session.can_undo:
        session.undo()
    assert session.typed == {"metal": "steel", "slope": "1:12"}
    session.save()
    assert path.read_text() == TEXT
    while session.can_redo:
        session.redo()
    assert session.typed == {"metal": "copper", "slope": "1:12", "color": "red"}


def test_a_new_change_ends_what_could_be_redone(session: Session) -> None:
    session.answer("metal", "copper")
    session.undo()
    session.answer("slope", "3:12")
    assert session.redo() is None


def test_an_answer_is_taken_back(session: Session, path: Path) -> None:
    session.answer("metal", None)
    assert session.typed_of("metal") is None
    session.save()
    assert "metal" not in path.read_text()


def test_waivers_and_fixed_answers_are_kept_and_undone(session: Session, path: Path) -> None:
    session.waive("some-check", "tested in 2019", "the owner")
    session.set_fixed("metal", True)
    session.save()
    again = path.read_text()
    assert "waive:" in again
    assert "fixed: [metal]" in again
    session.undo()
    assert session.fixed == frozenset()
    session.unwaive("some-check")
    assert session.waivers == ()
    session.save()
    assert path.read_text() == TEXT


def test_a_new_brief_needs_no_file(tmp_path: Path, small: Library) -> None:
    session = Session(tmp_path / "new.yaml", small)
    session.answer("metal", "copper")
    session.save()
    session.close()
    assert (tmp_path / "new.yaml").read_text() == "metal: copper\n"
    assert not journal_of(tmp_path / "new.yaml").exists()


def test_the_same_brief_opened_twice_is_noticed(session: Session, path: Path) -> None:
    with pytest.raises(BriefTaken):
        Session(path, session.library)
    session.answer("metal", "copper")


def test_a_brief_changed_by_an_editor_is_not_written_over(session: Session, path: Path) -> None:
    session.answer("metal", "copper")
    path.write_text(TEXT + "sealed: yes\n")
    assert session.changed_on_disk
    with pytest.raises(BriefChanged):
        session.save()
    assert path.read_text() == TEXT + "sealed: yes\n"
    beside = path.with_name("mine.yaml")
    session.save_beside(beside)
    assert "copper" in beside.read_text()
    session.take_theirs()
    assert session.typed == {"metal": "steel", "slope": "1:12", "sealed": "yes"}
    assert session.saved


def test_after_a_kill_every_answer_is_there_again(path: Path, small_folder: Path) -> None:
    script = (
        "import os, signal, sys\n"
        "from pathlib import Path\n"
        "from specgen.loading import load_library\n"
        "from specgen.session import Session\n"
        "session = Session(Path(sys.argv[1]), load_library(Path(sys.argv[2])))\n"
        "session.answer('metal', 'copper')\n"
        "session.answer('tests', ['ul-580'])\n"
        "session.answer('slope', None)\n"
        "os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(path), str(small_folder)], cwd=ROOT, check=False
    )
    assert done.returncode == -signal.SIGKILL
    assert path.read_text() == TEXT
    assert Session.left_behind(path) == 3
    from specgen.loading import load_library

    session = Session(path, load_library(small_folder))
    assert session.recovered == 3
    assert session.typed == {"metal": "copper", "tests": ["ul-580"]}
    session.undo()
    assert session.typed_of("slope") == "1:12"
    session.close()


def test_a_second_kill_while_opening_loses_nothing_of_the_first(path: Path, small: Library) -> None:
    left = '{"name": "metal", "typed": "copper"}\n{"name": "slope", "typed": "2:1'
    journal_of(path).write_text(left)

    class Killed(BaseException):
        pass

    class Opening(Session):
        def _recover(self, left: Mapping[str, object]) -> int:
            raise Killed

    with pytest.raises(Killed):
        Opening(path, small)
    session = Session(path, small)
    assert session.typed_of("metal") == "copper"
    session.answer("tests", ["ul-580"])
    session._journal.release()
    assert Session.left_behind(path) == 2


def test_what_was_left_behind_can_be_dropped(path: Path, small: Library) -> None:
    journal_of(path).write_text('{"name": "metal", "typed": "copper"}\n')
    session = Session(path, small, recover=False)
    assert session.typed_of("metal") == "steel"
    session.close()


@pytest.mark.parametrize(
    "line",
    ["", "{", "[]", "null", '{"name": 1}', '{"name": "gone", "typed": "x"}',
     '{"name": "waive", "typed": ["x"]}',
     '{"name": "fixed", "typed": ["nobody"]}', "\x00\xff"],
)  # fmt: skip
def test_a_damaged_journal_loses_only_its_damaged_lines(
    path: Path, small: Library, line: str
) -> None:
    journal_of(path).write_text(f'{line}\n{{"name": "metal", "typed": "copper"}}\n{line}')
    session = Session(path, small)
    assert session.typed_of("metal") == "copper"
    assert session.recovered == 1
    session.close()


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path, small: Library) -> None:
    with pytest.raises(BadInput):
        Session(tmp_path / "none" / "roof.yaml", small)


@pytest.mark.skipif(os.name != "posix", reason="needs /dev/full")
def test_a_full_disk_is_said_and_loses_nothing(session: Session) -> None:
    session.answer("metal", "copper")
    session._journal._stream.close()
    session._journal._stream = open("/dev/full", "w")  # noqa: SIM115
    with pytest.raises(BadInput, match="No space left"):
        session.answer("slope", "3:12")
    assert session.typed_of("slope") == "1:12"
    session._journal._stream = open(os.devnull, "w")  # noqa: SIM115


@settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.integers(0, 2**32))
def test_any_walk_of_answers_ends_where_the_brief_on_disk_says(
    small: Library, tmp_path: Path, seed: int
) -> None:
    chance = random.Random(seed)
    path = tmp_path / f"{seed}.yaml"
    path.write_text(TEXT)
    session = Session(path, small)
    for _ in range(12):
        act = chance.random()
        if act < 0.6:
            question = chance.choice(list(small.questions.values()))
            raw = None if chance.random() < 0.2 else raw_answer(question, chance)
            session.answer(question.id, raw)
        elif act < 0.75:
            session.undo()
        elif act < 0.9:
            session.redo()
        else:
            session.save()
    session.save()
    brief = read_brief(path, small)
    assert dict(brief.typed) == dict(session.typed)
    fresh = Engine(small, brief.answers)
    assert {n: s.stands for n, s in fresh.standings.items()} == {
        n: s.stands for n, s in session.engine.standings.items()
    }
    session.close()


def test_mine_is_given_again_on_top_of_what_an_editor_wrote(session: Session, path: Path) -> None:
    session.answer("metal", "copper")
    path.write_text(TEXT.replace("1:12", "2:12"))
    assert session.take_both() == 1
    assert session.typed == {"metal": "copper", "slope": "2:12"}
    assert dict(session.unsaved) == {"metal": "copper"}
    session.save()
    assert path.read_text() == TEXT.replace("1:12", "2:12").replace("steel ", "copper ")


@pytest.mark.parametrize("left", [None, "metal: [broken\n", "metal: copper\nsealed: yes\n"])
def test_a_copy_saved_beside_holds_all_of_mine_whatever_became_of_the_brief(
    session: Session, path: Path, small: Library, left: str | None
) -> None:
    session.answer("slope", "3:12")
    if left is None:
        path.unlink()
    else:
        path.write_text(left)
    beside = path.with_name("mine.yaml")
    session.save_beside(beside)
    assert dict(read_brief(beside, small).typed) == {"metal": "steel", "slope": "3:12"}
