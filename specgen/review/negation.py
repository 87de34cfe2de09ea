"""Whether words are said with a no: before them, after them, or over the list that they stand in.

How sections say no is common practice: ``without end laps``, ``snap-lock seams are not permitted``,
``No walkways, snow retention or ridge vents are part of this work``.
"""

from __future__ import annotations

import re

_NO = re.compile(
    r"\b(?:no(?!\. ?\d)|not|without|never|neither|nor|omit|exclud(?:e|es|ed|ing)|avoid"
    r"|in (?:lieu|place) of|instead of|rather than|other than|in no case|none of)\b"
    r"(?!-| (?:less|more|greater|fewer|lower|higher|later|earlier|thinner|thicker|wider|narrower"
    r"|heavier|lighter|over|under|exceed\w*|above|below|apart|closer|farther|further than|nearer"
    r"|smaller"
    r"|larger|only|shorter|longer|worse|dollar|limit|leak\w*|water)\b)",
    re.IGNORECASE,
)
_NO_AFTER = re.compile(
    r"[^.;:|]{0,60}?\b(?:(?:is|are|shall|will|may|must|do|does|need)\s+not|cannot)\s+(?:be\s+)?"
    r"(?:permitted|acceptable|accepted|allowed|used|required|included|provided|part|furnished"
    r"|installed|desired|needed|mounted|specified|wanted|asked|built|tested|considered|apply)\b"
    r"|[^.;:|]{0,40}?\b(?:(?:is|are|be)\s+(?:therefore\s+)?(?:prohibited|excluded|forbidden|omitted"
    r"|unacceptable|refused|rejected|deleted|ruled\s+out)"
    r"|(?:is|are)\s+(?:therefore\s+)?not\s+(?:(?:to\s+be|therefore)\s+)?(?:a\s+)?\w{1,12}ed\b"
    r"|not\s+(?:permitted|acceptable|allowed|used|required|included|applicable|needed|wanted|suitable"
    r"|(?:a\s+)?(?:part|requirement)|asked|called\s+for|in\s+(?:the\s+|this\s+)?(?:contract|work"
    r"|scope)))\b"
    r"|s?\s*[:|]\s*(?:take\s+out|remove|demolish)\b"
    r"|s?\s*[:|]\s*(?:none|no|nothing|omit(?:ted)?|deleted?|excluded|n\.?i\.?c\.?"
    r"|not\s+(?:required|used|included|applicable|needed|wanted|specified|asked\s+for"
    r"|in\s+(?:the\s+|this\s+)?(?:contract|work|scope))|n/?a|nil)\s*(?:[.,;|]|$)",
    re.IGNORECASE,
)
_TURN = re.compile(
    r"[.;:|]|\b(?:but|except|unless|which|who|until|than|if|where|when|provide|use|furnish|install"
    r"|and (?:shall|must|is|are))\b",
    re.IGNORECASE,
)
# What forbids a way of doing a thing, and not the thing: ``do not lay insulation in rain``.
_HOW = re.compile(
    r"[^.;:|]{0,80}\b(?:until|before|while|during|when|in (?:rain|wet|snow|fog)"
    r"|on (?:wet|frost|ice)"
    r"|over|against|through|without|that (?:is|are)|than)\b",
    re.IGNORECASE,
)
# The verb of a ban is no turn: ``do not use``.
_VERB = re.compile(
    r"\s*(?:be )?(?:use|provide|furnish|install|include|permit|allow|employ|accept)\w{0,2}\b",
    re.IGNORECASE,
)
_AND = re.compile(r"\b(?:and|or|nor)\b|[:|]")
# An article that lists what is left out.
_LEFT_OUT = re.compile(
    r"(?:work |items? |products? )?(?:not (?:in|included|part|required|used|furnished|provided)\b"
    r"|omitted|excluded)",
    re.IGNORECASE,
)
_LIST = re.compile(r"\b(?:or|nor)\b")
_OVER = re.compile(
    r"\s*(?:not\b|no\b(?!\.)|none of|exclu|omitted|outside (?:the|this)|items? not)",
    re.IGNORECASE,
)


def negated(text: str, start: int, end: int, above: tuple[str, ...], label: str) -> bool:
    """Whether the words of ``text`` from start to end are said with a no: their own, their label's,
    that of the paragraph they stand under, or that of the article's title, last in ``above``."""
    before = text[max(0, start - 120) : start]
    last = next(reversed([*_NO.finditer(before)]), None)
    if last is not None and last[0].lower() in ("not", "never") and _HOW.match(text[start:]):
        last = None
    if last is not None and _reaches(before[last.end() :], text[end:], before[: last.start()]):
        return True
    if (after := _NO_AFTER.match(text[end : end + 100])) and _one_subject(after[0]):
        return True
    if label and start >= len(label) and _OVER.match(label):
        return True
    if not above:
        return False
    over = above[0] if len(above) > 1 else ""
    return (len(over) < 80 and bool(_OVER.match(over))) or bool(_LEFT_OUT.match(above[-1]))


def _one_subject(after: str) -> bool:
    """Whether what follows up to a no has no subject of its own, as after a comma in no list."""
    return "," not in after or _AND.search(after) is not None


def _reaches(between: str, after: str, before: str) -> bool:
    """Whether a no still holds after what stands between it and the words."""
    if _TURN.search(_VERB.sub("", between)):
        return False
    if "," not in between:
        return len(between) < 60
    opens = (
        not before.strip()
        or before.rstrip().endswith((":", ".", "|"))
        or _OVER.match(before) is not None
    )
    return bool(_LIST.search(between) or (opens and _LIST.search(after[:120])))
