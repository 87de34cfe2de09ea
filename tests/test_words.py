"""One word for one thing, in American spelling, and no mark or path that is not the project's."""

from __future__ import annotations

import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support import ROOT

PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md"]
LIBRARY = sorted((ROOT / "clauses").rglob("*.yaml"))
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))
CODE = sorted(
    path
    for folder in ("specgen", "tui")
    for path in (ROOT / folder).rglob("*")
    if path.suffix in (".py", ".html")
)
TESTS = sorted(
    path
    for path in (ROOT / "tests").rglob("*")
    if path.suffix in (".py", ".yaml", ".csv") and path.name != Path(__file__).name
)
READ = [*PAGES, *LIBRARY, *EXAMPLES, *CODE]

# What other people type is understood in either spelling; these modules read it.
READS_OTHER_SPELLINGS = {"units.py", "coverage_synonyms.py"}
BRITISH = re.compile(
    r"\b(?:grey\w*|colour\w*|alumini\w+|vapour\w*|cent(?:re|red|ring)|(?:milli)?metres?|fibre\w*"
    r"|mould\w*|neighbour\w*|labour\w*|catalogue\w*|galvanis\w+|anodis\w+|organis\w+|recognis\w+"
    r"|summaris\w+|programmes?|licence\w*|practis\w+|towards|afterwards|upwards|downwards"
    r"|outwards|whilst|storeys?|judgement\w*|labell\w+|levell\w+|modell\w+|travell\w+|cancelled"
    r"|sulph\w+|kerb\w*|tonnes?)\b",
    re.IGNORECASE,
)
# An id is a name that briefs rely on, not a word that anybody reads.
_ID = re.compile(
    r"^\s*(?:- )?(?:id|at|under|place|check|clause|needs|after):.*$|'[a-z0-9-]+'", re.M
)


def _said_by(path: Path) -> str:
    """What a person reads of a file: of a module its strings and comments, of YAML no ids."""
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".py":
        return "\n".join(_strings_and_comments(text))
    if path.parent.name == "recognizers":
        # Their patterns hold the words of other people.
        return "\n".join(line for line in text.splitlines() if line.startswith("#"))
    return _ID.sub("", text) if path.suffix == ".yaml" else text


def _strings_and_comments(text: str) -> Iterator[str]:
    code = {tokenize.NAME, tokenize.OP, tokenize.NUMBER}
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in code:
            yield token.string


def _second_words() -> dict[str, str]:
    """The words that DEVELOPERS.md says are not used, each with the word for the thing."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.partition("| word | it is | not |\n|---|---|---|\n")[2].partition("\n\n")[0]
    found = {}
    for row in table.splitlines():
        word, _, others = row.strip("| ").rsplit(" | ", 2)
        found.update({other.strip(): word for other in others.split(",")})
    return found


def test_the_table_of_words_is_read() -> None:
    assert _second_words()["safety factor"] == "design factor"


@pytest.mark.parametrize("path", READ, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_second_word_stands_for_one_thing(path: Path) -> None:
    said = _said_by(path)
    if path.name == "DEVELOPERS.md":
        said = said.replace(said.partition("| word | it is | not |")[2].partition("\n\n")[0], "")
    found = {
        f"{other}: say {word}"
        for other, word in _second_words().items()
        if re.search(rf"\b{other}s?\b", said, re.IGNORECASE)
    }
    assert not found


@pytest.mark.parametrize("path", READ, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_what_a_user_reads_is_in_american_spelling(path: Path) -> None:
    if path.name not in READS_OTHER_SPELLINGS:
        assert not set(BRITISH.findall(_said_by(path)))


@pytest.mark.parametrize("path", [*READ, *TESTS], ids=lambda p: p.relative_to(ROOT).as_posix())
def test_no_mark_of_a_maker_and_no_path_of_a_machine(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search("[™®℠©]", text)
    assert not re.search(r"(?<![\w.])/(?:home|root|Users|tmp|work|opt|mnt)/\w", text)
