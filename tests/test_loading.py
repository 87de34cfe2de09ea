"""Reading the library: what the loader refuses, and an office's folder laid over it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from specgen.cli import main
from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from tests.support import EXAMPLES, SMALL_LIBRARY, section_of, texts_of, write_folder


def _faults(folder: Path, **changed: str) -> str:
    files = {
        **SMALL_LIBRARY,
        **{name.replace("__", "/") + ".yaml": t for name, t in changed.items()},
    }
    with pytest.raises(BadInput) as caught:
        load_library(write_folder(folder, files))
    return str(caught.value)


_CLAUSE = "- {{id: new, at: panels, text: {text}, why: w{more}}}\n"


def _clause_faults(folder: Path, text: str = "x", more: str = "") -> str:
    path = folder / "part-2-products" / "new.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(_CLAUSE.format(text=f'"{text}"', more=more))
    with pytest.raises(BadInput) as caught:
        load_library(write_folder(folder, SMALL_LIBRARY))
    message = str(caught.value)
    assert "new.yaml, line 1" in message
    return message


@pytest.mark.parametrize(
    ("text", "more", "says"),
    [
        ("x", ", wen: steel", "wen is not a key of this entry. Did you mean when?"),
        ("x", ", when: steal", "no question or fact is called steal. Did you mean steel?"),
        ("x", ", when: metal == 'steal'", "metal has no choice steal. Did you mean steel?"),
        (
            "x",
            ", when: \"slope < pressure('2 psf')\"",
            "is a slope and is compared with a pressure",
        ),
        ("x", ", when: not metal", "metal is a choice, not yes or no; compare it with something"),
        ("x", ", when: steel or slope", "slope is a slope, not yes or no"),
        ("x", ", when: metal.id", "uses getattr"),
        ("{{ colour }}", "", "no question or fact is called colour. Did you mean color?"),
        ("{{ ref('panel') }}", "", "no article is called panel. Did you mean panels?"),
        ("see UL 580", "", "names UL 580 in its text and does not cite it"),
        ("x", ", cites: [UL 580]", "cites UL 580, which its text does not name"),
        ("UL 581", ", cites: [UL 581]", "cites UL 581, which is not in the register"),
        ("x", ", needs: [steel-shet]", "needs steel-shet, which does not exist. Did you mean"),
        ("x", ", submits: {product: x}", "submits product, which is no kind of submittal"),
        ("x", ", table: metal", "prints the table metal, which is no question of kind table"),
        ("x", ", under: scope", "give either `at` or `under`"),
        ("x", ", after: new", "new stands after itself"),
        ("x", ", after: scop", "scop, which does not exist. Did you mean scope?"),
        (
            "x",
            ", submits: {product-data: \"{{ ref('panels') }}\"}",
            "uses ref() in what it submits",
        ),
        ("x", ", when: visits > " + "9" * 400, "a number out of all proportion"),
        ("bad \\x01 one", "", "cannot be printed"),
    ],
)
def test_a_broken_rule_is_named_with_file_line_and_remedy(
    tmp_path: Path, text: str, more: str, says: str
) -> None:
    assert says in _clause_faults(tmp_path, text, more)


def test_an_id_used_twice_is_named_with_both_places(tmp_path: Path) -> None:
    says = _faults(
        tmp_path, **{"part-2-products__twice": "- {id: scope, at: panels, text: x, why: w}\n"}
    )
    assert "the id scope stands twice, first in" in says


def test_a_clause_under_one_that_does_not_exist_is_named(tmp_path: Path) -> None:
    says = _faults(tmp_path, **{"part-2-products__a": "- {id: a, under: scop, text: x, why: w}\n"})
    assert "a stands under scop, which does not exist. Did you mean scope?" in says


def test_facts_that_lead_back_to_themselves_are_named(tmp_path: Path) -> None:
    facts = "- {id: a, is: b, why: w}\n- {id: b, is: not a, why: w}\n"
    questions = SMALL_LIBRARY["facts.yaml"] + facts
    assert "depends on itself" in _faults(tmp_path, facts=questions)


def test_a_question_that_hangs_on_what_is_computed_from_it_is_named(
    tmp_path: Path, library: Library
) -> None:
    run = library.questions["panel_run"]
    office = write_folder(
        tmp_path / "office",
        {
            "questions/panel.yaml": (
                f"- {{id: panel_run, ask: a, label: {run.label}, kind: length, why: w, source: s,"
                f" range: ['{run.low.typed}', '{run.high.typed}'],"  # type: ignore[union-attr]
                " when: \"panel_movement > length('1 in')\"}\n"
            )
        },
    )
    with pytest.raises(BadInput, match="panel_run depends on itself, through"):
        load_library(overlays=[office])


def test_a_fact_that_takes_the_name_of_a_computed_value_is_refused(tmp_path: Path) -> None:
    fact = "- {id: panel_weight, is: \"metal == 'copper'\", why: w}\n"
    office = write_folder(tmp_path / "office", {"facts.yaml": fact})
    with pytest.raises(BadInput, match="panel_weight is a computed value already"):
        load_library(overlays=[office])


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("{id: panels,", "{id: 'pan els',", "a short word like panels"),
        ("{id: panels,", "{id: summary,", "the article summary stands twice"),
        ("lists: standards", "lists: standard", "lists standards or submittals, not standard"),
        ("article: submittals", "article: submital", "no article. Did you mean submittals?"),
        ("title: ", 'title: "\\a" #', "cannot be printed"),
    ],
)
def test_a_plan_of_the_section_that_cannot_be_written_is_refused(
    tmp_path: Path, old: str, new: str, says: str
) -> None:
    plan = SMALL_LIBRARY["section.yaml"]
    assert old in plan
    assert says in _faults(tmp_path, section=plan.replace(old, new, 1))


def test_two_clauses_under_each_other_are_refused(tmp_path: Path) -> None:
    loop = "- {id: a, under: b, text: x, why: w}\n- {id: b, under: a, text: x, why: w}\n"
    assert "deeper than level" in _faults(tmp_path, **{"part-2-products__loop": loop})


@pytest.mark.parametrize(
    ("question", "says"),
    [
        ("{id: Bad-Id, ask: a, label: l, kind: text, why: w, source: s}", "is written like"),
        ("{id: a, ask: a, label: l, kind: txt, why: w, source: s}", "Did you mean text?"),
        ("{id: a, ask: a, label: l, kind: choice, why: w, source: s}", "choices go with"),
        ("{id: a, ask: a, label: l, kind: table, why: w, source: s}", "columns go with"),
        ("{id: a, ask: a, label: l, kind: length, range: [1 in], why: w, source: s}", "lowest and"),
        ("{id: a, ask: a, label: l, kind: length, range: [1, 2], why: w, source: s}", "its range"),
        ("{id: a, ask: a, label: l, kind: text, source: s}", "why is missing"),
        ("{id: waive, ask: a, label: l, kind: text, why: w, source: s}", "keeps for itself"),
        (
            "{id: low, ask: a, label: l, kind: text, why: w, source: s}",
            "low would be a question and a fact",
        ),
        (
            "{id: a, ask: a, label: l, kind: length, range: [2 in, 1 in], why: w, source: s}",
            "its highest before its lowest",
        ),
        (
            "{id: a, ask: a, label: l, kind: choice, why: w, source: s,"
            " choices: [{id: b, label: b}, {id: b, label: c}]}",
            "the choice b stands twice",
        ),
        (
            "{id: a, ask: a, label: l, kind: choice, why: w, source: s,"
            " choices: [{id: 'b, c', label: b}]}",
            "written like double-lock",
        ),
        (
            "{id: a, ask: a, label: l, kind: table, why: w, source: s,"
            " columns: [{id: b, label: b, kind: lenght}]}",
            "Did you mean length?",
        ),
    ],
)
def test_a_question_that_cannot_be_asked_is_refused(
    tmp_path: Path, question: str, says: str
) -> None:
    assert says in _faults(tmp_path, questions__more=f"- {question}\n")


def test_a_folder_that_is_no_library_is_refused(tmp_path: Path) -> None:
    for folder, says in ((tmp_path / "none", "no such folder"), (tmp_path, "no YAML files")):
        with pytest.raises(BadInput, match=says):
            load_library(folder)
    (tmp_path / "odd.yaml").write_text("- a\n")
    with pytest.raises(BadInput, match="not part of a library"):
        load_library(tmp_path)


_OFFICE = {
    "part-2-products/ours.yaml": (
        '- {id: width-clause, at: panels, text: "Width: {{ width }}, no other.", why: w}\n'
        '- {id: ours, at: panels, after: steel-sheet, text: "Ours.", why: w}\n'
    )
}
_BRIEF = "metal: steel\nwidth: 16 in\nunits_shown: inch-pound\n"


def test_an_offices_folder_replaces_by_id_and_adds_new_ids_in_their_place(
    small_folder: Path, tmp_path: Path
) -> None:
    office = write_folder(tmp_path / "office", _OFFICE)
    section = section_of(_BRIEF, load_library(small_folder, [office]), tmp_path)
    texts = texts_of(section)
    assert texts["width-clause"] == "Width: 16 in, no other."
    order = list(texts)
    assert order.index("ours") == order.index("steel-sheet") + 1
    office_ids = {p.reason.clause for p in section.paragraphs() if p.reason.office}
    assert office_ids == {"width-clause", "ours"}


def test_clauses_placed_after_the_same_one_stand_in_the_order_of_their_file(
    small_folder: Path, tmp_path: Path
) -> None:
    new = "".join(
        f"- {{id: {name}, at: panels, after: {after}, text: {name}., why: w}}\n"
        for name, after in (("a", "steel-sheet"), ("a2", "a"), ("b", "steel-sheet"))
    )
    office = write_folder(tmp_path / "office", {"part-2-products/ours.yaml": new})
    order = list(load_library(small_folder, [office]).clauses)
    first = order.index("steel-sheet")
    assert order[first + 1 : first + 4] == ["a", "a2", "b"]


def test_an_offices_folder_is_judged_as_strictly_as_the_library(
    small_folder: Path, tmp_path: Path
) -> None:
    office = write_folder(
        tmp_path / "office",
        {"part-2-products/a.yaml": "- {id: a, at: panels, text: '{{ x }}', why: w}\n"},
    )
    with pytest.raises(BadInput, match="no question or fact is called x"):
        load_library(small_folder, [office])


@pytest.mark.parametrize(
    ("question", "says"),
    [
        ("{id: coil_width, kind: number, ", "coil_width is a length to the calculations"),
        ("{id: metal, kind: text, ", "metal is a choice to the calculations; keep its kind."),
        (
            "{id: clip_schedule, kind: table, columns: [{id: zone, label: z, kind: text}], ",
            "clip_schedule is a table to the calculations; keep its kind and columns.",
        ),
    ],
)
def test_an_offices_question_that_calculations_read_keeps_its_kind(
    tmp_path: Path, question: str, says: str
) -> None:
    entry = f"- {question}ask: a, label: l, why: w, source: s}}\n"
    office = write_folder(tmp_path / "office", {"questions/ours.yaml": entry})
    with pytest.raises(BadInput, match=says):
        load_library(overlays=[office])


def test_an_office_may_ask_otherwise_what_nothing_computes_from(tmp_path: Path) -> None:
    place = "- {id: place, kind: number, ask: a, label: l, why: w, source: s}\n"
    office = write_folder(tmp_path / "office", {"questions/ours.yaml": place})
    assert load_library(overlays=[office]).questions["place"].kind == "number"


@pytest.mark.parametrize("question", ["support", "wind_standard", "metal", "seam"])
def test_a_choice_that_only_an_office_knows_is_calculated_with_or_refused(
    tmp_path: Path, question: str
) -> None:
    """The formulas know the choices that come with specgen; another is outside their method."""
    known = load_library().questions[question]
    choices = ", ".join(f"{{id: {c.id}, label: x}}" for c in known.choices)
    entry = (
        f"- {{id: {question}, kind: choice, ask: a, label: l, why: w, source: s,"
        f" choices: [{choices}, {{id: ours, label: ours}}]}}\n"
    )
    office = write_folder(tmp_path / "office", {f"questions/{known.topic}.yaml": entry})
    brief = tmp_path / "brief.yaml"
    text = (EXAMPLES / "low-slope-library.yaml").read_text(encoding="utf-8")
    brief.write_text(re.sub(rf"(?m)^{question}:.*$", f"{question}: ours", text))
    record = tmp_path / "record.html"
    assert main(["calc", str(brief), "--html", str(record), "--library", str(office)]) == 0
    assert record.exists()


def test_the_library_that_comes_with_specgen_is_whole_and_large_enough(library: Library) -> None:
    assert len(library.questions) >= 70
    assert len(library.clauses) >= 220
    assert len(library.standards) >= 100
