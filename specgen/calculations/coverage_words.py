"""Reading the free words in which test reports name a support, a metal, a seam or a clip.

Reports and drawings call one thing by several names ("double-lock", "double-lock seam, 180
degrees"). Each phrase known here stands for one choice of the questions; words that tell more than
the choice (a grade, a board, a gauge) are kept as details. What is not known is not guessed: it is
the same as another text only if the words are the same.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from specgen.calculations.coverage_synonyms import DETAILS, FILLER, LABELS, PHRASES, REWRITES, Field

_TOKEN = re.compile(r"\d+(?:[./]\d+)*|[a-z]+\d*")
_NUMBER = re.compile(r"\d+(?:[./]\d+)*")


def _meanings(field: Field) -> dict[frozenset[str], tuple[str, frozenset[str]]]:
    found = {}
    for choice, phrases in PHRASES[field].items():
        for phrase in phrases:
            words, _, detail = phrase.partition("+")
            found[frozenset(words.split())] = (choice, frozenset(filter(None, [detail.strip()])))
    return found


_MEANINGS: dict[Field, dict[frozenset[str], tuple[str, frozenset[str]]]] = {
    "support": _meanings("support"),
    "metal": _meanings("metal"),
    "seam": _meanings("seam"),
    "clip": _meanings("clip"),
}


@dataclass(frozen=True, slots=True)
class Reading:
    """What a free text says.

    ``choice`` is the id of the choice it stands for, empty if its words are not known;
    ``details`` are the words that tell more than that choice, sorted; ``words`` are all of them.
    """

    choice: str
    details: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def sameness(self) -> tuple[str, ...]:
        """Equal for two texts that say one and the same, details included."""
        return (self.choice, *self.details) if self.choice else self.words


# Two hundred records say the same few things; each is read once.
@lru_cache(maxsize=4096)
def read_words(field: Field, text: str) -> Reading:
    """The choice that a text stands for, with the details it adds; no error, an unknown is empty.

    The synonyms are common practice. Numbers in a seam other than 90 and 180 are its height.
    """
    lowered = text.lower().replace("°", " degrees ").replace("_", " ")
    for pattern, other in REWRITES[field]:
        lowered = re.sub(pattern, other, lowered)
    tokens = tuple(_TOKEN.findall(lowered))
    words = [token for token in tokens if token not in FILLER[field]]
    details = {word for word in words if _is_detail(field, word)}
    choice, told = _MEANINGS[field].get(frozenset(words) - details, ("", frozenset[str]()))
    return Reading(choice, tuple(sorted(details | told)) if choice else (), tokens)


def label_of(choice: str, text: str) -> str:
    """The words for a choice, or the text itself, in quotation marks, where it is not known."""
    return LABELS.get(choice, f"'{text.strip()}'")


def _is_detail(field: Field, word: str) -> bool:
    if field == "seam" and word in ("90", "180"):
        return False
    return word in DETAILS[field] or _NUMBER.fullmatch(word) is not None
