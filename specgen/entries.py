"""The shapes of the library's YAML entries, as they stand in the files.

These models judge what comes in from outside; `library` turns them into what the engine holds.
"""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from specgen.faults import Fault, nearest
from specgen.yamlread import Mapping


class Entry(BaseModel):
    """What every entry shares: no key but those named here, and no change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class ChoiceEntry(Entry):
    id: str
    label: str
    text: str | None = None
    means: str = ""


class ColumnEntry(Entry):
    id: str
    label: str
    kind: str
    unit: str = ""


class QuestionEntry(Entry):
    id: str
    ask: str
    label: str
    kind: str
    unit: str = ""
    range: list[str] | None = None
    choices: list[ChoiceEntry] = []
    columns: list[ColumnEntry] = []
    when: str | None = None
    optional: bool = False
    usual: str = ""
    why: str
    source: str


class FactEntry(Entry):
    """A named condition; the key ``is`` holds it."""

    id: str
    condition: str
    why: str


class WarrantEntry(Entry):
    what: str
    years: str
    by: str


class ClauseEntry(Entry):
    id: str
    at: str | None = None
    under: str | None = None
    after: str | None = None
    when: str | None = None
    text: str
    cites: list[str] = []
    needs: list[str] = []
    submits: dict[str, str] = {}
    warrants: WarrantEntry | None = None
    table: str | None = None
    why: str
    source: str = ""


class CheckEntry(Entry):
    id: str
    kind: str
    when: str
    says: str
    because: str
    source: str
    settle: list[dict[str, Any]]
    place: str | None = None
    raises: dict[str, Any]
    spares: dict[str, Any]


class RecognizerEntry(Entry):
    """Words that answer a question; ``says`` has the patterns of each answer."""

    id: str
    question: str
    says: dict[str, list[str]]
    near: list[str] = []
    under: list[str] = []
    unless: list[str] = []
    outside: list[str] = []
    also: list[str] = []
    negated: str = ""
    given: str | None = None
    sure: float = 0.9
    several: bool = False


class AdviceEntry(Entry):
    id: str
    question: str
    choice: str
    aspect: str
    when: str | None = None
    speaks: str
    weight: int
    says: str
    source: str
    check: str | None = None
    clause: str | None = None


class StandardEntry(Entry):
    id: str
    title: str
    publisher: str
    kind: str
    status: str
    replaced_by: str = ""
    governs: str
    source: str
    note: str = ""


class OptionEntry(Entry):
    text: str
    right: bool
    says: str


class StopEntry(Entry):
    title: str
    clause: str
    why: str
    source: str
    question: str
    options: list[OptionEntry]


class ReadingEntry(Entry):
    """The guided reading: a brief, and the stops through its section."""

    title: str
    brief: dict[str, Any]
    stops: list[StopEntry]


class ArticleEntry(Entry):
    id: str
    title: str
    lists: str = ""


class PartEntry(Entry):
    title: str
    articles: list[ArticleEntry]


class SubmittalEntry(Entry):
    id: str
    name: str
    article: str
    lead: str


class SectionEntry(Entry):
    number: str
    title: str
    topics: list[str]
    vague: list[str] = []
    parts: list[PartEntry]
    submittals: list[SubmittalEntry]


Shape = TypeVar("Shape", bound=Entry)


def shape_entry(raw: Any, shape: type[Shape], file: str, line: int) -> Shape | list[Fault]:
    """The entry in its shape, or what is wrong with it, each fault at its line."""
    if not isinstance(raw, Mapping):
        return [Fault(file, line, "an entry is written as `name: value` lines.")]
    try:
        return shape.model_validate(raw)
    except ValidationError as error:
        return [_fault(raw, item, shape, file) for item in error.errors()]


def _fault(raw: Mapping, error: Any, shape: type[Entry], file: str) -> Fault:
    place: list[str | int] = list(error["loc"])
    key = ".".join(str(step) for step in place)
    line = _line_of(raw, place)
    known = _keys_at(shape, place[:-1])
    name = raw.get("id")
    owner = f"{name}: " if isinstance(name, str) else ""
    if error["type"] == "extra_forbidden":
        hint = nearest(str(place[-1]), known) or f" The keys are {', '.join(known)}."
        return Fault(file, line, f"{owner}{key} is not a key of this entry.{hint}")
    if error["type"] == "missing":
        return Fault(file, line, f"{owner}{key} is missing.")
    return Fault(file, line, f"{owner}{key}: {error['msg'][0].lower()}{error['msg'][1:]}.")


def _line_of(raw: Mapping, place: list[str | int]) -> int:
    """The line of the innermost place that exists."""
    line = raw.line
    inner: Any = raw
    for step in place:
        lines = getattr(inner, "lines", None)
        try:
            line = lines[step] if lines is not None else line
            inner = inner[step]
        except (KeyError, IndexError, TypeError):
            break
    return line


def _keys_at(shape: type[Entry], place: list[str | int]) -> list[str]:
    if not place:
        return list(shape.model_fields)
    inner: dict[str, type[Entry]] = {
        "choices": ChoiceEntry,
        "columns": ColumnEntry,
        "warrants": WarrantEntry,
        "parts": PartEntry,
        "articles": ArticleEntry,
        "submittals": SubmittalEntry,
        "stops": StopEntry,
        "options": OptionEntry,
    }
    named = [step for step in place if isinstance(step, str)]
    return list(inner[named[-1]].model_fields) if named and named[-1] in inner else []
