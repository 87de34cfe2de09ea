"""The styles of a DOCX, each with what it takes over from the styles it is based on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from specgen.review.docx_package import W

_VAL = f"{{{W}}}val"
_OFF = frozenset(("0", "false", "off", "none"))
DEEPEST_CHAIN = 20


@dataclass(frozen=True, slots=True)
class Look:
    """What a style or a paragraph's own properties say; None where they say nothing.

    ``list_id`` and ``depth`` are those of its ``numPr``; ``outline`` a heading level from 0 (9:
    text); ``indent`` the left indent in twips.
    """

    bold: bool | None = None
    capitals: bool | None = None
    hidden: bool | None = None
    outline: int | None = None
    indent: int | None = None
    list_id: str | None = None
    depth: int | None = None

    def over(self, below: Look) -> Look:
        """This look, and where it says nothing the one below it."""
        if below is PLAIN:
            return self
        if self is PLAIN:
            return below
        return Look(
            below.bold if self.bold is None else self.bold,
            below.capitals if self.capitals is None else self.capitals,
            below.hidden if self.hidden is None else self.hidden,
            below.outline if self.outline is None else self.outline,
            below.indent if self.indent is None else self.indent,
            below.list_id if self.list_id is None else self.list_id,
            below.depth if self.depth is None else self.depth,
        )


PLAIN = Look()


@dataclass(frozen=True, slots=True)
class Style:
    """A style resolved: its id, its name in lower case, its look, and its id with those of the
    styles it is based on, nearest first."""

    id: str
    name: str
    look: Look
    chain: tuple[str, ...]


NO_STYLE = Style("", "", PLAIN, ())


class Styles:
    """The styles of a document by id; those asked for are resolved once."""

    def __init__(self, root: Any) -> None:
        self._elements: dict[str, Any] = {}
        self._resolved: dict[str, Style] = {}
        self.default_paragraph = ""
        self.defaults = PLAIN
        if root is None:
            return
        for element in root.iterchildren(f"{{{W}}}style"):
            name = element.get(f"{{{W}}}styleId", "")
            self._elements.setdefault(name, element)
            if (
                element.get(f"{{{W}}}type") == "paragraph"
                and element.get(f"{{{W}}}default", "0") not in _OFF
            ):
                self.default_paragraph = name
        run = root.find(f"{{{W}}}docDefaults/{{{W}}}rPrDefault/{{{W}}}rPr")
        paragraph = root.find(f"{{{W}}}docDefaults/{{{W}}}pPrDefault/{{{W}}}pPr")
        self.defaults = look_of(paragraph, run)

    def style(self, name: str) -> Style:
        """The style of that id; the default paragraph style for an unknown or an empty one."""
        if name not in self._elements:
            name = self.default_paragraph
        found = self._resolved.get(name)
        if found is None:
            found = self._resolved[name] = self._resolve(name)
        return found

    def list_of(self, name: str) -> str:
        """The id of the list that a numbering style names; empty for none."""
        element = self._elements.get(name)
        if element is None:
            return ""
        return look_of(element.find(f"{{{W}}}pPr"), None).list_id or ""

    def _resolve(self, name: str) -> Style:
        element = self._elements.get(name)
        if element is None:
            return NO_STYLE
        shown = element.find(f"{{{W}}}name")
        chain: list[str] = []
        look, current = PLAIN, name
        while element is not None and current not in chain and len(chain) < DEEPEST_CHAIN:
            chain.append(current)
            own = look_of(element.find(f"{{{W}}}pPr"), element.find(f"{{{W}}}rPr"))
            look = look.over(own)
            based = element.find(f"{{{W}}}basedOn")
            current = "" if based is None else based.get(_VAL, "")
            element = self._elements.get(current)
        look = look.over(self.defaults)
        title = name if shown is None else shown.get(_VAL, name)
        return Style(name, title.lower(), look, tuple(chain))


def look_of(paragraph: Any, run: Any) -> Look:
    """The look that a ``w:pPr`` and a ``w:rPr`` (either may be None) give."""
    found: dict[str, Any] = {}
    for element in () if paragraph is None else paragraph:
        reader = _PARAGRAPH.get(element.tag)
        if reader is not None:
            reader(found, element)
    for element in () if run is None else run:
        name = _RUN.get(element.tag)
        if name is not None:
            found[name] = is_on(element)
    return Look(**found) if found else PLAIN


def is_on(element: Any) -> bool:
    """Whether a toggle such as ``w:b`` is on."""
    return element.get(_VAL, "1") not in _OFF


def whole(text: str | None) -> int | None:
    """A whole number as a file writes one, held to a sane range; None for anything else."""
    try:
        value = int(float(text or ""))
    except (ValueError, OverflowError):
        return None
    return value if -1_000_000 < value < 1_000_000 else None


def _list(found: dict[str, Any], element: Any) -> None:
    for child in element:
        if child.tag == f"{{{W}}}numId":
            found["list_id"] = child.get(_VAL, "")
        elif child.tag == f"{{{W}}}ilvl":
            found["depth"] = whole(child.get(_VAL))


def _outline(found: dict[str, Any], element: Any) -> None:
    found["outline"] = whole(element.get(_VAL))


def _indent(found: dict[str, Any], element: Any) -> None:
    left = element.get(f"{{{W}}}left", element.get(f"{{{W}}}start"))
    if left is not None:
        found["indent"] = whole(left)


_PARAGRAPH = {
    f"{{{W}}}numPr": _list, f"{{{W}}}outlineLvl": _outline, f"{{{W}}}ind": _indent,
}  # fmt: skip
_RUN = {f"{{{W}}}b": "bold", f"{{{W}}}caps": "capitals", f"{{{W}}}vanish": "hidden"}
