"""The worked examples of DEVELOPERS.md do what it says."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from specgen.checks import finding_of
from specgen.library import Library
from specgen.loading import load_library
from specgen.questions import read_answer
from specgen.review.outline import Block, Outline
from specgen.review.understanding import understand
from specgen.scope import Scope
from tests.support import ROOT, brief_of, section_of, specgen, texts_of, write_folder

TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def enlarged(tmp_path_factory: pytest.TempPathFactory) -> Library:
    """The library with the question and the clause that DEVELOPERS.md adds."""
    question, clause, check, recognizer = re.findall(r"```yaml\n(- id: .*?)```", TEXT, re.DOTALL)
    files = {
        "questions/accessories.yaml": question,
        "part-2-products/accessories.yaml": clause,
        "checks/accessories.yaml": check,
        "recognizers/accessories.yaml": recognizer,
    }
    return load_library(overlays=[write_folder(tmp_path_factory.mktemp("office"), files)])


def test_the_question_and_the_clause_of_the_examples_draft(
    enlarged: Library, tmp_path: Path
) -> None:
    section = section_of("walkways: yes\nunits_shown: si\n", enlarged, tmp_path)
    text = texts_of(section)["walkway-product"]
    assert text == "Walkways: planks 610 mm wide or more, on seam clamps."
    assert any(submittal.what == "walkways, with load tables" for submittal in section.submittals)
    assert "walkway-product" not in texts_of(section_of("walkways: no\n", enlarged, tmp_path))


def test_the_check_of_the_examples_fires_and_spares(enlarged: Library) -> None:
    check = enlarged.checks["walkways-on-a-steep-roof"]
    for typed, fires in ((check.raises, True), (check.spares, False)):
        answers = {n: read_answer(enlarged.questions[n], raw) for n, raw in typed.items()}
        assert (finding_of(check, Scope(enlarged, answers)) is not None) == fires


def test_the_recognizer_of_the_examples_reads_other_words(enlarged: Library) -> None:
    for text, answer in (
        ("Duckboards lead across the roof to each fan.", True),
        ("Planks of aluminum, 24 in wide, clamped to seams.", True),
        ("No duckboards are laid on this roof.", False),
        ("Duckboards on scaffolds beside the roof.", None),
    ):
        block = Block(0, "paragraph", text, level=1, part=2, article="ACCESSORIES")
        answers = understand(Outline("", "", "", (block,)), enlarged).answers
        assert answers.get("walkways") is answer, text


def test_every_module_has_its_floor_in_the_table() -> None:
    for path in (ROOT / "specgen").iterdir():
        if path.name.startswith("_") or (path.is_file() and path.suffix != ".py"):
            continue
        stem = "drawing" if path.stem.startswith("drawing") else path.stem
        assert f"`{stem}`" in TEXT or f"`{path.name}/`" in TEXT, path.name


def test_the_readme_names_every_example_and_its_picture() -> None:
    for path in (ROOT / "examples").glob("*.yaml"):
        assert f"`examples/{path.name}`" in README
    for picture in re.findall(r"\]\((examples/[^)]+)\)", README):
        assert (ROOT / picture).exists()


def test_the_brief_of_the_readme_is_read_as_it_stands(library: Library, tmp_path: Path) -> None:
    (example,) = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    brief = brief_of(example, library, tmp_path)
    assert brief.answers["metal"] is not None
    for waiver in brief.waivers:
        assert waiver.check in library.checks


def test_every_command_of_the_readme_is_one(tmp_path: Path) -> None:
    """Each line of its blocks is run in a folder with the examples, on one of them."""
    for name in ("low-slope-library", "five-answers"):
        (tmp_path / "examples").mkdir(exist_ok=True)
        source = ROOT / "examples" / f"{name}.yaml"
        (tmp_path / "examples" / source.name).write_bytes(source.read_bytes())
    (tmp_path / "folder").mkdir()
    flawed = (ROOT / "examples" / "review-mill-pond-library.docx").read_bytes()
    for received in ("section.docx", "folder/one.docx", "folder/two.docx"):
        (tmp_path / received).write_bytes(flawed)
    blocks = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)
    lines = [
        shlex.split(line, comments=True)[1:]
        for block in blocks
        for line in block.splitlines()
        if line.startswith("specgen ")
    ]
    assert len(lines) > 8
    for arguments in lines:
        done = specgen(*arguments, cwd=tmp_path)
        command = arguments[0] if arguments else "ask"
        if command in ("ask", "study"):
            assert "the screens need a terminal" in done.stderr
        else:
            # The section that is reviewed has conflicts, and it is said so.
            assert done.returncode == (1 if command == "review" else 0), (arguments, done.stderr)
