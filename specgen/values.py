"""What an answer can be: a choice, a quantity, a table …, or not yet decided, or not asked."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Final

from specgen.spans import ArticleReference
from specgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice of a question: compared by ``id``, printed as ``text``, picked by ``label``."""

    id: str
    label: str
    text: str
    means: str = ""


@dataclass(frozen=True, slots=True)
class Open:
    """Not yet decided; ``waits_on`` names the questions that would decide it."""

    waits_on: frozenset[str]


class NotAsked:
    """The type of NOT_ASKED: of a question that does not arise, or was left out rightly."""

    def __repr__(self) -> str:
        return "NOT_ASKED"


NOT_ASKED: Final = NotAsked()

Row = tuple["Value", ...]
Value = (
    bool
    | float
    | str
    | Quantity
    | Choice
    | datetime.date
    | tuple[Choice, ...]
    | tuple[Row, ...]
    | Open
    | NotAsked
)
Known = Value | ArticleReference
