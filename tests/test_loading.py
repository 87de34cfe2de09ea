"""Reading the library: what the loader refuses, and an office's folder laid over it."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from tests.support import SMALL_LIBRARY, section_of, texts_of, write_folder


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


def test_an_offices_folder_is_judged_as_strictly_as_the_library(
    small_folder: Path, tmp_path: Path
) -> None:
    office = write_folder(
        tmp_path / "office",
        {"part-2-products/a.yaml": "- {id: a, at: panels, text: '{{ x }}', why: w}\n"},
    )
    with pytest.raises(BadInput, match="no question or fact is called x"):
        load_library(small_folder, [office])


def test_the_library_that_comes_with_specgen_is_whole_and_large_enough(library: Library) -> None:
    assert len(library.questions) >= 70
    assert len(library.clauses) >= 220
    assert len(library.standards) >= 100
