"""Faults of the roof: an answer that contradicts the others, and the section drafted from it.

The whole section follows the wrong answer, so that nothing else in it is at odds; what is wrong is
what the library's checks find against the answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from specgen.checks import Finding
from specgen.document_checks import document_findings
from specgen.engine import Engine
from specgen.library import Clause
from specgen.questions import QUANTITY_KINDS
from specgen.section import open_questions
from specgen.study.practice_projects import Project, engine_of, values_of


@dataclass(frozen=True, slots=True, eq=False)
class Wrong:
    """An answer made wrong; each is itself alone.

    ``answers`` are given as typed, the wrong one first; ``records`` replaces columns of the test
    records, so that they follow. ``check`` must find it; the checks in ``brings`` may find it too,
    though they read other answers. The right place to mark is the paragraph of ``clause``, or with
    ``missing`` the article in which that clause would stand; those of ``beside`` are the other half
    of the contradiction.
    """

    kind: str
    level: int
    answers: Mapping[str, object]
    check: str
    clause: str
    records: Mapping[str, str] = field(default_factory=dict)
    brings: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    missing: bool = False

    @property
    def question(self) -> str:
        return next(iter(self.answers))


_METALS = (
    "panel-metal-steel", "panel-metal-aluminum", "panel-metal-zinc", "panel-metal-copper",
    "clip-metal-stainless", "fastener-metal-coated",
)  # fmt: skip
WRONG = (
    Wrong("movement", 5, {"clip_travel": "1/4 in"}, "clip-travel-short", "clip-travel"),
    Wrong("movement", 5, {"free_end_gap": "1/8 in"}, "free-end-gap-short", "free-end-gap"),
    Wrong("movement", 4, {"clip_kind": "one-piece"}, "one-piece-clips-over-movement",
          "clips-one-piece", {"clip": "one-piece"}),
    Wrong("seam-for-slope", 5, {"seam": "snap-lock"}, "snap-lock-below-2-12",
          "panel-seam-snap-lock", {"seam": "snap-lock"}),
    Wrong("test-too-mild", 5, {"static_head": "1 in"}, "static-head-below-seam",
          "static-head-test"),
    Wrong("test-too-mild", 4, {"static_head_hours": "2"}, "static-head-short", "static-head-test"),
    Wrong("test-too-mild", 4, {"water_pressure": "1.57 psf"}, "water-pressure-below-method",
          "water-penetration-test"),
    Wrong("uplift-test", 5, {"uplift_tests": ["ul-1897"]}, "framing-tested-over-deck",
          "uplift-test-ul1897", {"test": "UL 1897"}, ("record-of-another-assembly",)),
    Wrong("uplift-test", 5, {"uplift_tests": ["astm-e1592"]}, "deck-tested-by-e1592-alone",
          "uplift-test-e1592", {"test": "ASTM E1592"}),
    Wrong("metals", 4, {"clip_metal": "copper"}, "copper-clips-under-lesser-metal",
          "clip-metal-copper", beside=_METALS),
    Wrong("metals", 4, {"clip_metal": "coated-steel"}, "noble-panels-steel-clips",
          "clip-metal-coated-steel", beside=_METALS),
    Wrong("metals", 4, {"fastener_metal": "coated-carbon-steel"}, "noble-panels-steel-screws",
          "fastener-metal-coated", beside=_METALS),
    Wrong("too-thin", 3, {"panel_thickness": "26 ga"}, "steel-thinner-than-24-gauge",
          "panel-thickness-steel", {"thickness": "26 ga"}),
    Wrong("too-thin", 3, {"panel_thickness": "0.018 in"}, "aluminum-below-code",
          "panel-thickness-aluminum", {"thickness": "0.018 in"}),
    Wrong("too-thin", 3, {"panel_thickness": "12 oz"}, "copper-below-code",
          "panel-thickness-copper", {"thickness": "12 oz"}),
    Wrong("too-thin", 3, {"panel_thickness": "0.6 mm"}, "zinc-below-code",
          "panel-thickness-zinc", {"thickness": "0.6 mm"}),
    Wrong("too-thin", 4, {"wood_deck_thickness": "3/8 in"}, "thin-wood-deck",
          "clip-fasteners-wood"),
    Wrong("underlayment", 4, {"underlayment_temperature": "180 degF"},
          "self-adhering-sheet-not-for-heat", "underlayment-heat"),
    Wrong("warranty", 4, {"finish_warranty_years": "50"}, "pvdf-term-beyond-coating",
          "warranty-finish"),
    Wrong("warranty", 3, {"workmanship_years": "1"}, "workmanship-one-year",
          "warranty-workmanship"),
    Wrong("warranty", 4, {"weathertight_inspection": "none"}, "weathertight-without-inspection",
          "warranty-weathertight-inspection-none"),
    Wrong("not-in-force", 4, {"wind_standard": "asce-7-16"}, "wind-standard-older-than-code",
          "computed-pressure-table", brings=("standard-not-current", "standard-superseded")),
    Wrong("not-in-force", 5, {"wind_standard": "asce-7-22"}, "wind-standard-newer-than-code",
          "computed-pressure-table"),
    Wrong("missing", 4, {"static_head_test": "no"}, "low-slope-without-static-head",
          "static-head-test", missing=True),
    Wrong("missing", 4, {"bearing_plates": "no"}, "insulation-without-bearing-plates",
          "bearing-plates", missing=True),
    Wrong("missing", 3, {"fire_class": "none"}, "no-fire-class", "fire-class", missing=True),
)  # fmt: skip


@dataclass(frozen=True)
class Wronged:
    """A project with wrong answers: the engine that holds them, and the findings of each."""

    engine: Engine
    findings: Mapping[Wrong, tuple[Finding, ...]]


def raised(wrong: Wrong, project: Project) -> bool:
    """Whether a wrong answer by itself is one of this project's questions and its check finds it:
    a first sieve, quicker than `wronged`."""
    engine = project.engine
    if wrong.question not in engine.answers or wrong.check not in engine.library.checks:
        return False
    values = values_of(engine.library, wrong.answers)
    return wrong.check in engine.answering_all(values).found


def wronged(project: Project, wrongs: Sequence[Wrong]) -> Wronged | None:
    """The project with every one of the wrong answers, each of which is `raised` by itself; None
    where one does not come out as a fault, or where anything comes out that is none of them."""
    if not wrongs:
        return Wronged(project.engine, {})
    library = project.engine.library
    typed = dict(project.typed)
    for wrong in wrongs:
        typed.update(wrong.answers)
        typed["test_records"] = _with_columns(typed["test_records"], wrong.records)
    engine = engine_of(library, typed)
    new = [each for name, each in engine.found.items() if name not in project.engine.found]
    findings = {
        wrong: tuple(each for each in new if set(wrong.answers) & set(each.answers))
        for wrong in wrongs
    }
    named = {each.id for held in findings.values() for each in held}
    named |= {name for wrong in wrongs for name in wrong.brings}
    in_document = [
        each for each in document_findings(engine.scope, engine.section) if each.kind != "caution"
    ]
    unplanned = [each for each in (*new, *in_document) if each.id not in named]
    found = all(wrong.check in engine.found for wrong in wrongs)
    if not found or unplanned or open_questions(engine.section):
        return None
    if any(place_of(wrong, engine) is None for wrong in wrongs):
        return None
    return Wronged(engine, findings)


def _with_columns(records: object, columns: Mapping[str, str]) -> object:
    assert isinstance(records, Sequence)
    return [{**record, **columns} for record in records]


def place_of(wrong: Wrong, engine: Engine) -> str | None:
    """The number of the paragraph or article to mark, None where it is not in the section."""
    if not wrong.missing:
        return engine.section.places.get(wrong.clause)
    clause = engine.library.clauses.get(wrong.clause)
    if clause is None or wrong.clause in engine.section.places:
        return None
    return engine.section.article_numbers.get(clause.article)


def worst(wrong: Wrong, held: Wronged) -> Finding:
    """The finding by which a wrong answer is told."""
    return held.engine.found[wrong.check]


def held_against(wrong: Wrong, held: Wronged) -> Iterator[str]:
    """The places that say the wrong answer again, or that print the figures and values with which
    the findings compare it."""
    engine = held.engine
    library = engine.library
    names = set(wrong.answers)
    places = {*wrong.beside, *(library.checks[f.id].place for f in held.findings[wrong])}
    for finding in held.findings[wrong]:
        compared = (*finding.answers, *library.checks[finding.id].when.names)
        names.update(name for name in compared if library.kind_of(name) in QUANTITY_KINDS)
    for paragraph, place, _ in engine.section.required:
        clause = library.clauses[paragraph.reason.clause]
        if clause.id in places or _prints(clause, names):
            yield place


def _prints(clause: Clause, names: set[str]) -> bool:
    return any(names & each.names for each in clause.text.expressions)


def before(wrong: Wrong, project: Project, held: Wronged) -> str:
    """What stood in the place of the wrong words: the same clause with the right answer, or the
    clause that gave way to it; empty where neither does."""
    section, library = project.engine.section, project.engine.library
    texts = {paragraph.reason.clause: text for paragraph, _, text in section.required}
    if wrong.clause in texts:
        return texts[wrong.clause]
    clause = library.clauses[wrong.clause]
    for other, text in texts.items():
        own = library.clauses[other]
        beside = (own.article, own.under) == (clause.article, clause.under)
        reads = own.when is not None and wrong.question in own.when.names
        if beside and reads and other not in held.engine.section.places:
            return text
    return ""
