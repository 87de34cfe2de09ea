"""The language of recognizers: what words of a section state an answer.

A pattern is a regular expression without what could run away. A blank stands for blanks or a
hyphen, ``~`` for up to sixty characters of the same sentence, ``{length}`` and its like for a
figure with its unit as the trade writes it; ``{length:spacing}`` names the figure, else it is
called ``figure``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

LONGEST_PATTERN = 300
MOST_REPEATS = 80
MOST_GAPS = 3
SHORTEST_CUE = 2
# Words that stand in nearly every sentence sift nothing; they serve where a pattern has no other.
COMMON = frozenset(
    ("the", "of", "or", "by", "in", "on", "at", "to", "and", "for", "with", "is", "be")
)

_NUMBER = r"(?:\d{1,5}[ -]\d{1,2}/\d{1,3}|\d{1,3}/\d{1,3}|\d{1,3},\d{3}|\d{0,6}\.\d{1,4}|\d{1,6})"
_ONES = "one|two|three|four|five|six|seven|eight|nine"
_WORD = (
    rf"(?:(?:twenty|thirty|forty|fifty)(?:[ -](?:{_ONES}))?|ten|eleven|twelve|thirteen|fourteen"
    rf"|fifteen|sixteen|seventeen|eighteen|nineteen|{_ONES})"
)
_COUNT = rf"(?:{_WORD} ?\(\d{{1,3}}\)|{_WORD}|\d{{1,3}})"
# An amount before a unit; words are tried only where a text has one there, for they cost a look at
# every word of it.
_AMOUNT = "@@"
_AMOUNTS = {False: _NUMBER, True: rf"(?:{_NUMBER}|{_WORD})"}
_INCHES = r"""(?:inch(?:es)?|in\b\.?|["″”])"""
_FEET = r"""(?:f(?:ee|oo)t|ft\b\.?|['′’])"""
_MM = r"(?:mm|millimet(?:er|re)s?|cm|m\b|met(?:er|re)s?)"
_SQUARE_FOOT = r"(?:sq(?:uare|\.)? ?f(?:oo|ee)?t\.?|ft ?(?:2|²)|sf)"
_PER = r" ?(?:/|per|a) ?"

# What each name in braces stands for, and a word that it always holds (empty for none).
FIGURES: dict[str, tuple[str, tuple[str, ...]]] = {
    "number": (_NUMBER, ()),
    "count": (_COUNT, ()),
    "years": (rf"{_COUNT}(?=[ -]{{0,2}}(?:full )?ye?a?rs?\b)", ("year", "yr")),
    "hours": (rf"{_COUNT}(?=[ -]{{0,2}}(?:hours?|hrs?|h)\b)", ("hour", "hr", " h")),
    "minutes": (rf"{_COUNT}(?=[ -]{{0,2}}min)", ("min",)),
    "length": (
        rf"(?:{_NUMBER} ?{_FEET}[ -]{{0,3}}{_NUMBER} ?{_INCHES}"
        rf"|{_AMOUNT}[ -]?(?:{_INCHES}|{_FEET}|{_MM}|miles?|mi\b|km\b|kilomet(?:er|re)s?))",
        (),
    ),
    "thickness": (
        rf"(?:{_NUMBER}[ -]?(?:ga(?:uge|ge)?\b\.?|{_INCHES}|mils?|mm|millimet(?:er|re)s?|microns?"
        rf"|(?:oz\.?|ounces?)(?:{_PER}{_SQUARE_FOOT})?))",
        (),
    ),
    "sheet": (
        rf"(?:(?=\d{{2}}|[a-z]){_AMOUNT}[ -]?ga(?:uge|ge)?\b\.?|0?\.\d{{2,4}}[ -]?{_INCHES}"
        rf"|[012]\.\d{{1,2}}[ -]?mm|0?\.0\d{{2}}(?![\d.])"
        rf"|(?=\d{{2}}|[a-z]){_AMOUNT}[ -]?(?:oz\.?|ounces?)(?:{_PER}{_SQUARE_FOOT})?)",
        (),
    ),
    "zone": (
        r"(?:(?:roof )?zones? ?\d\w?'?|field(?: of (?:the )?roof)?|interior|perimeters?|edges?"
        r"|corners?|eaves?|ridges?|rakes?)(?: zones?)?",
        ("zone", "field", "interior", "perimeter", "edge", "corner", "eave", "ridge", "rake"),
    ),
    "pressure": (
        rf"(?:[-+]?{_NUMBER}[ -]?(?:psf|psi|kpa|pa\b|kn/m(?:2|²)|(?:lbf?s?\.?|pounds?){_PER}"
        rf"(?:{_SQUARE_FOOT}|sq(?:uare|\.)? ?in(?:ch)?)))",
        ("psf", "psi", "pa", "lb", "pound", "kn/m"),
    ),
    "slope": (
        rf"(?:{_AMOUNT} ?(?:{_INCHES} ?)?(?::|in|on|/|to|vertical in) ?(?:12|twelve)\b"
        rf"(?: ?{_INCHES})?"
        rf"|{_AMOUNT}[ -]?{_INCHES}(?:{_PER}(?:1[ -])?| to the )f(?:oo)?t\.?"
        rf"|1 ?(?::|in) ?\d{{2,3}}\b"
        rf"|{_NUMBER} ?(?:%|percent|per cent|deg(?:rees?)?\b|°))",
        (),
    ),
    # A slope that is told as one by its form alone.
    "pitch": (
        rf"(?:{_AMOUNT} ?(?::|/| in | on ) ?(?:12|twelve)\b"
        rf"|{_AMOUNT}[ -]?{_INCHES}(?:{_PER}(?:1[ -])?| to the )f(?:oo)?t\.?)",
        ("12", "twelve", "foot", "ft"),
    ),
    "speed": (
        rf"(?:{_NUMBER} ?(?:mph|miles per hour|m/s|km/h|kph))",
        ("mph", "miles per hour", "m/s", "km/h", "kph"),
    ),
    "temperature": (
        rf"(?:(?:minus |plus |[-−+])?{_NUMBER} ?(?:°|º|deg(?:rees?)?\.?)? ?"
        r"(?:[fc]\b|fahrenheit|celsius))",
        (),
    ),
    "leakage": (
        rf"(?:{_NUMBER} ?(?:cfm|cubic feet per minute|(?:cu\. ?ft\.?|ft3)/min){_PER}{_SQUARE_FOOT}"
        rf"|{_NUMBER} ?l/ ?\(?s ?(?:per|/|·|\.|x|-| )? ?"
        r"(?:sq(?:uare|\.)? ?m(?:et(?:er|re))?|m2|m²)\)?)",
        ("cfm", "cubic", "min", "l/"),
    ),
    "force": (rf"(?:{_NUMBER} ?(?:lbf?s?\b\.?|pounds?|kn\b|n\b))", ()),
    "date": (
        r"(?:(?:january|february|march|april|may|june|july|august|september|october|november"
        r"|december) \d{1,2}, \d{4}|\d{4}-\d{2}-\d{2})",
        (),
    ),
    "words": (r"[^.;:,()]{2,60}", ()),
    "line": (r"[^;:()]{2,80}", ()),
}
_GIVEN_TWICE = ("length", "thickness", "sheet", "pressure", "speed", "temperature", "leakage")
# The same figure in other units, in parentheses after it.
_AGAIN = r"(?: ?\([-+]?\d[^()]{1,24}\))?"
_WORDED = ("zone", "words", "line")
_AMOUNT_HELD = re.compile(rf"\d|\b{_WORD}\b", re.IGNORECASE)
_SPELLED = re.compile(
    rf"\b{_WORD}[ -]{{1,2}}(?:in|f(?:oo|ee)?t|mm|m|met(?:er|re)s?|inch(?:es)?|ga\w{{0,4}}|oz"
    r"|ounces?|miles?)\b",
    re.IGNORECASE,
)
_NAMED = re.compile(r"\{([a-z]+)(?::([a-z]+))?\}")
_GAP = ".{0,60}?"
_BLANK = r"(?:[\s\-]{1,3})"
# What stands for more than itself, and what is passed over to find it: escapes and classes.
_WIDE = re.compile(r"\\.|\(\?:|\[\^?\]?(?:\\.|[^\]\\])*\]|: |[~ ]")
_MEANS = {"~": _GAP, " ": _BLANK, ": ": r"\s?[:|]\s?"}


class PatternError(ValueError):
    """What is wrong with a pattern, in a sentence without its subject."""


class Pattern(NamedTuple):
    """Words that state ``answer``; one of ``cues`` stands in each text that the pattern finds.

    A tuple, since a library that is kept holds many and is read at each start.
    """

    answer: str
    source: str
    cues: tuple[str, ...]


def read_pattern(answer: str, source: str) -> Pattern:
    """A pattern judged: PatternError if it cannot be compiled, could run away, or holds no word
    that texts could be sifted by."""
    cues = judge(source)
    if not cues:
        raise PatternError("holds no word of two letters that texts could be sifted by")
    return Pattern(answer, source, tuple(sorted(cues)))


def judge(source: str) -> frozenset[str]:
    """The words of which each text that a pattern finds holds one; PatternError as above."""
    if len(source) > LONGEST_PATTERN:
        raise PatternError(f"is longer than {LONGEST_PATTERN} characters")
    for name, _ in _NAMED.findall(source):
        if name not in FIGURES:
            raise PatternError(f"has no figure {name}; the figures are {', '.join(FIGURES)}")
    if source.count("~") > MOST_GAPS:
        raise PatternError(f"has more than {MOST_GAPS} gaps; split it")
    try:
        re.compile(expanded(source))
    except (re.error, OverflowError, RecursionError) as error:
        raise PatternError(f"does not compile: {error}") from None
    return _Walker(source).cues()


def figures_in(source: str) -> tuple[str, ...]:
    """The names of the figures that a pattern captures."""
    return tuple(name or "figure" for _, name in _NAMED.findall(source))


def needs_amount(source: str) -> bool:
    """Whether a pattern finds nothing in a text without an amount."""
    return any(name not in _WORDED for name, _ in _NAMED.findall(source))


def holds_amount(text: str) -> bool:
    """Whether a text has an amount, in figures or in words."""
    return _AMOUNT_HELD.search(text) is not None


def takes_words(source: str) -> bool:
    """Whether a pattern has a figure whose amount may be in words before its unit."""
    return any(_AMOUNT in FIGURES[name][0] for name, _ in _NAMED.findall(source))


def spells_out(text: str) -> bool:
    """Whether a text has an amount in words before a unit: ``two inches``, ``ten in twelve``."""
    return _SPELLED.search(text) is not None


def expanded(source: str, *, spelled: bool = True) -> str:
    """The regular expression that a pattern stands for, at the edges of words; ``spelled`` whether
    an amount before a unit may be in words."""

    def figure(match: re.Match[str]) -> str:
        twice = _AGAIN if match[1] in _GIVEN_TWICE else ""
        inner = FIGURES[match[1]][0].replace(_AMOUNT, _AMOUNTS[spelled])
        return f"(?P<{match[2] or 'figure'}>{inner}){twice}"

    parts = _NAMED.split(source)
    plain = [_spelled(part) for part in parts[::3]]
    named = [figure(match) for match in _NAMED.finditer(source)]
    joined = "".join(one + two for one, two in zip(plain, [*named, ""], strict=True))
    return rf"(?<!\w)(?:{joined})(?!\w)"


def compiled(source: str, *, spelled: bool = True) -> re.Pattern[str]:
    """A pattern ready to search; letters match in either case."""
    return re.compile(expanded(source, spelled=spelled), re.IGNORECASE)


def _spelled(part: str) -> str:
    return _WIDE.sub(lambda match: _MEANS.get(match[0], match[0]), part)


@dataclass
class _Walker:
    """Walks a pattern once: refuses what could run away, gathers the words that it must find."""

    source: str
    at: int = 0

    def cues(self) -> frozenset[str]:
        found, _ = self._branches(0)
        if self.at < len(self.source):
            raise PatternError("closes a group that it has not opened")
        return found

    def _branches(self, depth: int) -> tuple[frozenset[str], bool]:
        """The cues of alternatives up to the end of their group, and whether any repeats."""
        branches: list[frozenset[str]] = []
        repeats = False
        while True:
            cues, repeated = self._run(depth)
            branches.append(cues)
            repeats |= repeated
            if self.source[self.at : self.at + 1] != "|":
                break
            self.at += 1
        everything = frozenset().union(*branches)
        return (everything if all(branches) else frozenset()), repeats

    def _run(self, depth: int) -> tuple[frozenset[str], bool]:
        """The best cues of a run of pieces: the longest word, or a group's words."""
        best: frozenset[str] = frozenset()
        last: frozenset[str] = frozenset()
        word = ""
        repeats = False
        for piece, cues, inner in self._pieces(depth):
            low, high = self._quantifier(inner)
            repeats |= inner or (low, high) != (1, 1)
            if len(piece) == 1 and piece.isalnum() and (low, high) == (1, 1):
                word += piece.lower()
                continue
            best, last = _better(best, word), last | {word} & COMMON
            word = ""
            if low and cues:
                best = best or cues
        best, last = _better(best, word), last | {word} & COMMON
        return best or last, repeats

    def _pieces(self, depth: int) -> Iterator[tuple[str, frozenset[str], bool]]:
        source = self.source
        while self.at < len(source) and source[self.at] not in "|)":
            start = self.at
            character = source[start]
            if match := _NAMED.match(source, start):
                self.at = match.end()
                yield match[0], frozenset(FIGURES[match[1]][1]), True
            elif character == "(":
                yield from self._group(depth)
            elif character == "[":
                self.at = source.index("]", start + 2) + 1
                yield source[start : self.at], frozenset(), False
            elif character == "\\":
                self.at += 2
                if source[start + 1 : start + 2].isdigit():
                    raise PatternError("refers back to a group")
                yield source[start : self.at], frozenset(), False
            else:
                self.at += 1
                yield character, frozenset(), False

    def _group(self, depth: int) -> Iterator[tuple[str, frozenset[str], bool]]:
        start = self.at
        head = re.compile(r"\((?:\?(?:P<[a-z]+>|[:=!]))?").match(self.source, start)
        unknown = head is None or (head[0] == "(" and self.source[start + 1 : start + 2] == "?")
        if head is None or unknown or depth > 6:
            raise PatternError("has groups too deep, or of a kind that is not taken here")
        self.at = head.end()
        cues, repeats = self._branches(depth + 1)
        self.at += 1  # the closing parenthesis
        looks = head[0] not in ("(", "(?:") and "P<" not in head[0]
        yield "", frozenset() if looks else cues, repeats

    def _quantifier(self, repeats: bool) -> tuple[int, int]:
        """How often the piece before may stand; PatternError for what could run away."""
        source = self.source
        match = re.compile(r"[*+]|\?|\{(\d*)(,?)(\d*)\}").match(source, self.at)
        if match is None:
            return 1, 1
        self.at = match.end()
        if source[self.at : self.at + 1] == "?":
            self.at += 1
        if match[0] == "?":
            return 0, 1
        if match[0] in "*+" or (match[2] and not match[3]):
            raise PatternError("repeats without an end; write the most, such as {0,20}")
        low = int(match[1] or 0)
        high = int(match[3]) if match[2] else low
        if high > MOST_REPEATS:
            raise PatternError(f"repeats more than {MOST_REPEATS} times")
        if repeats:
            raise PatternError("repeats a group that repeats inside")
        return low, high


def _better(best: frozenset[str], word: str) -> frozenset[str]:
    """The cues that sift more: one long word before a shorter one, or before several."""
    if len(word) < SHORTEST_CUE or word in COMMON:
        return best
    if len(best) == 1 and len(next(iter(best))) >= len(word):
        return best
    return frozenset({word})
