"""The commands. Each reads its arguments, calls the engine and prints; nothing is decided here."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from specgen.brief import Brief
    from specgen.library import Library
    from specgen.report import Report
    from specgen.section import Section

FORMATS = ("docx", "md", "txt")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 if it did what was asked, 2 for input that cannot be worked with."""
    gc.disable()  # a command ends before its garbage would matter
    options = _parser().parse_args(arguments)
    if sys.stdout.encoding.lower() not in ("utf-8", "utf8"):
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")
    from specgen.faults import BadInput

    try:
        code: int = options.run(options)
        sys.stdout.flush()
        return code
    except BadInput as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 2
    except BrokenPipeError:
        _silence_stdout()
        return 0
    except KeyboardInterrupt:
        print("Stopped; nothing was written over.", file=sys.stderr)
        return 130


def run() -> None:
    """The command as a process of its own: it ends at once, having nothing left to tidy away."""
    code = main()
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)


def _silence_stdout() -> None:
    """Keep Python from complaining, as it ends, that the reader of a pipe has gone."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="specgen",
        description="Specify standing seam metal roofs: answers in, a three-part section out.",
        epilog="What a section requires is subject to the local code and to the licensed design"
        " professional who issues it.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, says: str) -> argparse.ArgumentParser:
        sub = commands.add_parser(name, help=says, description=says)
        sub.add_argument(
            "--library",
            action="append",
            default=[],
            type=Path,
            metavar="DIR",
            help="an office's own folder of clauses, laid over the library (repeatable)",
        )
        return sub

    draft = command("draft", "Draft the section that a brief describes.")
    draft.add_argument("brief", type=Path, help="the brief, a YAML file of answers")
    draft.add_argument(
        "-o", "--output", type=Path, help="where to write (default: beside the brief)"
    )
    draft.add_argument(
        "--format", choices=FORMATS, help="default: by the ending of the output, or docx"
    )
    draft.add_argument(
        "--notes", action="store_true", help="add each paragraph's reason as a comment"
    )
    draft.add_argument(
        "--register",
        type=Path,
        metavar="OUT",
        help="also write the submittals and warranties, as .csv or .xlsx",
    )
    draft.set_defaults(run=_draft)

    draft.add_argument(
        "--with-conflicts",
        action="store_true",
        help="issue for construction although conflicts stand; they become comments",
    )

    check = command("check", "Say what a brief contradicts or leaves out; 1 if a conflict stands.")
    check.add_argument("brief", type=Path)
    check.add_argument("--json", action="store_true", help="every field, as JSON")
    check.set_defaults(run=_check)

    new = command("new", "Write an empty brief, every question a commented line.")
    new.add_argument("output", type=Path, help="the file to write; one that exists is kept")
    new.set_defaults(run=_new)

    questions = command("questions", "List the questions.")
    questions.add_argument("--json", action="store_true", help="every field, as JSON")
    questions.set_defaults(run=_questions)

    library = command("library", "Read the whole library and say what it holds.")
    library.set_defaults(run=_library)
    return parser


def _load(options: argparse.Namespace) -> Library:
    from specgen.loading import load_library

    return load_library(overlays=options.library)


def _draft(options: argparse.Namespace) -> int:
    from specgen.assemble import assemble
    from specgen.brief import read_brief
    from specgen.files import replace_file
    from specgen.report import report_of
    from specgen.scope import Scope
    from specgen.writers.findings_text import summary

    kind = _format(options)
    output: Path = options.output or options.brief.with_suffix(f".{kind}")
    register = _register_kind(options.register)
    _refuse_to_overwrite(options.brief, output, options.register)
    library = _load(options)
    brief = read_brief(options.brief, library)
    scope = Scope(library, brief.answers)
    section = assemble(scope)
    report = report_of(brief, scope, section)
    if report.conflicts and _for_construction(brief) and not options.with_conflicts:
        _refuse_conflicts(options.brief, report)
    if kind == "docx":
        from specgen.writers.docx import write_docx

        shown = report.conflicts if options.with_conflicts else ()
        content = write_docx(section, brief, notes=options.notes, findings=shown)
    elif kind == "md":
        from specgen.writers.markdown import write_markdown

        content = write_markdown(section).encode()
    else:
        from specgen.writers.text import write_text

        content = write_text(section).encode()
    replace_file(output, content)
    if register is not None:
        from specgen.writers.registers import write_csv, write_xlsx

        rows = (
            write_xlsx(section) if register == ".xlsx" else write_csv(section).encode("utf-8-sig")
        )
        replace_file(options.register, rows)
    _report(section, library, output, options.register)
    print(f"Found: {summary(report)} `specgen check {options.brief}` tells them.")
    return 0


def _for_construction(brief: Brief) -> bool:
    return getattr(brief.answers.get("issue"), "id", "") == "for-construction"


def _refuse_conflicts(brief: Path, report: Report) -> None:
    from specgen.faults import BadInput, Fault

    ways = "Settle it, waive it in the brief, or draft --with-conflicts."
    raise BadInput(
        Fault(
            str(brief), None, f"issued for construction with the conflict {f.id}: {f.says} {ways}"
        )
        for f in report.conflicts
    )


def _check(options: argparse.Namespace) -> int:
    from specgen.assemble import assemble
    from specgen.brief import read_brief
    from specgen.report import report_of
    from specgen.scope import Scope
    from specgen.writers.findings_text import findings_json, write_findings

    library = _load(options)
    brief = read_brief(options.brief, library)
    scope = Scope(library, brief.answers)
    report = report_of(brief, scope, assemble(scope))
    if options.json:
        import json

        print(json.dumps(findings_json(report), indent=1))
    else:
        print(write_findings(report), end="")
    return 1 if report.conflicts else 0


def _format(options: argparse.Namespace) -> str:
    from specgen.faults import BadInput, Fault

    ending = options.output.suffix.lstrip(".").lower() if options.output else ""
    kind: str = options.format or (ending if ending in FORMATS else "docx")
    if options.output and ending in FORMATS and ending != kind:
        says = f"the ending says {ending} and --format says {kind}; change one."
        raise BadInput([Fault(str(options.output), None, says)])
    if options.notes and kind != "docx":
        says = "--notes are comments of a word processor; draft a docx with them."
        raise BadInput([Fault(str(options.output or options.brief), None, says)])
    return kind


def _register_kind(register: Path | None) -> str | None:
    from specgen.faults import BadInput, Fault

    if register is None:
        return None
    if register.suffix.lower() not in (".csv", ".xlsx"):
        says = "a register is written as .csv or .xlsx; give it one of these endings."
        raise BadInput([Fault(str(register), None, says)])
    return register.suffix.lower()


def _refuse_to_overwrite(brief: Path, *outputs: Path | None) -> None:
    from specgen.faults import BadInput, Fault

    named = [path for path in outputs if path is not None]
    for index, path in enumerate(named):
        others = [brief, *named[:index]]
        if any(path.absolute() == other.absolute() for other in others):
            says = "this file is already named in the same command; choose another to write."
            raise BadInput([Fault(str(path), None, says)])


def _report(section: Section, library: Library, output: Path, register: Path | None) -> None:
    from specgen.section import open_questions

    paragraphs = sum(1 for _ in section.paragraphs())
    articles = sum(1 for _ in section.articles())
    print(f"Wrote {output}: {section.number}, {paragraphs} paragraphs in {articles} articles.")
    if register is not None:
        count, warranties = len(section.submittals), len(section.warranties)
        print(f"Wrote {register}: {count} submittals, {warranties} warranties.")
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


def _new(options: argparse.Namespace) -> int:
    from specgen.brief import empty_brief
    from specgen.faults import BadInput, Fault
    from specgen.files import replace_file

    if options.output.exists():
        raise BadInput([Fault(str(options.output), None, "this file exists; choose another name.")])
    library = _load(options)
    replace_file(options.output, empty_brief(library).encode())
    print(f"Wrote {options.output}: {len(library.questions)} questions, none answered yet.")
    return 0


def _questions(options: argparse.Namespace) -> int:
    import json

    from specgen.questions import describe

    library = _load(options)
    if options.json:
        print(json.dumps([describe(question) for question in library.questions.values()], indent=1))
        return 0
    topic = ""
    width = max(len(name) for name in library.questions)
    for question in library.questions.values():
        if question.topic != topic:
            topic = question.topic
            print(f"{topic}")
        print(f"  {question.id.ljust(width)}  {question.ask}")
    return 0


def _library(options: argparse.Namespace) -> int:
    library = _load(options)
    print(
        f"{len(library.questions)} questions, {len(library.facts)} facts,"
        f" {len(library.clauses)} clauses, {len(library.standards)} standards;"
        " every reference leads somewhere."
    )
    return 0
