"""Where the words of a block stand in a DOCX: the elements of its text, and runs cut at them."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from specgen.review.cleaning import bare
from specgen.review.docx_package import W
from specgen.review.docx_styles import NO_STYLE, Styles
from specgen.review.docx_text import TextReader

_TEXT, _RUN = f"{{{W}}}t", f"{{{W}}}r"
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"


@dataclass(frozen=True, slots=True)
class Spot:
    """One character of a paragraph: the element that holds it and its place in that."""

    element: Any
    offset: int


def spots_of(paragraphs: Sequence[Any], text: str) -> list[Spot | None]:
    """For each character of a block's text the spot that shows it; None for a space.

    An empty list where the paragraphs do not hold that text, as after a change. Texts are compared
    without their spaces, since a reader runs those together.
    """
    reader = TextReader(Styles(None))
    seen: list[tuple[str, Spot]] = []
    for paragraph in paragraphs:
        for piece, element in reader.read(paragraph, NO_STYLE).pieces:
            for offset, character in enumerate(piece):
                shown = bare(character)
                if shown:
                    seen.append((shown, Spot(element, offset)))
    wanted = [bare(character) for character in text]
    start = "".join(character for character, _ in seen).find("".join(wanted))
    if start < 0:
        return []
    spots: list[Spot | None] = []
    for character in wanted:
        spots.append(seen[start][1] if character else None)
        start += bool(character)
    return spots


def run_of(element: Any) -> Any:
    """The run that holds an element, or None."""
    while element is not None and element.tag != _RUN:
        element = element.getparent()
    return element


def cut_before(spot: Spot) -> Any:
    """The run that begins with the spot, after cutting the one that holds it in two; None where it
    stands in no run."""
    run = run_of(spot.element)
    if run is None:
        return None
    element = spot.element
    if element.tag == _TEXT and spot.offset:
        rest = copy.copy(element)
        rest.text, element.text = element.text[spot.offset :], element.text[: spot.offset]
        for half in (element, rest):
            half.set(_SPACE, "preserve")
        element.addnext(rest)
        element = rest
    before = element.getprevious()
    if element.getparent() is not run or before is None or before.tag == f"{{{W}}}rPr":
        return run
    following = [element, *element.itersiblings()]
    new = run.makeelement(_RUN, dict(run.attrib))
    properties = run.find(f"{{{W}}}rPr")
    if properties is not None:
        new.append(copy.deepcopy(properties))
    new.extend(following)
    run.addnext(new)
    return new


def after(spot: Spot) -> Spot:
    """The spot just behind one, in the same element."""
    return Spot(spot.element, spot.offset + 1)


def ends_element(spot: Spot) -> bool:
    """Whether a spot is the last of its element."""
    text = spot.element.text or ""
    return spot.element.tag != _TEXT or spot.offset + 1 >= len(text)
