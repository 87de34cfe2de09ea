"""Texts of several looks, broken into lines of a width."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from rich.cells import cell_len

from tui.marks import plain

# Keeps words on one line where they fit on one.
HARD_SPACE = "\u00a0"


class Piece(NamedTuple):
    """A text of one look; ``lead`` is the place in a list of leads that it belongs to, or -1."""

    text: str
    look: str = "plain"
    lead: int = -1


Line = tuple[Piece, ...]


def width_of(text: str) -> int:
    """How many cells a text takes."""
    return len(text) if text.isascii() else cell_len(text)


def wrap(pieces: Iterable[Piece], width: int) -> list[Line]:
    """Pieces broken at spaces into lines of at most so many cells; at least one line."""
    width = max(1, width)
    pieces = tuple(pieces)
    if len(pieces) == 1 and pieces[0].text.isascii():
        quick = _wrap_words(pieces[0], width)
        if quick is not None:
            return quick
    lines: list[Line] = []
    line: list[Piece] = []
    used = 0
    for atom in _atoms(pieces, width):
        size = sum(width_of(piece.text) for piece in atom)
        if line and used + 1 + size > width:
            lines.append(_joined(line))
            line, used = [], 0
        if line:
            inside = line[-1].lead == atom[0].lead and line[-1].look == atom[0].look
            line.append(atom[0]._replace(text=" ") if inside else Piece(" "))
            used += 1
        line.extend(atom)
        used += size
    lines.append(_joined(line))
    return lines


def _wrap_words(piece: Piece, width: int) -> list[Line] | None:
    """One piece of ASCII broken into lines; None if a word is wider than a line."""
    lines: list[Line] = []
    line = ""
    for word in piece.text.split():
        if len(word) > width:
            return None
        if not line:
            line = word
        elif len(line) + 1 + len(word) <= width:
            line += " " + word
        else:
            lines.append((piece._replace(text=line),))
            line = word
    lines.append((piece._replace(text=line),))
    return lines


def _atoms(pieces: Iterable[Piece], width: int) -> Iterable[list[Piece]]:
    """What may not be broken: runs of pieces without a space between them."""
    atom: list[Piece] = []
    for piece in pieces:
        for index, word in enumerate(piece.text.split(" ")):
            if index and atom:
                yield from _fitting(atom, width)
                atom = []
            if word:
                atom.append(piece._replace(text=word))
    if atom:
        yield from _fitting(atom, width)


def _fitting(atom: list[Piece], width: int) -> Iterable[list[Piece]]:
    """An atom as it is, or broken where it is wider than a line."""
    if sum(width_of(piece.text) for piece in atom) <= width:
        yield [_softened(piece) for piece in atom]
    elif any(HARD_SPACE in piece.text for piece in atom):
        yield from _atoms([_softened(piece) for piece in atom], width)
    else:
        for piece in atom:
            for start in range(0, len(piece.text), width):
                yield [piece._replace(text=piece.text[start : start + width])]


def _softened(piece: Piece) -> Piece:
    return piece._replace(text=piece.text.replace(HARD_SPACE, " "))


def _joined(line: list[Piece]) -> Line:
    """A line with neighbors of one look run together."""
    joined: list[Piece] = []
    for piece in line:
        last = joined[-1] if joined else None
        if last is not None and last[1:] == piece[1:]:
            joined[-1] = last._replace(text=last.text + piece.text)
        else:
            joined.append(piece)
    return tuple(joined)


def shown(text: str) -> str:
    """A text as this terminal can show it, on one line whatever it holds."""
    text = plain(text)
    return text if text.isprintable() else "".join(c if c.isprintable() else " " for c in text)
