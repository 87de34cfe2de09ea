"""Words that a requirement cannot be held to, and requirements that differ in a figure alone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.library import Library
from specgen.review.designations import register_of
from specgen.review.kinds import found_of, quoted
from specgen.review.navigating import lists_standards
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found

# What follows, or leads, gives the word its measure after all.
_MEASURED = re.compile(
    r"^\s(?:by|in|under|with|of)\s(?:the\s)?(?:ASTM|UL|FM|IBC|code|building code|manufacturer"
    r"|sealant"
    r"|panel|applicable code|article|section|paragraph|drawings|shop drawings|schedule|instructions"
    r"|accepted|approved|structural|engineer|design)"
    r"|^\s(?:for|to|in)\s[^.;]{0,80}\d",
    re.IGNORECASE,
)
_FIGURE = re.compile(r"\d+(?:[-/.,]\d+)*")
# What is before a colon names the subject: Zone 1 is not Zone 2.
_LABEL = re.compile(r"[^:\t]{1,40}[:\t]")
# How a section of ours says what it waits on.
OPEN_DECISION = ("Open decision:", "(Open decision:")
# So many paragraphs of the same words list something, figure by figure.
_ENUMERATED = 3
_REFERENCE = re.compile(
    r"\b(?:Articles?|Paragraphs?|Sections?)\s[\d.A-Z]+(?:\s(?:and|or)\s[\d.]+)?"
)


def vague_words(outline: Outline, library: Library) -> Iterator[Found]:
    """Each requirement with words of the library's list, unless what follows measures them."""
    if not library.vague:
        return
    words = sorted((re.escape(word) for word in library.vague), key=len, reverse=True)
    vague = re.compile(rf"(?<![\w-])(?:{'|'.join(words)})(?![\w-])", re.IGNORECASE)
    register = register_of(library)
    for block in outline.said():
        if block.hidden or lists_standards(block) or "definition" in block.article.lower():
            continue
        matches = [m for m in vague.finditer(block.text) if not _is_measured(block.text, m)]
        if not matches:
            continue
        titles = [each.start for each in register.named_in(block)]
        match = matches[0]
        if titles and "," in block.text[titles[0] : match.start()] and _is_title(block, match):
            continue
        many = list(dict.fromkeys(m[0].lower() for m in matches))
        listed = " and ".join(f"“{word}”" for word in many[:3])
        says = f"{listed} cannot be measured or priced."
        yield found_of("vague-words", says, block, match.start(), match.end())


def _is_measured(text: str, match: re.Match[str]) -> bool:
    return _MEASURED.match(text[match.end() :]) is not None


def _is_title(block: Block, match: re.Match[str]) -> bool:
    """Whether a word stands among capitalized ones, as in a title."""
    before = block.text[: match.start()].split()[-3:]
    inside = match[0][0].isupper() or block.text[match.end() :].lstrip()[:1].isupper()
    return inside and len(before) == 3 and sum(word[:1].isupper() for word in before) >= 2


def other_figures(outline: Outline) -> Iterator[Found]:
    """Paragraphs of the same words with other figures: one requirement said two ways."""
    alike: dict[str, list[tuple[Block, list[str]]]] = {}
    for block in outline.said():
        if block.kind == "row" or block.hidden or lists_standards(block):
            continue
        if block.text.startswith(OPEN_DECISION):
            continue
        bare = _REFERENCE.sub("", " ".join(block.text.lower().split()))
        label = _LABEL.match(bare)
        told = label.end() if label else 0
        words = bare[:told] + _FIGURE.sub("#", bare[told:])
        if "#" in words and len(words) >= 30:
            alike.setdefault(words, []).append((block, _FIGURE.findall(bare)))
    for (known, own), *others in alike.values():
        if len(others) >= _ENUMERATED:
            continue
        for block, figures in others:
            if figures != own:
                where = f" at {known.place}" if known.place else " before"
                says = f"The same words with other figures stand{where}: {quoted(known, 0, 0)}"
                yield found_of("same-words-other-figures", says, block)
