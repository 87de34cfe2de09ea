"""DOCX packages written out of pieces of WordprocessingML, for what no library writes."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

from specgen.review.docx_reading import read_docx
from specgen.review.outline import Outline
from specgen.review.structure import outline_of

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_TIES = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
NAMESPACES = (
    f'xmlns:w="{W}" xmlns:r="{_TIES}"'
    ' xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"'
    ' xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape"'
    ' xmlns:v="urn:schemas-microsoft-com:vml"'
    ' xmlns:m="http://schemas.openxmlformats.org/officeDocument/2006/math"'
)
HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
_MAIN = "application/vnd.openxmlformats-officedocument.wordprocessingml"


def package(
    body: str,
    *,
    styles: str = "",
    numbering: str = "",
    parts: dict[str, tuple[str, str]] | None = None,
    ties: str = "",
    kind: str = "document.main",
) -> bytes:
    """The bytes of a DOCX: ``parts`` are further parts by file name, each its tie's kind and the
    content of its root; ``ties`` further relationships as XML."""
    found = {"styles.xml": ("styles", styles), "numbering.xml": ("numbering", numbering)}
    found.update(parts or {})
    files = {
        "_rels/.rels": f'{HEAD}<Relationships xmlns="{_PACKAGE}/relationships">'
        f'<Relationship Id="rId1" Type="{_TIES}/officeDocument" Target="word/document.xml"/>'
        "</Relationships>",
        "word/document.xml": f"{HEAD}<w:document {NAMESPACES}><w:body>{body}</w:body></w:document>",
    }
    types = [f'<Override PartName="/word/document.xml" ContentType="{_MAIN}.{kind}+xml"/>']
    links = [ties]
    for number, (name, (tie, content)) in enumerate(found.items(), start=10):
        root = {"header": "hdr", "footer": "ftr"}.get(tie, tie)
        files[f"word/{name}"] = f"{HEAD}<w:{root} {NAMESPACES}>{content}</w:{root}>"
        links.append(f'<Relationship Id="rId{number}" Type="{_TIES}/{tie}" Target="{name}"/>')
        types.append(f'<Override PartName="/word/{name}" ContentType="{_MAIN}.{tie}+xml"/>')
    files["word/_rels/document.xml.rels"] = (
        f'{HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{"".join(links)}</Relationships>'
    )
    files["[Content_Types].xml"] = (
        f'{HEAD}<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{"".join(types)}</Types>'
    )
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in files.items():
            packed.writestr(name, text)
    return stream.getvalue()


def outline(body: str, **pieces: str | dict[str, tuple[str, str]]) -> Outline:
    """The outline of a DOCX with that body."""
    return outline_of(read_docx(package(body, **pieces)), "a.docx")  # type: ignore[arg-type]


def paragraph(text: str, properties: str = "") -> str:
    """A paragraph of one run; tabs in the text become tabs."""
    shown = "<w:tab/>".join(f'<w:t xml:space="preserve">{one}</w:t>' for one in text.split("\t"))
    return f"<w:p><w:pPr>{properties}</w:pPr><w:r>{shown}</w:r></w:p>"


def styled(text: str, style: str, more: str = "") -> str:
    return paragraph(text, f'<w:pStyle w:val="{style}"/>{more}')


def listed(text: str, num: int, level: int = 0) -> str:
    return paragraph(text, f'<w:numPr><w:ilvl w:val="{level}"/><w:numId w:val="{num}"/></w:numPr>')


def style(name: str, properties: str = "", based: str = "", run: str = "", shown: str = "") -> str:
    on = f'<w:basedOn w:val="{based}"/>' if based else ""
    return (
        f'<w:style w:type="paragraph" w:styleId="{name}"><w:name w:val="{shown or name}"/>{on}'
        f"<w:pPr>{properties}</w:pPr><w:rPr>{run}</w:rPr></w:style>"
    )


def numbered(num: int, level: int | None = None) -> str:
    deep = "" if level is None else f'<w:ilvl w:val="{level}"/>'
    return f'<w:numPr>{deep}<w:numId w:val="{num}"/></w:numPr>'


def level(
    depth: int, form: str, text: str, *, start: int = 1, linked: str = "", more: str = ""
) -> str:
    link = f'<w:pStyle w:val="{linked}"/>' if linked else ""
    return (
        f'<w:lvl w:ilvl="{depth}"><w:start w:val="{start}"/><w:numFmt w:val="{form}"/>{more}{link}'
        f'<w:lvlText w:val="{text}"/></w:lvl>'
    )


def abstract(name: int, *levels: str, more: str = "") -> str:
    return f'<w:abstractNum w:abstractNumId="{name}">{more}{"".join(levels)}</w:abstractNum>'


def num(name: int, of: int, overrides: str = "") -> str:
    return f'<w:num w:numId="{name}"><w:abstractNumId w:val="{of}"/>{overrides}</w:num>'


def row(*cells: str) -> str:
    """A row whose cells are given as text, or as XML where they start with a tag."""
    boxes = "".join(
        f"<w:tc><w:tcPr/>{cell if cell.startswith('<') else paragraph(cell)}</w:tc>"
        for cell in cells
    )
    return f"<w:tr>{boxes}</w:tr>"


def table(*rows: str) -> str:
    return f"<w:tbl><w:tblPr/><w:tblGrid/>{''.join(rows)}</w:tbl>"


def written(folder: Path, content: bytes, name: str = "a.docx") -> Path:
    path = folder / name
    path.write_bytes(content)
    return path
