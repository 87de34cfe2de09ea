"""What many tests share: the real library, the examples, and a library small enough to read."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import pytest

from specgen.library import Library
from specgen.loading import load_library
from tests.support import EXAMPLES, SMALL_FOLDER

# The library is kept in a folder of the tests, not in the user's own.
os.environ["XDG_CACHE_HOME"] = str(Path(tempfile.gettempdir()) / "specgen-tests")


@pytest.fixture(scope="session")
def library() -> Library:
    """The library that comes with specgen."""
    return load_library()


@pytest.fixture(scope="session")
def small_folder() -> Path:
    return SMALL_FOLDER


@pytest.fixture(scope="session")
def small(small_folder: Path) -> Library:
    """A library of a few clauses, one for each thing a clause can do."""
    return load_library(small_folder)


@pytest.fixture(params=sorted(EXAMPLES.glob("*.yaml")), ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> Path:
    """Each brief of the examples folder in turn."""
    path: Path = request.param
    return path
