"""What heads a section: its number and title, its parts, its articles, its end."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from specgen.review.cleaning import clean
from specgen.review.labels import Label
from specgen.review.lines import Line

LONGEST_TITLE = 120
_NUMBER = (
    r"(?P<number>\d{2}[ .-]?\d{2}[ .-]?\d{2}(?:\.?\d{2}(?: \d{2}|\.?[A-Z]{2,4}\d{0,2})?)?"
    r"|\d{5}[A-Z]?)(?!\d)"
)
_SECTION = re.compile(
    r"(?:SECTION|SECT\.|DOCUMENT)\s{0,4}(?:NO\.?|NUMBER|#)?\s{0,4}[:\u2013\u2014-]?\s{0,4}"
    + _NUMBER
    + r"\s{0,4}[:.\u2013\u2014-]?\s{0,4}(?P<title>.{0,200})",
    re.IGNORECASE,
)
_BARE = re.compile(_NUMBER + r"\s{0,4}[:\u2013\u2014-]?\s{0,4}(?P<title>.{0,200})")
_IN_HEAD = re.compile(r"(?<![\d.-])" + _NUMBER + r"(?![\d.-])")
_RUN_IN = re.compile(
    r"(?P<title>[A-Z][A-Z0-9 ,/&'()-]{3,60}[A-Z)])[ ]{0,2}(?:[:.\u2013\u2014]|-(?= ))\s{1,8}"
    r"(?P<rest>[A-Z(\"].{0,4000})",
    re.DOTALL,
)
_LEADERS = re.compile(r"(?:\.{3,}|(?:\. ){3,}|\u2026{2,}|_{4,}) ?\d{1,4}$")
_END = re.compile(r"[\W_]{0,20}END\s{1,3}OF\s{1,3}(?:SECTION|DOCUMENT|SPECIFICATION)\b", re.I)
_PART_TITLES = {
    "general": 1, "general requirements": 1, "products": 2, "product": 2, "materials": 2,
    "products and materials": 2, "execution": 3, "installation": 3,
}  # fmt: skip
_SENTENCE = re.compile(
    r"\b(?:shall|must|will|should|is|are|be|provide|install|comply|submit|not less than)\b", re.I
)


@dataclass(frozen=True, slots=True)
class Habits:
    """How one document marks its articles.

    ``numbered`` whether they carry numbers such as 1.1; ``styles`` the styles of those that do;
    ``outline`` the heading level of articles without numbers (-1: no heading styles), ``mark``
    what else marks them: ``capitals``, ``bold`` or nothing; ``labeled`` whether such a heading
    carries a paragraph's label; ``parts`` whether any part is headed.
    """

    numbered: bool
    styles: frozenset[str]
    outline: int
    mark: str
    labeled: bool
    parts: bool


def habits_of(lines: Iterable[tuple[Line, Label | None, str]]) -> Habits:
    """The habits of a document whose lines come with their labels and the text after those."""
    numbered: list[str] = []
    outlines: Counter[int] = Counter()
    marks: Counter[tuple[str, bool]] = Counter()
    parts = False
    for line, label, rest in lines:
        if line.kind != "body":
            continue
        if part_of(line, label, rest, 0):
            parts = True
            continue
        if not is_title(rest):
            continue
        if label is not None and label.form == "path":
            if len(label.path) == 2 and label.path[0] in ("1", "2", "3", "4"):
                numbered.append(line.style)
        elif parts:
            if line.outline >= 0:
                outlines[line.outline] += 1
            if _is_capitals(line, rest):
                marks["capitals", label is not None] += 1
            elif line.bold:
                marks["bold", label is not None] += 1
    styles = frozenset(
        style for style, count in Counter(numbered).items()
        if style and count >= 2 and style not in ("normal", "list paragraph", "body text")
    )  # fmt: skip
    if len(numbered) >= 2:
        return Habits(True, styles, -1, "", False, parts)
    outline = min(outlines) if outlines else -1
    for mark in ("capitals", "bold"):
        for labeled in (False, True):
            if marks[mark, labeled] >= 2:
                return Habits(False, styles, outline, mark, labeled, parts)
    return Habits(False, styles, outline, "", False, parts)


def section_of(text: str, *, named: bool = True) -> tuple[str, str] | None:
    """The number and title of a line that heads the section; None for any other line.

    ``named`` asks for the word section before the number.
    """
    found = _SECTION.fullmatch(text) or (None if named else _BARE.fullmatch(text))
    if found is None:
        return None
    title = found["title"].strip()
    if title and (not title[0].isalpha() or _SENTENCE.search(title)):
        return None
    return section_number(found["number"]), title


def number_in_head(text: str) -> str:
    """The section number in a running head; empty for none."""
    found = _IN_HEAD.search(text)
    # A bare run of five digits in a head is as likely a project's number.
    return section_number(found["number"]) if found and len(found["number"]) > 5 else ""


def section_number(number: str) -> str:
    """A section number as MasterFormat writes it: 07 41 13.16; five digits stay together."""
    digits = re.sub(r"[ .-]", "", number[:10])
    if len(re.sub(r"\D", "", number)) <= 5:
        return number
    after = re.sub(r"^\d{2}[ .-]?\d{2}[ .-]?\d{2}\.?", "", number)
    base = f"{digits[:2]} {digits[2:4]} {digits[4:6]}"
    return f"{base}.{after}" if after else base


def run_in(text: str) -> tuple[str, str] | None:
    """A heading in capitals and the text that goes on behind it on one line; None for no such."""
    found = _RUN_IN.fullmatch(text)
    if found is None or found["rest"].isupper() or len(found["rest"]) < 20:
        return None
    return found["title"], found["rest"]


def is_entry(text: str) -> bool:
    """Whether a line is a typed entry of a table of contents: leaders and a page."""
    return len(text) <= 200 and _LEADERS.search(text[-60:]) is not None


def is_end(text: str) -> bool:
    """Whether a line ends the section."""
    return len(text) <= 100 and _END.match(text) is not None


def part_of(line: Line, label: Label | None, rest: str, before: int) -> int:
    """The part that a line heads, after part ``before``; 0 for a line that heads none.

    A part is headed by its number, or by its usual title alone in a heading's look.
    """
    if label is not None and label.form == "part":
        return label.value
    number = _PART_TITLES.get(rest.rstrip(":. ").lower(), 0) if len(rest) <= 30 else 0
    if number <= before:
        return 0
    if label is None:
        looks = line.outline >= 0 or line.bold or _is_capitals(line, rest)
        return number if looks else 0
    own = label.value if label.form in ("1.", "I.", "1)", "other") else 0
    if label.form == "I.":
        own = label.roman or label.value
    if label.form == "path" and len(label.path) == 2 and not label.path[1].strip("0"):
        own = int(label.path[0])
    return number if own == number else 0


def is_article(line: Line, label: Label | None, rest: str, habits: Habits, part: int) -> bool:
    """Whether a line heads an article."""
    if line.kind != "body" or not rest:
        return False
    if label is not None and label.form == "path":
        return len(label.path) == 2 and label.path[0] in ("1", "2", "3", "4") and (
            is_title(rest) or line.style in habits.styles
        )  # fmt: skip
    if label is not None and label.form == "•":
        return False
    if habits.numbered:
        return label is None and line.style in habits.styles and is_title(rest)
    if not is_title(rest) or (habits.parts and not part):
        return False
    if habits.outline >= 0:
        return line.outline == habits.outline
    if (label is not None) != habits.labeled:
        return False
    if habits.mark == "capitals":
        return _is_capitals(line, rest)
    return habits.mark == "bold" and line.bold


def is_title(text: str) -> bool:
    """Whether a text could be a heading: short, and no sentence."""
    if not text or len(text) > LONGEST_TITLE or not any(map(str.isalpha, text)):
        return False
    if text.isupper():
        return True
    words = len(text.split())
    if words > 12 or (text.endswith((".", ";")) and words > 4):
        return False
    return text[0].isupper() and not (words > 3 and _SENTENCE.search(text))


def is_heading_matter(text: str) -> bool:
    """Whether a line before the first part could name a project, a place, an issue or a date."""
    return len(text) <= 160 and not text.endswith((".", ":")) and not _SENTENCE.search(text)


def _is_capitals(line: Line, text: str) -> bool:
    letters = sum(map(str.isalpha, text))
    return letters >= 4 and (line.capitals or text.isupper())


def title_text(text: str) -> str:
    """A title without the stop or colon that a writer may have put after it."""
    return clean(text).rstrip(" :.;-\u2013\u2014")
