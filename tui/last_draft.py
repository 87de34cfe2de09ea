"""What the section is compared with: the last draft beside the brief, else the brief as saved."""

from __future__ import annotations

import json
import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from xml.etree import ElementTree

from specgen.brief import FIXED, WAIVE, read_brief
from specgen.engine import Engine
from specgen.faults import BadInput
from specgen.library import Library
from specgen.questions import read_answer
from specgen.section import Section

MOST_BYTES = 8_000_000
_RECORD_NAME = re.compile(r"customXml/item\d+\.xml")


@dataclass(frozen=True, slots=True)
class LastDraft:
    """A section to compare with; ``named`` says which: ``the draft of 3 May 2027, 14:05``."""

    named: str
    section: Section


Mark = tuple[tuple[str, int, int], ...]


def mark_of(brief: Path) -> Mark:
    """A mark of the files beside a brief; another one where there is another draft."""
    marks = []
    for path in (brief.with_suffix(".docx"), brief):
        try:
            found = path.stat()
        except OSError:
            continue
        marks.append((path.suffix, found.st_mtime_ns, found.st_size))
    return tuple(marks)


def last_draft(brief: Path, library: Library) -> LastDraft | None:
    """The section of the last draft; without one, of the brief as saved; without that, None."""
    draft = brief.with_suffix(".docx")
    typed = drafted_answers(draft)
    if typed is not None:
        when = datetime.fromtimestamp(draft.stat().st_mtime)
        named = f"the draft of {when.day} {when:%b %Y, %H:%M}"
        return LastDraft(named, _section_of(typed, library))
    if not brief.exists():
        return None
    try:
        answers = read_brief(brief, library).answers
    except BadInput:
        return None
    return LastDraft("the brief as saved", Engine(library, answers).section)


def drafted_answers(path: Path) -> Mapping[str, object] | None:
    """The answers that a drafted document carries, as typed; None if it is none of ours."""
    try:
        with zipfile.ZipFile(path) as package:
            for entry in package.infolist():
                if _RECORD_NAME.fullmatch(entry.filename) and entry.file_size <= MOST_BYTES:
                    found = _answers_in(package.read(entry))
                    if found is not None:
                        return found
    except (OSError, zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, ValueError):
        return None
    return None


def _answers_in(record: bytes) -> Mapping[str, object] | None:
    if b"<!DOCTYPE" in record or b"<!ENTITY" in record:
        return None
    # Imported when there is a draft to read: the writer of documents is slow to import.
    from specgen.writers.docx import RECORD_NAMESPACE

    try:
        root = ElementTree.fromstring(record)
        if root.tag != f"{{{RECORD_NAMESPACE}}}section":
            return None
        typed = json.loads(root.findtext(f"{{{RECORD_NAMESPACE}}}brief") or "null")
    except (ElementTree.ParseError, ValueError, RecursionError):
        return None
    return typed if isinstance(typed, dict) else None


def _section_of(typed: Mapping[str, object], library: Library) -> Section:
    """The section of answers as typed, without those that the library does not take (any more)."""
    answers = {}
    for name, raw in typed.items():
        question = library.questions.get(name)
        if question is None or name in (WAIVE, FIXED):
            continue
        try:
            answers[name] = read_answer(question, raw)
        except (ValueError, TypeError, AttributeError):
            continue
    return Engine(library, answers).section
