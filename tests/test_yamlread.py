"""Reading YAML from a stranger."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.yamlread import LARGEST_FILE, Mapping, Sequence, read_yaml


def _read(folder: Path, text: str | bytes) -> Mapping | Sequence | None:
    path = folder / "file.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_yaml(path)


def _refusal(folder: Path, text: str | bytes) -> str:
    with pytest.raises(BadInput) as caught:
        _read(folder, text)
    return str(caught.value)


def test_scalars_stay_what_was_written(tmp_path: Path) -> None:
    content = _read(tmp_path, "a: 1:12\nb: 0123\nc: yes\nd: 2026-01-31\ne:\nf: ''\n")
    assert content == {"a": "1:12", "b": "0123", "c": "yes", "d": "2026-01-31", "e": None, "f": ""}


def test_every_entry_knows_its_line(tmp_path: Path) -> None:
    content = _read(tmp_path, "# head\na: 1\nb:\n- x\n- {c: 2}\n")
    assert isinstance(content, Mapping)
    assert content.lines == {"a": 2, "b": 3}
    assert content["b"].lines == [4, 5]


def test_an_empty_file_is_nothing(tmp_path: Path) -> None:
    assert _read(tmp_path, "# only a comment\n") is None


def test_a_repeated_key_is_named_with_both_lines(tmp_path: Path) -> None:
    assert "line 3: a stands twice (first on line 1)" in _refusal(tmp_path, "a: 1\nb: 2\na: 3\n")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("a: [1\n", "this is not YAML"),
        ("a: b: c\n", "in quotes"),
        ("a: &x 1\nb: *x\n", "aliases"),
        ("a: !!python/object:os.system 1\n", "tag"),
        ("just words\n", "`name: value` lines"),
        ("a: 1\n---\nb: 2\n", "second document"),
        ("? [a, b]\n: c\n", "plain word"),
        (b"\xff\xfe\xfa", "UTF-8"),
        ("[" * 5000, "nested deeper"),
        ("- " * 5000 + "x", "nested deeper"),
        ("a: \x00\n", "not YAML"),
        ('a: b\nc: "\\e[2J"\n', "line 2: this holds a character that cannot be printed"),
        ('"\\a": b\n', "line 1: this holds a character that cannot be printed"),
    ],
)
def test_what_cannot_be_read_is_refused_with_a_sentence(
    tmp_path: Path, text: str | bytes, says: str
) -> None:
    assert says in _refusal(tmp_path, text)


def test_an_alias_bomb_is_refused_at_its_first_alias(tmp_path: Path) -> None:
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [*{chr(97 + i)}, *{chr(97 + i)}]\n" for i in range(20)
    )
    assert "line 2: aliases" in _refusal(tmp_path, bomb)


def test_a_file_of_fifty_megabytes_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "large.yaml"
    with path.open("wb") as stream:
        stream.truncate(50 * 2**20)
    assert path.stat().st_size > LARGEST_FILE
    with pytest.raises(BadInput, match="larger than 4 MB"):
        read_yaml(path)


def test_a_folder_a_missing_file_and_a_device_are_refused(tmp_path: Path) -> None:
    for path, says in (
        (tmp_path, "folder"),
        (tmp_path / "none.yaml", "no such file"),
        (Path("/dev/zero"), "not an ordinary file"),
        (Path("a\0b"), "usable path"),
    ):
        with pytest.raises(BadInput, match=says):
            read_yaml(path)
