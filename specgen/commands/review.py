"""`specgen review`: what a section that somebody else wrote requires, contradicts and leaves"
" out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.commands.common import keep_apart, library_of, refusal

if TYPE_CHECKING:
    from specgen.library import Library
    from specgen.review.batch import Summary
    from specgen.review.shapes import Review

SAYS = (
    "Read a section that somebody else wrote and say what in it contradicts, is missing or is out"
    " of date; ends with 1 if a conflict stands."
)
_BAR = 30


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "documents",
        nargs="+",
        type=Path,
        metavar="DOCUMENT",
        help="a .docx, .txt, .md or text .pdf; of several, or of a folder, a table is given",
    )
    parser.add_argument("--json", action="store_true", help="every field, as JSON")
    parser.add_argument(
        "-o", "--output", type=Path, metavar="DOCX", help="a copy with each finding as a comment"
    )
    parser.add_argument(
        "--report", type=Path, metavar="HTML", help="the report as one page that needs nothing else"
    )
    parser.add_argument(
        "--brief", type=Path, help="a brief to hold the document against, where there is one"
    )
    parser.add_argument(
        "--brief-out",
        type=Path,
        metavar="YAML",
        help="what the document states, as a brief to go on with",
    )


def run(options: argparse.Namespace) -> int:
    from specgen.review.batch import documents_in

    paths = documents_in(options.documents)
    if not paths:
        raise refusal(options.documents[0], "this folder holds no document that can be read.")
    if len(paths) == 1 and paths[0] == options.documents[0]:
        return _one(paths[0], options)
    for name in ("output", "report", "brief", "brief_out"):
        if getattr(options, name) is not None:
            says = f"--{name.replace('_', '-')} goes with one document; several are named here."
            raise refusal("the command", says)
    return _many(paths, options)


# ---------------------------------------------------------------------------------- one document


def _one(path: Path, options: argparse.Namespace) -> int:
    from specgen.brief import read_brief
    from specgen.review.findings import review
    from specgen.review.reading import read_document

    _judge_outputs(path, options)
    library = library_of(options)
    brief = read_brief(options.brief, library) if options.brief is not None else None
    done = review(read_document(path), library, brief)
    written = list(_write(path, done, library, options))
    if options.json:
        import json

        from specgen.writers.review_json import review_json

        print(json.dumps(review_json(done), indent=1, ensure_ascii=False))
    else:
        from specgen.writers.review_text import write_review

        print(write_review(done), end="")
    for each in written:
        print(f"{each} written.", file=sys.stderr)
    return 1 if done.conflicts else 0


def _judge_outputs(path: Path, options: argparse.Namespace) -> None:
    keep_apart(path, options.brief, options.output, options.report, options.brief_out)
    if options.output is not None:
        if options.output.suffix.lower() != ".docx":
            raise refusal(options.output, "a copy with comments is a .docx; give it that ending.")
        if path.suffix.lower() not in (".docx", ".docm", ".dotx", ".dotm"):
            says = "only a Word document can be copied with comments; --report writes a page."
            raise refusal(path, says)
    if options.report is not None and options.report.suffix.lower() not in (".html", ".htm"):
        raise refusal(options.report, "the report is a page; give it the ending .html.")


def _write(
    path: Path, done: Review, library: Library, options: argparse.Namespace
) -> Iterator[Path]:
    """Write what the command asks for beside the report; yields each file."""
    from specgen.files import replace_file

    if options.output is not None:
        from specgen.review.annotating import annotate

        annotate(path, done.outline, done.found, options.output)
        yield options.output
    if options.report is not None:
        from specgen.writers.review_html import write_review_html

        replace_file(options.report, write_review_html(done).encode())
        yield options.report
    if options.brief_out is not None:
        from specgen.review.brief_of import partial_brief

        text = partial_brief(done.understanding, done.outline, library)
        replace_file(options.brief_out, text.encode())
        yield options.brief_out


# -------------------------------------------------------------------------------- many documents


def _many(paths: tuple[Path, ...], options: argparse.Namespace) -> int:
    from specgen.review.batch import review_all
    from specgen.writers.review_batch import batch_json, write_batch

    library_of(options)  # a library at fault is told once, and kept for every process
    summaries = list(_with_bar(review_all(paths, options.library), len(paths)))
    if options.json:
        import json

        print(json.dumps(batch_json(summaries), indent=1, ensure_ascii=False))
    else:
        print(write_batch(summaries), end="")
    if all(each.refused for each in summaries):
        return 2
    return 1 if any(each.conflicts for each in summaries) else 0


def _with_bar(summaries: Iterator[Summary], total: int) -> Iterator[Summary]:
    """The same summaries, with a bar on the terminal of how many are done."""
    shown = sys.stderr.isatty()
    for done, each in enumerate(summaries, 1):
        if shown:
            full = _BAR * done // total
            bar = "=" * full + " " * (_BAR - full)
            print(f"\r[{bar}] {done} of {total}", end="", file=sys.stderr, flush=True)
        yield each
    if shown:
        print("\r" + " " * (_BAR + 30) + "\r", end="", file=sys.stderr, flush=True)
