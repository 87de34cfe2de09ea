"""Faults of the text that can be planted: leftovers, references, standards, missing paragraphs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from specgen.review.companions import (
    is_bounded,
)
from specgen.review.designations import Named
from specgen.review.kinds import KINDS
from specgen.review.names_found import own_name
from specgen.review.navigating import family, lists_standards, parents
from specgen.review.outline import Block
from specgen.review.planting_ground import Ground, spread, swapped, varied
from specgen.review.shapes import Edit, Plant
from specgen.review.standards_named import WALL_METHODS, methods_cited

_FIGURE = re.compile(
    r"(?<![\w/.:-])(?P<n>\d{1,3})(?P<gap>[ -])(?P<unit>gauge|years?|mils?|mm|psf|hours?|inch"
    r"(?:es)?|in|ft|feet)\b"
)
_YEARS = re.compile(r"(?<![\w/.:-])(?P<n>\d{1,2})(?P<gap>[ -])years?\b")
_ARTICLE = re.compile(r"\bArticles?\s(?P<part>[123])\.(?P<number>\d{1,2})\b")
_TITLED = re.compile(r"^[\s,:;–—\t-]{1,4}(?=[A-Z])")

NOTES = (
    "Note to the writer: confirm this with the Owner and take this line out.",
    "Specifier's note: the next two paragraphs are alternatives.",
    "Retain this paragraph where the deck is older than ten years.",
    "Select one of the following to suit the project.",
)
OTHERS = (
    "Heron Creek Elementary School", "Blackwater Junction Fire Station", "Tamarack County"
                                                                         " Courthouse",
    "Upper Dunmore Branch Library",
)  # fmt: skip
VAGUE = (
    ", or as necessary",
    ", in a workmanlike manner",
    ", to the satisfaction of the Architect",
    ", as directed",
)
# An article that a section can lose without losing what it stands on.
_SPARE = re.compile(
    r"\b(?:mock-?ups?|(?:field|site|job) conditions|coordination|meanings|definitions"
    r"|quality assurance|closeout)\b",
    re.IGNORECASE,
)


def plant_of(
    kind: str,
    edits: tuple[Edit, ...],
    finds: str | frozenset[str],
    says: str,
    topic: str,
    level: int,
) -> Plant:
    """A plant whose reason and source are those of the finding that names it."""
    names = finds if isinstance(finds, frozenset) else frozenset(finds.split())
    told = KINDS[min(names)]
    return Plant(kind, edits, names, says, told.because, told.source, topic, level)


def topic_of(ground: Ground, block: Block) -> str:
    """The library's topic that a block belongs to, by what it answers; else by where it stands."""
    for statement in ground.understanding.statements:
        if statement.at.block == block.index:
            return ground.library.questions[statement.question].topic
    return {1: "project", 2: "panel"}.get(block.part, "execution")


# ------------------------------------------------------------------------------------- leftovers


def choices_left(ground: Ground) -> Iterator[Plant]:
    """A figure becomes a choice in brackets."""
    for block, match in spread(_figures(ground, _FIGURE, (2, 3))):
        other = _other(int(match["n"]))
        words = f"[{match[0]}] [{other}{match['gap']}{match['unit']}]"
        yield plant_of(
            "choice-left", (swapped(block, *match.span(), words),), "choice-left",
            f"A choice between {match[0]} and {other} was left open.", topic_of(ground, block), 1,
        )  # fmt: skip


def blanks_left(ground: Ground) -> Iterator[Plant]:
    """A figure becomes a blank."""
    for block, match in spread(_figures(ground, _FIGURE, (1, 2, 3))):
        words = f"{varied(('_____', '________', '.......'), block.index)} {match['unit']}"
        yield plant_of(
            "blank-left", (swapped(block, *match.span(), words),), "blank-left",
            f"{match[0]} was left blank.", topic_of(ground, block), 1,
        )  # fmt: skip


def decisions_put_off(ground: Ground) -> Iterator[Plant]:
    """A figure becomes a promise to decide."""
    for block, match in spread(_figures(ground, _FIGURE, (2, 3))):
        words = varied(("TBD", "to be determined", "XX " + match["unit"]), block.index)
        yield plant_of(
            "decision-put-off", (swapped(block, *match.span(), words),), "undecided-left",
            f"{match[0]} was put off.", topic_of(ground, block), 1,
        )  # fmt: skip


def notes_left(ground: Ground) -> Iterator[Plant]:
    """A note to the writer stands among the requirements."""
    sites = [block for block in ground.requiring if block.kind == "paragraph" and block.level <= 2]
    for block in spread(sites):
        words = varied(NOTES, block.index)
        yield plant_of(
            "writers-note-left", (Edit(block.index, words, after=True),), "writers-note-left",
            "A note to the writer was left in.", topic_of(ground, block), 1,
        )  # fmt: skip


def other_projects(ground: Ground) -> Iterator[Plant]:
    """A sentence names another project."""
    own = own_name(ground.outline)
    if not own:
        return
    sites = [b for b in ground.requiring if b.part in (1, 3) and b.kind == "paragraph" and _ends(b)]
    for block in spread(sites):
        name = varied(OTHERS, block.index)
        words = f"{block.text} Protect finished work of the {name} during this work."
        yield plant_of(
            "other-project-named", (Edit(block.index, words),), "other-project-named",
            f"The {name} is another project.", topic_of(ground, block), 2,
        )  # fmt: skip


def vague_words_added(ground: Ground) -> Iterator[Plant]:
    """A requirement gets words that nobody can measure."""
    sites = [b for b in ground.requiring if b.part > 1 and b.kind == "paragraph" and _ends(b)]
    sites = [b for b in sites if len(b.text) > 40 and "definition" not in b.article.lower()]
    for block in spread(sites):
        words = block.text.rstrip(". ") + varied(VAGUE, block.index) + "."
        yield plant_of(
            "vague-words", (Edit(block.index, words),), "vague-words",
            "Words were added that cannot be measured.", topic_of(ground, block), 2,
        )  # fmt: skip


def _figures(
    ground: Ground, pattern: re.Pattern[str], parts: tuple[int, ...]
) -> list[tuple[Block, re.Match[str]]]:
    found = []
    for block in ground.requiring:
        match = pattern.search(block.text)
        if block.part in parts and match is not None and int(match["n"]) > 1:
            found.append((block, match))
    return found


def _other(figure: int) -> int:
    """Another figure that could stand in a figure's place."""
    return figure - 2 if figure > 12 else figure + 2


def _ends(block: Block) -> bool:
    return block.text.endswith(".")


# ------------------------------------------------------------------------------------ references


def references_broken(ground: Ground) -> Iterator[Plant]:
    """A reference to an article leads past the last one of its part."""
    last = _last_articles(ground)
    sites = [
        (block, match)
        for block in ground.requiring
        if (match := _ARTICLE.search(block.text)) and int(match["part"]) in last
    ]
    for block, match in spread(sites):
        number = last[int(match["part"])] + 3 + block.index % 3
        shown = str(number).zfill(len(match["number"]))
        yield plant_of(
            "reference-broken", (swapped(block, *match.span("number"), shown),), "reference-broken",
            f"There is no Article {match['part']}.{shown}.", topic_of(ground, block), 3,
        )  # fmt: skip


def _last_articles(ground: Ground) -> dict[int, int]:
    numbers = [
        tuple(map(int, re.findall(r"\d+", block.place)))
        for block in ground.outline.blocks
        if block.kind == "article" and block.place
    ]
    pairs = [pair for pair in numbers if len(pair) == 2]
    if len(pairs) < 4:
        return {}
    return {part: max(n for p, n in pairs if p == part) for part, _ in pairs}


def articles_skipped(ground: Ground) -> Iterator[Plant]:
    """An article is taken out, and the numbers of those after it stay."""
    articles = [b for b in ground.outline.blocks if b.kind == "article" and b.place]
    for article, following in pairwise(articles):
        if article.part != following.part or not _SPARE.search(article.text):
            continue
        held = ground.outline.by_article.get((article.part, article.article), ())
        edits = (Edit(article.index, None), *(Edit(block.index, None) for block in held))
        yield plant_of(
            "article-lost", edits, "number-skipped",
            f"Article {article.place} was taken out, and a hole left in the numbers.", "project", 3,
        )  # fmt: skip


# -------------------------------------------------------------------------------------- standards


def wall_methods(ground: Ground) -> Iterator[Plant]:
    """A test for roofs becomes the one for windows and walls."""
    for wall, roof in WALL_METHODS.items():
        cited = [n for n in ground.named if n.id == roof and n.block.part == 2]
        if cited and not any(n.id == wall for n in ground.named):
            short = wall.partition("/")[0]
            yield plant_of(
                "wall-method", _renamed(cited, short), "standard-not-for-roofs",
                f"{short} tests windows and walls; {roof} is meant.", "performance", 4,
            )  # fmt: skip


def outdated_standards(ground: Ground) -> Iterator[Plant]:
    """A standard in force gives way to one that it replaced."""
    cited: dict[str, list[Named]] = {}
    for each in ground.named:
        if not lists_standards(each.block):
            cited.setdefault(each.id, []).append(each)
    for old in ground.library.standards.values():
        if old.status == "current" or old.id.startswith(("ASCE", "ANSI A58")):
            continue
        places = cited.get(re.split(r" \(| with | or ", old.replaced_by)[0].rstrip("."))
        if places:
            yield plant_of(
                f"{old.status}-standard", _renamed(places[:1], old.id), f"standard-{old.status}",
                f"{old.id} is {old.status}.", topic_of(ground, places[0].block), 4,
            )  # fmt: skip


def _renamed(cited: list[Named], words: str) -> tuple[Edit, ...]:
    """Edits that put another designation at every place of one."""
    texts: dict[int, str] = {}
    for each in reversed(cited):
        text = texts.get(each.block.index, each.block.text)
        texts[each.block.index] = text[: each.start] + words + text[each.end :]
    return tuple(Edit(index, text) for index, text in texts.items())


def titles_swapped(ground: Ground) -> Iterator[Plant]:
    """An entry of the list gets the title of another standard of its publisher."""
    entries = [
        (each, match)
        for each in _entries(ground)
        if (match := _TITLED.match(each.block.text[each.end :]))
    ]
    for index, (each, match) in enumerate(spread(entries)):
        own = ground.library.standards[each.id]
        others = [
            s for s in ground.library.standards.values()
            if s.publisher == own.publisher and s.kind == own.kind and s.governs != own.governs
            and s.id.split()[0] == own.id.split()[0]
        ]  # fmt: skip
        others = [s for s in others if s.title[:40] != own.title[:40]]
        if others:
            other = others[(index * 7 + 3) % len(others)]
            words = each.block.text[: each.end + match.end()] + other.title + "."
            yield plant_of(
                "title-swapped", (Edit(each.block.index, words),), "standard-mistitled",
                f"{each.words} has the title of {other.id}.", topic_of(ground, each.block), 4,
            )  # fmt: skip


def _entries(ground: Ground) -> list[Named]:
    """The entries of the list that stand alone in their block, by the register."""
    blocks = [each.block.index for each in ground.named if lists_standards(each.block)]
    return [
        each
        for each in ground.named
        if lists_standards(each.block)
        and each.start == 0
        and blocks.count(each.block.index) == 1
        and each.id in ground.library.standards
    ]


def listed_for_nothing(ground: Ground) -> Iterator[Plant]:
    """The list gets a standard that no paragraph cites."""
    entries = [each for each in _entries(ground) if each.id.startswith("ASTM ")]
    known = {each.id for each in ground.named}
    strangers = [
        s for s in ground.library.standards.values()
        if s.id.startswith("ASTM ") and s.status == "current" and s.id not in known
    ]  # fmt: skip
    for index, each in enumerate(spread(entries, 2)):
        if len(entries) < 3 or not strangers:
            return
        stranger = strangers[(index * 31 + 11) % len(strangers)]
        match = _TITLED.match(each.block.text[each.end :])
        words = stranger.id + (f"{match[0]}{stranger.title}." if match else "")
        yield plant_of(
            "listed-for-nothing", (Edit(each.block.index, words, after=True),),
            "standard-not-cited", f"{stranger.id} is listed and nowhere cited.", "project", 3,
        )  # fmt: skip


def unlisted(ground: Ground) -> Iterator[Plant]:
    """An entry of the list is taken out whose standard a paragraph cites."""
    cited = {each.id for each in ground.named if not lists_standards(each.block)}
    entries = [
        each for each in _entries(ground)
        if each.id in cited and ground.library.standards[each.id].kind != "code"
    ]  # fmt: skip
    for each in spread(entries if len(_entries(ground)) > 4 else []):
        yield plant_of(
            "cited-not-listed", (Edit(each.block.index, None),), "standard-not-listed",
            f"{each.words} is cited and was taken off the list.", topic_of(ground, each.block), 3,
        )  # fmt: skip


def criteria_dropped(ground: Ground) -> Iterator[Plant]:
    """A test loses its pressure and its result."""
    for block in ground.requiring:
        if (
            block.part != 2
            or block.kind != "paragraph"
            or len([*family(ground.outline, block)]) > 1
        ):
            continue
        cited = methods_cited(block, ground.library)
        if len(cited) != 1 or not is_bounded(ground.outline, block, ground.engine):
            continue
        others = [n for n in ground.named if n.id == cited[0].id and n.block.part == 2]
        above = any(re.search(r"\d|pressure", p.text) for p in parents(ground.outline, block))
        if len(others) != 1 or above or cited[0].id not in _PERFORMANCE:
            continue
        label = re.match(r"[^:\t.]{3,40}[:\t]\s?", block.text)
        words = f"{label[0] if label else ''}Test panels and seams under {cited[0].words}."
        yield plant_of(
            "criterion-dropped", (Edit(block.index, words),), "test-without-criterion",
            f"{cited[0].words} stands without pressure and result.", "performance", 3,
        )  # fmt: skip


_PERFORMANCE = ("ASTM E1646", "ASTM E1680", "ASTM E2140", "UL 2218")


WORD_PLANTERS = (
    choices_left, blanks_left, decisions_put_off, notes_left, other_projects, vague_words_added,
    references_broken, articles_skipped, wall_methods, outdated_standards, titles_swapped,
    listed_for_nothing, unlisted, criteria_dropped,
)  # fmt: skip
