"""Many documents reviewed at once, in processes of their own; a bad one stops none of the"
" others."""

from __future__ import annotations

import multiprocessing
import os
import time
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from pathlib import Path

from specgen.faults import BadInput
from specgen.files import is_folder
from specgen.library import FINDING_KINDS, Library
from specgen.loading import load_library
from specgen.review.findings import review
from specgen.review.reading import SUFFIXES, read_document

# Documents handed to each process ahead of what it works on: enough to keep it busy, and no more,
# so that memory does not grow with the folder.
_AHEAD = 3


@dataclass(frozen=True, slots=True)
class Summary:
    """What a batch keeps of one document: the counts of its findings by kind, the ids of its
    conflicts, how much it states, or why it could not be read."""

    path: Path
    title: str = ""
    blocks: int = 0
    stated: int = 0
    counts: tuple[tuple[str, int], ...] = ()
    conflicts: tuple[str, ...] = ()
    seconds: float = 0.0
    refused: str = ""


def documents_in(paths: Sequence[Path]) -> tuple[Path, ...]:
    """The documents that paths name: files as they are, folders by what lies in them."""
    found: dict[Path, None] = {}
    for path in paths:
        if is_folder(path):
            below = sorted(path.rglob("*"))
            found.update(dict.fromkeys(p for p in below if _is_document(p)))
        else:
            found[path] = None
    return tuple(found)


def _is_document(path: Path) -> bool:
    hidden = path.name.startswith((".", "~$"))
    return not hidden and path.suffix.lower() in SUFFIXES and path.is_file()


def review_all(
    paths: Sequence[Path], overlays: Sequence[Path] = (), processes: int | None = None
) -> Iterator[Summary]:
    """A summary of each document, in the order given, as they are done."""
    count = min(processes or os.cpu_count() or 1, len(paths))
    if count <= 1:
        library = load_library(overlays=overlays)
        for path in paths:
            yield summary_of(path, library)
        return
    yield from _in_processes(deque(paths), tuple(overlays), count)


def _in_processes(
    waiting: deque[Path], overlays: tuple[Path, ...], processes: int
) -> Iterator[Summary]:
    """Summaries in order from a pool; where a process dies, a new pool takes up what was left.

    What broke a pool is one of the documents that were under way: each of these is then tried by
    itself, so that the bad one is told by name.
    """
    while waiting:
        running: deque[tuple[Path, Future[Summary]]] = deque()
        broken: list[Path] = []
        with _pool(overlays, processes) as pool:
            while (waiting or running) and not broken:
                while waiting and len(running) < processes * _AHEAD:
                    path = waiting.popleft()
                    running.append((path, pool.submit(_in_process, path)))
                path, future = running.popleft()
                try:
                    yield future.result()
                except BrokenProcessPool:
                    broken = [path, *(each for each, _ in running)]
        for path in broken:
            yield _alone(path, overlays)


def _alone(path: Path, overlays: tuple[Path, ...]) -> Summary:
    with _pool(overlays, 1) as pool:
        try:
            return pool.submit(_in_process, path).result()
        except BrokenProcessPool:
            return Summary(path, refused="reading it ended the program that read it; it is left.")


def _pool(overlays: tuple[Path, ...], processes: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(
        processes,
        mp_context=multiprocessing.get_context("spawn"),
        initializer=_prepare,
        initargs=(overlays,),
    )


_library: Library | None = None


def _prepare(overlays: tuple[Path, ...]) -> None:
    global _library
    _library = load_library(overlays=overlays)


def _in_process(path: Path) -> Summary:
    assert _library is not None  # the pool prepares each of its processes
    return summary_of(path, _library)


def summary_of(path: Path, library: Library) -> Summary:
    """One document reviewed, and what a batch keeps of it."""
    start = time.perf_counter()
    try:
        done = review(read_document(path), library)
    except BadInput as error:
        says = "; ".join(fault.says for fault in error.faults)
        return Summary(path, refused=says, seconds=time.perf_counter() - start)
    except OSError as error:
        says = f"it cannot be read: {error.strerror or error}."
        return Summary(path, refused=says, seconds=time.perf_counter() - start)
    kinds = [found.finding.kind for found in done.found]
    return Summary(
        path=path,
        title=" ".join(w for w in (done.outline.number, done.outline.title) if w),
        blocks=len(done.outline.blocks),
        stated=len(done.understanding.answers),
        counts=tuple((kind, kinds.count(kind)) for kind in FINDING_KINDS),
        conflicts=tuple(found.finding.id for found in done.conflicts),
        seconds=time.perf_counter() - start,
    )
