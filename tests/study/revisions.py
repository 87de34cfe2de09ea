"""Accepting or rejecting every tracked change of a document, on its XML."""

from __future__ import annotations

import io
import zipfile
from typing import Any

from lxml import etree

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"

# A paragraph as (style, numbered, text); a row of a table as (its cells,).
Shown = list[tuple[object, ...]]


def body_of(content: bytes, part: str = "word/document.xml") -> Any:
    """The XML of a part of a document."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return etree.fromstring(package.read(part))


def settled(root: Any, *, accept: bool) -> Any:
    """The same XML with every tracked change accepted, or rejected."""
    gone, kept = (f"{W}del", f"{W}ins") if accept else (f"{W}ins", f"{W}del")
    for row in list(root.iter(f"{W}tr")):
        if row.find(f"{W}trPr/{gone}") is not None:
            table = row.getparent()
            table.remove(row)
            if table.find(f"{W}tr") is None:
                table.getparent().remove(table)
    for change in list(root.iter(f"{W}pPrChange")):
        if not accept:
            present = change.getparent()
            former = change.find(f"{W}pPr")
            mark = present.find(f"{W}rPr")
            present[:] = list(former) + ([mark] if mark is not None else [])
        else:
            change.getparent().remove(change)
    for paragraph in list(root.iter(f"{W}p")):
        if paragraph.find(f"{W}pPr/{W}rPr/{gone}") is not None:
            for run in paragraph.iter(f"{W}r"):
                assert _inside(run, gone), "a paragraph goes and part of its text stays"
            paragraph.getparent().remove(paragraph)
    for mark in list(root.iter(f"{W}ins", f"{W}del")):
        parent = mark.getparent()
        if mark.tag == kept:
            for child in list(mark):
                mark.addprevious(child)
        parent.remove(mark)
    for element in root.iter(f"{W}delText"):
        element.tag = f"{W}t"
    for element in root.iter(f"{W}delInstrText"):
        element.tag = f"{W}instrText"
    return root


def _inside(element: Any, tag: str) -> bool:
    return any(each.tag == tag for each in element.iterancestors())


def shown(root: Any) -> Shown:
    """What a reader sees of a settled document: paragraphs with style and runs, and table rows."""
    assert not list(root.iter(f"{W}ins", f"{W}del", f"{W}delText", f"{W}pPrChange"))
    found: Shown = []
    for element in root.iter(f"{W}p", f"{W}tr"):
        if element.tag == f"{W}tr":
            cells = (" ".join(_runs(cell)) for cell in element.iter(f"{W}tc"))
            head = element.find(f"{W}trPr/{W}tblHeader") is not None
            found.append(("row", head, *cells))
        elif not _inside(element, f"{W}tc"):
            style = element.find(f"{W}pPr/{W}pStyle")
            struck = element.find(f"{W}pPr/{W}numPr") is not None
            found.append((style.get(f"{W}val") if style is not None else "", struck,
                          "".join(_runs(element))))  # fmt: skip
    return found


def _runs(element: Any) -> list[str]:
    """The text of the runs, instructions of fields and shading told apart."""
    pieces = []
    for run in element.iter(f"{W}r"):
        style = run.find(f"{W}rPr/{W}rStyle")
        shade = f"<{style.get(f'{W}val')}>" if style is not None else ""
        for child in run:
            if child.tag in (f"{W}t", f"{W}instrText"):
                pieces.append(f"{shade}{child.text}")
    return pieces
