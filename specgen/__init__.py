"""The engine of specgen: briefs, the clause library, and the sections drafted from them."""

__version__ = "0.1.0"
