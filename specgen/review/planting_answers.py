"""Faults of the roof that can be planted: an answer changed wherever the document gives it, so that
the library's checks contradict it, and an answer changed in one place of several."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from specgen.checks import Finding
from specgen.library import FINDING_KINDS
from specgen.questions import AnswerError, read_answer
from specgen.review.contradictions import STATED_TWICE
from specgen.review.findings import left_out
from specgen.review.navigating import lists_standards
from specgen.review.planting_ground import Ground, swapped
from specgen.review.shapes import Edit, Plant, Statement
from specgen.values import Value

# A figure with its unit, and the same in other units behind it.
_QUANTITY = re.compile(
    r"(?<![\w/.])\d[\d,]*(?:[.-]\d[\d/]*|/\d+|\s\d+/\d+)?\s?-?(?:gauge|ga\b\.?|inch"
    r"(?:es)?|in\b\.?|ft\b\.?|feet|foot|mm|m\b|psf|kPa"
    r"|Pa\b|hours?|years?|mph|m/s|oz\b\.?|ounces?|mils?|[\"'”′″])(?:\s?[(\[][^)\]]{2,25}[)\]])?"
)
_SLOPE = re.compile(
    r"\d[\d./ -]{0,6}?\s?(?::|in|on)\s?12\b|\d+(?:\.\d+)?\s?(?:percent|%|degrees"
    r"|deg)"
)
_COUNT = re.compile(r"(?<![\w/.])\d{1,3}(?![\w/.]|\.\d)|\b(?:one|two|three|four|five|ten|twenty)\b")
# What names an answer that is changed in one place only.
_TWO_ANSWERS = frozenset((STATED_TWICE, "same-words-other-figures"))


@dataclass(frozen=True, slots=True)
class Change:
    """One answer made wrong: ``to`` as typed in a brief; ``words`` put in the place of what
    ``reads`` matches, wherever the document reads so; with no ``reads``, of its figures.

    ``level`` tells a student how hard it is to see.
    """

    kind: str
    question: str
    to: tuple[str, ...]
    level: int
    reads: str = ""
    words: str = ""


_FIGURES = (
    Change("slope-lowered", "lowest_slope", ("2:12", "1:12", "1/4:12"), 3),
    Change("panel-too-thin", "panel_thickness", ("26 ga", "0.020 in", "12 oz", "0.6 mm"), 3),
    Change("panels-too-long", "panel_run", ("140 ft", "220 ft"), 4),
    Change("panels-too-wide", "panel_width", ("24 in", "30 in"), 4),
    Change("clip-travel-short", "clip_travel", ("1/4 in", "1/8 in"), 4),
    Change("free-end-gap-short", "free_end_gap", ("1/8 in",), 4),
    Change("fasteners-short", "fastener_penetration", ("1/4 in",), 4),
    Change("head-below-seam", "static_head", ("1 in",), 4),
    Change("head-held-briefly", "static_head_hours", ("1",), 3),
    Change("water-pressure-low", "water_pressure", ("1.57 psf",), 5),
    Change("air-pressure-low", "air_pressure", ("0.57 psf",), 5),
    Change("finish-term-too-long", "finish_warranty_years", ("50",), 4),
    Change("workmanship-one-year", "workmanship_years", ("1",), 2),
    Change("visits-too-few", "manufacturer_visits", ("1",), 4),
    Change("deck-too-thin", "wood_deck_thickness", ("3/8 in",), 3),
)
_CHOICES = (
    Change("seam-against-slope", "seam", ("snap-lock",), 2,
           r"(?:double|single)[ -]?(?:lock(?:ed)?|fold(?:ed)?)", "snap-lock"),
    Change("one-piece-clips", "clip_kind", ("one-piece",), 3,
           r"two[ -]?(?:piece|part)|sliding", "one-piece"),
    Change("galvanic-clips", "clip_metal", ("copper", "coated-steel"), 3),
    Change("galvanic-screws", "fastener_metal", ("coated-carbon-steel",), 4),
    Change("test-over-deck", "uplift_tests", ("ul-580",), 4, r"ASTM E\s?1592", "UL 580"),
    Change("wind-standard-newer", "wind_standard", ("asce-7-22",), 5,
           r"(?<=7-)16\b(?! )|(?<=7-)16(?= )", "22"),
    Change("wind-standard-older", "wind_standard", ("asce-7-16",), 5,
           r"(?<=7-)22\b(?! )|(?<=7-)22(?= )", "16"),
    Change("end-laps-allowed", "end_laps", ("yes",), 4,
           r"(?:and )?(?:with )?(?:without|no) end[ -]laps?", "with end laps"),
    Change("support-changed", "support", ("open-framing",), 4,
           r"\b(?:steel deck|plywood deck|wood deck|plywood)\b", "open framing"),
)  # fmt: skip
# What a metal of clips or screws is called, to be changed for another.
_METAL = re.compile(
    r"(?:austenitic )?stainless steel|(?:hot-dip(?:ped)? )?(?:galvanized|zinc-coated|coated|carbon)"
    r"(?: carbon)?(?: structural)? steel|structural steel sheet|copper|steel sheet",
    re.IGNORECASE,
)
# The standard and the coating of a metal, which go with it.
_OF_THE_METAL = re.compile(
    r"(?:,|\sto|\sunder|\sconforming to)?\sASTM [A-Z]\s?\d+(?:/[A-Z]\s?\d+M)?"
    r"|,?(?: with)?\s(?:A?Z\d{2,3}|G\d{2,3})(?: coating)?(?: or)?|, Type 3(?:04|16)"
)
_METAL_WORDS = {
    "copper": "copper",
    "coated-steel": "galvanized steel",
    "coated-carbon-steel": "zinc-coated carbon steel",
}


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """An answer made wrong by saying no: the first paragraph that gives it is replaced by
    ``words``, the others that give it or one of ``also`` are taken out."""

    kind: str
    question: str
    to: str
    words: str
    also: tuple[tuple[str, str], ...]
    level: int


_WITHDRAWN = (
    Withdrawn("seam-left-dry", "seam_sealant", "none",
              "Seams: dry, without sealant in the fold.", (), 3),
    Withdrawn("felt-under-metal", "underlayment", "felt",
              "Underlayment: asphalt-saturated organic felt, ASTM D226/D226M, Type II; no slip"
              " sheet.",
              (("slip_sheet", "none"),), 4),
    Withdrawn("roof-not-inspected", "weathertight_inspection", "none",
              "No inspection of the roof is required for the weathertightness warranty.", (), 4),
    Withdrawn("mock-up-left-out", "mock_up", "none", "Mock-up: none.", (), 4),
)  # fmt: skip


def answers_changed(ground: Ground) -> Iterator[Plant]:
    """Each change of an answer that a check of the library contradicts."""
    for change in (*_FIGURES, *_CHOICES):
        for raw in change.to:
            plant = _changed(ground, change, raw)
            if plant is not None:
                yield plant
                break
    for each in _WITHDRAWN:
        plant = _withdrawn(ground, each)
        if plant is not None:
            yield plant


def _changed(ground: Ground, change: Change, raw: str) -> Plant | None:
    """The plant of one change, or None where no check speaks against it here."""
    question = ground.library.questions.get(change.question)
    if question is None or change.question not in ground.understanding.answers:
        return None
    typed: object = [raw] if question.kind == "choices" else raw
    raised = _raised(ground, {change.question: typed})
    if not raised:
        return None
    statements = ground.statements(change.question)
    if question.kind == "choice" and not change.reads:
        edits = _metals(ground, statements, _METAL_WORDS.get(raw, raw))
    elif change.reads:
        edits = _reworded(ground, change)
    else:
        edits = _figures(ground, statements, raw)
    return _plant(ground, change.kind, edits, raised, question.topic, change.level)


def _withdrawn(ground: Ground, change: Withdrawn) -> Plant | None:
    if change.question not in ground.understanding.answers:
        return None
    typed = {change.question: change.to, **dict(change.also)}
    blocks = {
        each.at.block
        for name in (change.question, *dict(change.also))
        for each in ground.statements(name)
    }
    paragraphs = [ground.outline.blocks[index] for index in sorted(blocks)]
    if not 0 < len(paragraphs) <= 5:
        return None
    lost = _answered_only_by(ground, blocks)
    raised = [
        finding
        for finding in _raised(ground, typed)
        if not lost & (set(finding.answers) - set(typed))
    ]
    if not raised:
        return None
    first = next((b for b in paragraphs if b.part > 1 or change.question != "seam_sealant"), None)
    if first is None:
        return None
    edits = [Edit(first.index, change.words)]
    edits += [Edit(block.index, None) for block in paragraphs if block is not first]
    topic = ground.library.questions[change.question].topic
    return _plant(ground, change.kind, tuple(edits), raised, topic, change.level)


def _answered_only_by(ground: Ground, blocks: set[int]) -> set[str]:
    """The questions that nothing but blocks that would go answers."""
    elsewhere = {
        each.question for each in ground.understanding.statements if each.at.block not in blocks
    }
    return set(ground.understanding.answers) - elsewhere


def _plant(
    ground: Ground,
    kind: str,
    edits: tuple[Edit, ...],
    raised: list[Finding],
    topic: str,
    level: int,
) -> Plant | None:
    if not edits:
        return None
    worst = raised[0]
    finds = frozenset(finding.id for finding in raised) | _TWO_ANSWERS
    return Plant(kind, edits, finds, worst.says, worst.because, worst.source, topic, level)


def _raised(ground: Ground, typed: Mapping[str, object]) -> list[Finding]:
    """The checks that answers would raise and that are not raised now, the gravest first.

    Of those only that a document can be held to: they are decided by what it states.
    """
    try:
        values: dict[str, Value | None] = {
            name: read_answer(ground.library.questions[name], raw) for name, raw in typed.items()
        }
    except AnswerError:
        return []
    after = ground.engine.answering_all(values)
    new = [
        finding
        for name, finding in after.found.items()
        if name not in ground.engine.found
        and set(typed) & set(finding.answers)
        and not any(
            left_out(each, after) for each in finding.answers if each in ground.library.questions
        )
    ]
    return sorted(new, key=lambda finding: FINDING_KINDS.index(finding.kind))


# ------------------------------------------------------------------------------------------ edits


def _figures(ground: Ground, statements: list[Statement], raw: str) -> tuple[Edit, ...]:
    """Edits that put another figure in every place that gives one; none if a place gives none."""
    texts: dict[int, str] = {}
    for each in sorted(statements, key=lambda s: (s.at.block, -s.at.start)):
        text = texts.get(each.at.block, ground.block(each).text)
        span = _figure_in(text, each)
        if span is None:
            return ()
        texts[each.at.block] = (
            text[: span[0]] + _like(text[span[0] : span[1]], raw) + text[span[1] :]
        )
    return tuple(Edit(index, text) for index, text in texts.items())


def _figure_in(text: str, statement: Statement) -> tuple[int, int] | None:
    """Where the figure of a statement stands in its block."""
    start, end = statement.at.start, statement.at.end or len(text)
    for pattern in (_SLOPE, _QUANTITY) if ":12" in str(statement.raw) else (_QUANTITY, _COUNT):
        found = [m for m in pattern.finditer(text) if m.start() >= start and m.start() < end]
        if len(found) == 1:
            return found[0].span()
        if found:
            same = [m for m in found if _says(m[0], str(statement.raw))]
            if same:
                return same[0].span()
    return None


def _says(words: str, raw: str) -> bool:
    """Whether words carry the number of an answer as typed."""
    number = re.match(r"[\d./-]+", raw)
    return (
        number is not None
        and re.search(rf"(?<![\d./]){re.escape(number[0])}(?![\d/])", words) is not None
    )


def _like(old: str, raw: str) -> str:
    """A figure as typed, with the word for years or hours that the old one had."""
    unit = re.search(r"(?P<gap>[ -])(?P<word>years?|hours?)", old)
    if raw.isdigit() and unit is not None:
        return f"{raw}{unit['gap']}{unit['word']}"
    return raw


def _reworded(ground: Ground, change: Change) -> tuple[Edit, ...]:
    """Edits that reword what a document says of an answer, wherever it does."""
    reads = re.compile(change.reads, re.IGNORECASE)
    edits = []
    for block in ground.outline.blocks:
        if block.kind in ("page", "part", "article") or block.hidden:
            continue
        if lists_standards(block) and not change.question.startswith("wind"):
            continue
        text = reads.sub(lambda match: _in_case(match[0], change.words), block.text)
        if text != block.text:
            edits.append(Edit(block.index, text))
    given = {each.at.block for each in ground.statements(change.question)}
    return tuple(edits) if given & {edit.block for edit in edits} else ()


def _in_case(old: str, new: str) -> str:
    return new[:1].upper() + new[1:] if old[:1].isupper() else new


def _metals(ground: Ground, statements: list[Statement], words: str) -> tuple[Edit, ...]:
    """Edits that put another metal in the place of the one that statements give."""
    edits = {}
    for each in statements:
        block = ground.block(each)
        match = _METAL.search(block.text, each.at.start)
        if match is None or match.start() > each.at.end + 5:
            return ()
        rest = _OF_THE_METAL.sub("", block.text[match.end() :])
        text = block.text[: match.start()] + _in_case(match[0], words) + rest
        edits[block.index] = Edit(block.index, text)
    return tuple(edits.values())


# ------------------------------------------------------------------------- in one place of several


_IN_ONE_PLACE = (
    ("warranty-shortened", ("weathertight_years", "finish_warranty_years", "workmanship_years"), 3),
    ("value-changed-once", (
        "panel_width", "panel_thickness", "seam_height", "static_head", "air_pressure",
        "water_pressure", "wind_speed", "clip_travel", "free_end_gap", "installer_years",
        "mean_roof_height", "panel_run", "insulation_thickness",
    ), 4),
    ("slope-changed-once", ("lowest_slope",), 3),
)  # fmt: skip


def changed_in_one_place(ground: Ground) -> Iterator[Plant]:
    """One of two equal figures is changed, and the document answers a question twice."""
    for kind, questions, level in _IN_ONE_PLACE:
        for name in questions:
            statements = ground.statements(name)
            blocks = list(dict.fromkeys(each.at.block for each in statements))
            if len(blocks) < 2:
                continue
            last = next(each for each in statements if each.at.block == blocks[-1])
            block = ground.block(last)
            span = _figure_in(block.text, last)
            other = _another(block.text[span[0] : span[1]]) if span is not None else None
            if span is None or other is None:
                continue
            first = ground.outline.blocks[blocks[0]]
            label = ground.library.questions[name].label
            says = f"{label[:1].upper()}{label[1:]} is one figure at {first.place or 'one place'}"
            yield Plant(
                kind=kind,
                edits=(swapped(block, *span, other),),
                finds=_TWO_ANSWERS,
                says=f"{says} and another at {block.place or 'another'}.",
                because="Two figures for one requirement leave the choice to whoever gains by it.",
                source="common practice",
                topic=ground.library.questions[name].topic,
                level=level,
            )


_GAUGES = {"24": "26", "22": "24", "26": "24", "20": "22"}


def _another(figure: str) -> str | None:
    """A figure like another, plainly different; None where none comes to mind."""
    match = re.match(r"\d+(?:\.\d+)?(?![\d/-])", figure)
    if match is None:
        slope = re.match(r"(\d+)/(\d+)(?=\s?(?::|in|on))", figure)
        return None if slope is None else "3" + figure[slope.end() :]
    number, rest = match[0], figure[match.end() :]
    if re.match(r"[ -]?(?:ga|gauge)", rest):
        return _GAUGES[number] + re.sub(r"\s?[(\[].*", "", rest) if number in _GAUGES else None
    if "." in number:
        places = len(number.partition(".")[2])
        changed = f"{float(number) * 1.5:.{places}f}"
    elif re.match(r"[ -]years?", rest) or not rest:
        changed = str(int(number) // 2 if int(number) > 5 else int(number) + 3)
    else:
        changed = str(int(number) + 2 if int(number) < 40 else int(number) + 10)
    return changed + re.sub(r"\s?[(\[].*", "", rest) if changed != number else None


ANSWER_PLANTERS = (answers_changed, changed_in_one_place)
