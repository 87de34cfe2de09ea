"""What holds for the section of any valid brief, complete or not."""

from __future__ import annotations

import io
import random
import re
import zipfile
from pathlib import Path
from types import MappingProxyType

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from specgen.assemble import assemble
from specgen.brief import Brief, read_brief
from specgen.integrity import designations_in
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section, label_for, open_questions
from specgen.spans import ArticleReference
from specgen.writers.docx import write_docx
from tests.briefs import random_answers
from tests.support import EXAMPLES

UNFINISHED = ("{{", "{%", "None", "NOT_ASKED", "  ", " ,", "..")
INCH_POUND = re.compile(r"\b(?:inch(?:es)?|foot|feet|pounds?|ounces?|psf|psi|mph)\b|°F", re.I)
CHANCE = st.integers(min_value=0, max_value=2**32)
UNANSWERED = st.sampled_from([0.0, 0.0, 0.02, 0.3, 0.9])
MANY = settings(
    max_examples=150,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


def faults_of_section(section: Section, library: Library) -> list[str]:
    """Everything that may never be true of a drafted section."""
    faults = []
    present, waiting, cited, listed, named = (set[str]() for _ in range(5))
    for part_index, part in enumerate(section.parts, 1):
        for index, article in enumerate(part.articles, 1):
            if article.number != f"{part_index}.{index}":
                faults.append(f"{article.id} is numbered {article.number}")
            if not article.paragraphs:
                faults.append(f"{article.id} is empty")
            faults += _labels(article.paragraphs, 1)
            for paragraph in article.walk():
                text = section.plain(paragraph.spans)
                name = paragraph.reason.clause or f"a computed paragraph of {article.id}"
                present.add(paragraph.reason.clause)
                cited.update(paragraph.reason.cites)
                if paragraph.decision is not None:
                    waiting.update(paragraph.decision.clauses)
                elif article.id == "references" and not paragraph.reason.clause:
                    if paragraph.level == 2:
                        listed.add(text)
                elif not paragraph.reason.clause:
                    named.update(designations_in(text))
                elif missing := set(designations_in(text)) - set(_spelled(paragraph.reason.cites)):
                    faults.append(f"{name} names {missing} without citing")
                if any(mark in text for mark in UNFINISHED):
                    faults.append(f"{name} reads {text!r}")
                if not text.endswith((".", ":", "?", ")")) and paragraph.decision is None:
                    faults.append(f"{name} has no final stop: {text!r}")
                if text.endswith(":") and not paragraph.children and not paragraph.tables:
                    faults.append(f"{name} leads to nothing")
    for paragraph in section.paragraphs():
        for needed in paragraph.reason.needs:
            if needed not in present | waiting:
                faults.append(f"{paragraph.reason.clause} needs {needed}, which is not there")
        for span in paragraph.spans:
            if isinstance(span, ArticleReference) and span.article not in section.article_numbers:
                faults.append(f"{paragraph.reason.clause} refers to {span.article}")
    if unlisted := named - set(_spelled(tuple(cited))):
        faults.append(f"a computed list names {unlisted}, which no paragraph cites")
    titles = {f"{c}, {library.standards[c].title.rstrip('.')}." for c in cited}
    if titles != listed:
        faults.append(f"cited and listed differ: {titles ^ listed}")
    return faults


def _spelled(cites: tuple[str, ...]) -> list[str]:
    return [name for cited in cites for name in (cited, *designations_in(cited))]


def _labels(paragraphs: tuple[object, ...], level: int) -> list[str]:
    faults = []
    for index, paragraph in enumerate(paragraphs):
        if getattr(paragraph, "label", "") != label_for(level, index):
            faults.append(f"{paragraph!r:.80} is labelled out of turn")
        faults += _labels(getattr(paragraph, "children", ()), level + 1)
    return faults


@MANY
@given(CHANCE, UNANSWERED)
def test_every_section_is_whole_numbered_cited_and_complete(
    library: Library, seed: int, unanswered: float
) -> None:
    answers = random_answers(library, random.Random(seed), unanswered)
    section = assemble(Scope(library, answers))
    assert faults_of_section(section, library) == []


@MANY
@given(CHANCE)
def test_a_brief_with_every_question_answered_leaves_open_only_what_a_method_refused(
    library: Library, seed: int
) -> None:
    scope = Scope(library, random_answers(library, random.Random(seed), unanswered=0))
    refused = {r.calculation.settled_by for r in scope.results() if r.refused}
    assert {item.question for item in open_questions(assemble(scope))} <= refused


@MANY
@given(CHANCE)
def test_what_leads_to_a_list_leads_to_two_paragraphs_or_a_table(
    library: Library, seed: int
) -> None:
    section = assemble(Scope(library, random_answers(library, random.Random(seed), unanswered=0)))
    leads = [p for p in section.paragraphs() if section.plain(p.spans).endswith(":")]
    lonely = [p for p in leads if len(p.children) == 1 and not p.tables and p.reason.clause]
    assert [p.reason.clause for p in lonely] == []


@MANY
@given(CHANCE)
def test_a_section_in_si_units_alone_names_no_inch_foot_or_pound(
    library: Library, seed: int
) -> None:
    answers = random_answers(library, random.Random(seed), unanswered=0)
    si = next(c for c in library.questions["units_shown"].choices if c.id == "si")
    section = assemble(Scope(library, {**answers, "units_shown": si}))
    articles = [a for part in section.parts for a in part.articles if a.id != "references"]
    texts = [section.plain(p.spans) for article in articles for p in article.walk()]
    assert [text for text in texts if INCH_POUND.search(text)] == []


@MANY
@given(CHANCE)
def test_warranties_by_the_manufacturer_are_spoken_of_only_where_there_is_one(
    library: Library, seed: int
) -> None:
    section = assemble(Scope(library, random_answers(library, random.Random(seed), unanswered=0)))
    spoken = [
        p.reason.clause
        for p in section.paragraphs()
        if "warranty by the manufacturer" in section.plain(p.spans)
        or "signs its warranties" in section.plain(p.spans)
    ]
    assert not spoken or any(w.by == "manufacturer" for w in section.warranties)


@settings(MANY, max_examples=25)
@given(CHANCE, UNANSWERED, st.booleans())
def test_drafting_twice_gives_the_same_bytes_but_for_the_time_stamp(
    library: Library, seed: int, unanswered: float, notes: bool
) -> None:
    answers = random_answers(library, random.Random(seed), unanswered)
    brief = Brief(Path("any.yaml"), MappingProxyType(answers), MappingProxyType({}))
    drafts = []
    for _ in range(2):
        content = write_docx(assemble(Scope(library, answers)), brief, notes=notes)
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            drafts.append(
                {
                    name: package.read(name)
                    for name in package.namelist()
                    if name not in ("docProps/core.xml", "word/comments.xml")
                }
            )
    assert drafts[0] == drafts[1]


def test_an_unanswered_question_never_prints_a_value(library: Library) -> None:
    section = assemble(Scope(library, {}))
    for paragraph in section.paragraphs():
        assert all(answer in ("open", "not asked") for _, answer in paragraph.reason.answers)
    assert len(open_questions(section)) > 30


def test_the_examples_are_sections_without_fault(library: Library, example: Path) -> None:
    section = assemble(Scope(library, read_brief(example, library).answers))
    assert faults_of_section(section, library) == []
    if example.stem == "five-answers":
        assert open_questions(section)
    else:
        assert open_questions(section) == ()
        assert sum(1 for _ in section.paragraphs()) > 150


@pytest.mark.parametrize("question", ["metal", "seam", "support", "finish"])
def test_every_choice_of_the_great_questions_makes_a_text_of_its_own(
    library: Library, question: str
) -> None:
    base = dict(read_brief(EXAMPLES / "low-slope-library.yaml", library).answers)
    texts = {}
    for choice in library.questions[question].choices:
        section = assemble(Scope(library, {**base, question: choice}))
        texts[choice.id] = {section.plain(p.spans) for p in section.paragraphs()}
    for choice_id, text in texts.items():
        others: set[str] = set().union(*(t for other, t in texts.items() if other != choice_id))
        assert text - others, f"{question} {choice_id} says nothing of its own"
