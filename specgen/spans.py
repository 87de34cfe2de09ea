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


def join_words(spans: Iterable[Span]) -> tuple[Span, ...]:
    """The same spans with neighbouring words run together and empty ones dropped."""
    joined: list[Span] = []
    for span in spans:
        if isinstance(span, Words):
            if not span.text:
                continue
            if joined and isinstance(joined[-1], Words):
                joined[-1] = Words(joined[-1].text + span.text)
                continue
        joined.append(span)
    return tuple(joined)
