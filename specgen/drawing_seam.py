"""The seam in section, as lines: how its legs stand, fold and take the clip, by kind of seam.

Measures are in whatever unit the height comes in; the origin is where the pans meet the support of
the seam, y upward. Sheets lie ``pitch`` apart, far more than in metal, so that the folds can be
seen: only the height is to scale.
"""

from __future__ import annotations

from dataclasses import dataclass

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class SeamLine:
    """One sheet of the seam as an open line; ``part`` is left, right, cap, clip, batten or open."""

    part: str
    points: Points


def seam_lines(kind: str, clip: str, height: float, pitch: float, reach: float) -> list[SeamLine]:
    """The lines of a seam whose pans run to ``reach`` on either side.

    ``kind`` is a choice of the question seam, empty while it is open; ``clip`` one of clip_kind.
    """
    if kind == "batten":
        return _batten(height, pitch, reach)
    lines = {"double-lock": _double_lock, "single-lock": _single_lock, "snap-lock": _snap_lock}
    if kind not in lines:
        upright = ((-reach, pitch), (0.0, pitch), (0.0, height), (0.0, pitch), (reach, pitch))
        return [SeamLine("open", upright)]
    return [*_clip(clip, kind, height, pitch), *lines[kind](height, pitch, reach)]


def _double_lock(height: float, pitch: float, reach: float) -> list[SeamLine]:
    """The outer sheet over the inner, around its edge, and both folded down against the leg."""
    h, g = height, pitch
    fold = max(0.42 * h, 3 * g)
    outer = (
        (-reach, g),
        (0.0, g),
        (0.0, h),
        (5 * g, h),
        (5 * g, h - fold),
        (3 * g, h - fold),
        (3 * g, h - 2.6 * g),
    )
    inner = (
        (reach, g),
        (2 * g, g),
        (2 * g, h - 1.4 * g),
        (4 * g, h - 1.4 * g),
        (4 * g, h - fold + g),
    )
    return [SeamLine("left", outer), SeamLine("right", inner)]


def _single_lock(height: float, pitch: float, reach: float) -> list[SeamLine]:
    """The outer sheet over the inner and back under its edge, level at the top of the leg."""
    h, g = height, pitch
    over = max(0.4 * h, 7 * g)
    outer = (
        (-reach, g),
        (0.0, g),
        (0.0, h),
        (over, h),
        (over, h - 2.8 * g),
        (3.2 * g, h - 2.8 * g),
    )
    inner = ((reach, g), (2 * g, g), (2 * g, h - 1.5 * g), (over - g, h - 1.5 * g))
    return [SeamLine("left", outer), SeamLine("right", inner)]


def _snap_lock(height: float, pitch: float, reach: float) -> list[SeamLine]:
    """A barb on the inner leg, and the outer leg's lip sprung under it."""
    h, g = height, pitch
    drop = max(0.3 * h, 3 * g)
    outer = (
        (-reach, g),
        (0.0, g),
        (0.0, h),
        (5 * g, h),
        (5 * g, h - drop - 1.8 * g),
        (3.2 * g, h - drop - 0.8 * g),
    )
    inner = ((reach, g), (2 * g, g), (2 * g, h - 1.4 * g), (4.2 * g, h - drop))
    return [SeamLine("left", outer), SeamLine("right", inner)]


def _batten(height: float, pitch: float, reach: float) -> list[SeamLine]:
    """Pans turned up against a batten, and a cap hooked under their turned-out edges."""
    h, g = height, pitch
    half = max(0.45 * h, 3 * g)
    flange = max(0.2 * h, 2.5 * g)
    left = ((-reach, g), (-half - g, g), (-half - g, h), (-half - flange, h))
    out = half + flange + g
    cap = (
        (-half - 2.4 * g, h - g),
        (-out, h - g),
        (-out, h + g),
        (out, h + g),
        (out, h - g),
        (half + 2.4 * g, h - g),
    )
    batten = ((-half, 0.0), (-half, h), (half, h), (half, 0.0), (-half, 0.0))
    return [
        SeamLine("batten", batten),
        SeamLine("left", left),
        SeamLine("right", tuple((-x, y) for x, y in left)),
        SeamLine("cap", cap),
    ]


def _clip(clip: str, kind: str, height: float, pitch: float) -> list[SeamLine]:
    """The clip between the legs: one piece, or a tab hooked into a base."""
    if not clip:
        return []
    h, g = height, pitch
    base = max(1.0 * h, 9 * g)
    hook = 3.0 if kind == "double-lock" else 2.2 if kind == "snap-lock" else 4.0
    top = ((g, h - 0.7 * g), (g + hook * g, h - 0.7 * g))
    if clip == "one-piece":
        return [SeamLine("clip", ((base, 0.0), (g, 0.0), *top))]
    return [
        SeamLine("clip", ((base, 0.0), (0.6 * g, 0.0), (0.6 * g, 0.4 * h), (1.4 * g, 0.4 * h))),
        SeamLine("clip", ((1.3 * g, 0.22 * h), (g, 0.22 * h), *top)),
    ]
