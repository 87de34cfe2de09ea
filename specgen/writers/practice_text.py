"""An exercise, its grade and the score for the terminal, and as plain values for JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from specgen.review.outline import Block
from specgen.study.practice import Exercise
from specgen.study.practice_shapes import Grade
from specgen.study.score import Score, weak_topics
from specgen.writers.laid_out import columns, counted, entry, plain_values

SIGNS = {"found": "+", "place-only": "~", "missed": "-"}
_BAR = 20


def write_exercise(exercise: Exercise) -> str:
    """What the student is told, then the articles that she is to read."""
    lines = [
        f"{exercise.project}, {exercise.location}",
        f"{exercise.outline.number} {exercise.outline.title}",
        "",
        *entry(task_of(exercise), "", ""),
        "",
    ]
    wanted = set(exercise.articles)
    for block in exercise.outline.blocks:
        if article_of(block) in wanted:
            lines += _block(block)
    return "\n".join(lines).rstrip() + "\n"


def write_article(exercise: Exercise, place: str) -> str:
    """The article that a place stands in."""
    wanted = ".".join(place.split(".")[:2])
    held = [block for block in exercise.outline.blocks if article_of(block) == wanted]
    return "\n".join(line for block in held for line in _block(block)) + "\n"


def task_of(exercise: Exercise) -> str:
    """What is to be done, in a few sentences."""
    count = len(exercise.planted)
    there = "One fault was" if count == 1 else f"{count} faults were"
    heads = [block for block in exercise.outline.blocks if block.kind == "article"]
    where = "the section"
    if len(exercise.articles) < len(heads):
        where = f"these articles: {', '.join(exercise.articles)}"
    return (
        f"{there} planted in {where}. Mark each where it stands, and say what is wrong. What is"
        " missing is marked at its article. Where two paragraphs contradict each other, mark the"
        " one that has to change: slope, support and weather are given."
    )


def article_of(block: Block) -> str:
    """The number of the article that a block stands in; empty for a block outside of all."""
    return ".".join(block.place.split(".")[:2]) if block.kind in _INSIDE else ""


_INSIDE = ("article", "paragraph", "row")


def _block(block: Block) -> list[str]:
    if block.kind == "article":
        return ["", f"{block.place} {block.text}", ""]
    if block.kind == "row":
        return [f"{' ' * 10}{block.text.replace(chr(9), ' | ')}"]
    return entry(f"{block.place}  {block.text}", "  " * (block.level - 1), "    ")


def write_kinds(exercise: Exercise) -> str:
    """The kinds of fault that may be named, each with its number and what it means."""
    rows = [
        (f"{number:>2} {kind.id}", f"{kind.words}. {kind.means}")
        for number, kind in enumerate(exercise.kinds, 1)
    ]
    return "\n".join(columns(rows)) + "\n"


def write_grade(exercise: Exercise, grade: Grade) -> str:
    """Each planted fault with what was wrong, why and on what authority; then the marks that hit
    nothing, and the points."""
    lines: list[str] = []
    for fault in grade.faults:
        planted = fault.planted
        lines += entry(f"{SIGNS[fault.verdict]} {planted.place}  {fault.says}", "")
        lines += entry(planted.says)
        lines += entry(planted.because)
        lines += entry(f"Source: {planted.source.rstrip('.')}.")
        if planted.was:
            lines += entry(f"It was: {planted.was.replace(chr(9), ' | ')}")
        lines.append("")
    alarms = [each for each in grade.marks if each.verdict != "right"]
    for each in alarms:
        words = exercise.kind(each.mark.kind).words
        lines += entry(f"x {each.mark.place}  {words}: {each.says}", "")
    lines += [""] if alarms else []
    found = sum(each.verdict == "found" for each in grade.faults)
    lines.append(f"{found} of {len(grade.faults)} found, {grade.points} of {grade.most} points.")
    return "\n".join(lines) + "\n"


def write_score(score: Score) -> str:
    """The score by topic, the weak ones first."""
    if not score.topics:
        return "No exercise is graded yet; `specgen practice` begins one.\n"
    weak = weak_topics(score)
    others = sorted(topic for topic in score.topics if topic not in weak)
    width = max(len(topic) for topic in score.topics)
    lines = [f"{counted(score.exercises, 'exercise')} graded.", ""]
    for topic in (*weak, *others):
        tally = score.topics[topic]
        full = _BAR * tally.found // max(1, tally.planted)
        bar = "=" * full + "." * (_BAR - full)
        more = "  comes up more often" if topic in weak else ""
        shown = f"{tally.found} of {tally.planted} found"
        lines.append(f"  {topic.ljust(width)}  {bar}  {shown}{more}")
    return "\n".join(lines) + "\n"


# ------------------------------------------------------------------------------------------- JSON


def exercise_json(exercise: Exercise, grade: Grade | None) -> dict[str, object]:
    """The exercise as plain values; what was planted only with a grade."""
    values: dict[str, object] = {
        "level": exercise.level,
        "seed": exercise.seed,
        "project": exercise.project,
        "location": exercise.location,
        "articles": list(exercise.articles),
        "faults": len(exercise.planted),
        "kinds": plain_values(exercise.kinds),
        "blocks": list(_blocks(exercise.outline.blocks)),
    }
    if grade is not None:
        values["grade"] = plain_values(grade)
    return values


def _blocks(blocks: Iterable[Block]) -> Iterator[dict[str, object]]:
    for block in blocks:
        yield {"kind": block.kind, "place": block.place, "level": block.level, "text": block.text}
