"""What the checks against published sources share. None of them reaches over the network."""

from __future__ import annotations

import pytest

from specgen.library import Library
from specgen.loading import load_library


@pytest.fixture(scope="session")
def library() -> Library:
    return load_library()
