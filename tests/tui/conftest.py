"""Sessions that the tests of the screens share."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from specgen.library import Library
from specgen.session import Session
from tests.support import EXAMPLES


@pytest.fixture(autouse=True)
def score_kept_apart(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> Path:
    """The file of the score of practice, a new one for each test."""
    path = tmp_path_factory.mktemp("score") / "score.json"
    monkeypatch.setenv("SPECGEN_SCORE", str(path))
    return path


@pytest.fixture
def session(tmp_path: Path, library: Library) -> Iterator[Session]:
    """A session on a copy of a brief with all its answers."""
    path = tmp_path / "roof.yaml"
    shutil.copy(EXAMPLES / "low-slope-library.yaml", path)
    session = Session(path, library)
    yield session
    session.close()


@pytest.fixture
def new(tmp_path: Path, library: Library) -> Iterator[Session]:
    """A session on a brief with no answers."""
    session = Session(tmp_path / "new.yaml", library)
    yield session
    session.close()
