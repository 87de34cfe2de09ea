"""A count as a word processor writes it: letters, Roman numerals, words, with leading zeros.

Source: ISO/IEC 29500-1, 17.18.59 (ST_NumberFormat).
"""

from __future__ import annotations

from collections.abc import Callable

_ROMAN = (
    (1000, "m"), (900, "cm"), (500, "d"), (400, "cd"), (100, "c"), (90, "xc"), (50, "l"),
    (40, "xl"), (10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"),
)  # fmt: skip
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = (
    "zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
)  # fmt: skip
_ORDINAL_WORDS = {"one": "first", "two": "second", "three": "third", "five": "fifth",
                  "eight": "eighth", "nine": "ninth", "twelve": "twelfth"}  # fmt: skip


def formatted(value: int, form: str) -> str:
    """``value`` in a numbering format by its name in the standard; decimal for one not known."""
    if form == "none":
        return ""
    if form.startswith("custom:"):
        first = form[7:].partition(",")[0].strip()
        return str(value).zfill(min(len(first), 9))
    writer = _WRITERS.get(form)
    return str(value) if writer is None else writer(value)


def roman(value: int) -> str:
    """A Roman numeral in lower case; decimal outside 1 to 3999."""
    if not 0 < value < 4000:
        return str(value)
    pieces = []
    for worth, letters in _ROMAN:
        pieces.append(letters * (value // worth))
        value %= worth
    return "".join(pieces)


def letters(value: int) -> str:
    """a to z, then aa, bb to zz, as Word counts; decimal outside 1 to 780."""
    if not 0 < value <= 780:
        return str(value)
    return chr(ord("a") + (value - 1) % 26) * ((value - 1) // 26 + 1)


def _ordinal(value: int) -> str:
    ending = "th" if value % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(value % 10)
    return f"{value}{ending or 'th'}"


def _words(value: int) -> str:
    if not 0 <= value < 100:
        return str(value)
    if value < 20:
        return _ONES[value]
    return _TENS[value // 10] + (f"-{_ONES[value % 10]}" if value % 10 else "")


def _ordinal_words(value: int) -> str:
    words = _words(value)
    head, dash, last = words.rpartition("-")
    if last.endswith("y"):
        return f"{head}{dash}{last[:-1]}ieth"
    return f"{head}{dash}{_ORDINAL_WORDS.get(last, last + 'th')}"


_WRITERS: dict[str, Callable[[int], str]] = {
    "decimalZero": lambda value: f"{value:02d}",
    "upperLetter": lambda value: letters(value).upper(),
    "lowerLetter": letters,
    "upperRoman": lambda value: roman(value).upper(),
    "lowerRoman": roman,
    "ordinal": _ordinal,
    "cardinalText": lambda value: _words(value).capitalize(),
    "ordinalText": lambda value: _ordinal_words(value).capitalize(),
    "numberInDash": lambda value: f"- {value} -",
}
