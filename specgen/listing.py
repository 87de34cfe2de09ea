"""What the program computes into a section: the standards it cites and the submittals it asks for.

Each line is listed because of clauses that stand, and its reason says which.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from specgen.grounds import Grounds, Names, shortest
from specgen.integrity import cites_literally
from specgen.library import Clause, Library
from specgen.section import Paragraph, Submittal, label_for
from specgen.spans import ArticleReference, Span, Words, join_words
from specgen.wording import Text

COMPUTED = "computed from the section"


@dataclass(frozen=True, slots=True)
class _Item:
    """A line of a list: its text, the clauses that cause it, what places it and what words it."""

    spans: tuple[Span, ...]
    caused_by: tuple[str, ...]
    placing: Names
    wording: Names = frozenset()


def standards_listed(
    grounds: Grounds, cited: Mapping[str, Sequence[str]], after: int
) -> list[Paragraph]:
    """The standards cited anywhere, by publisher; ``cited`` has the clauses that cite each.

    They stand below ``after`` other paragraphs of their article.
    """
    why = "Every standard that the section cites is listed once, with its title."
    library = grounds.library
    by_publisher: dict[str, list[_Item]] = {}
    for name in sorted(cited, key=_natural):
        standard = library.standards[name]
        text = f"{name}, {standard.title.rstrip('.')}."
        placing = shortest(_citing(grounds, library.clauses[each], name) for each in cited[name])
        item = _Item((Words(text),), tuple(cited[name]), placing)
        by_publisher.setdefault(standard.publisher, []).append(item)
    return [
        _list(grounds, index, f"{publisher}:", why, items)
        for index, (publisher, items) in enumerate(sorted(by_publisher.items()), after)
    ]


def submittals_listed(
    grounds: Grounds, article: str, submittals: Sequence[Submittal], after: int
) -> list[Paragraph]:
    """The submittals that an article lists, by kind, those alike joined.

    They stand below ``after`` other paragraphs of their article.
    """
    why = "Each submittal is caused by the requirement that its article states."
    paragraphs: list[Paragraph] = []
    for kind in grounds.library.submittal_kinds:
        alike: dict[str, list[Submittal]] = {}
        for submittal in submittals:
            if submittal.kind == kind.name:
                alike.setdefault(submittal.what, []).append(submittal)
        if kind.article == article and alike:
            items = [_submitted(grounds, kind.id, what, found) for what, found in alike.items()]
            index = after + len(paragraphs)
            paragraphs.append(_list(grounds, index, kind.lead, why, items))
    return paragraphs


def _list(grounds: Grounds, index: int, lead: str, why: str, items: Sequence[_Item]) -> Paragraph:
    caused_by = tuple(dict.fromkeys(name for item in items for name in item.caused_by))
    placing = shortest(item.placing for item in items)
    children = tuple(
        Paragraph(
            label_for(2, number),
            2,
            item.spans,
            grounds.computed_reason(why, COMPUTED, item.placing, item.caused_by, item.wording),
        )
        for number, item in enumerate(items)
    )
    reason = grounds.computed_reason(why, COMPUTED, placing, caused_by)
    return Paragraph(label_for(1, index), 1, (Words(lead),), reason, children)


def _citing(grounds: Grounds, clause: Clause, name: str) -> Names:
    """What has a clause stand and cite a standard."""
    placing = grounds.placing(clause)
    always = any(isinstance(p, str) and cites_literally(p, name) for p in clause.text.pieces)
    return placing if always else placing | grounds.standings[clause.id].because


def _submitted(grounds: Grounds, kind: str, what: str, found: Sequence[Submittal]) -> _Item:
    """An item of a submittal list, closing with the articles that ask for it."""
    spans: list[Span] = [Words(f"{what[:1].upper()}{what[1:]} (")]
    for index, article in enumerate(dict.fromkeys(each.article for each in found)):
        if index:
            spans.append(Words(", "))
        spans.append(ArticleReference(article))
    causes = tuple(each.clause for each in found)
    clauses = grounds.library.clauses
    placing = shortest(_submitting(grounds, clauses[name], kind) for name in causes)
    # Another clause that asks for the same would add its article to the line.
    wording = frozenset().union(
        *(
            _submitting(grounds, clauses[name], kind)
            for pattern, name in _patterns(grounds.library)[kind]
            if pattern.fullmatch(what)
        )
    )
    return _Item(join_words([*spans, Words(").")]), causes, placing, wording)


def _submitting(grounds: Grounds, clause: Clause, kind: str) -> Names:
    """What has a clause stand, and submit what it does."""
    text = dict(clause.submits)[kind]
    standing = grounds.standings.get(clause.id)
    if standing is None or standing.stands is not True or not text.expressions:
        return grounds.placing(clause)
    return grounds.placing(clause) | grounds.scope.text_of(text, clause)[1]


@lru_cache(maxsize=4)
def _patterns(library: Library) -> Mapping[str, Sequence[tuple[re.Pattern[str], str]]]:
    """By kind of submittal, what each clause's text may come to, and the clause."""
    found: dict[str, list[tuple[re.Pattern[str], str]]] = {
        kind.id: [] for kind in library.submittal_kinds
    }
    for clause in library.clauses.values():
        for kind, text in clause.submits:
            found[kind].append((_pattern(text), clause.id))
    return found


def _pattern(text: Text) -> re.Pattern[str]:
    pieces = (re.escape(piece) if isinstance(piece, str) else ".*" for piece in text.pieces)
    return re.compile("".join(pieces), re.S)


def _natural(designation: str) -> list[tuple[int, str]]:
    """A key that sorts ASTM C90 before ASTM C920 and C578 before C1289."""
    return [
        (int(piece), "") if piece.isdigit() else (0, piece)
        for piece in re.split(r"(\d+)", designation)
    ]
