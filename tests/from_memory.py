"""What the library and the calculations have from memory, as a table: python -m tests.from_memory.

Everything listed was recalled and has not been confirmed against print; whoever relies on it looks
it up first.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from specgen.library import Library
from specgen.loading import load_library
from tests.support import ROOT

MARK = "from memory"
KINDS = ("question", "clause", "check", "advice", "standard", "calculation")


def rows(library: Library) -> list[tuple[str, str, str]]:
    """Kind, id and source of everything from memory, in the order of the library."""
    found = [
        (kind, entry.id, entry.source)
        for kind, entries in (
            ("question", library.questions),
            ("clause", library.clauses),
            ("check", library.checks),
            ("advice", library.advice),
            ("standard", library.standards),
        )
        for entry in entries.values()
        if MARK in entry.source
    ]
    return found + [("calculation", *row) for row in _in_the_code(ROOT / "specgen")]


def totals(library: Library) -> dict[str, int]:
    """How many there are of each kind in all; of calculations, their modules."""
    return {
        "question": len(library.questions),
        "clause": len(library.clauses),
        "check": len(library.checks),
        "advice": len(library.advice),
        "standard": len(library.standards),
        "calculation": len({path for path, _ in _in_the_code(ROOT / "specgen")}),
    }


def counts_table(library: Library) -> str:
    """The Markdown table of DEVELOPERS.md: of each kind, how many are from memory."""
    counts = Counter(kind for kind, _, _ in rows(library))
    of = totals(library)
    lines = ["| kind | from memory | of |", "|---|---|---|"]
    for kind in KINDS:
        whole = f"{of[kind]} modules that say so" if kind == "calculation" else str(of[kind])
        lines.append(f"| {kind} | {counts[kind]} | {whole} |")
    return "\n".join(lines)


def table(found: Iterable[tuple[str, str, str]]) -> str:
    """The rows as a Markdown table."""
    lines = ["| kind | id | source |", "|---|---|---|"]
    for kind, name, source in found:
        lines.append(f"| {kind} | `{name}` | {source.replace('|', chr(92) + '|')} |")
    return "\n".join(lines)


def _in_the_code(folder: Path) -> list[tuple[str, str]]:
    """The strings and comments of the modules that say so, each once for its module."""
    found: dict[tuple[str, str], None] = {}
    for path in sorted(folder.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        if "memory" in text:
            module = path.relative_to(folder).as_posix()
            for said in (*_strings(text), *_comments(text)):
                found[module, " ".join(said.split())] = None
    return list(found)


def _strings(text: str) -> Iterator[str]:
    """The strings that say so, of a longer text the sentence; … for what is put into them."""
    tree = ast.parse(text)
    joined = [node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)]
    inside = {id(part) for node in joined for part in node.values}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            said = "".join(_part(part) for part in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            said = "" if id(node) in inside else node.value
        else:
            continue
        for sentence in re.split(r"(?<=[.])\s+(?=[A-Z`])|\n\n", said):
            if MARK in " ".join(sentence.split()):
                yield sentence


def _part(part: ast.expr) -> str:
    return str(part.value) if isinstance(part, ast.Constant) else "…"


def _comments(text: str) -> Iterator[str]:
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT and MARK in token.string:
            yield token.string.lstrip("# ")


if __name__ == "__main__":
    print(table(rows(load_library())))
