"""Products without installation and the reverse; tests without a criterion."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from specgen.engine import Engine
from specgen.review.kinds import found_of
from specgen.review.missing import clause_text
from specgen.review.navigating import (
    family,
    has_parts,
    is_related_work,
    lists_standards,
    parents,
)
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found
from specgen.review.standards_named import methods_cited


@dataclass(frozen=True, slots=True)
class Companion:
    """A product and its installation, which stand together in a section or not at all.

    ``product`` opens a paragraph of Part 2, or is its article's title; ``installed`` is any mention
    in Part 3; ``described`` any mention in Part 2 that describes what Part 3 installs.
    ``installs`` and ``describes`` are the clauses that would fill either.
    """

    name: str
    product: re.Pattern[str]
    installed: re.Pattern[str]
    described: re.Pattern[str]
    installs: tuple[str, ...]
    describes: tuple[str, ...]
    topic: str


def _re(words: str) -> re.Pattern[str]:
    return re.compile(words, re.IGNORECASE)


def _companion(
    name: str, words: str, installs: str, describes: str, topic: str, more: str = ""
) -> Companion:
    """A companion that the same words name as a product and as work."""
    mention = _re(rf"\b(?:{words}{'|' + more if more else ''})")
    opens = _re(
        rf"^\W{{0,3}}(?:[A-Z][\w-]*\s){{0,3}}?(?:{words})\b[^.]{{0,40}}?[:.,–—-]|^"
        rf"(?:{words})\b"
    )
    return Companion(
        name, opens, mention, mention, tuple(installs.split()), tuple(describes.split()), topic
    )


COMPANIONS = (
    _companion("underlayment", "underlayments?|felts?", "install-underlayment-self-adhering"
               " install-underlayment-synthetic install-underlayment-felt",
               "underlayment-self-adhering underlayment-synthetic underlayment-felt",
               "underlayment", "self-adher|membrane|ice barrier"),
    _companion("ice barrier", "ice (?:barrier|and water|dam)", "install-ice-barrier",
               "ice-barrier-sheet", "underlayment", "self-adher"),
    _companion("slip sheet", "slip[ -]?sheets?|building paper|rosin(?:-sized)? paper",
               "install-slip-sheet", "slip-sheet", "underlayment", "paper"),
    _companion("vapor retarder", "vapor (?:retarder|barrier)s?", "install-vapor-retarder",
               "vapor-retarder-sheet", "support"),
    _companion("insulation", "insulation(?! tape)|polyiso", "install-insulation-boards"
               " install-insulation-blanket", "insulation-boards insulation-blanket", "support",
               "boards?|blanket"),
    _companion("cover board", "cover[ -]?boards?", "install-cover-board", "cover-board-product",
               "support", "boards?|gypsum"),
    _companion("snow retention", "snow (?:retention|rails?|pads?|fences?|guards?|stops?)",
               "install-snow-retention", "snow-retention-product", "accessories"),
    _companion("gutters", "gutters?(?: and downspouts?)?|downspouts?", "install-gutters",
               "gutters-product", "accessories"),
    _companion("walkways", "walkways?|walk (?:planks|pads)", "install-walkways", "walkway-product",
               "accessories", "planks?"),
    _companion("ridge vents", "ridge vents?|vented[ -]ridge", "install-ridge-vent",
               "ridge-vent-product", "accessories", "vents?"),
    _companion("pipe flashings", "pipe (?:flashings?|boots?|collars?)|boots?",
               "install-pipe-flashings", "pipe-flashings", "accessories", "pipes?|penetrations?"),
    _companion("roof curbs", "(?:roof |equipment )?curbs?", "install-roof-curbs", "roof-curbs",
               "accessories", "penetrations?"),
    _companion("flashings", "flashings?(?: and trim)?|trim", "install-flashings", "flashing-metal",
               "accessories", "flash\\b"),
    _companion("closures", "closures?", "install-closures", "", "accessories",
               "end dams?"),
    _companion("clips", "clips?|cleats?", "set-clips", "clips-two-piece clips-one-piece",
               "attachment"),
    _companion("exposed sealant", "(?:exposed |joint )?sealants?", "apply-exposed-sealant",
               "exposed-sealant", "sealant", "seal\\b|butyl|caulk"),
    _companion("seam clamps for modules", "(?:module|photovoltaic|solar) (?:clamps?|attachments?)",
               "install-pv-clamps", "pv-clamps", "accessories", "photovoltaic|solar|clamps?"),
)  # fmt: skip

_INSTALLING = re.compile(
    r"\b(?:install|apply|set|lay|place|fasten|attach|hang|adhere|roll out|mount)\b", re.IGNORECASE
)
_BY_OTHERS = re.compile(
    r"\b(?:by others|other sections?|section \d\d|not (?:in|part of)|no\b|none|without|existing)",
    re.IGNORECASE,
)
_CRITERION = re.compile(
    r"\bclass\b|\bno (?:leak|water|uncontrolled)|\bwithout (?:leak|uncontrolled)|\bpass|\brat"
    r"(?:ed|ing)\b"
    r"|\bnot less than\b|\bnot (?:more|greater|over)\b|\bat least\b|\bminimum\b|\bmaximum\b|\b"
    r"(?:uplift|wind|design)"
    r"(?: \w+)? (?:pressures?|loads?)\b|\bpressures? (?:given|stated|listed|scheduled|shown|of|in"
    r"|above|below)"
    r"|\bspecified (?:pressures?|loads?)|\bpressures?\b|\bno failure\b|\btwice\b|\bfactor\b",
    re.IGNORECASE,
)  # fmt: skip
_FIGURE = re.compile(r"\d+(?:[-/.,]\d+)*")
# The methods that a roof assembly is judged by; a method for a material has its limits in the
# material's own standard.
_ASSEMBLY_METHODS = frozenset(
    (
        "ASTM E1592", "ASTM E1646", "ASTM E1680", "ASTM E2140", "UL 580", "UL 1897", "UL 2218",
        "UL 790", "ASTM E108", "ASTM E283/E283M", "ASTM E331", "ASTM E330/E330M", "FM 4474",
        "TAS 125", "TAS 100", "ASTM E84", "UL 723",
    )
)  # fmt: skip


def companions_found(outline: Outline, engine: Engine) -> Iterator[Found]:
    """Each product that nothing installs and each installation of what nothing describes."""
    if not has_parts(outline):
        return
    for companion in COMPANIONS:
        product = next(products_of(companion, outline), None)
        if product is not None and not mentioned(companion.installed, outline, 3):
            clause, text = _first_standing(companion.installs, engine)
            says = f"{_capital(companion.name)} stand in Part 2, and Part 3 does not install them."
            if not companion.name.endswith("s"):
                says = f"{_capital(companion.name)} stands in Part 2; Part 3 does not install it."
            end = _head(product)
            yield found_of(
                "product-without-installation", says, product, 0, end, fills=clause, fills_with=text
            )
        work = next(works_of(companion, outline), None)
        if work is not None and companion.describes and not _named_elsewhere(companion, outline):
            clause, text = _first_standing(companion.describes, engine)
            says = f"Part 3 installs {companion.name}; Part 2 does not say of what kind."
            yield found_of(
                "installation-without-product",
                says,
                work,
                0,
                _head(work),
                fills=clause,
                fills_with=text,
            )


def products_of(companion: Companion, outline: Outline) -> Iterator[Block]:
    """The paragraphs of Part 2 that describe a product."""
    for block in outline.said():
        if block.part != 2 or block.hidden or is_related_work(outline, block):
            continue
        head = block.text[:60]
        if companion.product.search(head) and not _BY_OTHERS.search(block.text[:120]):
            yield block


def works_of(companion: Companion, outline: Outline) -> Iterator[Block]:
    """The paragraphs of Part 3 that install a product by its own name."""
    name = re.compile(companion.product.pattern.rpartition("|^")[2] or "$.^", re.IGNORECASE)
    for block in outline.said():
        if block.part != 3 or block.hidden:
            continue
        own = name.match(block.text)
        asked = re.match(r"(?:Install|Set|Lay|Apply|Hang)\s(?:the\s)?", block.text)
        if asked is not None:
            own = own or name.match(block.text[asked.end() :])
        if own and _INSTALLING.search(block.text) and not _BY_OTHERS.search(block.text[:160]):
            yield block


def mentioned(words: re.Pattern[str], outline: Outline, part: int) -> bool:
    """Whether words stand anywhere in a part, its article titles included."""
    return any(
        words.search(block.text)
        for block in outline.blocks
        if block.part == part and block.kind not in ("page", "title") and not block.hidden
    )


def _named_elsewhere(companion: Companion, outline: Outline) -> bool:
    """Whether Part 2 describes a product, or Part 1 leaves it to another section."""
    if mentioned(companion.described, outline, 2):
        return True
    return any(
        companion.described.search(block.text)
        and (is_related_work(outline, block) or _BY_OTHERS.search(block.text))
        for block in outline.said()
        if block.part == 1
    )


def _first_standing(names: tuple[str, ...], engine: Engine) -> tuple[str, str]:
    for name in sorted(names, key=lambda n: not _stands(n, engine)):
        if name in engine.library.clauses and (text := clause_text(name, engine)):
            return name, text
    return "", ""


def _stands(name: str, engine: Engine) -> bool:
    standing = engine.standings.get(name)
    return standing is not None and standing.stands is True


def _head(block: Block) -> int:
    """Where the opening words of a paragraph end."""
    colon = re.search(r"[:.]", block.text)
    return colon.start() if colon is not None and colon.start() else min(len(block.text), 60)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# ------------------------------------------------------------------------ tests without criterion


def unbounded_tests(outline: Outline, engine: Engine) -> Iterator[Found]:
    """The methods that the document asks for and nowhere sets a figure, class or outcome to."""
    first: dict[str, tuple[Block, int, int]] = {}
    bounded: set[str] = set()
    for block in outline.said():
        if block.part != 2 or block.hidden or lists_standards(block):
            continue
        cited = [
            each for each in methods_cited(block, engine.library) if each.id in _ASSEMBLY_METHODS
        ]
        for each in cited:
            first.setdefault(each.id, (block, each.start, each.end))
            if is_bounded(outline, block, engine):
                bounded.add(each.id)
    for name, (block, start, end) in first.items():
        if name not in bounded:
            says = f"{block.text[start:end]} is asked for without a criterion."
            yield found_of("test-without-criterion", says, block, start, end)


def is_bounded(outline: Outline, block: Block, engine: Engine) -> bool:
    """Whether a test's paragraph, or what stands below or right above it, sets what passes."""
    near = [*family(outline, block), *parents(outline, block)]
    if block.kind == "row":
        near += [b for b in outline.blocks[block.index + 1 : block.index + 2] if b.kind == "row"]
    return any(_bounds(each, engine) for each in near)


def _bounds(block: Block, engine: Engine) -> bool:
    bare = block.text
    for each in reversed(methods_cited(block, engine.library)):
        bare = bare[: each.start] + " " + bare[each.end :]
    return bool(_FIGURE.search(bare) or _CRITERION.search(bare))
