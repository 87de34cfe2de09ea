"""Figures as a section writes them, made into what a brief takes: ``12-inch`` into ``12 in``."""

from __future__ import annotations

import datetime
import re

_ONES = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50}
_WORDS = {word: number for number, word in enumerate(_ONES, start=1)} | _TENS
_WORDS |= {
    f"{ten} {one}": tens + number
    for ten, tens in _TENS.items()
    for number, one in enumerate(_ONES[:9], start=1)
}
# The longest first: sixteen is no six.
_SPELLED = re.compile(
    "|".join(sorted((word.replace(" ", "[ -]") for word in _WORDS), key=len, reverse=True)) + r"\b"
)
_RISE = re.compile(r"(.{1,12}?) ?(?:in\w*\.?|\")? ?(?::|/|in|on|to) ?(?:12|twelve)\b")
# A fall of one in many, where the many are not twelve.
_RATIO = re.compile(r"1 ?(?::|in) ?(\d{2,3})$")
_NUMBER = re.compile(r"[-+]?(?:\d+[ -]\d+/\d+|\d+/\d+|\d{1,3},\d{3}|\d*\.\d+|\d+)")
_FEET_INCHES = re.compile(r"(\d+) ?(?:f\w*\.?|')[ -]*(\d[\d /.-]*) ?(?:in\w*\.?|\")")
_UNITS = {
    "thickness": (
        (r"ga", "ga"), (r"mm|millim", "mm"), (r"mil", "mil"), (r"micron", "um"),
        (r"oz|ounce", "oz"), (r"in|\"", "in"),
    ),
    "length": (
        (r"mm|millim", "mm"), (r"cm", "cm"), (r"mi", "mi"), (r"km|kilom", "km"), (r"m\b|met", "m"),
        (r"f|'", "ft"), (r"in|\"", "in"),
    ),
    "pressure": (
        (r"kpa|kn", "kPa"), (r"pa\b", "Pa"),
        (r"psi|(?:lb|pound)\S*.{0,5}sq\S* ?in", "psi"), (r"psf|lb|pound", "psf"),
    ),
    "speed": ((r"mph|mile", "mph"), (r"m/s", "m/s"), (r"k", "km/h")),
    "leakage": ((r"l", "L/s per sq m"), (r"", "cfm/sq ft")),
    "force": ((r"kn", "kN"), (r"n", "N"), (r"", "lbf")),
}  # fmt: skip


def typed(kind: str, text: str) -> str:
    """A figure as a brief takes it; the text itself where it holds none that is known."""
    text = " ".join(text.split())
    low = text.lower()
    if kind == "number":
        return _count(low)
    low = _SPELLED.sub(lambda word: str(_WORDS[word[0].replace("-", " ")]), low, count=1)
    if kind == "date":
        return _date(text)
    if kind == "temperature":
        return _temperature(low)
    if kind == "slope":
        return _slope(low)
    if kind not in _UNITS:
        return text.strip(" .")
    if kind == "length" and (match := _FEET_INCHES.fullmatch(low)):
        return f"{match[1]} ft {match[2].strip(' -')} in"
    match = _NUMBER.match(low)
    if match is None:
        return text
    rest = low[match.end() :].strip(" -")
    if kind == "thickness" and not rest:
        return f"{match[0]} in"
    for pattern, unit in _UNITS[kind]:
        if re.match(pattern, rest):
            return f"{match[0]} {unit}"
    return text


def _date(text: str) -> str:
    """``March 15, 2027`` as 2027-03-15."""
    try:
        return datetime.datetime.strptime(text, "%B %d, %Y").date().isoformat()
    except ValueError:
        return text


def _count(text: str) -> str:
    """``twenty (20)`` and ``twenty`` as 20."""
    if match := re.search(r"\d[\d.,/ -]*", text):
        return match[0].strip(" .,-")
    return str(_WORDS.get(text.replace("-", " "), text))


def _temperature(text: str) -> str:
    sign = "-" if re.match(r"minus |-", text) else ""
    match = re.search(r"\d+(?:\.\d+)?", text)
    if match is None:
        return text
    unit = "degC" if re.search(r"c", text[match.end() :]) else "degF"
    return f"{sign}{match[0]} {unit}"


def _slope(text: str) -> str:
    if (match := _RATIO.match(text)) and match[1] != "12":
        return f"{100 / int(match[1]):.4g} percent"
    if (match := _RISE.match(text)) and _NUMBER.fullmatch(match[1]):
        return f"{match[1]}:12"
    match = _NUMBER.match(text)
    if match is None:
        return text
    rest = text[match.end() :].strip(" -")
    if rest.startswith(("%", "percent", "per cent")):
        return f"{match[0]} percent"
    if rest.startswith(("deg", "°")):
        return f"{match[0]} deg"
    return f"{match[0]}:12"
