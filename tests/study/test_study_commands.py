"""The commands of study as a person runs them."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import pytest

from tests.support import EXAMPLES, specgen

BRIEF = EXAMPLES / "low-slope-library.yaml"


def test_why_explains_a_paragraph_a_standard_in_two_words_and_the_whole() -> None:
    paragraph = specgen("why", BRIEF, "seam-sealant-factory")
    assert paragraph.returncode == 0
    assert "What would remove it" in paragraph.stdout
    standard = specgen("why", BRIEF, "ASTM", "E2140")
    assert "Cited once in this section" in standard.stdout
    whole = specgen("why", BRIEF)
    assert "seam-sealant-factory" in whole.stdout


def test_why_not_says_what_would_bring_a_clause_in() -> None:
    ran = specgen("why", BRIEF, "--not", "seam-sealant-field")
    assert ran.returncode == 0
    assert "What would bring it in" in ran.stdout
    assert json.loads(specgen("why", BRIEF, "--not", "seam-sealant-field", "--json").stdout)[
        "explains"
    ] == "absent"  # fmt: skip


def test_whatif_prints_and_writes_tracked_changes_and_keeps_the_brief(tmp_path: Path) -> None:
    brief = tmp_path / "brief.yaml"
    brief.write_bytes(BRIEF.read_bytes())
    output = tmp_path / "addendum.docx"
    ran = specgen("whatif", brief, "lowest_slope=3:12", "-o", output)
    assert ran.returncode == 0, ran.stderr
    assert "++3:12++" in ran.stdout
    assert zipfile.is_zipfile(output)
    assert brief.read_bytes() == BRIEF.read_bytes()
    assert json.loads(specgen("whatif", brief, "seam=batten", "--json").stdout)["lines"]


def test_map_prints_a_tree_and_writes_a_page(tmp_path: Path) -> None:
    page = tmp_path / "map.html"
    assert specgen("map", "--html", page).returncode == 0
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    tree = specgen("map", "--of", "seam")
    assert "seaming_means" in tree.stdout
    assert json.loads(specgen("map", "--of", "seam", "--json").stdout)["center"] == "question:seam"


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("why", BRIEF, "2.3.A.99"), "this section has no paragraph 2.3.A.99"),
        (("why", BRIEF, "seam", "--not", "walkway-product"), "ask for one of them"),
        (("why", BRIEF, "--not", "walkways"), "Did you mean"),
        (("whatif", BRIEF, "seem=batten"), "Did you mean seam?"),
        (("whatif", BRIEF, "seam=batten", "-o", "out.txt"), "written as .docx"),
        (("map", "--of", "seem"), "Did you mean seam?"),
        (("map", "--html", "map.txt"), "written as .html"),
    ],
)
def test_what_cannot_be_worked_with_is_said_in_a_sentence(
    arguments: tuple[str | Path, ...], says: str
) -> None:
    ran = specgen(*arguments)
    assert ran.returncode == 2
    assert says in ran.stderr
    assert "Traceback" not in ran.stderr


def test_whatif_does_not_write_over_the_brief(tmp_path: Path) -> None:
    brief = tmp_path / "brief.docx"
    brief.write_bytes(BRIEF.read_bytes())
    ran = specgen("whatif", brief, "seam=batten", "-o", brief)
    assert ran.returncode == 2
    assert brief.read_bytes() == BRIEF.read_bytes()
