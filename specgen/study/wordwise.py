"""Two texts compared word by word."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import NamedTuple

from specgen.section import Section
from specgen.spans import ArticleReference, Gap, Span, Words

# Below this share of words in common a paragraph is read more easily as struck out and put anew.
LEAST_ALIKE = 0.35
_UNITS = "in|ft|mi|mm|m|km|psf|psi|kPa|Pa|lbf/ft|lbf|N|kN|kN/m|mph|m/s|gauge|percent|°F|°C"
_FIGURE = r"\d[\d.,/:-]*\d|\d"
_TOKEN = re.compile(
    rf"\s+|(?:{_FIGURE})(?: ft (?:{_FIGURE}) in| (?:{_UNITS})|)(?!\w)|\w(?:[\w./:'%-]*\w)?|.", re.S
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a text: ``state`` is same, in or out; ``shown`` what is read, a reference with its
    article's number."""

    state: str
    span: Span
    shown: str


class _Token(NamedTuple):
    """A word, space, mark, gap or reference, by what it is compared by; of words no span."""

    key: str
    span: ArticleReference | Gap | None
    shown: str

    def piece(self, state: str) -> Piece:
        return Piece(state, self.span or Words(self.shown), self.shown)


def pieces_of(section: Section, spans: Sequence[Span]) -> tuple[Piece, ...]:
    """A text as pieces that stay, one a span."""
    return tuple(
        Piece("same", span, section.plain_span(span))
        if isinstance(span, ArticleReference)
        else Piece("same", span, span.text)
        for span in spans
    )


def _tokens(pieces: Sequence[Piece]) -> tuple[_Token, ...]:
    found: list[_Token] = []
    for piece in pieces:
        if isinstance(piece.span, Words):
            found += [_Token(word, None, word) for word in _TOKEN.findall(piece.shown)]
        else:
            # No word of a text has a line break in it: a reference or gap is like no word.
            key = f"{piece.span.__class__.__name__}\n{piece.shown}"
            found.append(_Token(key, piece.span, piece.shown))
    return tuple(found)


def compared(before: Sequence[Piece], after: Sequence[Piece]) -> tuple[Piece, ...]:
    """Two texts as pieces: in each place what went out stands before what came in."""
    if before == after:
        return tuple(after)
    was, now = _tokens(before), _tokens(after)
    matcher = SequenceMatcher(None, [t.key for t in was], [t.key for t in now], autojunk=False)
    if matcher.quick_ratio() < LEAST_ALIKE or matcher.ratio() < LEAST_ALIKE:
        return _replaced(was, now)
    out: list[_Token] = []
    come: list[_Token] = []
    pieces: list[Piece] = []

    def settle() -> None:
        pieces.extend(_replaced(out, come))
        out.clear()
        come.clear()

    codes = matcher.get_opcodes()
    for index, (change, i, j, k, m) in enumerate(codes):
        if change != "equal":
            out += was[i:j]
            come += now[k:m]
        elif 0 < index < len(codes) - 1 and _slight(was[i:j]):
            # A space or stroke that two changes happen to share is no word in common.
            out += was[i:j]
            come += now[k:m]
        else:
            settle()
            pieces += [token.piece("same") for token in now[k:m]]
    settle()
    return tuple(_joined(pieces))


def _slight(tokens: Sequence[_Token]) -> bool:
    return not any(re.search(r"\w", token.shown) for token in tokens)


def _replaced(was: Sequence[_Token], now: Sequence[_Token]) -> tuple[Piece, ...]:
    out = [token.piece("out") for token in was]
    return tuple(_joined([*out, *(token.piece("in") for token in now)]))


def _joined(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """The same pieces, words of one state run together."""
    held: list[Piece] = []
    for piece in pieces:
        if held and not (
            isinstance(piece.span, Words)
            and isinstance(held[-1].span, Words)
            and piece.state == held[-1].state
        ):
            yield _as_one(held)
            held = []
        held.append(piece)
    if held:
        yield _as_one(held)


def _as_one(held: list[Piece]) -> Piece:
    if len(held) == 1:
        return held[0]
    text = "".join(piece.shown for piece in held)
    return Piece(held[0].state, Words(text), text)
