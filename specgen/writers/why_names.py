"""What hangs on a question, a value or a fact, for the terminal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from specgen.study.explained import Hanging, NameWhy
from specgen.writers.laid_out import block, columns, counted, entries, entry

STATES = {"in": "In this section", "open": "Open", "out": "Not in this section"}
FOUND = {"found": "Found here", "open": "Open", "clear": "Clear"}


def write_name(found: NameWhy) -> str:
    """A question, value or fact and everything that reads it."""
    lines = [f"{found.name}  {found.label}".rstrip()]
    lines += entry(found.says, hang="") if found.says else []
    lines += [*entry(f"Answer: {found.answer}."), ""]
    if found.kind != "value":
        lines += block(_why_head(found), _asked(found))
    lines += block("Reads", entry(", ".join(found.inputs)) if found.inputs else [])
    lines += block(
        "Facts that read it", entries(f"{n} = {a}: {said}" for n, said, a in found.facts)
    )
    asks = [(name, f"{label} ({answer})") for name, label, answer in found.questions]
    lines += block("Questions asked because of it", columns(asks))
    computed = ((title, ", ".join(values)) for title, values in found.calculations)
    lines += block("Calculations", columns(list(computed)))
    lines += block(*_clauses(found.clauses))
    lines += block(*_checks(found.checks))
    return "\n".join(lines).rstrip() + "\n"


def _why_head(found: NameWhy) -> str:
    if found.kind == "fact":
        return "What decides it"
    unasked = not found.arises and found.answer.startswith("not asked")
    return "Why it is not asked here" if unasked else "Why it is asked"


def _asked(found: NameWhy) -> list[str]:
    lines: list[str] = []
    for ground in found.asked:
        now = f" (it is {ground.now})" if ground.now else ""
        lines += entry(f"{ground.says}{now}  · {', '.join(ground.names)}")
    lines += entry(found.why, hang="") if found.why else []
    return lines + (entry(f"Source: {found.source.rstrip('.')}.") if found.source else [])


def _clauses(clauses: Sequence[Hanging]) -> tuple[str, list[str]]:
    head = f"{counted(len(clauses), 'clause')} hang on it" if len(clauses) != 1 else (
        "One clause hangs on it"
    )  # fmt: skip
    lines: list[str] = []
    for state, title in STATES.items():
        held = [each for each in clauses if each.state == state]
        if held:
            lines += entry(f"{title} ({len(held)})")
            lines += entry("; ".join(_clause(each) for each in held), "    ")
    return head, lines


def _clause(each: Hanging) -> str:
    worded = ", its words" if each.kind == "text" else ""
    through = f", through {' and '.join(each.via)}" if each.via else ""
    return f"{each.place} {each.id}{worded}{through}".strip()


def _checks(checks: Sequence[Hanging]) -> tuple[str, list[str]]:
    head = f"{counted(len(checks), 'check')} hang on it" if len(checks) != 1 else (
        "One check hangs on it"
    )  # fmt: skip
    lines: list[str] = []
    for state, title in FOUND.items():
        held = [each for each in checks if each.state == state]
        if held:
            lines += entry(f"{title} ({len(held)})")
            lines += entry(", ".join(_checked(held)), "    ")
    return head, lines


def _checked(held: Iterable[Hanging]) -> Iterable[str]:
    return (f"{each.id} ({each.kind})" if each.state == "found" else each.id for each in held)
