"""The house: what may know what, and the words that may not stand anywhere."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.support import ROOT

# A module may import those of its own floor and of the floors below it.
FLOORS = (
    ("calculations",),
    ("faults", "units", "spans", "patterns"),
    ("showing", "values", "yamlread", "files"),
    ("conditions",),
    ("wording", "questions", "entries"),
    ("language", "computing"),
    ("library",),
    ("integrity", "scope", "cache", "dependence", "domain", "shaping"),
    ("reader", "section"),
    ("loading", "brief", "briefedit", "journal", "drawing"),
    ("standing",),
    ("grounds",),
    ("assemble", "checks", "listing"),
    ("document_checks",),
    ("report", "engine"),
    ("options", "settle", "idle", "session"),
    ("review",),
    ("study",),
    ("writers",),
    ("commands",),
    ("cli",),
    ("__main__",),
)
FLOOR_OF = {name: floor for floor, names in enumerate(FLOORS) for name in names}
MODULES = sorted((ROOT / "specgen").rglob("*.py"))


# The commands that show the screens know them, and only while they run: whoever drafts or checks
# must neither wait for a terminal's library nor need one.
SHOWS_THE_SCREENS = {("specgen", "commands", name) for name in ("ask", "study")}


def _imports(path: Path, *, at_once: bool = False) -> set[str]:
    """What a module imports; ``at_once``: only what is imported as soon as it is."""
    found = set()
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in tree.body if at_once else ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
        elif isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
    return found


def _floor(module: str) -> int:
    name = module.split(".")[1]
    return FLOOR_OF["drawing" if name.startswith("drawing") else name]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_imports_run_one_way(path: Path) -> None:
    parts = path.relative_to(ROOT).with_suffix("").parts
    if parts[1] == "__init__":
        assert not {name for name in _imports(path) if name.startswith("specgen")}
        return
    own = _floor(".".join(parts))
    for module in _imports(path):
        if module.startswith("tui"):
            assert parts in SHOWS_THE_SCREENS, f"{path} reaches up to the screens"
            assert module not in _imports(path, at_once=True)
        if module.startswith("specgen.") and parts[1] != "calculations":
            assert _floor(module) <= own, f"{path} reaches up to {module}"


def test_calculations_import_units_and_nothing_else_of_the_rest() -> None:
    for path in (ROOT / "specgen" / "calculations").glob("*.py"):
        ours = {name for name in _imports(path) if name.startswith("specgen.")}
        strangers = {
            name for name in ours if not name.startswith(("specgen.calculations", "specgen.units"))
        }
        assert not strangers, f"{path.name} imports {strangers}"


def test_only_the_language_and_the_pages_know_jinja() -> None:
    knowing = {path.stem for path in MODULES if any("jinja2" in m for m in _imports(path))}
    assert knowing == {"language", "calculations_html", "review_html"}


def test_pydantic_stands_only_where_data_comes_in() -> None:
    knowing = {path.stem for path in MODULES if "pydantic" in _imports(path)}
    assert knowing == {"entries"}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_is_read_in_one_sitting(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


def test_the_top_level_is_as_agreed() -> None:
    agreed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "specgen", "clauses", "tui", "tests",
              "examples"}  # fmt: skip
    shown = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    made = {name for name in shown if name.endswith((".egg-info", ".docx")) or name in ("build",)}
    assert shown - made == agreed
