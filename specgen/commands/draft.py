"""`specgen draft`: the section that a brief describes."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.commands.common import keep_apart, library_of, refusal

if TYPE_CHECKING:
    from specgen.library import Library
    from specgen.section import Section

SAYS = "Draft the section that a brief describes."
FORMATS = ("docx", "md", "txt")


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    parser.add_argument("-o", "--output", type=Path, help="where to write (default: beside it)")
    parser.add_argument(
        "--format", choices=FORMATS, help="default: by the output's ending, or docx"
    )
    parser.add_argument(
        "--notes", action="store_true", help="add each paragraph's reason as a comment"
    )
    parser.add_argument(
        "--register",
        type=Path,
        metavar="OUT",
        help="also write the submittals and warranties, as .csv or .xlsx",
    )
    parser.add_argument(
        "--with-conflicts",
        action="store_true",
        help="issue for construction although conflicts stand; they become comments",
    )


def run(options: argparse.Namespace) -> int:
    from specgen.assemble import assemble
    from specgen.brief import read_brief
    from specgen.files import replace_file
    from specgen.report import report_of
    from specgen.scope import Scope
    from specgen.writers import outputs
    from specgen.writers.findings_text import summary

    kind = _format(options)
    output: Path = options.output or _beside(options.brief, kind)
    register: Path | None = options.register
    if register is not None:
        outputs.check_register(register)
    keep_apart(options.brief, output, register)
    library = library_of(options)
    brief = read_brief(options.brief, library)
    scope = Scope(library, brief.answers)
    section = assemble(scope)
    report = report_of(brief, scope, section)
    if not options.with_conflicts:
        ways = "Settle it, waive it in the brief, or draft --with-conflicts."
        outputs.refuse_conflicts(brief, report, ways)
    content = outputs.section_file(
        kind,
        section,
        brief,
        report,
        notes=options.notes,
        with_conflicts=options.with_conflicts,
    )
    # The register first: a folder that is missing then leaves no document without it.
    if register is not None:
        replace_file(register, outputs.register_file(outputs.ending_of(register), section))
    replace_file(output, content)
    _tell(section, library, output, register)
    print(f"Found: {summary(report)} `specgen check {options.brief}` tells them.")
    return 0


def _format(options: argparse.Namespace) -> str:
    ending = options.output.suffix.lstrip(".").lower() if options.output else ""
    kind: str = options.format or (ending if ending in FORMATS else "docx")
    if options.output and ending in FORMATS and ending != kind:
        says = f"the ending says {ending} and --format says {kind}; change one."
        raise refusal(options.output, says)
    if options.notes and kind != "docx":
        says = "--notes are comments of a word processor; draft a docx with them."
        raise refusal(options.output or options.brief, says)
    return kind


def _beside(brief: Path, kind: str) -> Path:
    if not brief.name:
        raise refusal(brief, "this is a folder; name the file in it.")
    return brief.with_suffix(f".{kind}")


def _tell(section: Section, library: Library, output: Path, register: Path | None) -> None:
    """Say in a few lines what was written and what is open."""
    from specgen.section import open_questions
    from specgen.writers.outputs import extent, register_extent

    print(f"Wrote {output}: {extent(section)}.")
    if register is not None:
        print(f"Wrote {register}: {register_extent(section)}.")
    offices = sorted({p.reason.clause for p in section.paragraphs() if p.reason.office})
    if offices:
        print(f"From the office's library: {', '.join(offices)}.")
    waiting = open_questions(section)
    if not waiting:
        print("Nothing is open.")
        return
    print(f"Open: {len(waiting)} {'question' if len(waiting) == 1 else 'questions'}.")
    width = max(len(item.question) for item in waiting)
    for item in waiting:
        ask = library.questions[item.question].ask
        places = "1 place" if item.places == 1 else f"{item.places} places"
        print(f"  {item.question.ljust(width)}  {ask} ({places}: {', '.join(item.articles)})")
