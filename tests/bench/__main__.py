"""The figures that the program promises, each as a ratio measured side by side in one run.

Run: python -m tests.bench
"""

from __future__ import annotations

import os
import platform
import tempfile

from tests.bench import measures, review_measures, study_measures, tui_measures
from tests.bench.measuring import table

if __name__ == "__main__":
    system = f"{platform.system()} {platform.machine()}"
    print(f"Python {platform.python_version()}, {system}, {os.cpu_count()} cores")
    # Processes are measured as they run where the program is installed: compiled once.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    with tempfile.TemporaryDirectory() as compiled:
        os.environ["PYTHONPYCACHEPREFIX"] = compiled
        measures.run()
        review_measures.run()
        study_measures.run()
        tui_measures.run()
    print(table())
