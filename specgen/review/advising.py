"""What to do about a finding in a document, in a sentence."""

from __future__ import annotations

from collections.abc import Mapping

from specgen.library import Library
from specgen.review.kinds import KINDS
from specgen.review.shapes import Found

_TO_SETTLE_OTHERWISE = "Decide which of them is meant, and correct the others."


def to_do(found: Found, library: Library) -> str:
    """What would settle a finding: the ways of its check, else what its kind asks for."""
    finding = found.finding
    ways = [_way(way, library) for way in finding.settle]
    if ways:
        return f"{_capital('; or '.join(ways))}."
    kind = KINDS.get(finding.id)
    if kind is not None:
        return kind.do
    return _TO_SETTLE_OTHERWISE if finding.kind in ("conflict", "ambiguity") else ""


def _way(way: Mapping[str, object], library: Library) -> str:
    """Answers that would settle a finding, as one would say them: ``seam: double-lock``."""
    return " and ".join(_answer(name, raw, library) for name, raw in way.items())


def _answer(name: str, raw: object, library: Library) -> str:
    question = library.questions.get(name)
    if question is None:
        return f"{name}: {raw}"
    if isinstance(raw, list):
        said = ", ".join(_choice(name, str(each), library) for each in raw) or "none"
    else:
        said = _choice(name, str(raw), library)
        if question.kind == "number" and question.unit:
            said = f"{said} {question.unit}"
    return f"{question.label}: {said}"


def _choice(name: str, raw: str, library: Library) -> str:
    labels = {choice.id: choice.label for choice in library.questions[name].choices}
    label = labels.get(raw, raw)
    return label[:1].lower() + label[1:] if label[1:2].islower() else label


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
