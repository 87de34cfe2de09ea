"""One form for the characters of a text, wherever it comes from.

Every step replaces one character by one or takes it out, so that a place in the cleaned text can
be led back to the file.
"""

from __future__ import annotations

import re
import unicodedata

_SPACES = "\t\n\v\f\r\x85\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009" \
    "\u200a\u2028\u2029\u202f\u205f\u3000"  # fmt: skip
_SINGLE, _DOUBLE = "\u2018\u2019\u201a\u201b\u2032\u02b9", "\u201c\u201d\u201e\u201f\u2033\u02ba"
# Soft hyphens, joiners, marks of direction: nothing that a reader sees.
_UNSEEN = "\xad\u200b\u200c\u200d\u200e\u200f\u2060\u2061\u2062\u2063\u2064\ufeff" \
    "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"  # fmt: skip
_TABLE: dict[int, str | None] = {
    **dict.fromkeys(map(ord, _SPACES), " "),
    **dict.fromkeys(map(ord, _SINGLE), "'"),
    **dict.fromkeys(map(ord, _DOUBLE), '"'),
    0x2010: "-",
    0x2011: "-",
    **dict.fromkeys(map(ord, _UNSEEN)),
    **dict.fromkeys([*range(9), *range(14, 32), 127, *range(128, 133), *range(134, 160)]),
    **dict.fromkeys([0xFFFE, 0xFFFF, *range(0xD800, 0xE000)]),
}
_KEEPING_BREAKS = {**_TABLE, 9: "\t", 10: "\n"}
_RUN_OF_SPACES = re.compile(r" {2,}")


def clean(text: str) -> str:
    """The text on one line: plain spaces, straight quotes, nothing unseen."""
    if not text.isascii() or not text.isprintable():
        text = text.translate(_TABLE)
    return _RUN_OF_SPACES.sub(" ", text).strip()


def kept_apart(text: str) -> str:
    """The text cleaned, with its tabs and line breaks left, for numbers typed before them."""
    if text.isascii() and text.isprintable():
        return text
    return text.translate(_KEEPING_BREAKS)


def bare(character: str) -> str:
    """A character cleaned, or nothing where it is a space or not seen; to compare texts by."""
    if character.isascii() and character.isprintable() and character != " ":
        return character
    cleaned = _TABLE.get(ord(character), character)
    return "" if cleaned is None or cleaned.isspace() else cleaned


def upright(text: str) -> str:
    """Text from a page description: ligatures taken apart, the rest left."""
    if text.isascii():
        return text
    return "".join(
        unicodedata.normalize("NFKC", c) if "\ufb00" <= c <= "\ufb06" else c for c in text
    )
