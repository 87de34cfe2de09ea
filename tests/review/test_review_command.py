"""`specgen review`: the report, the files that it writes, many documents, and what it refuses."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.cli import main
from specgen.library import Library
from specgen.review.batch import documents_in, review_all
from tests.support import EXAMPLES, specgen

FLAWED = EXAMPLES / "review-mill-pond-library.docx"
BRIEF = EXAMPLES / "low-slope-library.yaml"


def run(capsys: pytest.CaptureFixture[str], *arguments: str | Path) -> tuple[int, str, str]:
    code = main(["review", *map(str, arguments)])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_the_report_groups_findings_and_gives_each_its_place_words_reason_source_and_cure(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code, out, _ = run(capsys, FLAWED)
    assert code == 1
    assert out.index("CONFLICT") < out.index("OMISSION") < out.index("AMBIGUIT")
    assert out.index("CAUTION") < out.index("COVERAGE BY TOPIC")
    conflict = out[out.index("low-slope-seam-unsealed") :].partition("\n\n")[0]
    for word in ("“", "Why: ", "Source: ", "To do: "):
        assert word in conflict
    assert max(map(len, out.splitlines())) <= 88


def test_a_clean_document_ends_with_0(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    draft = tmp_path / "draft.docx"
    assert main(["draft", str(BRIEF), "-o", str(draft)]) == 0
    capsys.readouterr()
    code, out, _ = run(capsys, draft)
    assert code == 0
    assert "no conflicts" in out


def test_everything_that_can_be_written_is_written_and_the_document_left_alone(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, library: Library
) -> None:
    copy, page, brief = tmp_path / "a.docx", tmp_path / "a.html", tmp_path / "a.yaml"
    digest = hashlib.sha256(FLAWED.read_bytes()).hexdigest()
    code, _, err = run(capsys, FLAWED, "-o", copy, "--report", page, "--brief-out", brief)
    assert code == 1
    assert err.count("written.") == 3
    assert hashlib.sha256(FLAWED.read_bytes()).hexdigest() == digest
    html = page.read_text(encoding="utf-8")
    assert "Coverage by topic" in html
    assert "low-slope-seam-unsealed" in html
    assert "http" not in html
    assert "<script" not in html
    assert read_brief(brief, library).answers["metal"]
    assert copy.stat().st_size > 5000


def test_json_has_every_finding_with_its_words(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, FLAWED, "--json")
    assert code == 1
    said = json.loads(out)
    assert sum(said["counts"].values()) == len(said["findings"])
    for each in said["findings"]:
        assert each["says"]
        assert each["because"]
        assert each["source"]
        assert each["to_do"]
        assert each["block"] is None or each["words"]
    assert said["coverage"]
    assert said["answers"]["lowest_slope"]["words"]


def test_a_brief_is_held_against_the_document(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    brief = tmp_path / "b.yaml"
    brief.write_text("panel_width: 12 in\n", encoding="utf-8")
    _, out, _ = run(capsys, FLAWED, "--brief", brief)
    assert "brief-differs" in out
    assert "the brief 12 in" in " ".join(out.split())


def test_what_is_found_is_printed_safely_in_the_page(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    hostile = tmp_path / "<b>&.txt"
    hostile.write_text(
        "SECTION 07 41 13 - <script>alert(1)</script>\n\nPART 2 - PRODUCTS\n2.1 PANELS\n"
        "A. Color: <img src=x onerror=alert(1)> as required.\n",
        encoding="utf-8",
    )
    page = tmp_path / "r.html"
    run(capsys, hostile, "--report", page)
    html = page.read_text(encoding="utf-8")
    assert "<script" not in html
    assert "<img" not in html


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["missing.docx"], "missing.docx"),
        ([str(FLAWED), "-o", "copy.txt"], "give it that ending"),
        ([str(FLAWED), "--report", "report.pdf"], ".html"),
        ([str(FLAWED), "-o", str(FLAWED)], "already named"),
        ([str(FLAWED), str(FLAWED), "another.docx", "-o", "copy.docx"], "one document"),
    ],
)
def test_what_cannot_be_done_is_refused_in_a_sentence(
    arguments: list[str], says: str, capsys: pytest.CaptureFixture[str], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    code, out, err = run(capsys, *arguments)
    assert code == 2
    assert out == ""
    assert says in err
    assert list(tmp_path.iterdir()) == []


def test_a_text_cannot_be_copied_with_comments(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    text = tmp_path / "a.txt"
    text.write_text("PART 1 - GENERAL\n1.1 SUMMARY\nA. Panels.\n", encoding="utf-8")
    code, _, err = run(capsys, text, "-o", tmp_path / "b.docx")
    assert code == 2
    assert "--report" in err


def test_a_folder_gives_one_table_and_a_bad_file_stops_nothing(tmp_path: Path) -> None:
    for number in range(3):
        shutil.copy(FLAWED, tmp_path / f"{number}.docx")
    (tmp_path / "broken.docx").write_bytes(b"PK\x03\x04 and nothing more")
    (tmp_path / "picture.png").write_bytes(b"\x89PNG")
    done = specgen("review", tmp_path)
    assert done.returncode == 1
    assert done.stderr == ""
    assert done.stdout.count("review") == 1
    assert "3 documents reviewed, 3 with conflicts; 1 not read." in done.stdout
    assert f"  {tmp_path / 'broken.docx'}:\n" in done.stdout
    assert "Traceback" not in done.stdout + done.stderr


def test_a_folder_without_documents_is_refused(tmp_path: Path) -> None:
    done = specgen("review", tmp_path)
    assert done.returncode == 2
    assert "no document" in done.stderr


def test_summaries_come_in_order_whatever_the_number_of_processes(tmp_path: Path) -> None:
    paths = []
    for number in range(5):
        path = tmp_path / f"{number}.txt"
        path.write_text(
            f"PART 2 - PRODUCTS\n2.1 PANELS\nA. Width: [1{number} in] [18 in].\n", encoding="utf-8"
        )
        paths.append(path)
    paths.insert(2, tmp_path / "absent.txt")
    alone = list(review_all(paths, processes=1))
    pooled = list(review_all(paths, processes=2))
    assert [each.path for each in pooled] == paths
    assert [each.counts for each in pooled] == [each.counts for each in alone]
    assert [bool(each.refused) for each in pooled] == [False, False, True, False, False, False]


def test_a_folder_is_searched_and_hidden_files_left_out(tmp_path: Path) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    for name in ("a.docx", "inner/b.TXT", ".c.docx", "~$a.docx", "d.png"):
        (tmp_path / name).write_bytes(b"x")
    assert [path.name for path in documents_in([tmp_path])] == ["a.docx", "b.TXT"]
