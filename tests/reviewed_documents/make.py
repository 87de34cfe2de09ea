"""Build the documents that review is tried on.

``python -m tests.reviewed_documents.make`` writes the flawed ones into ``examples/``; with a folder
it writes the clean ones there too, as DOCX, and those of FORMS in their other forms.
"""

from __future__ import annotations

import io
import sys
import zipfile
from datetime import datetime
from pathlib import Path

from tests.reviewed_documents.layouts import LAYOUTS
from tests.reviewed_documents.plain import as_markdown, as_pdf, as_text
from tests.reviewed_documents.source import CLEAN, FLAWED, Source, read_source
from tests.support import ROOT

FORMS = {"assembly-hall": (".txt", ".pdf"), "materials-depot": (".md", ".txt")}
MADE = datetime(2027, 4, 22, 9, 0, 0)


def write_document(source: Source, folder: Path, suffix: str = ".docx") -> Path:
    """Write a document into a folder in the form that its suffix names, alike each time."""
    path = folder / f"{source.file}{suffix}"
    if suffix == ".docx":
        path.write_bytes(_docx(source))
    elif suffix == ".pdf":
        path.write_bytes(as_pdf(source))
    else:
        form = as_markdown if suffix == ".md" else as_text
        path.write_text(form(source), encoding="utf-8")
    return path


def _docx(source: Source) -> bytes:
    document = LAYOUTS[source.style](source)
    properties = document.core_properties
    properties.title, properties.author = f"{source.number} {source.title}", source.running[0]
    properties.comments = properties.last_modified_by = ""
    properties.created = properties.modified = MADE
    held = io.BytesIO()
    document.save(held)
    return _dated(held)


def _dated(held: io.BytesIO) -> bytes:
    """The same package with one date on every part, so that it can be compared byte by byte."""
    made = io.BytesIO()
    with zipfile.ZipFile(held) as package, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as out:
        for name in package.namelist():
            info = zipfile.ZipInfo(name, (2027, 4, 22, 9, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            out.writestr(info, package.read(name))
    return made.getvalue()


def main(arguments: list[str]) -> None:
    for path in FLAWED:
        print(write_document(read_source(path), ROOT / "examples"))
    for folder in map(Path, arguments):
        folder.mkdir(parents=True, exist_ok=True)
        for path in CLEAN:
            source = read_source(path)
            for suffix in (".docx", *FORMS.get(source.name, ())):
                print(write_document(source, folder, suffix))


if __name__ == "__main__":
    main(sys.argv[1:])
