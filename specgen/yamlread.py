"""Reading YAML that may come from a stranger, keeping the line of every entry.

The parser of ruamel.yaml gives events; they are built into plain mappings and sequences here,
without recursion, so that depth, size and repetition are bounded before anything grows. Scalars
stay the strings that were written (an answer ``1:12`` or ``0123`` means what it says); an empty
or ``null`` scalar is None.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from specgen.faults import BadInput, Fault

LARGEST_FILE = 4 * 2**20
DEEPEST_NESTING = 24
_EMPTY = ("", "~", "null")
# What a document cannot carry, written as an escape; a terminal might even obey it.
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]")


class Mapping(dict[str, Any]):
    """A mapping of a YAML file; ``lines[key]`` is the line on which that key stands."""

    def __init__(self, line: int) -> None:
        super().__init__()
        self.line = line
        self.lines: dict[str, int] = {}


class Sequence(list[Any]):
    """A sequence of a YAML file; ``lines[i]`` is the line of its i-th item."""

    def __init__(self, line: int) -> None:
        super().__init__()
        self.line = line
        self.lines: list[int] = []


def read_yaml(path: Path) -> Mapping | Sequence | None:
    """The content of one YAML file, or None if it is empty.

    Raises BadInput for a file that cannot be read, is too large or too deep, is not YAML, uses
    aliases or tags, repeats a key, or holds anything but one mapping or sequence.
    """
    return parse_yaml(read_text(path), str(path))


def parse_yaml(text: str, file: str) -> Mapping | Sequence | None:
    """The content of a YAML text as `read_yaml` gives it; ``file`` is named in what is wrong."""
    builder = _Builder(file)
    try:
        take = builder.take
        for event in YAML(typ="safe").parse(text):
            take(event)
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        what = error.problem or error.context or "unreadable"
        line = None if mark is None else mark.line + 1
        colon = "':'" in what or "mapping values" in what
        hint = " Put a text that holds a colon in quotes." if colon else ""
        raise BadInput([Fault(file, line, f"this is not YAML: {what}.{hint}")]) from None
    except YAMLError as error:
        what = str(error).splitlines()[0]
        raise BadInput([Fault(file, None, f"this is not YAML: {what}.")]) from None
    if builder.faults:
        raise BadInput(builder.faults)
    return builder.root


def read_text(path: Path) -> str:
    """The text of a UTF-8 file of ordinary size; BadInput says why it cannot be read."""

    def refuse(says: str) -> BadInput:
        return BadInput([Fault(str(path), None, says)])

    try:
        if path.is_dir():
            raise refuse("this is a folder; name the file in it.")
        if path.exists() and not path.is_file():
            raise refuse("this is not an ordinary file.")
        if path.stat().st_size > LARGEST_FILE:
            raise refuse(
                f"the file is larger than {LARGEST_FILE // 2**20} MB; it cannot be a brief."
            )
        return path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise refuse("there is no such file; check the path.") from None
    except UnicodeDecodeError as error:
        says = f"byte {error.start + 1} is not UTF-8 text; save the file as UTF-8."
        raise refuse(says) from None
    except ValueError:
        raise refuse("this is not a usable path.") from None
    except OSError as error:
        raise refuse(f"it cannot be read: {error.strerror}.") from None


class _Builder:
    """Turns parser events into mappings and sequences, keeping a stack instead of recursing."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Mapping | Sequence | None = None
        self.faults: list[Fault] = []
        self._stack: list[Mapping | Sequence] = []
        self._key: str | None = None
        self._documents = 0

    def take(self, event: Any) -> None:
        handler = _HANDLERS.get(event.__class__)
        if handler is not None:
            handler(self, event)

    def close(self, event: Any) -> None:
        self._stack.pop()
        self._key = None

    def open_mapping(self, event: Any) -> None:
        self._open(Mapping(event.start_mark.line + 1), event)

    def open_sequence(self, event: Any) -> None:
        self._open(Sequence(event.start_mark.line + 1), event)

    def alias(self, event: Any) -> None:
        self._refuse(event, "aliases (*name) are not used here; write the value out.")

    def document(self, event: Any) -> None:
        self._documents += 1
        if self._documents > 1:
            self._refuse(event, "a second document starts here; keep one in a file.")

    def _refuse(self, event: Any, says: str) -> None:
        raise BadInput([*self.faults, Fault(self.file, event.start_mark.line + 1, says)])

    def _open(self, container: Mapping | Sequence, event: Any) -> None:
        if event.tag is not None:
            self._refuse(event, f"the tag {event.tag} is not used here.")
        if len(self._stack) >= DEEPEST_NESTING:
            self._refuse(event, f"entries are nested deeper than {DEEPEST_NESTING} levels.")
        if self._stack:
            self._place(container, event)
        else:
            self.root = container
        self._stack.append(container)
        self._key = None

    def scalar(self, event: Any) -> None:
        if event.tag is not None:
            self._refuse(event, f"the tag {event.tag} is not used here.")
        value: str | None = event.value
        if _UNPRINTABLE.search(event.value):
            says = "this holds a character that cannot be printed; take it out."
            self.faults.append(Fault(self.file, event.start_mark.line + 1, says))
        if value in _EMPTY and not event.style:
            value = None
        if self._stack:
            self._place(value, event)
        elif value is not None:
            self._refuse(event, "write the file as `name: value` lines.")

    def _place(self, value: Any, event: Any) -> None:
        container = self._stack[-1]
        if container.__class__ is Mapping:
            key = self._key
            if key is None:
                self._name(value, container, event)
            else:
                if key not in container:
                    container[key] = value
                self._key = None
        else:
            container.append(value)  # type: ignore[union-attr]
            container.lines.append(event.start_mark.line + 1)  # type: ignore[union-attr]

    def _name(self, name: Any, mapping: Mapping, event: Any) -> None:
        """The name before a colon: a plain word, and not one that stands there already."""
        line: int = event.start_mark.line + 1
        if not isinstance(name, str):
            self._refuse(event, "a name before the colon is a plain word.")
        if name in mapping:
            says = f"{name} stands twice (first on line {mapping.lines[name]}); keep one."
            self.faults.append(Fault(self.file, line, says))
        self._key = name
        mapping.lines.setdefault(name, line)


_HANDLERS = {
    ScalarEvent: _Builder.scalar,
    MappingStartEvent: _Builder.open_mapping,
    SequenceStartEvent: _Builder.open_sequence,
    MappingEndEvent: _Builder.close,
    SequenceEndEvent: _Builder.close,
    AliasEvent: _Builder.alias,
    DocumentStartEvent: _Builder.document,
}
