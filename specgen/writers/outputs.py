"""What is written of a brief, by the ending of its file: the section, and its registers."""

from __future__ import annotations

from pathlib import Path

from specgen.brief import Brief
from specgen.faults import BadInput, Fault
from specgen.report import Report
from specgen.section import Section

REGISTER_ENDINGS = ("csv", "xlsx")


def ending_of(path: Path) -> str:
    """The ending of a file's name, without its stop and in small letters."""
    return path.suffix.lstrip(".").lower()


def section_file(
    ending: str,
    section: Section,
    brief: Brief,
    report: Report,
    *,
    notes: bool = False,
    with_conflicts: bool = False,
) -> bytes:
    """The section as a file of an ending: docx, md or txt.

    ``notes`` adds each paragraph's reason as a comment, ``with_conflicts`` the conflicts that
    stand; only a docx carries comments.
    """
    if ending == "docx":
        from specgen.writers.docx import write_docx

        shown = report.conflicts if with_conflicts else ()
        return write_docx(section, brief, notes=notes, findings=shown)
    if ending == "md":
        from specgen.writers.markdown import write_markdown

        return write_markdown(section).encode()
    from specgen.writers.text import write_text

    return write_text(section).encode()


def register_file(ending: str, section: Section) -> bytes:
    """The submittals and warranties as a file of an ending: csv or xlsx."""
    from specgen.writers.registers import write_csv, write_xlsx

    return write_xlsx(section) if ending == "xlsx" else write_csv(section).encode("utf-8-sig")


def check_register(register: Path) -> None:
    """BadInput for a register of another ending than csv or xlsx."""
    if ending_of(register) not in REGISTER_ENDINGS:
        says = "a register is written as .csv or .xlsx; give it one of these endings."
        raise BadInput([Fault(str(register), None, says)])


def for_construction(brief: Brief) -> bool:
    """Whether the brief's issue is for construction."""
    return getattr(brief.answers.get("issue"), "id", "") == "for-construction"


def refuse_conflicts(brief: Brief, report: Report, ways: str) -> None:
    """BadInput, a fault for each, where conflicts stand in an issue for construction.

    ``ways`` says what can be done about it.
    """
    if report.conflicts and for_construction(brief):
        head = "issued for construction with the conflict"
        raise BadInput(
            Fault(str(brief.path), None, f"{head} {f.id}: {f.says} {ways}")
            for f in report.conflicts
        )


def extent(section: Section) -> str:
    """How long a section is: ``07 41 13, 212 paragraphs in 24 articles``."""
    paragraphs = sum(1 for _ in section.paragraphs())
    articles = sum(1 for _ in section.articles())
    return f"{section.number}, {paragraphs} paragraphs in {articles} articles"


def register_extent(section: Section) -> str:
    """How much a register holds: ``31 submittals, 3 warranties``."""
    return f"{len(section.submittals)} submittals, {len(section.warranties)} warranties"
