"""The briefs in a folder, each in a line, for choosing one."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from specgen.faults import BadInput
from specgen.journal import changes_in, journal_of
from specgen.library import Library
from specgen.yamlread import read_yaml

ENDINGS = (".yaml", ".yml")
MOST_FILES = 200


@dataclass(frozen=True, slots=True)
class BriefHere:
    """A brief: its project as typed, how many questions it answers, how many changes were left.

    ``fault`` says why it cannot be read, where it cannot.
    """

    path: Path
    project: str = ""
    answers: int = 0
    left: int = 0
    fault: str = ""


def briefs_in(folder: Path, library: Library) -> list[BriefHere]:
    """The briefs of a folder by name; other YAML files are passed over."""
    try:
        files = sorted(p for p in folder.iterdir() if p.suffix.lower() in ENDINGS)
        journals = [p for p in folder.glob(".*.journal") if p.is_file()]
    except OSError:
        return []
    # A brief that was never saved has only its journal.
    unsaved = {p.with_name(p.name[1 : -len(".journal")]) for p in journals} - set(files)
    found = [_brief_at(path, library) for path in sorted([*files[:MOST_FILES], *unsaved])]
    return [brief for brief in found if brief is not None]


def _brief_at(path: Path, library: Library) -> BriefHere | None:
    changes = changes_in(journal_of(path))
    typed: dict[str, object] = {}
    if path.is_file():
        try:
            content = read_yaml(path)
        except BadInput as error:
            return BriefHere(path, left=len(changes), fault=error.faults[0].says)
        if content is not None and not isinstance(content, dict):
            return None
        typed = dict(content or {})
        if typed and not any(name in library.questions for name in typed):
            return None
    elif not changes:
        return None
    merged = {name: raw for name, raw in {**typed, **changes}.items() if raw is not None}
    answers = sum(1 for name in merged if name in library.questions)
    return BriefHere(path, str(merged.get("project_name", "")), answers, len(changes))
