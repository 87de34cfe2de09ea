"""The library as it was last read, kept in the user's cache folder.

Reading and judging the library takes longer than drafting from it, and it seldom changes: like
Python's own compiled modules, what was read is kept, under a name made of the content of every
file, of the program's own modules and of Python's version. A cache that cannot be read or
written is done without, and one that somebody else could have written is not read.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import pickle
import stat
import sys
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path

import specgen
from specgen.library import Library

KEPT = 8
MOST_BYTES = 64 * 2**20
SWITCH = "SPECGEN_NO_CACHE"


def kept_library(folders: Iterable[Path], read: Callable[[], Library]) -> Library:
    """The library of these folders: from the cache if it is there, else read and then kept."""
    place = None if os.environ.get(SWITCH) else _place(list(folders))
    if place is not None:
        library = _load(place)
        if library is not None:
            return library
    library = read()
    if place is not None:
        _keep(place, library)
    return library


def _place(folders: list[Path]) -> Path | None:
    """Where the library of these folders is kept, or None if it cannot be."""
    try:
        base = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
        digest = hashlib.sha256(f"{specgen.__version__} {sys.version} ".encode())
        for module in sorted(Path(specgen.__file__).parent.rglob("*.py")):
            found = module.stat()
            digest.update(f"{module.name} {found.st_mtime_ns} {found.st_size} ".encode())
        size = 0
        for folder in folders:
            if not folder.is_dir():
                return None
            digest.update(f"\0{folder}".encode("utf-8", "surrogateescape"))
            for path in sorted(folder.rglob("*.yaml")):
                size += path.stat().st_size
                if size > MOST_BYTES or not path.is_file():
                    return None
                content = path.read_bytes()
                digest.update(f"\0{path}\0{len(content)}\0".encode("utf-8", "surrogateescape"))
                digest.update(content)
        return Path(base) / "specgen" / f"library-{digest.hexdigest()[:40]}.pickle"
    except (OSError, RuntimeError, ValueError):
        return None


def _load(place: Path) -> Library | None:
    try:
        with place.open("rb") as stream:
            found = os.fstat(stream.fileno())
            others_may_write = found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
            if others_may_write or (hasattr(os, "getuid") and found.st_uid != os.getuid()):
                return None
            library = pickle.load(stream)
        with contextlib.suppress(OSError):
            os.utime(place)  # the least used is dropped first
    except Exception:  # a damaged cache is no cache, whatever it raises
        return None
    return library if isinstance(library, Library) else None


def _keep(place: Path, library: Library) -> None:
    """Write the library beside its place and rename it there; drop the least used of many."""
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=place.parent)
        try:
            with os.fdopen(handle, "wb") as stream:
                pickle.dump(library, stream, protocol=pickle.HIGHEST_PROTOCOL)
            os.replace(temporary, place)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise
        kept = sorted(place.parent.glob("library-*.pickle"), key=lambda path: path.stat().st_mtime)
        for old in kept[:-KEPT]:
            old.unlink(missing_ok=True)
    except (OSError, pickle.PicklingError, RecursionError):
        return
