"""A library and a brief several times larger: each question and clause copied under new names."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from clauses import FOLDER
from specgen.library import Library
from specgen.yamlread import read_yaml

SINGLE = ("section.yaml", "standards.yaml", "advice.yaml")


def enlarged_library(library: Library, target: Path, times: int) -> Path:
    """The library with every question, fact and clause ``times`` over, copies reading copies.

    The files are written as JSON, which is YAML, an entry a line.
    """
    names = re.compile(r"\b(" + "|".join({*library.questions, *library.facts}) + r")\b(?!\()")
    computed = re.compile(r"\b(" + "|".join(library.calculations) + r")\b")
    for path in sorted(FOLDER.rglob("*.yaml")):
        written = target / path.relative_to(FOLDER)
        written.parent.mkdir(parents=True, exist_ok=True)
        entries = read_yaml(path)
        if path.name in SINGLE or not isinstance(entries, list):
            written.write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
            continue
        # What reads a computed value stays single, since calculations are not copied.
        copies = [
            _copied(entry, names, copy)
            for copy in range(times)
            for entry in entries
            if copy == 0 or not computed.search(json.dumps(entry))
        ]
        written.write_text("[\n" + ",\n".join(map(json.dumps, copies)) + "\n]", encoding="utf-8")
    return target


def enlarged_brief(brief: Path, target: Path, times: int) -> Path:
    """The brief with its answers given to every copy of its questions."""
    answers: Any = read_yaml(brief)
    copies = {
        _numbered(name, copy, "_"): answer
        for copy in range(times)
        for name, answer in answers.items()
    }
    lines = ",\n".join(f"{json.dumps(name)}: {json.dumps(a)}" for name, a in copies.items())
    target.write_text("{\n" + lines + "\n}", encoding="utf-8")
    return target


def _numbered(name: str, copy: int, joint: str) -> str:
    return f"{name}{joint}{copy}" if copy else name


def _copied(entry: Any, names: re.Pattern[str], copy: int) -> Any:
    """An entry under a new name, reading the questions and naming the clauses of its own copy."""

    def rename(text: str) -> str:
        """Names outside quotes get the number of the copy."""
        pieces = re.split(r"('[^']*'|\"[^\"]*\")", text)
        pieces[::2] = [names.sub(lambda m: _numbered(m[0], copy, "_"), p) for p in pieces[::2]]
        return "".join(pieces)

    def rename_text(text: str) -> str:
        return re.sub(r"\{[{%].*?[%}]\}", lambda m: rename(m[0]), text)

    is_clause = "text" in entry
    is_said = "says" in entry
    copied = dict(entry)
    copied["id"] = _numbered(entry["id"], copy, "-" if is_clause or is_said else "_")
    for key in ("when", "is", "table"):
        if key in copied:
            copied[key] = rename(copied[key])
    for key in ("under", "after"):
        if key in copied:
            copied[key] = _numbered(copied[key], copy, "-")
    if is_said:
        copied["says"] = rename_text(entry["says"])
        for key in ("raises", "spares"):
            if key in copied:
                copied[key] = {_numbered(n, copy, "_"): v for n, v in copied[key].items()}
        if "settle" in copied:
            copied["settle"] = [
                {_numbered(n, copy, "_"): v for n, v in way.items()} for way in copied["settle"]
            ]
    if is_clause:
        copied["text"] = rename_text(entry["text"])
        copied["needs"] = [_numbered(needed, copy, "-") for needed in entry.get("needs") or []]
        copied["submits"] = {
            kind: rename_text(what) for kind, what in (entry.get("submits") or {}).items()
        }
        if "warrants" in copied:
            copied["warrants"] = {k: rename_text(v) for k, v in entry["warrants"].items()}
    return copied
