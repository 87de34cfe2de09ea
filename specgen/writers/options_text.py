"""Options and settlements for the terminal and as plain values for JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from specgen.checks import Finding
from specgen.engine import Change, Engine
from specgen.library import Library
from specgen.options import Counsel, Option
from specgen.questions import Question
from specgen.settle import Settlement

WIDTH = 88
MOST_NAMES = 8


def write_options(question: Question, options: Sequence[Option], library: Library) -> str:
    """Each answer with what it raises, settles, brings in and takes out, and its counsel."""
    lines = [question.ask, ""]
    ranked = any(option.counsel for option in options)
    for place, option in enumerate(options, 1):
        now = "  (as answered)" if option.current else ""
        rank = f"{place}. " if ranked else ""
        lines.append(f"{rank}{option.answer}: {option.label}{now}" if option.label != option.answer
                     else f"{rank}{option.answer}{now}")  # fmt: skip
        lines += _change_lines(option.change, library)
        for counsel in option.counsel:
            lines += _counsel_lines(counsel)
        lines.append("")
    if ranked:
        lines += _wrapped(
            "Ranked by the reasons for and against, by weight, and by the conflicts raised; each"
            " reason leads to the check or the clause named with it.",
            "",
        )
    return "\n".join(lines).rstrip() + "\n"


def options_json(question: Question, options: Sequence[Option]) -> dict[str, object]:
    """Every field of every option."""
    return {
        "question": question.id,
        "ask": question.ask,
        "options": [
            {
                "answer": option.answer,
                "label": option.label,
                "current": option.current,
                "standing": option.standing,
                "conflicts": list(option.conflicts),
                "raised": [_finding(finding) for finding in option.change.raised],
                "settled": [finding.id for finding in option.change.settled],
                "entered": list(option.change.entered),
                "left": list(option.change.left),
                "reworded": list(option.change.reworded),
                "computed": [
                    {"name": name, "before": before, "after": after}
                    for name, before, after in option.change.computed
                ],
                "counsel": [
                    {
                        "aspect": counsel.aspect,
                        "speaks": "for" if counsel.speaks_for else "against",
                        "weight": counsel.weight,
                        "says": counsel.says,
                        "source": counsel.source,
                        "check": counsel.check,
                        "clause": counsel.clause,
                    }
                    for counsel in option.counsel
                ],
            }
            for option in options
        ],
    }


def write_settlement(found: Settlement, engine: Engine) -> str:
    """The smallest changes that settle every conflict, or what cannot be settled and why."""
    if found.searched == 0 and not found.stuck:
        return "There is no conflict to settle.\n"
    lines: list[str] = []
    if found.ways:
        changes = "1 answer" if found.searched == 1 else f"{found.searched} answers"
        lines.append(f"Changing {changes} leaves no conflict:")
        for way in found.ways:
            told = (f"{name}: {answer} (now {engine.scope.shown(name)})" for name, answer in way)
            lines.append(f"  {'; '.join(told)}")
    elif found.complete:
        lines.append("No change of the answers that are free to change leaves no conflict.")
    elif found.searched == 0:
        lines.append("The search was given up before every change of one answer had been tried.")
    else:
        lines.append(
            f"No change of up to {found.searched} answers leaves no conflict; beyond, no search."
        )
    for finding, fixed in found.stuck:
        lines += _wrapped(f"{finding.id}: {finding.says}", "  ")
        if fixed:
            lines += _wrapped(f"Held by the fixed answers {', '.join(fixed)}.", "    ")
    return "\n".join(lines) + "\n"


def _change_lines(change: Change, library: Library) -> Iterable[str]:
    """What differs, in a few lines; a single line where nothing does."""
    lines: list[str] = []
    for finding in change.raised:
        lines += _wrapped(f"! raises {finding.kind} {finding.id}: {finding.says}", "   ")
    for finding in change.settled:
        lines += _wrapped(f"- settles {finding.kind} {finding.id}", "   ")
    for head, names in (
        ("+ clauses in", change.entered),
        ("- clauses out", change.left),
        ("~ clauses reworded", change.reworded),
    ):
        if names:
            lines += _wrapped(f"{head}: {_named(names)}", "   ")
    for name, before, after in change.computed:
        lines += _wrapped(f"= {name}: {before} -> {after}", "   ")
    return lines or ["   changes nothing"]


def _counsel_lines(counsel: Counsel) -> Iterable[str]:
    sign = "for" if counsel.speaks_for else "against"
    leads = counsel.check or counsel.clause
    text = f"{sign}, {counsel.aspect}: {counsel.says} ({counsel.source}; {leads})"
    return _wrapped(text, "     ")


def _named(names: Sequence[str]) -> str:
    shown = ", ".join(names[:MOST_NAMES])
    return shown if len(names) <= MOST_NAMES else f"{shown} and {len(names) - MOST_NAMES} more"


def _wrapped(text: str, margin: str) -> list[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=margin,
        subsequent_indent=margin + "  ",
        break_on_hyphens=False,
        break_long_words=False,
    )


def _finding(finding: Finding) -> dict[str, str]:
    return {"id": finding.id, "kind": finding.kind, "says": finding.says}
