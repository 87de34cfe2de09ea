"""Answers written into the text of a brief, every other character of it kept.

An answer that is there is changed where it stands, its comment kept; one taken back is removed with
its lines; a new one is added at the end.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from specgen.faults import BadInput, Fault
from specgen.yamlread import parse_yaml, read_text

_PLAIN = re.compile(r"[\w./%'()-](?:[\w./:%'() -]*[\w./%'()-])?")
_WORDS = ("null", "~", "true", "false", "yes", "no")


def brief_text(text: str, changes: Mapping[str, object]) -> str:
    """The text with answers changed, added or (None) taken back.

    ``changes`` are answers as typed: a word, a list of words, or rows as mappings of words.
    """
    lines = text.split("\n")
    if not lines[-1]:
        del lines[-1]
    ending = "\r" if lines and lines[0].endswith("\r") else ""
    for name, answer in changes.items():
        block = _block(lines, name)
        if block is None:
            if answer is not None:
                lines += [line + ending for line in _lines(name, answer, "")]
            continue
        first, end = block
        comment = _comment(lines[first].rstrip("\r")) if end == first + 1 else ""
        written = [] if answer is None else _lines(name, answer, comment)
        lines[first:end] = [line + ending for line in written]
    return "\n".join(lines) + "\n" if lines else ""


def changed_brief(path: Path, changes: Mapping[str, object]) -> bytes:
    """A brief's file with answers changed, as bytes to be written; a new brief if there is none.

    BadInput if the file cannot be read, or is laid out so that the changed text would not be read
    back as what was meant.
    """
    text = read_text(path) if path.exists() else ""
    before: object = parse_yaml(text, str(path)) if text else {}
    changed = brief_text(text, changes)
    wanted = {**(before if isinstance(before, dict) else {}), **changes}
    wanted = {name: answer for name, answer in wanted.items() if answer is not None}
    try:
        written = parse_yaml(changed, str(path))
    except BadInput:
        written = None
    if (written or {}) != wanted:
        says = "its layout cannot be changed from here; write the answers into it by hand."
        raise BadInput([Fault(str(path), None, says)])
    return changed.encode()


def _block(lines: list[str], name: str) -> tuple[int, int] | None:
    """The lines of an answer, first and one past the last; comments and blanks after it are not."""
    head = re.compile(rf"""^["']?{re.escape(name)}["']?\s*:(\s|$)""")
    for first, line in enumerate(lines):
        if head.match(line):
            end = first + 1
            for index in range(first + 1, len(lines)):
                following = lines[index]
                if re.match(r"[ \t]+[^\s#]|-(\s|$)|[\]}]", following):
                    end = index + 1
                elif following.strip() and not following.lstrip().startswith("#"):
                    break
            return first, end
    return None


def _comment(line: str) -> str:
    """The comment that closes a line, with the blanks before it; quotes are looked past."""
    quote = ""
    for index, character in enumerate(line):
        if quote:
            quote = "" if character == quote else quote
        elif character in "\"'" and line[:index].rstrip().endswith((":", "[", ",", "{")):
            quote = character
        elif character == "#" and line[index - 1 : index].isspace():
            return line[len(line[:index].rstrip()) :]
    return ""


def _lines(name: str, answer: object, comment: str) -> list[str]:
    if isinstance(answer, list) and answer and all(isinstance(row, dict) for row in answer):
        rows = (
            ", ".join(f"{key}: {_quoted(str(cell), inside=True)}" for key, cell in row.items())
            for row in answer
        )
        return [f"{name}:{comment}", *(f"- {{{row}}}" for row in rows)]
    if isinstance(answer, list):
        items = ", ".join(_quoted(str(item), inside=True) for item in answer)
        return [f"{name}: [{items}]{comment}"]
    return [f"{name}: {_quoted(str(answer), inside=False)}{comment}"]


def _quoted(answer: str, *, inside: bool) -> str:
    """An answer as YAML, in quotes where it would not be read back as itself."""
    plain = _PLAIN.fullmatch(answer) and ": " not in answer and " #" not in answer
    if inside and re.search(r"[,:\[\]{}]", answer):
        plain = None
    if not plain or answer[0] in "-'%" or answer.lower() in _WORDS[:2]:
        return json.dumps(answer, ensure_ascii=False)
    return answer
