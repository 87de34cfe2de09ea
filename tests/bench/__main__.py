"""The figures that the program promises, each as a ratio measured side by side in one run.

Run: python -m tests.bench
"""

from __future__ import annotations

from tests.bench.measures import run

if __name__ == "__main__":
    run()
