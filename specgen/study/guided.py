"""The guided reading: one example, stop by stop in the order in which a specifier thinks."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.engine import Engine
from specgen.library import Library
from specgen.study.practice_shapes import Option, Stop

__all__ = ["Option", "Reading", "Stop", "guided_reading"]


@dataclass(frozen=True)
class Reading:
    """The reading of one example: its ``title``, the ``engine`` that holds its answers (the section
    is ``engine.section``), and its ``stops`` in order."""

    title: str
    engine: Engine
    stops: tuple[Stop, ...]


def guided_reading(library: Library) -> Reading:
    """The library's guided reading. Raises BadInput where an office's clauses took a stop out."""
    raise NotImplementedError
