"""The library: read from its folder, judged, and kept for the next time."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from clauses import FOLDER
from specgen.cache import kept_library
from specgen.library import Library


def load_library(base: Path | None = None, overlays: Iterable[Path] = ()) -> Library:
    """The library at ``base`` (the one that comes with specgen) with an office's folders over it.

    Raises BadInput with every fault of every file.
    """
    folders = [base or FOLDER, *overlays]

    def read() -> Library:
        # Only a library that is not kept needs the parsers.
        from specgen.reader import LibraryReader

        reader = LibraryReader()
        for index, folder in enumerate(folders):
            reader.read_folder(folder, office=index > 0)
        return reader.library()

    return kept_library(folders, read)
