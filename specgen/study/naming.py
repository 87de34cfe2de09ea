"""What somebody asks about: a paragraph by its number, or a clause, standard, question or check."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from specgen.document_checks import DOCUMENT_CHECKS
from specgen.faults import BadInput, Fault, nearest
from specgen.library import Library
from specgen.section import Paragraph, Section, numbered

KINDS = ("paragraph", "clause", "question", "standard", "finding", "value", "fact")
_NUMBER = re.compile(r"\d+\.\d+(?:\.\w+)*")


@dataclass(frozen=True, slots=True)
class Target:
    """One thing of the section or the library; ``name`` is its number or id."""

    kind: str
    name: str


def target_named(name: str, library: Library, section: Section) -> Target:
    """What a name stands for. BadInput with the nearest right names if it stands for nothing."""
    wanted = name.strip().rstrip(".")
    if _NUMBER.fullmatch(wanted):
        return Target("paragraph", _paragraph_named(wanted, section))
    known = _known(library)
    found = _found(wanted, known)
    if found is None:
        raise _unknown(name, (each for names in known.values() for each in names))
    return found


def clause_named(name: str, library: Library) -> str:
    """A clause's id. BadInput with the nearest if there is none of this name."""
    found = _found(name, {"clause": list(library.clauses)})
    if found is None:
        raise _unknown(name, library.clauses, "clause")
    return found.name


def relation_named(name: str, library: Library) -> Target:
    """A question, clause, check or standard. BadInput with the nearest if there is none."""
    known = _known(library)
    known = {kind: known[kind] for kind in ("clause", "question", "standard")}
    known["finding"] = list(library.checks)
    found = _found(name, known)
    if found is None:
        every = (each for names in known.values() for each in names)
        raise _unknown(name, every, "question, clause, check or standard")
    return found


def paragraphs_numbered(section: Section) -> dict[str, Paragraph]:
    """Every paragraph by its full number, such as 2.3.A.1."""
    return {
        number: paragraph
        for article in section.articles()
        for paragraph, number in numbered(article)
    }


def _paragraph_named(wanted: str, section: Section) -> str:
    numbers = {number.lower(): number for number in paragraphs_numbered(section)}
    found = numbers.get(wanted.lower())
    if found is None:
        says = f"this section has no paragraph {wanted[:40]}.{_nearby(wanted.lower(), numbers)}"
        raise BadInput([Fault("the command", None, says)])
    return found


def _nearby(wanted: str, numbers: dict[str, str]) -> str:
    """The paragraphs of the same article, or of the nearest one, as a hint."""
    article = ".".join(wanted.split(".")[:2])
    there = [shown for number, shown in numbers.items() if number.startswith(f"{article}.")]
    if not there:
        return nearest(wanted, numbers.values())
    steps = wanted.split(".")
    while len(steps) > 2:
        steps.pop()
        upper = numbers.get(".".join(steps))
        if upper is not None:
            below = [each for each in there if each.startswith(f"{upper}.")]
            last = f"; its last is {below[-1]}" if below else ", with nothing below it"
            return f" There is {upper}{last}."
    return f" Article {article} has {there[0]} to {there[-1]}."


def _known(library: Library) -> dict[str, list[str]]:
    return {
        "clause": list(library.clauses),
        "question": list(library.questions),
        "standard": list(library.standards),
        "finding": [*library.checks, *(check.id for check in DOCUMENT_CHECKS)],
        "value": list(library.calculations),
        "fact": list(library.facts),
    }


def _found(name: str, known: dict[str, list[str]]) -> Target | None:
    """The name as it is written, else but for case, spaces, strokes and hyphens."""
    wanted = name.strip()
    for kind, names in known.items():
        if wanted in names:
            return Target(kind, wanted)
    for kind, names in known.items():
        for each in names:
            if _plain(each) == _plain(wanted):
                return Target(kind, each)
    return None


def _plain(name: str) -> str:
    """A name as it is compared: case and the kind of space, stroke or hyphen do not count."""
    return re.sub(r"[\s_-]+", "-", name.strip().lower())


def _unknown(
    name: str,
    known: Iterable[str],
    what: str = "paragraph, clause, question, standard or check",
) -> BadInput:
    names = list(known)
    hint = nearest(name, names) or _containing(name, names)
    says = f"there is no {what} {name.strip()[:60]}.{hint}"
    return BadInput([Fault("the command", None, says)])


def _containing(name: str, names: list[str]) -> str:
    """Names that hold what was typed, as a hint."""
    word = _plain(name)
    close = [each for each in names if word and word in _plain(each)][:3]
    return f" There is {', '.join(close)}." if close else ""
