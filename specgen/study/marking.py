"""A student's marks as they are typed: a place, and a kind of fault by its id, words or number."""

from __future__ import annotations

from collections.abc import Iterable

from specgen.faults import BadInput, Fault, nearest
from specgen.study.practice_shapes import Exercise, Kind, Mark


def read_mark(typed: str, exercise: Exercise) -> Mark:
    """A mark such as ``2.3.A movement``, ``2.3 missing`` or ``2.3.a 17``.

    Raises BadInput with the nearest place or kind that there is.
    """
    place, _, kind = typed.strip().partition(" ")
    if not kind.strip():
        says = f"{typed.strip()[:60]} is no mark; type a place and a kind, such as 2.3.A movement."
        raise BadInput([Fault("marks", None, says)])
    return Mark(place_named(place, exercise), kind_named(kind, exercise).id)


def read_marks(lines: Iterable[str], name: str, exercise: Exercise) -> list[Mark]:
    """The marks of a file, one a line; empty lines and lines that begin with # say nothing.

    Raises BadInput with every line of the file ``name`` that is no mark.
    """
    marks: list[Mark] = []
    faults: list[Fault] = []
    for number, line in enumerate(lines, 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        try:
            marks.append(read_mark(line, exercise))
        except BadInput as error:
            faults += [Fault(name, number, fault.says) for fault in error.faults]
    if faults:
        raise BadInput(faults)
    return marks


def place_named(typed: str, exercise: Exercise) -> str:
    """The number of a paragraph or an article, typed in whatever case."""
    wanted = typed.strip().rstrip(".):,")
    if wanted in exercise.places:
        return wanted
    alike = [place for place in exercise.places if place.lower() == wanted.lower()]
    if len(alike) == 1:
        return alike[0]
    hint = nearest(wanted[:20], exercise.places)
    raise BadInput([Fault("marks", None, f"there is no paragraph {wanted[:40]} here.{hint}")])


def kind_named(typed: str, exercise: Exercise) -> Kind:
    """The kind of fault with an id, a number in the list of kinds, or the beginning of either its
    id or its words."""
    wanted = " ".join(typed.split()).lower()
    if wanted.isdecimal() and 0 < int(wanted[:6]) <= len(exercise.kinds):
        return exercise.kinds[int(wanted[:6]) - 1]
    for alike in (_is, _begins, _holds):
        fitting = [kind for kind in exercise.kinds if alike(kind, wanted)]
        if len(fitting) == 1:
            return fitting[0]
        if fitting:
            named = ", ".join(kind.id for kind in fitting)
            raise BadInput([Fault("marks", None, f"{wanted[:40]} may be any of {named}.")])
    hint = nearest(wanted[:40], [kind.id for kind in exercise.kinds])
    raise BadInput([Fault("marks", None, f"there is no kind of fault {wanted[:40]}.{hint}")])


def _is(kind: Kind, wanted: str) -> bool:
    return wanted in (kind.id, kind.words)


def _begins(kind: Kind, wanted: str) -> bool:
    return kind.id.startswith(wanted) or kind.words.startswith(wanted)


def _holds(kind: Kind, wanted: str) -> bool:
    return all(word in f"{kind.id} {kind.words}" for word in wanted.split())
