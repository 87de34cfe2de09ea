"""The numbers that stand before paragraphs: found in typed text, and taken apart.

Every pattern here is anchored and bounded, so that none can run long on a hostile line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

# How deep a kind of label usually stands; it decides where nothing else does.
USUAL_DEPTH = {
    "A.": 1, "A)": 1, "(A)": 1, "I.": 1, ".1": 1, "1.": 2, "a.": 3, "1)": 4, "a)": 5, "(1)": 6,
    "(a)": 6, "i.": 6, "i)": 6, "(i)": 6, "•": 6,
}  # fmt: skip
_ROMAN = {"i": 1, "v": 5, "x": 10, "l": 50, "c": 100}
_PART_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4}
_PART = re.compile(
    r"PART[\s-]{0,6}(?P<part>[1-4]|I{1,3}|IV|ONE|TWO|THREE|FOUR)(?![\w.])[\s:.\u2010-\u2015-]{0,12}",
    re.IGNORECASE,
)
_PATH = re.compile(
    r"(?:ARTICLE\s{1,4})?(?P<path>\d{1,2}\.\d{1,3}(?:\.?(?:\d{1,2}|[A-Z]{1,2}|[a-z]{1,2})\b){0,5})"
    r"[.:)]?(?=[\s\u2010-\u2015-]|$)[ \t]{0,40}(?:[\u2010-\u2015-][ \t]{1,20})?",
)
_LABEL = re.compile(
    r"(?P<label>"
    r"\((?:\d{1,3}|[A-Z]|([A-Z])\2|[a-z]|([a-z])\3|[ivx]{1,5})\)"
    r"|(?:\d{1,3}|[A-Z]|([A-Z])\4|[a-z]|([a-z])\5|[ivx]{1,5}|[IVX]{1,5})[.)]"
    r"|\.\d{1,2}"
    r")(?=\s|$)[ \t]{0,40}"
)
_BARE = re.compile(r"(?P<label>\d{1,3}|[A-Z]|[a-z])\t\s{0,40}")
_BULLET = re.compile(
    r"(?P<label>[\u2022\u25aa\u25cf\u25cb\u25e6\u2023\u00b7\u2013\u2014*o-])[ \t]{1,40}"
)
# A figure with its unit opens a sentence; it numbers nothing.
_UNIT = re.compile(
    r"(?:in|inch|inches|ft|feet|foot|mm|cm|m|lb|lbs|oz|psf|psi|kpa|pa|mil|mils|percent|%|deg|degrees"
    r"|hours?|years?|days?|gauge|ga|times|to|x|by|or|and|per)(?![\w-])|[\"'%/]",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Label:
    """A number before a text: ``shown`` as a reader sees it.

    ``form`` is ``part``, ``path`` (``1.1``, ``2.3.A``: its pieces in ``path``), one of the keys of
    USUAL_DEPTH, or ``other``; ``value`` counts from 1. ``roman`` is the value it would have as a
    Roman numeral, 0 where it cannot be one.
    """

    shown: str
    form: str
    value: int = 0
    path: tuple[str, ...] = ()
    roman: int = 0

    @property
    def cited(self) -> str:
        """The label as a piece of a cited number: ``A.`` gives ``A``, a bullet nothing."""
        return "" if self.form == "•" else self.shown.strip("().: \t")


def split_label(text: str) -> tuple[Label | None, str]:
    """The number typed before a text, and the text after it."""
    found = _PART.match(text)
    if found and _is_part_line(text, found.end()):
        return _part(found["part"]), text[found.end() :].strip()
    found = _PATH.match(text)
    if found and not _UNIT.match(text, found.end()):
        return _path(found["path"]), text[found.end() :].strip()
    found = _LABEL.match(text) or _BARE.match(text)
    if found:
        return _simple(found["label"]), text[found.end() :].strip()
    found = _BULLET.match(text)
    if found and (found["label"] != "o" or "\t" in found[0]):
        return Label(found["label"], "•"), text[found.end() :].strip()
    return None, text


def label_of(number: str) -> Label:
    """The label that a word processor set before a paragraph."""
    number = number.strip()
    found = _PART.fullmatch(number)
    if found:
        return _part(found["part"])
    found = _PATH.match(number)
    if found and found.end() == len(number):
        return _path(found["path"])
    found = _LABEL.fullmatch(number)
    if found:
        return _simple(found["label"])
    if number.isalnum() and len(number) <= 3:
        label = _simple(number + ".")
        return Label(number, label.form, label.value, roman=label.roman)
    if not any(character.isalnum() for character in number):
        return Label(number, "•")
    return Label(number, "other")


def _is_part_line(text: str, after: int) -> bool:
    """Whether what follows ``Part 2`` is a heading and not the rest of a sentence."""
    rest = text[after:].strip()
    if len(rest) > 80:
        return False
    if text[:4].isupper():
        return True
    return not rest or (rest[0].isupper() and len(rest.split()) <= 6 and not rest.endswith("."))


def _part(word: str) -> Label:
    lower = word.lower()
    value = int(word) if word.isdigit() else _PART_WORDS.get(lower) or roman_value(lower)
    return Label(f"PART {word.upper()}", "part", value)


def _path(path: str) -> Label:
    pieces = tuple(re.findall(r"\d+|[A-Za-z]+", path))
    return Label(path, "path", int(pieces[1]), pieces)


def _simple(label: str) -> Label:
    core = label.strip("().")
    if label.startswith("."):
        return Label(label, ".1", int(core))
    before, after = ("(", ")") if label.startswith("(") else ("", label[-1])
    if core.isdigit():
        return Label(label, f"{before}1{after}", int(core))
    case = "A" if core.isupper() else "a"
    roman = roman_value(core.lower())
    if len(core) > 1 and len(set(core)) > 1:
        if roman:
            case = "I" if core.isupper() else "i"
            return Label(label, f"{before}{case}{after}", roman, roman=roman)
        return Label(label, "other")
    value = ord(core[0].lower()) - ord("a") + 1 + 26 * (len(core) - 1)
    return Label(label, f"{before}{case}{after}", value, roman=roman)


def roman_value(word: str) -> int:
    """The value of a Roman numeral in lower case, 0 for what is none."""
    if not word or any(letter not in _ROMAN for letter in word):
        return 0
    values = [_ROMAN[letter] for letter in word]
    return sum(
        -value if value < following else value
        for value, following in zip(values, [*values[1:], 0], strict=True)
    )
