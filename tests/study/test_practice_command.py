"""The commands of practice and of the guided reading, as a person runs them."""

from __future__ import annotations

import json
import os
import pty
import re
import select
import subprocess
import sys
import zipfile
from pathlib import Path

import docx
import pytest

from specgen.library import Library
from specgen.study.practice import exercise
from tests.support import ROOT, specgen

LEVEL, SEED = 3, 7
SAME = ("practice", "--level", str(LEVEL), "--seed", str(SEED))


@pytest.fixture(autouse=True)
def _own_score(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("SPECGEN_SCORE", str(tmp_path / "score.json"))


def answers_file(library: Library, folder: Path) -> Path:
    path = folder / "marks.txt"
    made = exercise(library, LEVEL, SEED)
    path.write_text("".join(f"{each.place} {each.kind}\n" for each in made.planted))
    return path


def test_a_section_is_printed_with_what_can_be_wrong_and_without_the_answers(
    library: Library,
) -> None:
    ran = specgen(*SAME)
    assert ran.returncode == 0, ran.stderr
    made = exercise(library, LEVEL, SEED)
    assert "3 faults were planted in these articles" in ran.stdout
    assert "a requirement is missing" in ran.stdout
    assert f"--level {LEVEL} --seed {SEED}" in ran.stdout
    assert not [each for each in made.planted if each.says in ran.stdout]
    assert specgen(*SAME).stdout == ran.stdout


def test_marks_from_a_file_are_graded_with_reason_and_source(
    library: Library, tmp_path: Path
) -> None:
    marks = answers_file(library, tmp_path)
    ran = specgen(*SAME, "--answers", marks)
    assert ran.returncode == 0, ran.stderr
    assert "3 of 3 found, 6 of 6 points." in ran.stdout
    assert ran.stdout.count("Source: ") == 3
    marks.write_text(marks.read_text().splitlines()[0])
    again = specgen(*SAME, "--answers", marks)
    assert "1 of 3 found, 2 of 6 points." in again.stdout
    assert "Missed: " in again.stdout
    assert not (tmp_path / "score.json").exists(), "a class's marks are not this student's score"


def test_json_has_the_answers_only_once_it_is_graded(library: Library, tmp_path: Path) -> None:
    plain = json.loads(specgen(*SAME, "--json").stdout)
    assert plain["faults"] == 3
    assert "grade" not in plain
    assert "planted" not in plain
    graded = specgen(*SAME, "--answers", answers_file(library, tmp_path), "--json")
    assert json.loads(graded.stdout)["grade"]["points"] == 6


def test_the_exercise_is_printed_for_a_class_and_its_key_apart(
    library: Library, tmp_path: Path
) -> None:
    out = tmp_path / "class.docx"
    ran = specgen(*SAME, "--docx", out)
    assert ran.returncode == 0, ran.stderr
    made = exercise(library, LEVEL, SEED)
    paper, key = docx.Document(str(out)), docx.Document(str(tmp_path / "class-key.docx"))
    texts = [paragraph.text for paragraph in paper.paragraphs]
    for block in made.outline.blocks:
        if block.kind == "paragraph":
            assert f"{block.number}\t{block.text}" in texts
    marks = paper.tables[-1]
    assert [cell.text for cell in marks.rows[0].cells][1] == "Place"
    assert len(marks.rows) == 1 + 3 + 3
    assert not any(cell.text for row in marks.rows[1:] for cell in row.cells[1:])
    held = " ".join(cell.text for row in key.tables[0].rows for cell in row.cells)
    for each in made.planted:
        assert each.place in held
        assert each.says in held
        assert each.says not in " ".join(texts)
    assert made.project in paper.sections[0].header.paragraphs[0].text
    assert "customXml/item1.xml" not in zipfile.ZipFile(out).namelist(), "it would give the key"


def test_typed_numbers_take_no_part_in_a_list_that_counts_itself(tmp_path: Path) -> None:
    out = tmp_path / "class.docx"
    assert specgen(*SAME, "--docx", out).returncode == 0
    body = zipfile.ZipFile(out).read("word/document.xml").decode()
    styled = re.findall(r'<w:pStyle w:val="(?:Part|Article|Paragraph\d)"/>(.{60})', body)
    assert len(styled) > 300
    assert all('<w:numId w:val="0"/>' in rest for rest in styled)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("practice", "--level", "9"), "the levels are 1 to 5; 9 is none"),
        (("practice", "--answers", "marks.txt"), "--answers needs the --level and --seed"),
        (("practice", "--topics", "winds"), "Did you mean wind?"),
        ((*SAME, "--docx", "out.pdf"), "printed as .docx"),
        ((*SAME, "--answers", "no-such-file"), "cannot be read"),
        (("reading", "--stop", "16"), "stops 1 to 15; 16 is none"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(arguments: tuple[str, ...], says: str) -> None:
    ran = specgen(*arguments)
    assert ran.returncode == 2
    assert says in ran.stderr
    assert "Traceback" not in ran.stderr


def test_a_wrong_mark_in_a_file_is_told_with_its_line(tmp_path: Path) -> None:
    marks = tmp_path / "marks.txt"
    marks.write_text("2.1.A metals\n2.1.A metalls\n")
    ran = specgen(*SAME, "--answers", marks)
    assert ran.returncode == 2
    assert "marks.txt, line 2" in ran.stderr
    assert "Did you mean metals?" in ran.stderr


def test_the_score_is_shown_and_empty_at_first(tmp_path: Path) -> None:
    assert "No exercise is graded yet" in specgen("practice", "--score").stdout
    score = tmp_path / "score.json"
    score.write_text('{"exercises": 2, "topics": {"wind": {"found": 0, "planted": 2}}}')
    shown = specgen("practice", "--score").stdout
    assert "0 of 2 found  comes up more often" in shown
    score.write_text("{")
    broken = specgen("practice", "--score")
    assert broken.returncode == 0
    assert "was damaged; it is kept as score.json.damaged-1" in broken.stderr


def test_weak_topics_are_named_in_the_command_that_gives_the_same_again(tmp_path: Path) -> None:
    (tmp_path / "score.json").write_text(
        '{"exercises": 1, "topics": {"wind": {"found": 0, "planted": 2}}}'
    )
    assert "--topics wind" in specgen("practice").stdout


def test_the_reading_piped_has_all_stops_and_the_answers_at_the_end() -> None:
    ran = specgen("reading")
    assert ran.returncode == 0, ran.stderr
    stops, _, answers = ran.stdout.partition("Answers\n")
    assert stops.count("\nStop ") == 15
    assert answers.count("Stop ") == 15
    one = specgen("reading", "--stop", "7").stdout
    assert "ASTM E2140" in one
    assert "Stop 8" not in one
    assert len(json.loads(specgen("reading", "--json").stdout)["stops"]) == 15


# ----------------------------------------------------------------------------------- at a terminal


def at_terminal(arguments: tuple[str, ...], typed: str) -> str:
    """What a command shows on a terminal on which lines are typed."""
    parent, child = pty.openpty()
    ran = subprocess.Popen(
        [sys.executable, "-m", "specgen", *arguments],
        stdin=child, stdout=child, stderr=child, cwd=ROOT, close_fds=True,
    )  # fmt: skip
    os.close(child)
    os.write(parent, typed.encode())
    shown = b""
    while select.select([parent], [], [], 60)[0]:
        try:
            piece = os.read(parent, 65536)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    assert ran.wait(10) == 0
    os.close(parent)
    return shown.decode(errors="replace")


def test_on_a_terminal_marks_are_asked_for_graded_and_the_score_kept(
    library: Library, tmp_path: Path
) -> None:
    made = exercise(library, LEVEL, SEED)
    first, second, _ = made.planted
    typed = f"?\nnonsense\n{first.place} {first.kind}\n{second.place} blank\n- {second.place}\n"
    shown = at_terminal(SAME, f"{typed}? {first.place}\ndone\n")
    assert "is no mark; type a place and a kind" in shown
    assert "1 of 3 found, 2 of 6 points." in shown
    assert first.says.split(".")[0] in re.sub(r"\s+", " ", shown)
    score = json.loads((tmp_path / "score.json").read_text())
    assert score["exercises"] == 1
    assert score["topics"][first.topic]["found"] >= 1


def test_on_a_terminal_a_stop_follows_the_answer_to_the_one_before() -> None:
    shown = at_terminal(("reading",), "9\n1\n\n2\nq\n")
    assert "Not so; 2 is right." in shown
    assert "Stop 2 of 15" in shown
    assert "Stop 3 of 15" not in shown
