"""Designations of standards in running text, however they are written, by the register's ids.

``ASTM A 653/A 653M``, ``ASTM A653`` and ``ASTM A653-20`` are one standard; ``ASTM E283 and E331``
names two. A designation that the register does not hold is found too, under an id of the same form.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from specgen.library import Library, Standard
from specgen.review.outline import Block

_ASTM = re.compile(
    r"(?P<body>(?:ANSI\s?/\s?)?(?:ASTM(?:\s+International)?"
    r"|American Society for Testing and Materials))"
    r"[\s:,–-]{0,3}"
    r"(?:(?:Designation|Specification|Standard|Test Method|Method|Practice"
    r"|Nos?\.?)s?[\s:]{1,2}){0,2}"
    r"(?=[A-G]\s?-?\d)"
)
_NUMBER = re.compile(
    r"(?P<letter>[A-G])\s?-?(?P<digits>\d{1,4})(?P<metric>M)?"
    r"(?:\s?/\s?(?:ASTM\s)?(?P=letter)?\s?-?(?P=digits)\s?M)?"
    r"(?:\s?[-–]\s?(?P<year>(?:19|20)?\d{2})[a-z]?(?:\s?\(\d{4}\))?(?:e\d|ε\d)?)?(?![\w/])"
)
_NEXT = re.compile(
    r"(?:\s?[,;/]\s?(?:(?:and|or)\s)?|\s(?:and|or|with|to|&)\s)"
    r"(?=[A-G]\s?-?\d{2,4})"
)
# Numbers of bodies whose designations are a name and a number.
_OTHER_BODY = re.compile(
    r"\b(?P<body>UL|FM|NFPA|AAMA|AISI|TAS|RAS|ASHRAE|AWS|EN|ISO|SSPC|SAE|AISC)"
    r"(?:\s?/\s?ANSI|\s?/\s?AISI|\s?/\s?IEC)?(?:\s(?:Standard|Approvals?|Global|Class))?[\s-]?"
    r"(?P<number>S?\d{1,5}(?:\.\d{1,2})?)(?:-\d{2,4})?(?![\w.]\d)\b"
)
# What a designation is also called. A number follows where its id has one.
_NAMES: Mapping[str, str] = {
    "SMACNA ASMM": r"SMACNA(?:['’]s)?(?:\s(?:ASMM|“?Architectural Sheet Metal Manual”?))?",
    "NRCA Roofing Manual": r"NRCA(?:['’]s)?\s(?:The\s)?(?:NRCA\s)?“?Roofing(?: and"
                           r" Waterproofing)? Manual”?",
    "IBC": r"IBC(?!\s\d{4}\.)|International Building Code",
    "IECC": r"IECC|International Energy Conservation Code",
    "IRC": r"IRC|International Residential Code",
    "IWUIC": r"IWUIC|International Wildland-Urban Interface Code",
    "FBC": r"FBC|Florida Building Code",
    "ASCE 7-10": r"ASCE(?:\s?/\s?SEI)?\s(?:Standard\s)?7\s?[-–]\s?(?:20)?10",
    "ASCE/SEI 7-16": r"ASCE(?:\s?/\s?SEI)?\s(?:Standard\s)?7\s?[-–]\s?(?:20)?16",
    "ASCE/SEI 7-22": r"ASCE(?:\s?/\s?SEI)?\s(?:Standard\s)?7\s?[-–]\s?(?:20)?22",
    "CSI MasterFormat": r"(?:CSI\s)?MasterFormat",
    "MBMA Metal Roofing Systems Design Manual": r"MBMA\s“?Metal Roofing Systems Design Manual”?",
    "MCA Metal Roof Installation Manual": r"MCA\s“?Metal Roof Installation Manual”?",
    "CDA Copper in Architecture Handbook": r"CDA\s“?Copper in Architecture(?: Handbook)?”?"
    r"|Copper in Architecture Handbook",
    "29 CFR 1926 Subpart M": r"29 CFR (?:Part )?1926(?:,? Subpart M)?",
    "PS 1": r"(?:(?:DOC|NIST|US DOC|U\.S\. DOC|Voluntary Product Standard)\s)?PS[\s-]1(?:-\d\d)?",
    "PS 2": r"(?:(?:DOC|NIST|US DOC|U\.S\. DOC|Voluntary Product Standard)\s)?PS[\s-]2(?:-\d\d)?",
    "FM 4471": r"(?:ANSI\s?/\s?)?FM(?:\s(?:Approvals?|Global))?(?:\s(?:Standard|Approval Standard"
               r"|Class))?"
    r"(?:\sNumber|\sNo\.)?\s?4471",
    "ANSI/FM 4474": r"ANSI\s?/\s?FM(?:\sApprovals?)?\s?4474",
    "FM 4474": r"FM(?:\s(?:Approvals?|Global))?(?:\s(?:Standard|Approval Standard))?\s?4474",
}  # fmt: skip
_CODES = ("IBC", "IECC", "IRC", "IWUIC", "FBC")
_HINTS = {
    "CSI MasterFormat": "MasterFormat",
    "29 CFR 1926 Subpart M": "CFR",
    "CDA Copper in Architecture Handbook": "Copper in",
}
_YEAR = r"(?:\s?[-–:]\s?(?:19|20)?\d{2}[a-z]?)?"
_BETWEEN = r"[\s/–-]{0,3}"
_OPTIONAL_FRONT = {"ANSI", "AA", "AWC", "CSI"}


@dataclass(frozen=True, slots=True)
class Named:
    """A standard named in a block: its id, the words from ``start`` to ``end``."""

    id: str
    block: Block
    start: int
    end: int

    @property
    def words(self) -> str:
        return self.block.text[self.start : self.end]


class Register:
    """The register of a library, with what finds its designations in a text."""

    def __init__(self, library: Library) -> None:
        self.standards: Mapping[str, Standard] = library.standards
        self._astm = {
            found["digits_of"]: name
            for name in library.standards
            if (found := re.match(r"ASTM (?P<digits_of>[A-G]\d+)", name))
        }
        # By a word that must stand in a text, the designations that it may be part of; the longest
        # first, so that ANSI/SPRI/FM 4435/ES-1 is not read as FM 4435.
        self._by_hint: dict[str, list[str]] = {}
        others = [name for name in library.standards if not name.startswith("ASTM ")]
        for name in sorted(others, key=len, reverse=True):
            for hint in _hints_of(name):
                self._by_hint.setdefault(hint, []).append(name)
        self._hint = re.compile("|".join(map(re.escape, sorted(self._by_hint, reverse=True))))
        self._spans = lru_cache(maxsize=2048)(self._find)

    def named_in(self, block: Block, under_astm: bool = False) -> list[Named]:
        """The standards that a block names, in the order of its words.

        ``under_astm`` reads a bare designation at its beginning as one of ASTM's.
        """
        spans = self._spans(block.text, under_astm)
        return [Named(name, block, start, end) for name, start, end in spans]

    def _find(self, text: str, under_astm: bool) -> tuple[tuple[str, int, int], ...]:
        """The ids and bounds of the standards that a text names, in the order of its words."""
        found = [*self._astm_in(text, under_astm)]
        hints = set(self._hint.findall(text))
        names = dict.fromkeys(name for hint in hints for name in self._by_hint[hint])
        for name in sorted(names, key=len, reverse=True):
            for match in _pattern_of(name).finditer(text):
                if not _overlaps(match.span(), found):
                    found.append((name, *match.span()))
        for match in _OTHER_BODY.finditer(text):
            if not _overlaps(match.span(), found):
                found.append((f"{match['body']} {match['number']}", *match.span()))
        return tuple(sorted(found, key=lambda each: each[1]))

    def _may_follow(self, number: re.Match[str]) -> bool:
        """Whether a bare number names a standard: ``A653, G90`` goes on to a coating."""
        known = f"{number['letter']}{number['digits']}" in self._astm
        return known or (number["letter"] != "G" and len(number["digits"]) > 2)

    def _astm_in(self, text: str, under_astm: bool) -> Iterator[tuple[str, int, int]]:
        ends = [(found.start(), found.end()) for found in _ASTM.finditer(text)]
        if under_astm and not ends:
            ends = [(0, 0)]
        last = -1
        for start, at in ends:
            if start < last:
                continue
            number = _NUMBER.match(text, at)
            while number is not None:
                key = f"{number['letter']}{number['digits']}"
                yield self._astm.get(key, f"ASTM {key}"), start, number.end()
                last = number.end()
                following = _NEXT.match(text, last)
                if following is None:
                    break
                start = following.end()
                number = _NUMBER.match(text, start)
                if number is not None and not self._may_follow(number):
                    break


@lru_cache(maxsize=4)
def register_of(library: Library) -> Register:
    """The register of a library, its patterns compiled once."""
    return Register(library)


@lru_cache(maxsize=512)
def _pattern_of(name: str) -> re.Pattern[str]:
    """What finds a designation: its pieces, with what may stand between and before them."""
    return re.compile(rf"(?<![\w-])(?:{_NAMES.get(name) or _pieced(name)})(?!\w)")


def _pieced(name: str) -> str:
    pieces = re.findall(r"[A-Za-z]+|\d+(?:\.\d+)*", name)
    front = pieces[0]
    body = _BETWEEN.join(map(re.escape, pieces))
    if front in _OPTIONAL_FRONT and len(pieces) > 2:
        body = f"(?:{front}{_BETWEEN})?{_BETWEEN.join(map(re.escape, pieces[1:]))}"
    elif front != "ANSI":
        body = rf"(?:ANSI\s?/\s?)?{body}"
    for word, wider in _WIDER:
        body = body.replace(word, wider, 1)
    return body + (_YEAR if name[-1].isdigit() else "")


# A body that is written with more words than its id.
_WIDER = (
    (r"FM[\s/–-]{0,3}Data", r"FM(?:\s(?:Global|Approvals?))?(?:\sProperty Loss Prevention)?\sData"),
    (r"Sheet[\s/–-]{0,3}1", r"Sheets?(?:\sNo\.)?\s1"),
    (r"UL[\s/–-]{0,3}", r"UL(?:\sStandard)?[\s/–-]{0,3}"),
    (r"AAMA[\s/–-]{0,3}", r"(?:FGIA\s?/\s?)?AAMA[\s/–-]{0,3}"),
    (r"AISI[\s/–-]{0,3}", r"(?:AISI(?:\s?/\s?ANSI)?)[\s/–-]{0,3}"),
    (r"ISO[\s/–-]{0,3}IEC", r"ISO(?:\s?/\s?IEC)?"),
)  # fmt: skip


def _hints_of(name: str) -> tuple[str, ...]:
    """Words of which one must stand in a text for a designation to be there."""
    if name in _CODES:
        return (name, "Code")
    if name in _HINTS:
        return (_HINTS[name],)
    pieces = re.findall(r"[A-Za-z]+|\d+", name)
    return (pieces[1] if pieces[0] in _OPTIONAL_FRONT and len(pieces) > 2 else pieces[0],)


def _overlaps(span: tuple[int, int], taken: list[tuple[str, int, int]]) -> bool:
    return any(span[0] < end and start < span[1] for _, start, end in taken)
