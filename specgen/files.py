"""Writing files so that a reader finds the old one or the new one, whole, and never half of one."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from specgen.faults import BadInput, Fault


def replace_file(path: Path, content: bytes) -> None:
    """Put ``content`` at ``path``: written beside it, flushed to disk, then renamed over it.

    A link stays one: what it leads to is replaced. Raises BadInput, with the file that was there
    untouched, if the folder is missing, cannot be written or is full, or if a device or a pipe
    stands at ``path``.
    """
    temporary: str | None = None
    try:
        if path.is_symlink():
            path = Path(os.path.realpath(path))
        if path.is_dir():
            raise BadInput([Fault(str(path), None, "this is a folder; name a file in it.")])
        if path.exists() and not path.is_file():
            raise BadInput([Fault(str(path), None, "this is not an ordinary file; name one.")])
        if not path.parent.is_dir():
            says = f"the folder {path.parent} does not exist; make it or choose another."
            raise BadInput([Fault(str(path), None, says)])
        handle, temporary = tempfile.mkstemp(prefix=f".{path.name[:64]}-", dir=path.parent)
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, _mode_for(path))
        os.replace(temporary, path)
        temporary = None
        _flush_folder(path.parent)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise BadInput([Fault(str(path), None, f"it cannot be written: {reason}.")]) from None
    finally:
        if temporary is not None:
            Path(temporary).unlink(missing_ok=True)


def is_folder(path: Path) -> bool:
    """Whether a folder stands at ``path``; no for a path that no file can have."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def same_file(one: Path, other: Path) -> bool:
    """Whether two paths, written as they may be, lead to one file, there already or not."""
    try:
        if one.exists() and other.exists():
            return one.samefile(other)
        return os.path.realpath(one) == os.path.realpath(other)
    except (OSError, ValueError):
        return False


def _mode_for(path: Path) -> int:
    """The permissions of the file that is replaced, or those a new file would get."""
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _flush_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
