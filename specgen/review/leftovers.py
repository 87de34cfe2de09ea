"""What was left of a guide text or of another job: choices, blanks, notes, strange names."""

from __future__ import annotations

import re
from collections.abc import Iterator

from specgen.review.kinds import found_of, quoted
from specgen.review.names_found import other_names
from specgen.review.navigating import lists_standards
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found

_BRACKET = r"\[[^\[\]]{0,240}\]"
_CHOICE = re.compile(rf"{_BRACKET}(?:[\s,/]{{0,3}}(?:(?:or|and)\s)?{_BRACKET})*")
# The same figure in other units: 24 in [610 mm].
_METRIC = re.compile(
    r"\[\s?[~≈+-]?[\d.,]+(?:\s?(?:x|by|to|-|–|±)\s?[\d.,]+)*\s?(?:mm|m|cm|µm|um|micron(?:s)?|km"
    r"|km/h|m/s|kPa|MPa"
    r"|Pa|kN|N|kg|g|L|°\s?C|C|deg C|sq m|m2|m²|kg/m2|kg/m²|g/m2|g/m²|kN/m2|kN/m²|in\.?|inch"
    r"(?:es)?|ft|mils?|psf|psi"
    r"|ga|gauge|ng\S*|L/s\S*|K\S*|W\S*|sq\.? ft|sq\.? in|lb\S*|mph|°\s?F|F|deg F|oz)[^\[\]]{0,25}\]"
)
# A bracket that a published title holds.
_TITLE_WORD = re.compile(r"\[(?:Mass|Metric|SI|M)\]", re.IGNORECASE)
_ANGLE = re.compile(r"[<‹«]\s?[A-Za-z][^<>‹›«»\n]{1,80}[>›»]|\{[A-Za-z][^{}]{1,60}\}")
_BLANK = re.compile(
    r"_{3,}(?:[\s/]{0,2}_{3,})*|\.{5,}|…{2,}|-{5,}(?=\s?(?:years?|psf|in\b|mil))"
    r"|\(\s{2,}\)"
)
_CONTENTS = re.compile(r"(?:\.{5,400}|…{2,400})\s{0,40}\d{1,6}\s{0,9}$")
_UNDECIDED = re.compile(
    r"\bT\.?B\.?[DCA]\b\.?|\bto be (?:determined|decided|advised|announced)\b(?! by\b)"
    r"|\b[Xx]{2,}(?:\.[Xx]+)?\b(?!\s?\d)|#{2,}|\?{2,}|^\(?Open decision\b|\(open: [^()]{1,80}\)|"
    r"(?<=\s)\$\s?0{2,}\b"
)
# What a section of ours writes where an answer is missing; the same question waits in many places.
_OPEN = re.compile(r"\(?Open decision: (?P<what>[^.]{1,80})")
_NOTE = re.compile(
    r"\b(?:note to (?:the )?(?:specifier|writer|editor|designer|architect|spec"
    r"(?:ification)? writer)"
    r"|(?:specifier|editor|writer|designer|spec(?:ification)? writer|spec|guide|drafting|author)"
    r"(?:['’]?s?)?"
    r" note|editorial note|internal note|reviewer comment)s?\s?[:.–—-]"
    r"|^\W{0,3}(?:specifier|spec(?:ification)? writer|editor|writer|designer)s?\s?[:–—]"
    r"|\b(?:delete|strike|remove|retain|keep|edit|revise|modify|include|use|omit) (?:this|these"
    r"|the following|the above"
    r"|one of the (?:following|two|three)|either|both) ?(?:sub)?(?:paragraph|article|sentence"
    r"|section|clause|option|requirement|line|text|item)"
    r"(?:s)?(?: below| above)?\b"
    r"|\b(?:delete|strike|retain|keep|edit|omit) (?:the )?(?:paragraph|article|sentence"
    r"|subparagraph|clause|option|text)s? (?:below|above|if|that|when|where)\b"
    r"|\b(?:delete|strike out|edit|omit) (?:this |it |them |that )?(?:if|when|where|unless) "
    r"(?:not|no)\b"
    r"|\b(?:select|choose|pick) (?:one|either|from the following|as (?:applicable|appropriate)"
    r"|the appropriate|option)\b"
    r"|\binsert (?:the )?(?:project|name|number|date|color|value|manufacturer|applicable"
    r"|appropriate|required|figure|term|text|address|owner|specific|here)\b"
    r"|\b(?:verify|check|confirm|coordinate)(?: this)? (?:with|against) (?:the )?(?:manufacturer"
    r"|rep(?:resentative)?|engineer|owner|client) before (?:issu|send|bid|publish|releas)"
    r"|\bdoes this apply\b|\b(?:edit|revise|tailor) to suit (?:the )?project\b",
    re.IGNORECASE,
)  # fmt: skip


def leftovers_found(outline: Outline, project: str = "") -> Iterator[Found]:
    """What a document has left over; ``project`` is its name where a brief gives it."""
    undecided: set[str] = set()
    for block in outline.blocks:
        if block.hidden or block.kind == "part" or not block.text:
            continue
        if (opened := _OPEN.match(block.text)) is not None:
            if opened["what"] in undecided:
                continue
            undecided.add(opened["what"])
        yield from _in_block(block)
    for block, start, end, says in other_names(outline, project):
        yield found_of("other-project-named", says, block, start, end)
    yield from _other_heads(outline)


def _in_block(block: Block) -> Iterator[Found]:
    """The leftovers of one block; words that belong to one are told once."""
    taken: list[tuple[int, int]] = []
    for name, start, end in _spans(block):
        if any(start < last and first < end for first, last in taken):
            continue
        taken.append((start, end))
        words = f": {quoted(block, start, end)}" if end - start <= _SHORT else ""
        yield found_of(name, f"{_SAYS[name]}{words}.", block, start, end)


# Words longer than this are not said again: they stand quoted beside the finding.
_SHORT = 60
_SAYS = {
    "writers-note-left": "A note to the writer stands in the text",
    "choice-left": "A choice in brackets is not made",
    "blank-left": "A blank is not filled in",
    "undecided-left": "A decision is put off",
}


def _spans(block: Block) -> Iterator[tuple[str, int, int]]:
    text = block.text
    for match in _ANGLE.finditer(text):
        yield "blank-left", match.start(), match.end()
    note = _NOTE.search(text)
    if note is not None:
        start, end = _sentence(text, note.start(), note.end())
        yield "writers-note-left", start, end
    for match in _CHOICE.finditer(text):
        if not _is_choice(match[0]):
            continue
        yield ("blank-left" if _is_empty(match[0]) else "choice-left"), match.start(), match.end()
    if not _CONTENTS.search(text):
        for match in _BLANK.finditer(text):
            yield "blank-left", match.start(), match.end()
    for match in _UNDECIDED.finditer(text):
        if "Open decision" in match[0]:
            yield "undecided-left", 0, len(text)
        elif not (match[0].upper().startswith("X") and lists_standards(block)):
            yield "undecided-left", match.start(), match.end()


def _is_choice(words: str) -> bool:
    """Whether brackets hold a choice: not the same figure in other units, nor a title's word."""
    pieces = re.findall(_BRACKET, words)
    kept = [p for p in pieces if not _TITLE_WORD.fullmatch(p)]
    if len(kept) == 1 and _METRIC.fullmatch(kept[0]):
        return False
    return bool(kept)


def _is_empty(words: str) -> bool:
    return all(not re.search(r"[A-Za-z0-9]", piece) for piece in re.findall(_BRACKET, words))


def _sentence(text: str, start: int, end: int) -> tuple[int, int]:
    """The sentence, or what brackets or asterisks hold, around words of a text."""
    marks = (". ", "; ", "** ", "]", "\t")
    ends = [text.rfind(mark, 0, start) + len(mark) for mark in marks if mark in text[:start]]
    before = max(ends, default=0)
    first = before if text[:before].strip() else 0
    stop = re.search(r"\.(?=\s|$)|\]|\*\*", text[end:])
    return first, end + stop.end() if stop else len(text)


_NUMBER = re.compile(
    r"(?<![\d.])\d{2}([ \u00a0]?)\d{2}\1\d{2}(?:\.\d{2})?(?![\d.])|"
    r"(?<![\d.])\d{5}(?![\d.])"
)
_HEADS_SECTION = re.compile(r"\bsection\b", re.IGNORECASE)


def _other_heads(outline: Outline) -> Iterator[Found]:
    """Page heads and feet that carry another section's number."""
    own = re.sub(r"\D", "", outline.number)[:6]
    if not own:
        return
    told: set[str] = set()
    for block in outline.blocks:
        if block.kind != "page":
            continue
        for match in _NUMBER.finditer(block.text):
            number = re.sub(r"\D", "", match[0])[:6]
            is_section = not match[0].isdigit() or _HEADS_SECTION.search(block.text)
            if not is_section or number[: len(own)] == own or own[: len(number)] == number:
                continue
            if _ends_section(block.text) or number in told:
                continue
            told.add(number)
            says = f"Pages are headed {match[0]}; this is Section {outline.number}."
            yield found_of("other-section-headed", says, block, match.start(), match.end())


def _ends_section(text: str) -> bool:
    return "contents" in text.lower()
