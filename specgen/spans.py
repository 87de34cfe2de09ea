"""The pieces a paragraph's text is made of: words, a live cross-reference, a place left open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """Plain text."""

    text: str


@dataclass(frozen=True, slots=True)
class ArticleReference:
    """The number of an article of this section, by the article's id."""

    article: str


@dataclass(frozen=True, slots=True)
class Gap:
    """A value or requirement that waits on a question; ``text`` is what stands in its place."""

    question: str
    text: str


Span = Words | ArticleReference | Gap


def words_of(spans: Iterable[Span]) -> str:
    """Spans as plain words, for a text that refers to no article."""
    return "".join(span.text for span in spans if isinstance(span, Words | Gap))


def join_words(spans: Iterable[Span]) -> tuple[Span, ...]:
    """The same spans with neighboring words run together and empty ones dropped.

    A gap is set off by a space from a word that it would otherwise touch.
    """
    joined: list[Span] = []
    for span in spans:
        last = joined[-1] if joined else None
        if isinstance(span, Words):
            if not span.text:
                continue
            if isinstance(last, Words):
                joined[-1] = Words(last.text + span.text)
                continue
            if isinstance(last, Gap) and span.text[0].isalnum():
                span = Words(f" {span.text}")
        elif isinstance(span, Gap) and isinstance(last, Words) and last.text[-1].isalnum():
            joined[-1] = Words(f"{last.text} ")
        joined.append(span)
    return tuple(joined)
