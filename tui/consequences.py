"""What an answer would cause, on one line and in full."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from specgen.checks import Finding
from specgen.engine import Change
from specgen.library import FINDING_KINDS, Library
from tui.cursor_list import Part
from tui.marks import COLORS, IN, KINDS, MOVED, OUT, REWORDED, marks, plain
from tui.trials import Trial

UNKNOWN = ("open", "not asked")


def consequence(change: Change | None, library: Library) -> list[Part]:
    """A change as parts of a line: conflicts, what is settled, clauses, the number that moves."""
    if change is None:
        return [(marks().cut, "muted")]
    parts: list[Part] = []
    raised = [f for f in change.raised if f.kind == "conflict"]
    if raised:
        parts.append((f"{KINDS['conflict']}{len(raised)} ", "conflict"))
    others = counted(f for f in change.raised if f.kind != "conflict")
    if others:
        parts.append((f"{others} ", "open"))
    if change.settled:
        parts.append((f"settles {counted(change.settled)} ", "settled"))
    clauses = clauses_moved(change)
    if clauses:
        parts.append((f"{clauses} ", "plain"))
    number = number_moved(change, library)
    if number:
        parts.append((f"{MOVED} {number}", "number"))
    return parts or [("changes nothing else", "muted")]


def counted(findings: Iterable[Finding]) -> str:
    """Findings by their kinds: ``!2 .1``."""
    kinds = [finding.kind for finding in findings]
    return " ".join(f"{KINDS[k]}{kinds.count(k)}" for k in FINDING_KINDS if k in kinds)


def clauses_moved(change: Change) -> str:
    """Clauses in, out and worded otherwise: ``+3 -2 ~4``."""
    sides = ((IN, change.entered), (OUT, change.left), (REWORDED, change.reworded))
    return " ".join(f"{sign}{len(clauses)}" for sign, clauses in sides if clauses)


def number_moved(change: Change, library: Library) -> str:
    """The number that says most: one known before and after, else one that becomes known."""
    if not change.computed:
        return ""

    def rank(moved: tuple[str, str, str]) -> tuple[bool, bool, bool]:
        name, before, after = moved
        kind = library.kind_of(name)
        return (kind in ("table", "yes-no"), after in UNKNOWN, before in UNKNOWN)

    return _moved(min(change.computed, key=rank), library)


def _moved(moved: tuple[str, str, str], library: Library) -> str:
    name, before, after = moved
    return f"{before} {marks().arrow} {after}, {number_label(name, library)}"


def number_label(name: str, library: Library) -> str:
    """What a computed value is called."""
    provided = library.calculations[name].provides
    return next((each.label for each in provided if each.id == name), name)


def in_full(trial: Trial, library: Library) -> Content:
    """Everything that an answer would cause, what it means, and what speaks for and against it."""
    lines: list[Content] = []
    if trial.means:
        lines.append(Content(plain(trial.means)))
    change = trial.change
    if change is not None:
        for finding in change.raised:
            sign = f"{KINDS[finding.kind]} "
            lines.append(Content.styled(sign + plain(finding.says), COLORS[finding.kind]))
        for finding in change.settled:
            says = f"settles {KINDS[finding.kind]} {plain(finding.says)}"
            lines.append(Content.styled(says, "$success"))
        moved = [_moved(each, library) for each in change.computed]
        if moved:
            lines.append(Content.styled(f"{MOVED} " + plain("; ".join(moved)), "$primary"))
    lines += [Content.styled(plain(counsel), "$text-muted") for counsel in trial.counsel]
    return Content("\n").join(lines)


def came_of(change: Change | None) -> str:
    """What a change did, in a line."""
    if change is None:
        return ""
    parts = []
    if change.raised:
        parts.append(f"raised {counted(change.raised)}")
    if change.settled:
        parts.append(f"settled {counted(change.settled)}")
    if moved := clauses_moved(change):
        parts.append(f"clauses {moved}")
    return "; ".join(parts)
