"""`specgen practice`: a section with planted faults, for a student to find."""

from __future__ import annotations

import argparse
import random
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from specgen.commands.common import keep_apart, library_of, refusal

if TYPE_CHECKING:
    from specgen.study.practice_shapes import Exercise, Grade, Mark

SAYS = "Find the faults planted in a section of an invented project; a score is kept by topic."
MOST_SEEDS = 1_000_000
_HELP = (
    "Type a place and what is wrong there: 2.3.A movement. ? lists what can be wrong, ? 2.3 shows"
    " an article, - 2.3.A takes marks back, done grades."
)


def configure(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--level", type=int, default=1, metavar="1-5", help="1 unless given")
    parser.add_argument("--seed", type=int, metavar="N", help="the same exercise again")
    parser.add_argument(
        "--topics",
        metavar="TOPIC,TOPIC",
        help="topics to meet more often; without --seed, those in which the score is weak",
    )
    parser.add_argument(
        "--docx", type=Path, metavar="OUT", help="the exercise to print; OUT-key is its answer key"
    )
    parser.add_argument("--answers", metavar="FILE", help="marks to grade, one a line; - for stdin")
    parser.add_argument("--score", action="store_true", help="the score kept so far, by topic")
    parser.add_argument("--json", action="store_true", help="every field, as JSON")


def run(options: argparse.Namespace) -> int:
    from specgen.study.score import read_score, score_file
    from specgen.writers.laid_out import plain_values
    from specgen.writers.practice_text import write_score

    if options.score:
        score, told = read_score(score_file())
        _tell(told)
        print(_json(plain_values(score)) if options.json else write_score(score), end="")
        return 0
    exercise, again = _exercise(options)
    if options.docx is not None:
        _write_docx(exercise, options.docx)
        _tell(f"The same again: {again}")
        if options.answers is None:
            return 0
    if options.answers is not None:
        _print(exercise, _graded(exercise, options.answers), options.json)
    elif options.json:
        _print(exercise, None, True)
    elif sys.stdin.isatty() and sys.stdout.isatty():
        _practice(exercise, again)
    else:
        from specgen.writers.practice_text import write_exercise, write_kinds

        print(write_exercise(exercise))
        print(f"What can be wrong:\n\n{write_kinds(exercise)}")
        print(f"Marks are graded by: {again} --answers FILE, a line each: 2.3.A movement")
    return 0


def _exercise(options: argparse.Namespace) -> tuple[Exercise, str]:
    """The exercise that is asked for, and the command that gives the same again."""
    from specgen.study.practice import exercise
    from specgen.study.score import read_score, score_file, weak_topics

    if options.answers is not None and options.seed is None:
        raise refusal("the command", "--answers needs the --level and --seed of its exercise.")
    library = library_of(options)
    topics = tuple(each.strip() for each in (options.topics or "").split(",") if each.strip())
    known = {question.topic for question in library.questions.values()}
    for topic in topics:
        if topic not in known:
            from specgen.faults import nearest

            hint = nearest(topic, known) or f" The topics are {', '.join(sorted(known))}."
            raise refusal("the command", f"there is no topic {topic[:40]}.{hint}")
    seed = options.seed
    if seed is None:
        seed = random.SystemRandom().randrange(MOST_SEEDS)
        if not topics:
            score, told = read_score(score_file())
            _tell(told)
            topics = tuple(each for each in weak_topics(score) if each in known)
    again = f"specgen practice --level {options.level} --seed {seed}"
    if topics:
        again += f" --topics {','.join(topics)}"
    return exercise(library, options.level, seed, topics), again


def _graded(exercise: Exercise, source: str) -> Grade:
    from specgen.study.grading import grade
    from specgen.study.marking import read_marks

    return grade(
        exercise, read_marks(_lines(source), "marks" if source == "-" else source, exercise)
    )


def _lines(source: str) -> list[str]:
    try:
        if source == "-":
            return sys.stdin.read().splitlines()
        return Path(source).read_text(encoding="utf-8").splitlines()
    except OSError as error:
        raise refusal(source, f"it cannot be read: {error.strerror}.") from None
    except ValueError:
        raise refusal(source, "it is not text; write the marks as plain text.") from None


def _print(exercise: Exercise, grade: Grade | None, as_json: bool) -> None:
    from specgen.writers.practice_text import exercise_json, write_grade

    if as_json:
        print(_json(exercise_json(exercise, grade)), end="")
    elif grade is not None:
        print(write_grade(exercise, grade), end="")


def _json(values: object) -> str:
    import json

    return json.dumps(values, indent=1, ensure_ascii=False) + "\n"


def _write_docx(exercise: Exercise, path: Path) -> None:
    from specgen.files import replace_file
    from specgen.writers.exercise_docx import write_exercise_docx, write_key_docx

    if path.suffix.lower() != ".docx":
        raise refusal(path, "an exercise is printed as .docx; give it this ending.")
    key = path.with_name(f"{path.stem}-key{path.suffix}")
    keep_apart(path, key)
    replace_file(path, write_exercise_docx(exercise))
    replace_file(key, write_key_docx(exercise))
    _tell(f"Wrote {path}, and the answer key to {key}.")


def _tell(says: str) -> None:
    if says:
        print(says, file=sys.stderr)


# ------------------------------------------------------------------------------- on the terminal


def _practice(exercise: Exercise, again: str) -> None:
    """Show the section, take marks until she is done, grade them and keep the score."""
    from specgen.study.grading import grade
    from specgen.study.score import read_score, save_score, score_file, with_grade
    from specgen.writers.practice_text import write_exercise, write_grade, write_score

    print(write_exercise(exercise))
    print(_HELP)
    graded = grade(exercise, _marks_typed(exercise))
    print(f"\n{write_grade(exercise, graded)}")
    score, told = read_score(score_file())
    _tell(told)
    score = with_grade(score, graded)
    save_score(score_file(), score)
    print(write_score(score))
    print(f"The same again: {again}")


def _marks_typed(exercise: Exercise) -> list[Mark]:
    from specgen.faults import BadInput
    from specgen.study.marking import place_named, read_mark
    from specgen.writers.practice_text import write_article, write_kinds

    marks: list[Mark] = []
    while True:
        try:
            typed = input("> ").strip()
        except EOFError:
            return marks
        try:
            if typed.lower() in ("done", "d"):
                return marks
            if typed == "?":
                print(write_kinds(exercise), end="")
            elif typed.startswith("?"):
                print(write_article(exercise, place_named(typed[1:], exercise)), end="")
            elif typed.startswith("-"):
                place = place_named(typed[1:], exercise)
                marks = [mark for mark in marks if mark.place != place]
            elif typed:
                marks.append(read_mark(typed, exercise))
            _show(marks, exercise)
        except BadInput as error:
            print("\n".join(fault.says for fault in error.faults))


def _show(marks: list[Mark], exercise: Exercise) -> None:
    shown = [f"{mark.place} {exercise.kind(mark.kind).words}" for mark in dict.fromkeys(marks)]
    print(f"Marked: {'; '.join(shown)}." if shown else _HELP)
