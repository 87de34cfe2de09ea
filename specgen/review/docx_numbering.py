"""The numbers that Word sets before paragraphs, counted as Word counts them.

Source: ISO/IEC 29500-1, 17.9 (numbering). Where that leaves the behavior open, from memory of what
Word shows: lists that share one abstract list count on together unless a list's own start
overrides it, once, where that list is first used; a level whose higher levels have not been used
takes their start values.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from specgen.review.docx_package import W
from specgen.review.docx_styles import Style, Styles, is_on, look_of, whole
from specgen.review.number_formats import formatted

_VAL = f"{{{W}}}val"
LEVELS = 9
_PLACE = re.compile(r"%([1-9])")
_MARKUP = "http://schemas.openxmlformats.org/markup-compatibility/2006"


@dataclass(frozen=True, slots=True)
class Level:
    """One level of a list: where it starts, how its number is formed and what stands around it.

    ``restart`` is the level (from 1) whose use starts this one again: 0 never, None any above it.
    """

    start: int = 1
    format: str = "decimal"
    pattern: str = ""
    style: str = ""
    decimal: bool = False
    restart: int | None = None
    indent: int | None = None


@dataclass(slots=True)
class _List:
    """A list as paragraphs name it: the key of what it counts in, its levels, its own starts."""

    counts: str
    levels: dict[int, Level]
    starts: dict[int, int] = field(default_factory=dict)


@dataclass(slots=True)
class _Count:
    """How far each level of an abstract list has come; None for one that waits to start."""

    values: list[int | None] = field(default_factory=lambda: [None] * LEVELS)
    overridden: set[tuple[str, int]] = field(default_factory=set)


@dataclass(frozen=True, slots=True)
class Numbered:
    """The number of a paragraph: as shown, the list it counts in, its level from 0 and the indent
    that the level gives."""

    shown: str
    list: str
    depth: int
    indent: int | None


class Numbering:
    """Gives the paragraphs of a document their numbers, in reading order."""

    def __init__(self, root: Any, styles: Styles) -> None:
        self._styles = styles
        self._abstract: dict[str, Any] = {}
        self._nums: dict[str, Any] = {}
        self._lists: dict[str, _List | None] = {}
        self._counts: dict[str, _Count] = {}
        for element in () if root is None else root:
            if element.tag == f"{{{W}}}abstractNum":
                self._abstract.setdefault(element.get(f"{{{W}}}abstractNumId", ""), element)
            elif element.tag == f"{{{W}}}num":
                self._nums.setdefault(element.get(f"{{{W}}}numId", ""), element)

    def number(self, style: Style, list_id: str | None, depth: int | None) -> Numbered | None:
        """The next number of a paragraph in ``style`` whose own ``numPr`` names a list and a level;
        None where it has none: no list, list 0, or a list that the document does not define."""
        direct = list_id is not None
        name = list_id if list_id is not None else style.look.list_id
        if not name or name == "0":
            return None
        found = self._list(name)
        if found is None:
            return None
        level = depth
        if level is None and not direct:
            level = _linked(found, style)
        if level is None:
            level = style.look.depth or 0
        level = min(max(level, 0), LEVELS - 1)
        return self._count(name, found, level)

    def _count(self, name: str, found: _List, depth: int) -> Numbered:
        count = self._counts.setdefault(found.counts, _Count())
        values = count.values
        for above in range(depth):
            if values[above] is None:
                values[above] = _start(found, above)
        once = (name, depth)
        if depth in found.starts and once not in count.overridden:
            count.overridden.add(once)
            values[depth] = found.starts[depth]
        else:
            before = values[depth]
            values[depth] = _start(found, depth) if before is None else before + 1
        for below in range(depth + 1, LEVELS):
            restart = found.levels.get(below, Level()).restart
            if restart is None or (restart > 0 and depth < restart):
                values[below] = None
        level = found.levels.get(depth, Level())
        shown = self._shown(found, level, values)
        return Numbered(shown, found.counts, depth, level.indent)

    def _shown(self, found: _List, level: Level, values: list[int | None]) -> str:
        if level.format == "bullet":
            return bullet(level.pattern)

        def one(match: re.Match[str]) -> str:
            depth = int(match[1]) - 1
            value = values[depth]
            other = found.levels.get(depth, Level())
            form = "decimal" if level.decimal and other.format != "decimalZero" else other.format
            return "" if value is None else formatted(value, form)

        return _PLACE.sub(one, level.pattern).strip()

    def _list(self, name: str) -> _List | None:
        if name not in self._lists:
            self._lists[name] = self._read(name)
        return self._lists[name]

    def _read(self, name: str) -> _List | None:
        num = self._nums.get(name)
        if num is None:
            return None
        counts, levels = self._levels_of(num)
        starts: dict[int, int] = {}
        for override in num.iterchildren(f"{{{W}}}lvlOverride"):
            depth = whole(override.get(f"{{{W}}}ilvl"))
            if depth is None or not 0 <= depth < LEVELS:
                continue
            own = override.find(f"{{{W}}}lvl")
            if own is not None:
                levels[depth] = _level(own)
            start = override.find(f"{{{W}}}startOverride")
            value = None if start is None else whole(start.get(_VAL))
            if value is not None:
                starts[depth] = value
                levels[depth] = replace(levels.get(depth, Level()), start=value)
        return _List(counts, levels, starts)

    def _levels_of(self, num: Any) -> tuple[str, dict[int, Level]]:
        """The levels of the abstract list that a list names, through numbering styles."""
        name = _child(num, "abstractNumId")
        abstract: Any = None
        for _ in range(8):
            abstract = self._abstract.get(name)
            if abstract is None:
                return name, {}
            link = _child(abstract, "numStyleLink")
            target = self._nums.get(self._styles.list_of(link)) if link else None
            if target is None or _child(target, "abstractNumId") == name:
                break
            name = _child(target, "abstractNumId")
        levels: dict[int, Level] = {}
        for element in abstract.iterchildren(f"{{{W}}}lvl"):
            depth = whole(element.get(f"{{{W}}}ilvl"))
            if depth is not None and 0 <= depth < LEVELS:
                levels.setdefault(depth, _level(element))
        return name, levels


def _start(found: _List, depth: int) -> int:
    return found.levels.get(depth, Level()).start


def _linked(found: _List, style: Style) -> int | None:
    """The level that names the style, or the nearest style that it is based on."""
    by_style = {level.style: depth for depth, level in found.levels.items() if level.style}
    return next((by_style[name] for name in style.chain if name in by_style), None)


def _child(element: Any, name: str) -> str:
    found = element.find(f"{{{W}}}{name}")
    return "" if found is None else str(found.get(_VAL, ""))


def _level(element: Any) -> Level:
    found: dict[str, Any] = {}
    for child in _plain_children(element):
        name = child.tag.rpartition("}")[2]
        value = child.get(_VAL, "")
        if name == "start":
            found["start"] = whole(value) or 0
        elif name == "numFmt":
            custom = child.get(f"{{{W}}}format", "") if value == "custom" else ""
            found["format"] = f"custom:{custom}" if custom else value
        elif name == "lvlText":
            found["pattern"] = value[:64]
        elif name == "pStyle":
            found["style"] = value
        elif name == "isLgl":
            found["decimal"] = is_on(child)
        elif name == "lvlRestart":
            found["restart"] = whole(value)
        elif name == "pPr":
            found["indent"] = look_of(child, None).indent
    return Level(**found)


def _plain_children(element: Any) -> Iterator[Any]:
    """The children, with the first choice of an alternative in its place."""
    for child in element:
        if child.tag == f"{{{_MARKUP}}}AlternateContent":
            choice = child.find(f"{{{_MARKUP}}}Choice")
            yield from () if choice is None else choice
        else:
            yield child


def bullet(pattern: str) -> str:
    """A bullet as a reader sees it; symbol fonts keep theirs among private characters."""
    mark = pattern.strip()[:1]
    return "•" if not mark or mark == "o" or "\ue000" <= mark <= "\uf8ff" else mark
