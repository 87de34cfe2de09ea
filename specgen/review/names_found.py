"""The names of buildings and places in a document, and those that are not this project's."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from specgen.review.navigating import lists_standards
from specgen.review.outline import Block, Outline

# What a building is called at the end of its name.
_BUILDING = (
    "Library|School|Hall|Center|Church|Chapel|Hospital|Clinic|Station|Lodge|Museum|Gymnasium"
    "|Terminal|Hangar|Academy|College|University|Courthouse|Arena|Pavilion|Residence|Apartments"
    "|Warehouse|Depot|Store|Stables|Barn|House|Inn|Hotel|Theater|Natatorium|Annex|Laboratory"
    "|Middle School|High School|Elementary School|Community Center|Fire Station|Town Hall|Armory"
    "|Gallery|Observatory|Cannery|Brewery|Winery|Archive|Archives|Dormitory|Conservatory|Market"
    "|Cottage|Manor|Mill|Works|Shelter|Auditorium|Field House|Headquarters|Civic Center"
)
_WORD = r"(?:[A-Z][a-z’']+(?:-[A-Z]?[a-z]+)?|St\.|Mt\.|Ft\.|of|at|the|and|No\.)"
_NAME = re.compile(
    rf"\b(?:[A-Z][a-z’']+(?:-[A-Z]?[a-z]+)?|St\.|Mt\.|Ft\.)(?:\s{_WORD}){{0,5}}\s(?:{_BUILDING})\b"
    rf"(?:\s(?:{_BUILDING}|Addition|Renovation|Reroofing|Replacement|Project))*"
)
_LABELLED = re.compile(r"\bProject(?:\s(?:Name|Title))?\s?[:–—-]\s?(?P<name>[A-Z][^;|\t\n]{3,80})")
_OPENERS = frozenset(
    (
        "the", "a", "an", "at", "for", "in", "of", "this", "each", "all", "on", "within", "new",
        "existing", "project", "owner", "section", "part", "article", "building",
    )
)  # fmt: skip
# Names that end like a building and are none, or are every job's.
_GENERIC = re.compile(
    r"^(?:The |This |Each |Owner|Contractor|Project|Main|Existing|New|Open|Metal|Steel|Roof"
    r"|Standing|Power"
    r"|Work|Test|Training|Testing|National|International|American|Fire Station|Service|Data|Call)\b"
)
_STATE = re.compile(
    r"\b(?P<town>[A-Z][a-z’']+(?:\s[A-Z][a-z’']+){0,2}),\s(?P<state>Alabama|Alaska|Arizona"
    r"|Arkansas|California"
    r"|Colorado|Connecticut|Delaware|Florida|Georgia|Hawaii|Idaho|Illinois|Indiana|Iowa|Kansas"
    r"|Kentucky|Louisiana"
    r"|Maine|Maryland|Massachusetts|Michigan|Minnesota|Mississippi|Missouri|Montana|Nebraska|Nevada"
    r"|New Hampshire|New Jersey|New Mexico|New York|North Carolina|North Dakota|Ohio|Oklahoma"
    r"|Oregon"
    r"|Pennsylvania|Rhode Island|South Carolina|South Dakota|Tennessee|Texas|Utah|Vermont"
    r"|Virginia|Washington"
    r"|West Virginia|Wisconsin|Wyoming)\b"
)  # fmt: skip
_OFFICE = re.compile(
    r"\b(?:laborator|manufactur|warehouse of|test|plant|office|publish|available from|weather"
    r"(?:ing|ed)"
    r"|exposure|south florida)",
    re.IGNORECASE,
)


def other_names(outline: Outline, project: str = "") -> Iterator[tuple[Block, int, int, str]]:
    """Words that name another building or town than this project's, with a sentence on each."""
    yield from _other_buildings(outline, project)
    yield from _other_towns(outline)


def _other_buildings(outline: Outline, project: str) -> Iterator[tuple[Block, int, int, str]]:
    named = list(_buildings(outline))
    own = project or _own(named)
    if not own:
        return
    ours = _telling(own)
    told: set[str] = set()
    for block, start, end in named:
        name = block.text[start:end]
        words = _telling(name)
        key = " ".join(sorted(words))
        if not words or words & ours or key in told:
            continue
        told.add(key)
        yield block, start, end, f"“{name}” is named here; this section is for {own}."


def own_name(outline: Outline) -> str:
    """The name of the project that a document is for, empty where it gives none."""
    return _own(list(_buildings(outline)))


def _buildings(outline: Outline) -> Iterator[tuple[Block, int, int]]:
    for block in outline.blocks:
        if block.hidden or lists_standards(block) or block.kind in ("part", "article"):
            continue
        labelled = _LABELLED.search(block.text)
        if labelled is not None and block.kind in ("page", "title", "loose"):
            yield block, labelled.start("name"), labelled.end("name")
            continue
        for match in _NAME.finditer(block.text):
            start = match.start() + _opening(match[0])
            name = block.text[start : match.end()]
            if len(name.split()) > 1 and not _GENERIC.match(name):
                yield block, start, match.end()


def _opening(name: str) -> int:
    """How long the words at the beginning of a match are that belong to the sentence."""
    length = 0
    for word in name.split(" "):
        if word.lower() not in _OPENERS:
            break
        length += len(word) + 1
    return length


def _own(named: list[tuple[Block, int, int]]) -> str:
    """The project's own name: what heads the document, else the name that it uses most."""
    if not named:
        return ""
    counts = Counter(block.text[start:end] for block, start, end in named)
    heads = [
        block.text[start:end] for block, start, end in named if block.kind in ("page", "title")
    ] or [block.text[start:end] for block, start, end in named if block.part == 0]
    return max(heads, key=lambda name: counts[name]) if heads else counts.most_common(1)[0][0]


def _telling(name: str) -> set[str]:
    """The words of a name that tell it from others."""
    kinds = set(_BUILDING.replace("|", " ").lower().split()) | _OPENERS
    kinds |= {"and", "addition", "renovation", "reroofing", "replacement", "county", "city", "town"}
    words = re.findall(r"[A-Za-z][a-z’']+", name)
    return {word.lower().removesuffix("’s").removesuffix("'s") for word in words} - kinds


def _other_towns(outline: Outline) -> Iterator[tuple[Block, int, int, str]]:
    """Towns with their state, other than the one that the document's head gives."""
    found = [
        (block, match)
        for block in outline.blocks
        if not block.hidden and not lists_standards(block)
        for match in _STATE.finditer(block.text)
    ]
    heads = [match for block, match in found if block.kind in ("page", "title") or not block.part]
    if not heads:
        return
    own = Counter(match[0] for match in heads).most_common(1)[0][0]
    told = {own}
    for block, match in found:
        near = block.text[max(0, match.start() - 60) : match.end() + 40]
        if match[0] in told or _OFFICE.search(near):
            continue
        if match["town"].split()[-1] == own.split(",")[0].split()[-1]:
            continue
        told.add(match[0])
        yield (
            block,
            match.start(),
            match.end(),
            (f"“{match[0]}” is named here; this section is for {own}."),
        )
