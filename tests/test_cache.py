"""The library kept between runs: used when it is the same, never trusted when it might not be."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.cache import SWITCH, kept_library
from specgen.library import Library
from specgen.loading import load_library
from tests.support import SMALL_LIBRARY, write_folder


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.delenv(SWITCH, raising=False)
    return tmp_path / "cache" / "specgen"


def _must_not_read() -> Library:
    raise AssertionError("it was read again")


def _kept(home: Path) -> Path:
    (path,) = home.glob("library-*.pickle")
    return path


def test_a_library_is_read_once_and_then_kept(home: Path, tmp_path: Path) -> None:
    folder = write_folder(tmp_path / "lib", SMALL_LIBRARY)
    first = load_library(folder)
    again = kept_library([folder], _must_not_read)
    assert again.clauses == first.clauses
    assert list(again.clauses) == list(first.clauses)
    assert _kept(home).stat().st_mode & 0o077 == 0


def test_a_changed_file_is_read_again(home: Path, tmp_path: Path) -> None:
    folder = write_folder(tmp_path / "lib", SMALL_LIBRARY)
    load_library(folder)
    more = "- {id: more, at: panels, text: 'More.', why: w}\n"
    (folder / "part-2-products" / "more.yaml").write_text(more)
    assert "more" in load_library(folder).clauses


@pytest.mark.parametrize("content", [b"", b"not a pickle", b"\x80\x04K\x01."])
def test_a_damaged_cache_is_no_cache(home: Path, tmp_path: Path, content: bytes) -> None:
    folder = write_folder(tmp_path / "lib", SMALL_LIBRARY)
    first = load_library(folder)
    _kept(home).write_bytes(content)
    assert load_library(folder).clauses == first.clauses


def test_a_cache_that_others_could_have_written_is_not_read(home: Path, tmp_path: Path) -> None:
    folder = write_folder(tmp_path / "lib", SMALL_LIBRARY)
    load_library(folder)
    _kept(home).chmod(0o666)
    with pytest.raises(AssertionError, match="read again"):
        kept_library([folder], _must_not_read)


def test_a_cache_folder_that_cannot_be_made_is_done_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "cache").write_text("a file where the folder should be")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = write_folder(tmp_path / "lib", SMALL_LIBRARY)
    assert load_library(folder).clauses == load_library(folder).clauses


def test_only_the_newest_few_are_kept(home: Path, tmp_path: Path) -> None:
    for number in range(12):
        folder = write_folder(tmp_path / f"lib{number}", SMALL_LIBRARY)
        load_library(folder)
    assert len(list(home.glob("library-*.pickle"))) == 8
    assert not list(home.glob("tmp*"))
