"""The condition language: what it takes, what it refuses, and its three answers."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.conditions import LanguageError, Lookup, decide
from specgen.language import parse_condition, parse_text
from specgen.units import read
from specgen.values import NOT_ASKED, Choice, Open, Value
from specgen.wording import Printer, render

STEEL = Choice("steel", "Steel", "steel")
VALUES: dict[str, Value] = {
    "metal": STEEL,
    "slope": read("1:12", "slope"),
    "yes": True,
    "no": False,
    "open": Open(frozenset(["open"])),
    "other_open": Open(frozenset(["other_open"])),
    "unasked": NOT_ASKED,
    "tests": (STEEL,),
    "count": 3.0,
}


def _lookup(values: Mapping[str, Value]) -> Lookup:
    return lambda name: (values[name], frozenset([name]))


def _decide(source: str) -> bool | frozenset[str]:
    answer, _ = decide(parse_condition(source), _lookup(VALUES))
    return answer.waits_on if isinstance(answer, Open) else answer


@pytest.mark.parametrize(
    ("source", "answer"),
    [
        ("metal == 'steel'", True),
        ("metal != 'steel'", False),
        ("metal in ['copper', 'steel']", True),
        ("metal not in ['copper']", True),
        ("'steel' in tests", True),
        ("'copper' in tests", False),
        ("slope < slope('2:12')", True),
        ("slope('1/2:12') <= slope < slope('2:12')", True),
        ("slope >= slope('2:12')", False),
        ("count > 2 and count < 4", True),
        ("not no", True),
        ("unasked", False),
        ("not unasked", True),
        ("unasked == 'steel'", False),
        ("unasked != 'steel'", False),
        ("unasked < slope('2:12')", False),
        ("metal is answered", True),
        ("unasked is answered", False),
        ("unasked is not answered", True),
        ("slope < count", False),
        ("open", frozenset(["open"])),
        ("not open", frozenset(["open"])),
        ("no and open", False),
        ("open and no", False),
        ("yes and open", frozenset(["open"])),
        ("yes or open", True),
        ("open or yes", True),
        ("no or open", frozenset(["open"])),
        ("open and other_open", frozenset(["open", "other_open"])),
        ("open == 'steel'", frozenset(["open"])),
        ("'steel' in open", frozenset(["open"])),
        ("unasked == open", False),
        ("open != unasked", False),
        ("metal in ['steel', open]", True),
        ("metal in ['copper', open]", frozenset(["open"])),
        ("metal not in ['copper', open]", frozenset(["open"])),
        ("metal in [unasked]", False),
        ("yes if open else no", frozenset(["open"])),
    ],
)
def test_a_condition_is_yes_no_or_open(source: str, answer: bool | frozenset[str]) -> None:
    assert _decide(source) == answer


@pytest.mark.parametrize(
    "source",
    [
        "metal.__class__",
        "metal['id']",
        "().__class__.__bases__",
        "range(10)",
        "slope(metal)",
        "slope('steep')",
        "metal | upper",
        "metal is defined",
        "metal == none",
        "1 + 1",
        "'a' ~ 'b'",
        "metal ==",
        "metal }} {{ slope",
        "{'a': 1}",
        "(" * 3000 + "yes" + ")" * 3000,
        "x" * 5000,
        "count > " + "9" * 400,
    ],
)
def test_what_the_language_does_not_have_is_refused_when_read(source: str) -> None:
    with pytest.raises(LanguageError):
        parse_condition(source)


@pytest.mark.parametrize(
    "source",
    [
        "{% for x in tests %}{{ x }}{% endfor %}",
        "{% set x = 1 %}",
        "{% include 'x' %}",
        "{{ metal | upper }}",
        "{{ ((metal | lower) == 'x') }}",
        "{{ metal() }}",
        "{{ metal",
        "{# note #}",
        "{{- metal -}}",
        "{% if yes %}a",
        "a{% endif %}",
        "{% else %}",
        "{% if yes %}{% else %}{% elif no %}{% endif %}",
        "{% if %}a{% endif %}",
        "{% if yes %}" * 20 + "{% endif %}" * 20,
    ],
)
def test_a_text_is_held_to_the_same_language(source: str) -> None:
    with pytest.raises(LanguageError):
        parse_text(source)


def test_only_the_answers_that_decide_count_as_read() -> None:
    answer, read_names = decide(parse_condition("yes and no and open"), _lookup(VALUES))
    assert (answer, read_names) == (False, frozenset(["no"]))


def _text(source: str) -> str:
    printer = Printer("inch-pound", lambda name: name, max)
    spans, _ = render(parse_text(source), _lookup(VALUES), printer)
    return "".join(getattr(span, "text", "") for span in spans)


def test_a_text_prints_answers_and_marks_the_open_ones() -> None:
    assert _text("{{ metal }} at {{ slope }}") == "steel at 1:12"
    assert _text("{{ metal | first_upper }}, {{ count | words }}") == "Steel, three"
    assert _text("at {{ open }}.") == "at open: open."
    assert _text("{% if open %}a{% else %}b{% endif %}") == "open: open"
    assert _text("{% if open or other_open %}a{% endif %}") == "open: other_open"
    assert _text("{% if no %}a{% elif yes %}b{% else %}c{% endif %}") == "b"
    assert _text("{{ q('24 in') }}") == "24 in"


def test_a_text_that_prints_what_is_not_asked_is_an_error_of_the_library() -> None:
    with pytest.raises(LanguageError, match="not asked"):
        _text("{{ unasked }}")


_KLEENE = st.recursive(
    st.sampled_from(["a", "b", "c"]),
    lambda inner: st.one_of(
        inner.map(lambda x: f"(not {x})"),
        st.tuples(inner, inner).map(lambda p: f"({p[0]} and {p[1]})"),
        st.tuples(inner, inner).map(lambda p: f"({p[0]} or {p[1]})"),
    ),
    max_leaves=8,
)


@given(_KLEENE, st.lists(st.sampled_from([True, False, None]), min_size=3, max_size=3))
def test_a_decided_answer_holds_whatever_the_open_ones_turn_out_to_be(
    source: str, given_values: list[bool | None]
) -> None:
    names = dict(zip("abc", given_values, strict=True))
    values: dict[str, Value] = {
        name: Open(frozenset([name])) if value is None else value for name, value in names.items()
    }
    answer, _ = decide(parse_condition(source), _lookup(values))
    outcomes = set()
    for bits in range(8):
        filled: dict[str, Value] = {
            name: bool(bits >> i & 1) if value is None else value
            for i, (name, value) in enumerate(names.items())
        }
        outcome, _ = decide(parse_condition(source), _lookup(filled))
        outcomes.add(outcome)
    if not isinstance(answer, Open):
        assert outcomes == {answer}
    else:
        assert answer.waits_on <= {name for name, value in names.items() if value is None}
