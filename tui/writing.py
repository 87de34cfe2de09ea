"""What can be written of a brief from the screens, and writing it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from specgen.brief import Brief
from specgen.engine import Engine
from specgen.faults import BadInput, Fault
from specgen.files import replace_file, same_file
from specgen.library import Library
from specgen.report import Report, report_of
from specgen.writers import outputs

CONFLICTS_WAYS = "Settle it (F3), waive it there, or press c to write it as a comment."


@dataclass(frozen=True, slots=True)
class Job:
    """A brief at one moment, with what is asked for besides: everything that writing reads."""

    brief: Brief
    library: Library
    notes: bool = False
    with_conflicts: bool = False


@dataclass(frozen=True, slots=True)
class Output:
    """One thing that can be written: what it is, and how its file is called beside the brief.

    ``write`` gives its bytes, and in a few words what they hold.
    """

    id: str
    says: str
    more: str
    name: str
    ending: str
    write: Callable[[Job, Engine, Report, str], tuple[bytes, str]]

    def path_beside(self, brief: Path) -> Path:
        """The file beside a brief: ``roof.docx``, ``roof-submittals.xlsx``."""
        return brief.with_name(f"{brief.stem}{self.name}.{self.ending}")


def _section(job: Job, engine: Engine, report: Report, ending: str) -> tuple[bytes, str]:
    if not job.with_conflicts:
        outputs.refuse_conflicts(job.brief, report, CONFLICTS_WAYS)
    notes = job.notes and ending == "docx"
    content = outputs.section_file(
        ending, engine.section, job.brief, report, notes=notes, with_conflicts=job.with_conflicts
    )
    return content, outputs.extent(engine.section) + (", with notes" if notes else "")


def _register(job: Job, engine: Engine, report: Report, ending: str) -> tuple[bytes, str]:
    content = outputs.register_file(ending, engine.section)
    return content, outputs.register_extent(engine.section)


def _calculations(job: Job, engine: Engine, report: Report, ending: str) -> tuple[bytes, str]:
    from specgen.writers.calculations_html import write_calculations_html

    done = sum(1 for result in engine.scope.results() if result.outcome is not None)
    return write_calculations_html(engine.scope).encode(), f"{done} calculations"


def _findings(job: Job, engine: Engine, report: Report, ending: str) -> tuple[bytes, str]:
    from specgen.writers.findings_text import findings_json, summary, write_findings

    if ending == "json":
        import json

        return json.dumps(findings_json(report), indent=1).encode(), summary(report).rstrip(".")
    return write_findings(report).encode(), summary(report).rstrip(".")


OUTPUTS = (
    Output("docx", "The section", "for a word processor", "", "docx", _section),
    Output("md", "The section", "as Markdown", "", "md", _section),
    Output("txt", "The section", "as plain text", "", "txt", _section),
    Output("xlsx", "Submittals, warranties", "a workbook", "-submittals", "xlsx", _register),
    Output("csv", "Submittals, warranties", "as CSV", "-submittals", "csv", _register),
    Output("html", "The calculations", "a page to print", "-numbers", "html", _calculations),
    Output("findings", "The findings", "as text", "-findings", "txt", _findings),
    Output("json", "The findings", "as JSON", "-findings", "json", _findings),
)


def write_output(output: Output, path: Path, job: Job) -> str:
    """Write one output, on an engine of its own so that the screens can go on meanwhile.

    Gives what the file holds, in a few words. Raises BadInput, with nothing written, where it
    cannot be written, or where conflicts stand in an issue for construction.
    """
    if same_file(path, job.brief.path):
        raise BadInput([Fault(str(path), None, "this is the brief itself; choose another name.")])
    _check_ending(output, path)
    engine = Engine(job.library, job.brief.answers)
    report = report_of(job.brief, engine.scope, engine.section)
    content, holds = output.write(job, engine, report, output.ending)
    replace_file(path, content)
    return holds


def _check_ending(output: Output, path: Path) -> None:
    """A file is not called what it is not."""
    if outputs.ending_of(path) != output.ending:
        says = f"this is written as .{output.ending}; give the file that ending."
        raise BadInput([Fault(str(path), None, says)])
