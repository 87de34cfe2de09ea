"""Opening a DOCX that may come from anybody: only the parts that are read, each of bounded size.

Nothing outside the file is ever fetched. A part with a document type of its own is refused, since
a word processor writes none and entities are how a small file grows.
"""

from __future__ import annotations

import io
import posixpath
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any
from urllib.parse import unquote

from lxml import etree

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
LARGEST_FILE = 64 * 2**20
LARGEST_PART = 48 * 2**20
LARGEST_UNPACKED = 256 * 2**20
MOST_ENTRIES = 5_000
MOST_TAGS = 2_500_000
# The namespaces that the strict variant of the standard uses, and those they stand for.
_STRICT = (
    (b"http://purl.oclc.org/ooxml/wordprocessingml/main", W.encode()),
    (
        b"http://purl.oclc.org/ooxml/officeDocument/relationships",
        b"http://schemas.openxmlformats.org/officeDocument/2006/relationships",
    ),
    (
        b"http://purl.oclc.org/ooxml/officeDocument/math",
        b"http://schemas.openxmlformats.org/officeDocument/2006/math",
    ),
)
_UNREADABLE = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, OSError,
    ValueError, KeyError, OverflowError, MemoryError,
)  # fmt: skip


class Unreadable(Exception):
    """Why a file cannot be read, in a sentence."""


@dataclass(frozen=True, slots=True)
class Relationship:
    """A part's tie to another: the last piece of its type, its target, whether that is outside."""

    kind: str
    target: str
    external: bool


class Package:
    """The parts of a DOCX, each parsed when it is asked for.

    Raises Unreadable, as do its methods, for what is no sound DOCX of ordinary size.
    """

    def __init__(self, content: bytes) -> None:
        if len(content) > LARGEST_FILE:
            raise Unreadable(f"the file is larger than {LARGEST_FILE // 2**20} MB.")
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(content))
            entries = self._zip.infolist()
        except _UNREADABLE:
            says = "the file is damaged or cut short; get it again or save it anew."
            raise Unreadable(says) from None
        if len(entries) > MOST_ENTRIES:
            raise Unreadable(f"the file holds more than {MOST_ENTRIES} parts; no section does.")
        if sum(entry.file_size for entry in entries) > LARGEST_UNPACKED:
            megabytes = LARGEST_UNPACKED // 2**20
            raise Unreadable(f"the file unpacks to more than {megabytes} MB; no section does.")
        self._entries = {entry.filename.lstrip("/").lower(): entry for entry in entries}

    @property
    def names(self) -> frozenset[str]:
        """The names of all parts, in lower case."""
        return frozenset(self._entries)

    @cached_property
    def main(self) -> str:
        """The name of the part that holds the document's body."""
        self._refuse_other_kinds()
        for relationship in self.relationships("").values():
            if relationship.kind == "officeDocument" and not relationship.external:
                return relationship.target
        if "word/document.xml" in self._entries:
            return "word/document.xml"
        raise Unreadable("this is not a Word document; save it as DOCX, text or PDF.")

    def xml(self, name: str) -> Any:
        """The root element of a part, or None where the file has no such part."""
        content = self.content(name)
        return None if content is None else parse(content)

    def content(self, name: str) -> bytes | None:
        """The bytes of a part, or None where the file has no such part."""
        entry = self._entries.get(name.lower())
        if entry is None:
            return None
        if entry.file_size > LARGEST_PART:
            size = LARGEST_PART // 2**20
            raise Unreadable(f"its part {shown(name)} unpacks to more than {size} MB.")
        if entry.flag_bits & 1:
            raise Unreadable("the file is protected by a password; save it without one.")
        return self._bytes(entry)

    def relationships(self, part: str) -> Mapping[str, Relationship]:
        """The ties of a part (empty name: of the file) by their ids."""
        folder, name = posixpath.split(part)
        root = self.xml(posixpath.join(folder, "_rels", f"{name}.rels"))
        found: dict[str, Relationship] = {}
        for element in () if root is None else root.iterchildren("{*}Relationship"):
            external = element.get("TargetMode", "").lower() == "external"
            target = element.get("Target", "")
            if not external:
                target = posixpath.normpath(posixpath.join("/", folder, unquote(target)))[1:]
            kind = element.get("Type", "").rpartition("/")[2]
            found[element.get("Id", "")] = Relationship(kind, target, external)
        return found

    def hold_to_bounds(self) -> None:
        """Refuse a package of which any XML part is damaged in its packing or too large, before a
        library reads all of them."""
        for name, entry in self._entries.items():
            if name.endswith((".xml", ".rels")) and not entry.is_dir():
                _refuse_large(self.content(name) or b"")

    def rewritten(self, parts: Mapping[str, bytes]) -> bytes:
        """The package's bytes with the content of some parts, by their names, replaced."""
        new = {name.lower(): content for name, content in parts.items()}
        stream = io.BytesIO()
        with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
            for name, entry in self._entries.items():
                if not entry.is_dir():
                    content = new[name] if name in new else self._bytes(entry)
                    packed.writestr(entry.filename, content)
        return stream.getvalue()

    def _bytes(self, entry: zipfile.ZipInfo) -> bytes:
        try:
            return self._zip.read(entry)
        except _UNREADABLE:
            says = f"its part {shown(entry.filename)} is damaged; save the file anew."
            raise Unreadable(says) from None

    def _refuse_other_kinds(self) -> None:
        names = self._entries
        if "mimetype" in names and "content.xml" in names:
            raise Unreadable("this is an OpenDocument file; save it as DOCX.")
        if "xl/workbook.xml" in names or "ppt/presentation.xml" in names:
            raise Unreadable("this is a workbook or a presentation, not a section in Word.")


def parse(content: bytes) -> Any:
    """The root of an XML text from a stranger; Unreadable where it is none or too large."""
    _refuse_large(content)
    if b"purl.oclc.org" in content:
        for strict, usual in _STRICT:
            content = content.replace(strict, usual)
    parser = etree.XMLParser(
        resolve_entities=False, no_network=True, huge_tree=False, load_dtd=False,
        remove_comments=True, remove_pis=True,
    )  # fmt: skip
    try:
        root = etree.fromstring(content, parser)
    except (etree.XMLSyntaxError, ValueError, LookupError):
        raise Unreadable("its text is damaged; open it in Word and save it anew.") from None
    written: Any = root.getroottree().docinfo
    if written.doctype:
        raise Unreadable("it declares entities of its own, which no word processor writes.")
    return root


def _refuse_large(content: bytes) -> None:
    if content.count(b"<") > MOST_TAGS:
        raise Unreadable(f"a part holds more than {MOST_TAGS:,} tags; no section does.")


def shown(name: str) -> str:
    """A name from the file, short and printable."""
    return "".join(c if c.isprintable() else "?" for c in name)[:80]
