"""The library of questions, clauses and standards: YAML only. ``FOLDER`` says where it is."""

from pathlib import Path

FOLDER = Path(__file__).parent
