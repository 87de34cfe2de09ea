"""A review as plain values for JSON: every finding, statement, topic and note."""

from __future__ import annotations

from specgen.review.advising import to_do
from specgen.review.shapes import Found, Review, Statement
from specgen.writers.review_shown import counts_of, notes_of


def review_json(review: Review) -> dict[str, object]:
    """Every field of a review; places are as the document numbers them, blocks count from 0."""
    outline = review.outline
    return {
        "document": outline.name,
        "section": {"number": outline.number, "title": outline.title},
        "counts": counts_of(review),
        "findings": [_finding(review, found) for found in review.found],
        "coverage": [
            {
                "topic": each.topic,
                "raised": list(each.raised),
                "answered": list(each.answered),
                "where": list(each.where),
            }
            for each in review.coverage
        ],
        "answers": {
            name: _statement(review, statement)
            for name, statement in review.understanding.given_by.items()
        },
        "statements": [_statement(review, each) for each in review.understanding.statements],
        "notes": notes_of(outline),
    }


def _finding(review: Review, found: Found) -> dict[str, object]:
    finding, at = found.finding, found.at
    block = review.outline.blocks[at.block] if at is not None else None
    words = ""
    if block is not None and at is not None:
        words = block.text[at.start : at.end] if at.end > at.start else block.text
    return {
        "id": finding.id,
        "kind": finding.kind,
        "place": finding.place,
        "block": at.block if at is not None else None,
        "start": at.start if at is not None else None,
        "end": at.end if at is not None else None,
        "words": words,
        "says": finding.says,
        "because": finding.because,
        "source": finding.source,
        "to_do": to_do(found, review.engine.library),
        "answers": list(finding.answers),
        "settle": [dict(way) for way in finding.settle],
        "fills": found.fills or None,
        "fills_with": found.fills_with or None,
    }


def _statement(review: Review, statement: Statement) -> dict[str, object]:
    return {
        "question": statement.question,
        "answer": statement.raw,
        "place": review.outline.blocks[statement.at.block].place,
        "block": statement.at.block,
        "start": statement.at.start,
        "end": statement.at.end,
        "words": statement.words,
        "confidence": round(statement.confidence, 3),
        "recognizer": statement.recognizer,
        "fault": statement.fault or None,
    }
