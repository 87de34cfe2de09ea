"""Standards that a document names: withdrawn, superseded, mistitled, not for roofs; and its"
" list."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from functools import lru_cache
from math import log

from specgen.document_checks import ADOPTED
from specgen.library import Library, Standard
from specgen.review.designations import Named, register_of
from specgen.review.kinds import found_of
from specgen.review.navigating import lists_standards, parents
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found
from specgen.scope import Scope
from specgen.values import Choice

# Methods written for windows, doors and walls, and the method for metal roof panels in their place.
WALL_METHODS: Mapping[str, str] = {
    "ASTM E283/E283M": "ASTM E1680",
    "ASTM E331": "ASTM E1646",
    "ASTM E330/E330M": "ASTM E1592",
}
_NOT_THE_ROOF = re.compile(
    r"\b(?:windows?|doors?|skylights?|curtain walls?|storefronts?|glaz\w+|louvers?|hatch(?:es)?"
    r"|smoke vents?|walls?|wall panels?|siding|soffits?|translucent|monitors?)\b",
    re.IGNORECASE,
)
_REFUSED = re.compile(
    r"\b(?:not accept\w*|do(?:es)? not (?:count|serve)|in place of|instead of|rather than"
    r"|not permitted|no substitute|wall method)\b",
    re.IGNORECASE,
)
_TITLE_START = re.compile(r"^[\s,:;.–—-]{1,6}[“\"'‘]?(?=[A-Z])")
_WORD = re.compile(r"[A-Za-z][A-Za-z'’]*|\d+")
_COMMON = frozenset(
    [
        "a",
        "an",
        "and",
        "as",
        "at",
        "by",
        "for",
        "from",
        "in",
        "of",
        "on",
        "or",
        "the",
        "to",
        "using",
        "with",
        "standard",
        "specification",
        "specifications",
        "test",
        "tests",
        "method",
        "methods",
        "practice",
        "guide",
        "voluntary",
    ]
)
_SAYS_TITLE = re.compile(
    r"^(?:Standard|Specification|Test|Method|Practice|Guide|Voluntary|Acceptance|Approval)\b"
)


def named_standards(outline: Outline, library: Library) -> tuple[Named, ...]:
    """Every standard that a document names, in reading order."""
    register = register_of(library)
    found: list[Named] = []
    for block in outline.blocks:
        if block.kind in ("page", "part") or block.hidden:
            continue
        bare = lists_standards(block) and any("ASTM" in p.text for p in parents(outline, block))
        found += register.named_in(block, under_astm=bare)
    return tuple(found)


def standards_found(outline: Outline, scope: Scope, named: tuple[Named, ...]) -> Iterator[Found]:
    """All that is wrong with the standards of a document."""
    yield from _outdated(scope, named)
    yield from _mistitled(scope.library, named)
    yield from _not_for_roofs(outline, named)
    yield from _list_against_text(outline, scope.library, named)


# ------------------------------------------------------------------------- withdrawn, superseded


def _outdated(scope: Scope, named: tuple[Named, ...]) -> Iterator[Found]:
    code = scope.answers.get("code")
    adopted_by = code.id if isinstance(code, Choice) else ""
    standards = scope.library.standards
    for name, each in _first_in_text(named).items():
        standard = standards.get(name)
        if standard is None or standard.status == "current":
            continue
        adopters = ADOPTED.get(name, ())
        if adopters and (not adopted_by or adopted_by in adopters):
            continue
        instead = standard.replaced_by.rstrip(".")
        says = f"{name} is {standard.status}; use instead: {instead}."
        if instead.startswith("nothing"):
            says = f"{name} is {standard.status}, with {instead}."
        yield found_of(f"standard-{standard.status}", says, each.block, each.start, each.end)


def _first_in_text(named: tuple[Named, ...]) -> dict[str, Named]:
    """Where each standard is first required, or first listed where no paragraph requires it."""
    first: dict[str, Named] = {}
    for each in named:
        known = first.get(each.id)
        if known is None or (lists_standards(known.block) and not lists_standards(each.block)):
            first[each.id] = each
    return first


# ------------------------------------------------------------------------------------- mistitled


def _mistitled(library: Library, named: tuple[Named, ...]) -> Iterator[Found]:
    for index, each in enumerate(named):
        standard = library.standards.get(each.id)
        if standard is None or not lists_standards(each.block):
            continue
        following = named[index + 1] if index + 1 < len(named) else None
        end = (
            following.start
            if following is not None and following.block is each.block
            else len(each.block.text)
        )
        start, title = _title_after(each.block.text, each.end, end)
        if title and (other := _belongs_elsewhere(library, standard, title)) is not None:
            says = f"{each.id} is titled “{standard.title}”"
            says += f"; the words here are {f'the title of {other}' if other else 'another'}."
            yield found_of("standard-mistitled", says, each.block, start, start + len(title))


def _title_after(text: str, start: int, end: int) -> tuple[int, str]:
    """The title that stands after a designation and where it begins; empty where none does."""
    lead = _TITLE_START.match(text[start:end])
    if lead is None and "\t" in text[start : start + 2]:
        lead = re.match(r"\s*", text[start:end])
    if lead is None:
        return 0, ""
    begin = start + lead.end()
    title = re.split(r"[;\t]|\.\s|\.$", text[begin:end])[0].strip(" ,.–—-”\"'’")
    words = [word for word in _WORD.findall(title) if word.lower() not in _COMMON]
    heads = [word for word in words if len(word) > 3]
    capitals = sum(word[0].isupper() for word in heads)
    is_title = _SAYS_TITLE.match(title) or (len(heads) >= 2 and capitals >= 0.6 * len(heads))
    return (begin, title) if is_title and len(words) >= 2 else (0, "")


def _belongs_elsewhere(library: Library, standard: Standard, title: str) -> str | None:
    """The id of the standard whose title it is, empty for nobody's, None where it is its own."""
    weights = _weights(library)
    own = _held(title, standard.title, weights)
    if own >= 0.9:
        return None
    family = standard.id.split()[0]
    best, held = "", 0.0
    for other in library.standards.values():
        if other.id != standard.id and other.id.split()[0] == family:
            both = min(_held(title, other.title, weights), _held(other.title, title, weights) + 0.3)
            if both > held:
                best, held = other.id, both
    if held >= 0.9 and held - own > 0.15:
        return best
    return "" if own < 0.4 else None


def _held(words: str, title: str, weights: Mapping[str, float]) -> float:
    """How much of one text's words, rarer ones counting more, another holds: from 0 to 1."""
    wanted, there = _stems(words), _stems(title)
    total = sum(weights.get(word, 4.0) for word in wanted)
    if not total:
        return 1.0
    kept = sum(weights.get(word, 4.0) for word in wanted if _is_among(word, there))
    return kept / total


def _is_among(word: str, words: frozenset[str]) -> bool:
    if word in words:
        return True
    return len(word) > 5 and any(
        other[:3] == word[:3] and SequenceMatcher(None, word, other).ratio() >= 0.8
        for other in words
    )


@lru_cache(maxsize=2048)
def _stems(text: str) -> frozenset[str]:
    words = (word.lower() for word in _WORD.findall(text))
    return frozenset(word.rstrip("s") or word for word in words if word not in _COMMON)


@lru_cache(maxsize=4)
def _weights(library: Library) -> Mapping[str, float]:
    """How much a word of a title tells: less, the more titles of the register hold it."""
    titles = [_stems(standard.title) for standard in library.standards.values()]
    counts = Counter(word for title in titles for word in title)
    return {word: log(len(titles) / count) for word, count in counts.items()}


# --------------------------------------------------------------------------------- not for roofs


def _not_for_roofs(outline: Outline, named: tuple[Named, ...]) -> Iterator[Found]:
    told: set[str] = set()
    for each in named:
        meant = WALL_METHODS.get(each.id)
        if meant is None or each.id in told or lists_standards(each.block):
            continue
        told_of = [each.block, *parents(outline, each.block)]
        if any(_NOT_THE_ROOF.search(block.text) for block in told_of):
            continue
        if _REFUSED.search(each.block.text):
            continue
        told.add(each.id)
        says = (
            f"{each.id} tests windows, doors and walls; the method for metal roof panels is"
            f" {meant}."
        )
        yield found_of("standard-not-for-roofs", says, each.block, each.start, each.end)


# -------------------------------------------------------------------------------- list and text


def _list_against_text(
    outline: Outline, library: Library, named: tuple[Named, ...]
) -> Iterator[Found]:
    """Cited and not listed, listed and not cited; silent where a document has no list."""
    listed = {each.id: each for each in reversed(named) if lists_standards(each.block)}
    cited = {each.id: each for each in reversed(named) if not lists_standards(each.block)}
    listing = [each for each in listed.values() if _is_entry(each)]
    if len(listing) < 3:
        return
    for name, each in cited.items():
        if not _is_in(name, listed) and _belongs_on_a_list(library, name):
            says = f"{each.words} is cited here, and the list of standards does not have it."
            yield found_of("standard-not-listed", says, each.block, each.start, each.end)
    for each in listing:
        if not _is_in(each.id, cited):
            says = f"{each.words} is listed, and no paragraph cites it."
            yield found_of("standard-not-cited", says, each.block, each.start, each.end)


def _is_entry(each: Named) -> bool:
    """Whether a standard is an entry of the list, and not one that the list's preface names."""
    before = each.block.text[: each.start]
    return len(before.split()) <= 3 or before.rstrip().endswith((",", ";", ":", "and", "\t"))


def _is_in(name: str, others: Mapping[str, Named]) -> bool:
    """Whether a standard is among others, a later or earlier edition of it counting."""
    stem = re.sub(r"-\d\d$", "", name).replace("/SEI", "")
    return name in others or any(
        re.sub(r"-\d\d$", "", other).replace("/SEI", "") == stem for other in others
    )


def _belongs_on_a_list(library: Library, name: str) -> bool:
    """Whether a citation is of the kind that lists hold: codes and laws stand outside of them."""
    standard = library.standards.get(name)
    return standard is not None and standard.kind != "code"


def methods_cited(block: Block, library: Library) -> list[Named]:
    """The test methods that a block names."""
    standards = library.standards
    return [
        each
        for each in register_of(library).named_in(block)
        if each.id in standards and standards[each.id].kind == "test method"
    ]
