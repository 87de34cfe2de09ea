"""The commands, as a user runs them."""

from __future__ import annotations

import json
import os
import re
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import docx
import pytest

from specgen.cli import main
from specgen.library import Library
from tests.support import EXAMPLES, ROOT, specgen, write_folder

LIBRARY_BRIEF = EXAMPLES / "low-slope-library.yaml"


def test_draft_writes_the_document_and_says_what_it_wrote(tmp_path: Path) -> None:
    output = tmp_path / "section.docx"
    result = specgen("draft", LIBRARY_BRIEF, "-o", output)
    assert result.returncode == 0, result.stderr
    assert docx.Document(str(output)).paragraphs[0].text == "SECTION 07 41 13.16"
    assert f"Wrote {output}: 07 41 13.16, " in result.stdout
    assert "Nothing is open." in result.stdout


def test_draft_of_five_answers_drafts_and_names_the_question_that_settles_each(
    tmp_path: Path, library: Library
) -> None:
    result = specgen("draft", EXAMPLES / "five-answers.yaml", "-o", tmp_path / "a.docx")
    assert result.returncode == 0, result.stderr
    lines = result.stdout.splitlines()
    assert lines[1].startswith("Open: ")
    for line in lines[2:-1]:
        assert library.questions[line.split()[0]].ask in line


@pytest.mark.parametrize(
    ("name", "extra", "starts"),
    [
        ("a.md", [], "# SECTION 07"),
        ("a.txt", [], "SECTION 07"),
        ("a.out", ["--format", "txt"], "SECTION 07"),
    ],
)
def test_the_format_follows_the_ending_or_the_option(
    tmp_path: Path, name: str, extra: list[str], starts: str
) -> None:
    result = specgen("draft", LIBRARY_BRIEF, "-o", tmp_path / name, *extra)
    assert result.returncode == 0, result.stderr
    lines = (tmp_path / name).read_text(encoding="utf-8").splitlines()
    assert any(line.startswith(starts) for line in lines)
    assert lines[-1] == "END OF SECTION"


def test_without_an_output_the_document_stands_beside_the_brief(tmp_path: Path) -> None:
    brief = tmp_path / "mill.yaml"
    brief.write_text("project_name: Mill\n")
    assert specgen("draft", brief).returncode == 0
    assert (tmp_path / "mill.docx").exists()


@pytest.mark.parametrize("ending", [".csv", ".xlsx"])
def test_the_register_is_written_beside_the_document(tmp_path: Path, ending: str) -> None:
    register = tmp_path / f"register{ending}"
    result = specgen("draft", LIBRARY_BRIEF, "-o", tmp_path / "a.docx", "--register", register)
    assert result.returncode == 0, result.stderr
    assert register.stat().st_size > 1000
    assert "submittals" in result.stdout


def test_new_writes_a_brief_that_drafts_and_never_writes_over_one(tmp_path: Path) -> None:
    brief = tmp_path / "new.yaml"
    assert specgen("new", brief).returncode == 0
    assert specgen("draft", brief, "-o", tmp_path / "a.docx").returncode == 0
    again = specgen("new", brief)
    assert again.returncode == 2
    assert "this file exists" in again.stderr


def test_questions_are_listed_by_topic_or_in_full_as_json(library: Library) -> None:
    listed = specgen("questions").stdout
    assert all(f"  {name} " in listed for name in library.questions)
    described = json.loads(specgen("questions", "--json").stdout)
    assert [entry["id"] for entry in described] == list(library.questions)
    assert all(entry["why"] and entry["source"] for entry in described)


def test_library_says_what_it_holds() -> None:
    assert "every reference leads somewhere" in specgen("library").stdout


def test_an_offices_clauses_are_named_in_the_output(tmp_path: Path) -> None:
    office = write_folder(
        tmp_path / "office",
        {"part-1-general/ours.yaml": "- {id: ours, at: summary, text: 'Ours.', why: w}\n"},
    )
    result = specgen("draft", LIBRARY_BRIEF, "-o", tmp_path / "a.md", "--library", office)
    assert "From the office's library: ours." in result.stdout
    assert "Ours." in (tmp_path / "a.md").read_text()


def _refused(*arguments: str | Path) -> str:
    result = specgen(*arguments)
    assert result.returncode == 2
    assert "Traceback" not in result.stderr
    assert result.stdout == ""
    return result.stderr


def test_bad_input_exits_2_with_a_sentence_for_each_fault(tmp_path: Path) -> None:
    brief = tmp_path / "bad.yaml"
    brief.write_text("metl: steel\nlowest_slope: steep\n")
    lines = _refused("draft", brief, "-o", tmp_path / "a.docx").splitlines()
    assert lines[0] == f"{brief}, line 1: there is no question metl. Did you mean metal?"
    assert lines[1].startswith(f"{brief}, line 2: lowest_slope cannot be read")
    assert not (tmp_path / "a.docx").exists()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["draft", "none.yaml"], "there is no such file"),
        (["draft", str(EXAMPLES)], "this is a folder"),
        (["draft", str(LIBRARY_BRIEF), "-o", "/none/a.docx"], "the folder /none does not exist"),
        (["draft", str(LIBRARY_BRIEF), "-o", "/proc/a.docx"], "it cannot be written"),
        (["draft", str(LIBRARY_BRIEF), "-o", str(EXAMPLES)], "this is a folder"),
        (["draft", str(LIBRARY_BRIEF), "-o", str(LIBRARY_BRIEF)], "already named"),
        (["draft", str(LIBRARY_BRIEF), "-o", "a.md", "--format", "docx"], "change one"),
        (["draft", str(LIBRARY_BRIEF), "-o", "a.md", "--notes"], "draft a docx"),
        (["draft", str(LIBRARY_BRIEF), "--register", "a.pdf"], ".csv or .xlsx"),
        (["draft", str(LIBRARY_BRIEF), "--library", "/none"], "no such folder of clauses"),
        (
            ["draft", str(LIBRARY_BRIEF), "-o", f"{EXAMPLES}/../examples/{LIBRARY_BRIEF.name}"],
            "already named",
        ),
        (
            ["calc", str(LIBRARY_BRIEF), "--html", f"{EXAMPLES}/../examples/{LIBRARY_BRIEF.name}"],
            "already named",
        ),
        (["draft", ""], "this is a folder"),
        (["draft", "/"], "this is a folder"),
        (["new", "/none/a.yaml"], "does not exist"),
        (["new", "a" * 300], "it cannot be written"),
        (["library", "--library", "a" * 5000], "no such folder of clauses"),
    ],
)
def test_what_cannot_be_done_is_refused_with_the_place_and_the_remedy(
    arguments: list[str], says: str
) -> None:
    assert says in _refused(*arguments)


def test_a_link_to_the_brief_is_not_written_over(tmp_path: Path) -> None:
    brief = tmp_path / "mill.yaml"
    brief.write_text("project_name: Mill\n")
    (tmp_path / "mill.txt").symlink_to(brief)
    assert "already named" in _refused("draft", brief, "-o", tmp_path / "mill.txt")
    assert brief.read_text() == "project_name: Mill\n"


def test_a_link_stays_one_when_what_it_leads_to_is_replaced(tmp_path: Path) -> None:
    kept = tmp_path / "kept.txt"
    kept.write_text("old")
    link = tmp_path / "link.txt"
    link.symlink_to(kept)
    assert specgen("draft", LIBRARY_BRIEF, "-o", link).returncode == 0
    assert link.is_symlink()
    assert "END OF SECTION" in kept.read_text(encoding="utf-8")


@pytest.mark.skipif(os.name != "posix", reason="makes a named pipe")
def test_a_device_or_pipe_is_never_replaced_by_a_file(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.txt"
    os.mkfifo(pipe)
    assert "not an ordinary file" in _refused("draft", LIBRARY_BRIEF, "-o", pipe)
    assert stat.S_ISFIFO(pipe.stat().st_mode)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_an_output_that_is_full_or_closed_ends_in_a_sentence() -> None:
    def ended(redirection: str) -> tuple[int, str]:
        command = f'exec "{sys.executable}" -m specgen questions {redirection}'
        result = subprocess.run(
            ["sh", "-c", command], capture_output=True, text=True, cwd=ROOT, check=False
        )
        return result.returncode, result.stderr

    code, says = ended(">/dev/full")
    assert (code, says.startswith("The output cannot be written: ")) == (2, True)
    assert ended(">&-") == (0, "")


@pytest.mark.skipif(os.name != "posix", reason="a name of bytes that are no text")
def test_a_file_whose_name_is_no_text_is_written_and_named(tmp_path: Path) -> None:
    result = specgen("new", os.fsdecode(bytes(tmp_path) + b"/a\xff.yaml"))
    assert (result.returncode, result.stderr) == (0, "")
    assert "Wrote " in result.stdout


def test_a_file_that_is_replaced_keeps_its_permissions(tmp_path: Path) -> None:
    output = tmp_path / "a.txt"
    output.write_text("old")
    output.chmod(0o640)
    assert specgen("draft", LIBRARY_BRIEF, "-o", output).returncode == 0
    assert stat.S_IMODE(output.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name != "posix", reason="kills with a signal")
def test_a_draft_killed_at_any_moment_leaves_the_old_file_or_the_new_one(tmp_path: Path) -> None:
    output = tmp_path / "a.txt"
    assert specgen("draft", LIBRARY_BRIEF, "-o", output).returncode == 0
    whole = output.read_bytes()
    seen = set()
    for step in range(16):
        output.write_bytes(b"the old file")
        process = subprocess.Popen(
            [sys.executable, "-m", "specgen", "draft", str(LIBRARY_BRIEF), "-o", str(output)],
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
        )
        time.sleep(0.02 * step)
        process.send_signal(signal.SIGKILL)
        process.wait()
        content = output.read_bytes()
        assert content in (b"the old file", whole)
        seen.add(content)
    assert b"the old file" in seen


def test_a_draft_killed_between_writing_and_renaming_leaves_the_old_file(tmp_path: Path) -> None:
    output = tmp_path / "a.txt"
    output.write_text("the old file")
    script = (
        "import os, signal, sys\n"
        "os.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "from specgen.cli import main\n"
        "main(sys.argv[1:])\n"
    )
    process = subprocess.run(
        [sys.executable, "-c", script, "draft", str(LIBRARY_BRIEF), "-o", str(output)],
        cwd=ROOT,
        check=False,
    )
    assert process.returncode == -signal.SIGKILL
    assert output.read_text() == "the old file"


def _conflicting(folder: Path) -> Path:
    brief = folder / "roof.yaml"
    text = LIBRARY_BRIEF.read_text().replace(
        "weathertight_inspection: manufacturer", "weathertight_inspection: none"
    )
    assert "weathertight_inspection: none" in text
    brief.write_text(re.sub(r"^issue: .*$", "issue: for-construction", text, flags=re.M))
    return brief


def test_an_issue_for_construction_is_refused_while_conflicts_stand(tmp_path: Path) -> None:
    brief = _conflicting(tmp_path)
    says = _refused("draft", brief, "-o", tmp_path / "a.docx")
    assert "issued for construction with the conflict weathertight-without-inspection" in says
    assert not (tmp_path / "a.docx").exists()


def test_with_conflicts_writes_them_into_the_document_as_comments(tmp_path: Path) -> None:
    brief, output = _conflicting(tmp_path), tmp_path / "a.docx"
    result = specgen("draft", brief, "-o", output, "--with-conflicts")
    assert result.returncode == 0, result.stderr
    (comment,) = docx.Document(str(output)).comments
    assert "weathertight-without-inspection" in comment.text


def test_a_waived_conflict_no_longer_holds_up_the_issue(tmp_path: Path) -> None:
    brief = _conflicting(tmp_path)
    waiver = "{check: weathertight-without-inspection, reason: own consultant, by: the owner}"
    brief.write_text(f"{brief.read_text()}\nwaive: [{waiver}]\n")
    result = specgen("draft", brief, "-o", tmp_path / "a.docx")
    assert result.returncode == 0, result.stderr
    assert "1 waived" in result.stdout


def test_check_tells_every_finding_and_ends_with_1_if_a_conflict_stands(tmp_path: Path) -> None:
    brief = _conflicting(tmp_path)
    result = specgen("check", brief)
    assert result.returncode == 1
    assert "1 CONFLICT" in result.stdout
    assert "To settle: weathertight_inspection: manufacturer" in result.stdout
    found = json.loads(specgen("check", brief, "--json").stdout)
    finding = next(f for f in found["standing"] if f["kind"] == "conflict")
    assert finding["place"].startswith("1.")
    assert finding["source"]
    assert specgen("check", LIBRARY_BRIEF).returncode == 0


def test_calc_shows_the_record_as_text_json_and_a_page(tmp_path: Path) -> None:
    shown = specgen("calc", LIBRARY_BRIEF)
    assert "WIND UPLIFT BY ROOF ZONE" in shown.stdout
    record = json.loads(specgen("calc", LIBRARY_BRIEF, "--json").stdout)
    assert len(record) >= 7
    page = tmp_path / "record.html"
    assert specgen("calc", LIBRARY_BRIEF, "--html", page).returncode == 0
    assert "<svg" in page.read_text(encoding="utf-8")


def test_output_is_not_lost_on_a_terminal_without_unicode(tmp_path: Path) -> None:
    result = subprocess.run(
        [sys.executable, "-m", "specgen", "questions", "--json"],
        capture_output=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"},
        check=False,
    )
    assert result.returncode == 0, result.stderr


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        main(["--help"])
    assert caught.value.code == 0
    shown = capsys.readouterr().out
    assert all(name in shown for name in ("draft", "new", "questions", "library"))
    assert "licensed design professional" in shown.replace("\n", " ")
