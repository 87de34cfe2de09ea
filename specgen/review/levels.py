"""How deep a numbered paragraph stands, worked out from the numbers before it.

An automatic list says it itself. Typed numbers are followed as a reader follows them: a label that
goes on from one above it stands at that level, a label of a new kind starts a level below, and
where both could be, indents and the usual order of labels decide.
"""

from __future__ import annotations

from dataclasses import dataclass

from specgen.review.labels import USUAL_DEPTH, Label
from specgen.review.lines import Line

DEEPEST = 6
_ROMAN_FORM = {"a.": "i.", "a)": "i)", "(a)": "(i)", "A.": "I."}
_LETTER_FORM = {roman: letter for letter, roman in _ROMAN_FORM.items()}


@dataclass(slots=True)
class _Open:
    """A level that is open: the label that it has come to, and where that stood."""

    form: str
    value: int
    cited: str
    list: str
    depth: int
    indent: int | None


class Levels:
    """The levels open in one article."""

    def __init__(self) -> None:
        self._open: list[_Open] = []

    @property
    def cited(self) -> str:
        """The labels from the article down to the present paragraph, joined by stops; empty if one
        of them is no number."""
        pieces = [one.cited for one in self._open]
        return ".".join(pieces) if all(pieces) else ""

    @property
    def level(self) -> int:
        return min(len(self._open), DEEPEST)

    def enter(self, label: Label, line: Line) -> int:
        """The level of a labeled paragraph, which is then the one that is open."""
        form, value = self._read(label)
        depth = self._depth(form, value, line)
        del self._open[depth:]
        self._open.append(_Open(form, value, label.cited, line.list, line.depth, line.indent))
        return self.level

    def beside(self, line: Line) -> int:
        """The level of an unlabeled paragraph: that of the text it goes on or hangs below."""
        if line.indent:
            for depth, one in enumerate(self._open):
                if one.indent is not None and one.indent >= line.indent:
                    return min(depth + 1, DEEPEST)
        elif line.indent == 0 and self._open and self._open[0].indent:
            return 1
        return max(self.level, 1)

    def _read(self, label: Label) -> tuple[str, int]:
        """The form and the count of a label; ``i.`` may be a letter or a Roman numeral."""
        form, value = label.form, label.value
        letter = _LETTER_FORM.get(form, form)
        numeral = _ROMAN_FORM.get(letter)
        if numeral is None or not label.roman:
            return form, value
        counted = ord(label.cited[0].lower()) - 96 if len(set(label.cited)) == 1 else 0
        if counted and any(
            one.form == letter and one.value + 1 == counted + 26 * (len(label.cited) - 1)
            for one in self._open
        ):
            return letter, counted + 26 * (len(label.cited) - 1)
        goes_on = any(one.form == numeral and one.value + 1 == label.roman for one in self._open)
        if goes_on or label.roman == 1 or form == numeral:
            return numeral, label.roman
        return letter, value

    def _depth(self, form: str, value: int, line: Line) -> int:
        """How many open levels stay open above a new label."""
        if line.list:
            listed = self._by_list(line)
            if listed is not None:
                return listed
        same = [depth for depth, one in enumerate(self._open) if one.form == form]
        if line.indent is not None and len(same) != 1:
            near = [d for d in same if self._open[d].indent == line.indent]
            if near:
                return near[-1]
        for depth in reversed(same):
            if form != "•" and self._open[depth].value + 1 == value:
                return depth
        if not same:
            return self._new(form, line)
        if form == "•" or value != 1:
            earlier = [depth for depth in same if self._open[depth].value < value]
            return (earlier or same)[-1] if form != "•" else self._bullet(same, line)
        # A list that starts over: below the one that is open, unless that is of its own kind.
        top = len(self._open) - 1
        if same[-1] == top:
            indent = self._open[top].indent
            deeper = indent is not None and line.indent is not None and line.indent > indent
            return top + 1 if deeper else top
        by_indent = self._by_indent(line)
        if by_indent is not None:
            return by_indent
        # Letters that start over after figures are a heading that was missed, not a level below.
        return same[-1] if USUAL_DEPTH.get(form, DEEPEST) == 1 else top + 1

    def _by_list(self, line: Line) -> int | None:
        own = [(depth, one) for depth, one in enumerate(self._open) if one.list == line.list]
        if not own:
            return None
        for depth, one in reversed(own):
            if one.depth == line.depth:
                return depth
            if one.depth < line.depth:
                return depth + 1
        return own[0][0]

    def _bullet(self, same: list[int], line: Line) -> int:
        last = same[-1]
        indent = self._open[last].indent
        if indent is None or line.indent is None or line.indent == indent:
            return last
        if line.indent > indent:
            return last + 1
        shallower = [d for d in same if (self._open[d].indent or 0) >= line.indent]
        return shallower[0] if shallower else last

    def _new(self, form: str, line: Line) -> int:
        """Where a label of a kind that is not open goes: by indents where they differ, else by the
        usual order of labels."""
        by_indent = self._by_indent(line)
        if by_indent is not None:
            return by_indent
        usual = USUAL_DEPTH.get(form, DEEPEST)
        for depth, one in enumerate(self._open):
            if USUAL_DEPTH.get(one.form, DEEPEST) > usual:
                return depth
        return len(self._open)

    def _by_indent(self, line: Line) -> int | None:
        """Where a label goes by its indent; None where indents are not known or all the same."""
        if line.indent is None or any(one.indent is None for one in self._open):
            return None
        if all(one.indent == line.indent for one in self._open):
            return None
        for depth, one in enumerate(self._open):
            if one.indent is not None and one.indent >= line.indent:
                return depth
        return len(self._open)
