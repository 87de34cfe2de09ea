"""The real program in a real terminal: started, answered, killed, started again, all there."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support import ROOT

pytestmark = pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not installed")
LONGEST_WAIT = 60.0


class Terminal:
    """A terminal of 100 x 30 with a server of its own, so that no other is touched."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._server = f"specgen-{uuid.uuid4().hex[:12]}"

    def tmux(self, *arguments: str) -> str:
        run = ["tmux", "-L", self._server, "-f", "/dev/null", *arguments]
        return subprocess.run(run, capture_output=True, text=True, check=False).stdout

    def start(self, *arguments: str, environment: str = "") -> None:
        """Start the program in a new window."""
        words = " ".join(["exec", sys.executable, "-m", "specgen", *arguments])
        command = f"PYTHONPATH={ROOT} {environment} {words}"
        place = ("-c", str(self.folder))
        size = ("-x", "100", "-y", "30")
        self.tmux("new-session", "-d", "-s", "it", *size, *place, f"sh -c '{command}'")

    def press(self, *keys: str) -> None:
        self.tmux("send-keys", "-t", "it", *keys)

    def type(self, words: str) -> None:
        self.tmux("send-keys", "-t", "it", "-l", words)

    def shows(self, pattern: str) -> str:
        """Wait until the terminal shows something; all that it shows."""
        until = time.monotonic() + LONGEST_WAIT
        shown = ""
        while time.monotonic() < until:
            shown = self.tmux("capture-pane", "-p", "-t", "it")
            if re.search(pattern, shown):
                return shown
            time.sleep(0.1)
        raise AssertionError(f"{pattern} was not shown:\n{shown}")

    def kill(self) -> None:
        """Kill the program as a power cut would, and wait until its window is gone."""
        process = int(self.tmux("display-message", "-p", "-t", "it", "#{pane_pid}"))
        os.kill(process, signal.SIGKILL)
        self.gone()

    def gone(self) -> None:
        """Wait until the window is gone, as it is when the program has ended."""
        until = time.monotonic() + LONGEST_WAIT
        while "it" in self.tmux("list-sessions", "-F", "#{session_name}").split():
            assert time.monotonic() < until
            time.sleep(0.05)

    def close(self) -> None:
        self.tmux("kill-server")


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[Terminal]:
    terminal = Terminal(tmp_path)
    yield terminal
    terminal.close()


def test_answers_survive_a_kill_and_are_offered_at_the_next_start(
    terminal: Terminal, tmp_path: Path
) -> None:
    terminal.start()
    terminal.shows("A new brief")
    terminal.press("Enter")
    terminal.shows("What is the project called")
    terminal.type("Alder Hall")
    terminal.press("Enter")
    terminal.shows("Alder Hall .* 1 unsaved")
    terminal.type("12-345")
    terminal.press("Enter")
    terminal.shows("2 unsaved")
    terminal.kill()
    assert not (tmp_path / "roof.yaml").exists()

    terminal.start("ask", "roof.yaml")
    shown = terminal.shows("Answers were left behind")
    assert "Alder Hall" in shown
    assert "12-345" in shown
    terminal.press("Enter")
    terminal.shows("Alder Hall .* 2 unsaved")
    terminal.press("C-s")
    terminal.shows("Alder Hall .* saved  ")
    assert "Alder Hall" in (tmp_path / "roof.yaml").read_text()
    assert "12-345" in (tmp_path / "roof.yaml").read_text()
    terminal.press("C-q")
    terminal.gone()
    assert [path.name for path in tmp_path.iterdir()] == ["roof.yaml"]


def test_the_same_brief_opened_twice_is_noticed(terminal: Terminal, tmp_path: Path) -> None:
    other = Terminal(tmp_path)
    try:
        terminal.start("ask", "roof.yaml")
        terminal.shows("What is the project called")
        other.start("ask", "roof.yaml")
        other.shows("open elsewhere")
        terminal.press("C-q")
        terminal.gone()
        other.press("t")
        other.shows("What is the project called")
    finally:
        other.close()


def test_a_terminal_without_unicode_is_drawn_in_ascii(terminal: Terminal) -> None:
    terminal.start("ask", "roof.yaml", environment="SPECGEN_ASCII=1")
    shown = terminal.shows("What is the project called")
    assert shown.isascii()
    terminal.press("F9")
    assert terminal.shows("Keys everywhere|what it is and how").isascii()
