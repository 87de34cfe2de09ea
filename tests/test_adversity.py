"""What goes wrong around the program: a full disk, a folder that takes nothing, a kill, no locale.

Every command that writes is held to the same: a sentence and exit code 2, and the file that was
there whole.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support import EXAMPLES, ROOT

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals and limits of POSIX")

BRIEF = EXAMPLES / "low-slope-library.yaml"
FLAWED = EXAMPLES / "review-mill-pond-library.docx"
# Each command that writes a file, with {brief} and {out} for the paths; what it writes to.
WRITES = {
    "draft-docx": (["draft", "{brief}", "-o", "{out}"], "section.docx"),
    "draft-md": (["draft", "{brief}", "-o", "{out}"], "section.md"),
    "register-csv": (["draft", "{brief}", "-o", "{rest}.txt", "--register", "{out}"], "list.csv"),
    "register-xlsx": (["draft", "{brief}", "-o", "{rest}.txt", "--register", "{out}"], "list.xlsx"),
    "calc-html": (["calc", "{brief}", "--html", "{out}"], "record.html"),
    "review-marked": (["review", "{flawed}", "-o", "{out}"], "marked.docx"),
    "review-page": (["review", "{flawed}", "--report", "{out}"], "page.html"),
    "review-brief": (["review", "{flawed}", "--brief-out", "{out}"], "stated.yaml"),
    "whatif-docx": (["whatif", "{brief}", "lowest_slope=3:12", "-o", "{out}"], "change.docx"),
    "map-html": (["map", "--html", "{out}"], "map.html"),
    "practice-docx": (["practice", "--level", "1", "--seed", "1", "--docx", "{out}"], "paper.docx"),
}
OLD = b"the old file, " * 40


def _arguments(name: str, folder: Path) -> tuple[list[str], Path]:
    template, named = WRITES[name]
    out = folder / named
    words = {"brief": BRIEF, "flawed": FLAWED, "out": out, "rest": folder / "rest"}
    return [word.format(**words) for word in template], out


def _run(
    script: str, arguments: list[str], environment: dict[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-c", script + "from specgen.cli import run\nrun()\n", *arguments],
        capture_output=True,
        cwd=ROOT,
        env={**os.environ, **(environment or {})},
        timeout=120,
        check=False,
    )


def _left_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir() if not path.name.startswith("rest")}


@pytest.mark.parametrize("name", WRITES)
def test_a_disk_that_is_full_is_said_and_leaves_the_old_file(name: str, tmp_path: Path) -> None:
    arguments, out = _arguments(name, tmp_path)
    out.write_bytes(OLD)
    # A file may grow to 600 bytes and no more: the write fails half way, as on a full disk.
    script = (
        "import resource, signal, sys\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (600, 600))\n"
    )
    done = _run(script, arguments)
    says = done.stderr.decode()
    assert (done.returncode, "cannot be written" in says) == (2, True), says
    assert "Traceback" not in says
    assert out.read_bytes() == OLD
    assert _left_in(tmp_path) == {out.name}


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="a folder that nobody can write to")
@pytest.mark.parametrize("name", WRITES)
def test_a_folder_that_takes_nothing_is_said(name: str, tmp_path: Path) -> None:
    arguments, out = _arguments(name, tmp_path)
    elsewhere = f"/proc/{out.name}"
    done = _run("", [elsewhere if word == str(out) else word for word in arguments])
    says = done.stderr.decode()
    assert (done.returncode, elsewhere in says, "Traceback" in says) == (2, True, False), says


@pytest.mark.parametrize("name", WRITES)
def test_a_kill_before_the_new_file_takes_its_place_leaves_the_old_one(
    name: str, tmp_path: Path
) -> None:
    arguments, out = _arguments(name, tmp_path)
    out.write_bytes(OLD)
    script = (
        "import os, signal\n"
        "replace = os.replace\n"
        "def kill(old, new):\n"
        f"    if str(new).endswith({out.name!r}): os.kill(os.getpid(), signal.SIGKILL)\n"
        "    replace(old, new)\n"
        "os.replace = kill\n"
    )
    assert _run(script, arguments).returncode == -signal.SIGKILL
    assert out.read_bytes() == OLD


def test_a_proposal_that_cannot_be_written_leaves_the_brief(tmp_path: Path) -> None:
    brief = tmp_path / "roof.yaml"
    text = BRIEF.read_text(encoding="utf-8")
    brief.write_text(text.replace("weathertight_inspection: manufacturer",
                                  "weathertight_inspection: none"))  # fmt: skip
    before = brief.read_bytes()
    script = (
        "import resource, signal\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (600, 600))\n"
    )
    done = _run(script, ["settle", str(brief), "--apply"], {"SPECGEN_NO_CACHE": "1"})
    assert done.returncode == 2, done.stderr
    assert brief.read_bytes() == before
    assert _left_in(tmp_path) == {"roof.yaml"}


@pytest.mark.parametrize("locale", ["C", "POSIX", "xx_XX.nothing"])
@pytest.mark.parametrize("command", ["check", "draft", "calc", "questions"])
def test_without_a_locale_everything_is_said_that_can_be(
    command: str, locale: str, tmp_path: Path
) -> None:
    brief = tmp_path / "roof.yaml"
    shutil.copy(BRIEF, brief)
    arguments = [command] if command == "questions" else [command, str(brief)]
    if command == "draft":
        arguments += ["-o", str(tmp_path / "section.txt")]
    bare = {"LC_ALL": locale, "LANG": locale, "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    done = _run("", arguments, bare)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout
    if command == "draft":
        assert "40 °F" in (tmp_path / "section.txt").read_text(encoding="utf-8")
