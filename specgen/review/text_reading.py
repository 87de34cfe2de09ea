"""A plain text or a Markdown text as its lines, in whatever encoding it was saved."""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterable

from specgen.review.docx_package import Unreadable
from specgen.review.lines import Reading
from specgen.review.running_heads import without_running_heads
from specgen.review.wrapping import LONGEST_LINE, MOST_LINES, paragraphs_of, typed_lines

LARGEST_TEXT = 16 * 2**20
_CONTROLS = re.compile(rb"[\x00-\x08\x0e-\x1a\x1c-\x1f\x7f]")
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_WORD = re.compile(r"[^\W\d_]{4,30}")


def read_text(content: bytes, *, markdown: bool) -> Reading:
    """The lines of a text; Unreadable for what is none or is too large."""
    text, says = decoded(content)
    if text.count("\n") > MOST_LINES:
        raise Unreadable(f"it has more than {MOST_LINES:,} lines; no section does.")
    if max(map(len, text.split("\n"))) > LONGEST_LINE:
        raise Unreadable(
            f"it has a line of more than {LONGEST_LINE:,} characters; no section does."
        )
    if markdown:
        from specgen.review.markdown_reading import read_markdown

        reading = read_markdown(text)
    else:
        pages = [typed_lines(page) for page in _pages(text)]
        body, heads = without_running_heads(pages)
        reading = Reading([*paragraphs_of(body, hyphens=words_of([text])), *heads])
    reading.says += says
    return reading


def decoded(content: bytes) -> tuple[str, list[str]]:
    """The text of a file and what is to be said of its encoding: by its mark, else UTF-8, else
    UTF-16 where every other byte is nothing, else Windows-1252."""
    if len(content) > LARGEST_TEXT:
        raise Unreadable(f"the text is larger than {LARGEST_TEXT // 2**20} MB; no section is.")
    for mark, encoding in _MARKS:
        if content.startswith(mark):
            return _lines_ended(content.decode(encoding, "replace")), []
    encoding = _sixteen_bits(content)
    if encoding:
        return _lines_ended(content.decode(encoding, "replace")), []
    head = content[:65536]
    if b"\0" in content or len(_CONTROLS.findall(head)) * 50 > len(head):
        raise Unreadable("this is not a text; save the section as DOCX, text or PDF.")
    try:
        return _lines_ended(content.decode("utf-8")), []
    except UnicodeDecodeError:
        says = "The text is not UTF-8; it is read as Windows-1252."
        return _lines_ended(content.decode("cp1252", "replace")), [says]


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """The words of a text in lower case."""
    return frozenset(word.lower() for text in texts for word in _WORD.findall(text))


def _sixteen_bits(content: bytes) -> str:
    head = content[:4096]
    if len(head) < 8:
        return ""
    even, odd = head[::2].count(0), head[1::2].count(0)
    half = len(head) // 2
    if odd > 0.6 * half and even < 0.1 * half:
        return "utf-16-le"
    if even > 0.6 * half and odd < 0.1 * half:
        return "utf-16-be"
    return ""


def _lines_ended(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _pages(text: str) -> list[str]:
    """The pages of a text between form feeds, the line numbers kept by blank lines before them."""
    pages, before = [], 0
    for page in text.split("\f"):
        pages.append("\n" * before + page)
        before += page.count("\n")
    return pages
