"""Explanations for the terminal and as plain values for JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from specgen.library import Library, Standard
from specgen.section import Paragraph, Section, numbered
from specgen.study.explained import (
    AbsentWhy,
    Beside,
    Explanation,
    FindingWhy,
    NameWhy,
    ParagraphWhy,
    StandardWhy,
)
from specgen.study.saying import Ground
from specgen.study.steps import Step
from specgen.study.ways import Ways
from specgen.writers.laid_out import (
    block,
    columns,
    counted,
    entries,
    entry,
    plain_values,
    shortened,
)
from specgen.writers.why_names import write_name

TEXT_SHOWN = 150
LISTED = 12


def write_why(found: Explanation) -> str:
    """An explanation as text."""
    if isinstance(found, ParagraphWhy):
        lines = _paragraph(found)
    elif isinstance(found, AbsentWhy):
        lines = _absent(found)
    elif isinstance(found, StandardWhy):
        lines = _standard(found)
    elif isinstance(found, NameWhy):
        return write_name(found)
    else:
        lines = _finding(found)
    return "\n".join(lines).rstrip() + "\n"


def why_json(found: Explanation) -> dict[str, object]:
    """Every field of an explanation."""
    values = plain_values(found)
    assert isinstance(values, dict)
    return {"explains": found.__class__.__name__.removesuffix("Why").lower(), **values}


def write_overview(section: Section, library: Library) -> str:
    """Every paragraph in a line: its number, its clause and the answers that put it there."""
    lines: list[str] = []
    for article in section.articles():
        rows = []
        for paragraph, number in numbered(article):
            if paragraph.reason.clause:
                rows.append((f"{number} {paragraph.reason.clause}", _placed_by(paragraph)))
            elif paragraph.decision is not None:
                label = library.questions[paragraph.decision.question].label
                rows.append((f"{number} open: {label}", paragraph.decision.question))
        lines += block(f"{article.number} {article.title}", columns(rows, most=44))
    lines.append("specgen why BRIEF with a number or a name from here explains it.")
    return "\n".join(lines) + "\n"


def overview_json(section: Section) -> dict[str, object]:
    """Every paragraph with what put it there."""
    return {
        "paragraphs": [
            {"number": number, "reason": plain_values(paragraph.reason)}
            for article in section.articles()
            for paragraph, number in numbered(article)
        ]
    }


def _placed_by(paragraph: Paragraph) -> str:
    given = dict((*paragraph.reason.answers, *paragraph.reason.calculations))
    shown = [f"{name} = {given[name]}" for name in paragraph.reason.placed_by]
    if len(shown) > 4:
        shown = [*shown[:4], f"and {len(shown) - 4} more"]
    return ", ".join(shown) or "in every section"


# -------------------------------------------------------------------------------------- paragraph


def _paragraph(found: ParagraphWhy) -> list[str]:
    title = found.article.partition(" ")[2]
    lines = [f"{found.number}  {title}", *entry(found.text, hang=""), ""]
    if found.kind == "open":
        lines += _open(found)
    elif found.kind == "computed":
        lines += _computed(found)
    else:
        lines += block("Why it is here", _here(found))
    lines += block("The reason", _reason(found.why, found.source))
    lines += block("What words it", columns(_worded(found)))
    lines += block("Numbers in it", _numbers(found))
    if found.kind != "open":
        lines += block("What would remove it", _removal(found))
    lines += block("Goes together with", _beside(found))
    lines += block("Standards it leans on", _standards(found.standards))
    lines += block("Asks the contractor for", columns(found.submits))
    lines += block(
        "Found here", entries(f"{each.kind} {each.id}: {each.says}" for each in found.findings)
    )
    if found.clause:
        owner = ", of the office's own library" if found.office else ""
        lines.append(f"Clause {found.clause}{owner}.")
    return lines


def _here(found: ParagraphWhy) -> list[str]:
    lines = []
    for upper in found.under:
        lines += entry(f"It stands under {upper.place}, {upper.clause}.")
    lines += _grounds(found.grounds)
    return lines or entry("It stands in every section of this kind, whatever is answered.")


def _grounds(grounds: Sequence[Ground]) -> list[str]:
    """What decided, one a line, and below each fact its reason."""
    lines: list[str] = []
    said: set[str] = set()
    for ground in grounds:
        now = f" (it is {ground.now})" if ground.now else ""
        names = f"  · {', '.join(ground.names)}" if ground.names else ""
        lines += entry(f"{ground.says}{now}{names}")
        if ground.why and ground.fact not in said:
            said.add(ground.fact)
            lines += entry(ground.why, "      ", "")
    return lines


def _reason(why: str, source: str) -> list[str]:
    closed = f"Source: {source.rstrip('.')}." if source else ""
    return [*entry(why, hang=""), *entry(closed, hang="")] if why else []


def _worded(found: ParagraphWhy) -> list[tuple[str, str]]:
    return [
        (given.question, f"{given.label}: {given.answer}")
        for given in found.given
        if not given.places
    ]


def _numbers(found: ParagraphWhy) -> Iterator[str]:
    for number in found.numbers:
        shown = ", as tabled" if number.value == "as tabled" else f": {number.value}"
        yield from entry(f"{number.label}{shown}  · {number.name}")
        yield from entry(f"by {number.title}, from {', '.join(number.inputs)}", "      ", "")


def _removal(found: ParagraphWhy) -> list[str]:
    if found.removal is None:
        return (
            []
            if not found.under and not found.grounds
            else entries(["Nothing: it stands in every section of this kind."])
        )
    if found.removal.ways:
        return ways_lines(found.removal)
    if found.removal.tried:
        return entry(
            "No other answer, tried alone or up to "
            f"{counted(found.removal.tried, 'answer')} together, takes it out."
        )
    return entry("No other answer, tried alone, takes it out; more were not tried.")


def ways_lines(ways: Ways) -> list[str]:
    """The smallest changes, one way a line."""
    lines = []
    for index, way in enumerate(ways.ways):
        joined = ", and ".join(_step(step) for step in way)
        lines += entry(f"{'or ' if index else ''}{joined}")
    return lines


def _step(step: Step) -> str:
    return f"{step.label}: {step.says} (now {step.now})  · {step.question}"


def _beside(found: ParagraphWhy) -> list[str]:
    needing = {each.clause for each in found.needed_by}
    needed = {each.clause for each in found.needs}
    rows = [("with" if e.clause in needing else "needs", e) for e in found.needs]
    rows += [("needed by", each) for each in found.needed_by if each.clause not in needed]
    return columns([(f"{how} {_place(each)}", _says(each)) for how, each in rows])


def _place(each: Beside) -> str:
    return each.place or {"open": "(open)", "out": "(not in this section)"}.get(each.state, "")


def _says(each: Beside) -> str:
    return f"{each.clause}: {shortened(each.text, TEXT_SHOWN)}" if each.text else each.clause


def _standards(standards: Iterable[Standard]) -> list[str]:
    lines = []
    for each in standards:
        verb = "tests" if each.kind == "test method" else "governs"
        lines += entry(f"{each.id}, {each.title.rstrip('.')}.")
        lines += entry(f"{each.kind.capitalize()}; {verb} {each.governs}.", "      ", "")
        if each.status != "current":
            lines += entry(f"{each.status.capitalize()}; {each.replaced_by}.", "      ", "")
        if each.note:
            note = f"{each.note[:1].upper()}{each.note[1:].rstrip('.')}."
            lines += entry(note, "      ", "")
    return lines


def _open(found: ParagraphWhy) -> list[str]:
    waiting = [each.clause for each in found.caused_by]
    head = f"Nobody has answered {found.question} yet; {counted(len(waiting), 'clause')} wait here"
    if len(waiting) == 1:
        head = f"Nobody has answered {found.question} yet; one clause waits here"
    lines = block(head, entry(", ".join(waiting)))
    if found.removal is not None and found.removal.ways:
        lines += block("What settles it", ways_lines(found.removal))
    others = [given.question for given in found.given if given.question != found.question]
    return lines + block("These answers bear on it too", entry(", ".join(others)))


def _computed(found: ParagraphWhy) -> list[str]:
    rows = [(each.place, _says(each)) for each in found.caused_by[:LISTED]]
    more = len(found.caused_by) - LISTED
    lines = columns(rows)
    if more > 0:
        lines += entry(f"and {more} more")
    return block("Listed because of", lines)


# ----------------------------------------------------------------------------------------- absent


def _absent(found: AbsentWhy) -> list[str]:
    said = "waits" if found.state == "open" else "is not in this section"
    lines = [f"{found.clause} {said} ({found.article}).", ""]
    if found.held_by:
        lines += entry(f"It would stand under {found.held_by}, and that {said}.", "")
        lines.append("")
    if found.state == "open":
        waits = (f"{each.says}?  · {', '.join(each.names)}" for each in found.grounds)
        lines += block("What it waits for", entries(waits))
    else:
        lines += block("What keeps it out", _kept_out(found.grounds))
    lines += block("What would bring it in", _bringing(found))
    lines += block("It would then read", entry(found.text, hang="") if found.text else [])
    lines += block("The reason for it", _reason(found.why, found.source))
    needs = [(f"needs {_place(each)}".rstrip(), _says(each)) for each in found.needs]
    lines += block("Goes together with", columns(needs))
    return lines + block("Standards it leans on", _standards(found.standards))


def _kept_out(grounds: Sequence[Ground]) -> list[str]:
    lines: list[str] = []
    for ground in grounds:
        now = f"it is {ground.now}" if ground.now else f"now {ground.says}"
        lines += entry(f"it needs {ground.turned}; {now}  · {', '.join(ground.names)}")
        if ground.why:
            lines += entry(ground.why, "      ", "")
    return lines


def _bringing(found: AbsentWhy) -> list[str]:
    if found.ways.ways:
        return ways_lines(found.ways)
    return entry(
        f"Nothing that was tried, up to {counted(max(found.ways.tried, 1), 'answer')} together."
    )


# -------------------------------------------------------------------------- standard and finding


def _standard(found: StandardWhy) -> list[str]:
    lines = [*_standards([found.standard]), ""]
    lines += entry(f"Published by {found.standard.publisher}. {_listed(found)}", "")
    lines.append("")
    uses: list[str] = []
    for each, why in found.uses:
        uses += entry(f"{each.place}  {each.text}  · {each.clause}")
        uses += entry(why, "      ", "")
    often = "once" if len(found.uses) == 1 else f"{len(found.uses)} times"
    lines += block(f"Cited {often} in this section", uses)
    rows = [(each.clause, "waits on an answer" if each.state == "open" else "not in this section")
            for each in found.elsewhere]  # fmt: skip
    return lines + block("Other clauses that would cite it (specgen why --not tells)",
                         columns(rows))  # fmt: skip


def _listed(found: StandardWhy) -> str:
    if found.listed_at:
        return f"Listed at {found.listed_at}."
    return "This section does not cite it." if not found.uses else ""


def _finding(found: FindingWhy) -> list[str]:
    state = {
        "found": f"is found here: a {found.kind}",
        "clear": "is not found here",
        "open": "waits on an answer",
    }[found.state]
    lines = [f"{found.check} {state}.", ""]
    for each in found.found:
        place = f"{each.place}  " if each.place else ""
        lines += [*entry(f"{place}{each.says}", hang=""), ""]
    lines += block("What decides it", _grounds(found.grounds))
    lines += block("The reason", _reason(found.because, found.source))
    proposed = [(words, "settles it here" if does else "does not settle it alone here")
                for words, does in found.settle]  # fmt: skip
    lines += block("What the check proposes", columns(proposed, most=48))
    if found.ways is not None:
        head = "What would settle it" if found.state == "found" else "What would raise it"
        told = ways_lines(found.ways) or entry(
            f"Nothing that was tried, up to {counted(max(found.ways.tried, 1), 'answer')} together."
        )
        lines += block(head, told)
    return lines
