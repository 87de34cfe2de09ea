"""Symbols and formulas of steps as HTML: subscripts, powers, Greek letters and true signs."""

from __future__ import annotations

import re
from html import escape

from markupsafe import Markup

from specgen.writers.calculations_shown import step_value

GREEK = {"alpha": "α", "theta": "θ", "Delta": "Δ", "delta": "δ", "phi": "φ", "rho": "ρ"}

# Written together in a step, printed with a subscript in the standards that they come from.
JOINED = {
    "Kz": "K_z", "Kzt": "K_zt", "Kd": "K_d", "Ke": "K_e", "qh": "q_h", "GCp": "GC_p",
    "GCpi": "GC_pi", "zg": "z_g", "ze": "z_e", "pu": "p_u", "pa": "p_a", "pg": "p_g", "pf": "p_f",
    "pm": "p_m", "Ce": "C_e", "Ct": "C_t", "Is": "I_s", "Cs": "C_s",
}  # fmt: skip

_JOINED = re.compile(rf"(?<!\w)({'|'.join(JOINED)})(?![a-zA-Z])")
_POWER_OF_TEN = re.compile(r"(\d(?:\.\d+)?)e([-+])0*(\d+)")
_GREEK = re.compile(rf"(?<![A-Za-z])({'|'.join(GREEK)})(?![A-Za-z])")
_SUBSCRIPT = re.compile(
    r"(?<![A-Za-zα-ωΔ])([A-Za-zα-ωΔ]+)(?:_|,)([A-Za-z0-9]+(?:[,_][A-Za-z0-9]+)*)"
)
_INDEX = re.compile(r"(?<![\w>])([A-Za-z])(\d)(?!\w)")
_POWER = re.compile(r"\^(?:\(([^()]*)\)|(-?[\w.]+))")
_MINUS = re.compile(r"(?<![\w)])-(?=[\w(.])|(?<= )-(?= )")


def formula_html(text: str) -> str:
    """A formula, in symbols or in figures, as HTML; the text is escaped first."""
    html = _GREEK.sub(lambda m: GREEK[m[1]], escape(text, quote=False))
    html = _JOINED.sub(lambda m: JOINED[m[1]], html)
    html = _POWER_OF_TEN.sub(_ten, html)
    html = _SUBSCRIPT.sub(r"\1<sub>\2</sub>", html)
    html = _INDEX.sub(r"\1<sub>\2</sub>", html)
    html = _MINUS.sub("−", html)
    html = _POWER.sub(lambda m: f"<sup>{m[1] or m[2]}</sup>", html)
    html = re.sub(r"(?<= )x(?= )", "×", html)
    return html.replace("sqrt(", "√(").replace("&gt;=", "≥").replace("&lt;=", "≤")


def value_html(value: float) -> str:
    """A step's figure as HTML."""
    return _POWER_OF_TEN.sub(_ten, step_value(value)).replace("-", "−")


def _ten(match: re.Match[str]) -> str:
    minus = "−" if match[2] == "-" else ""
    return f"{match[1]} × 10<sup>{minus}{match[3]}</sup>"


def breakable(text: str) -> Markup:
    """Text that a narrow column can break inside words which are longer than any in print."""
    words = re.sub(r"\S{24,}", lambda m: re.sub(r"(.{12})", "\\1\x00", m[0]), text)
    return Markup(escape(words, quote=False).replace("\x00", "<wbr>"))
