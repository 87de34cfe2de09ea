"""The calculation record as JSON."""

from __future__ import annotations

import json
from pathlib import Path

from specgen.library import Library
from specgen.writers.calculations_json import calculations_json
from tests.writers.test_calculations_shown import STEPS, record_of


def test_every_calculation_is_there_as_plain_values(library: Library, tmp_path: Path) -> None:
    entries = json.loads(json.dumps(calculations_json(record_of(library, tmp_path))))
    by_id = {entry["id"]: entry for entry in entries}
    assert len(entries) == len({id(each) for each in library.calculations.values()})
    wind = by_id["wind"]
    assert wind["state"] == "computed"
    assert [step["symbol"] for step in wind["steps"]] == [step.symbol for step in STEPS]
    assert wind["steps"][1]["worked"] == STEPS[1].worked
    values = {value["id"]: value["value"] for value in wind["values"]}
    assert values["velocity_pressure"] == {"magnitude": 23.6, "unit": "psf", "shown": "23.6 psf"}
    assert values["computed_pressures"][2]["zone"] == "Zone 3"
    assert values["computed_pressures"][2]["upward"]["magnitude"] == 47.9
    assert len(wind["plan"]) == 9
    assert by_id["movement"]["series"][-1] == [60, 60 / 70]


def test_what_is_refused_or_open_says_what_settles_it(library: Library, tmp_path: Path) -> None:
    by_id = {entry["id"]: entry for entry in calculations_json(record_of(library, tmp_path))}
    refused = by_id["sheet"]
    assert refused["state"] == "refused"
    assert "limits are 6 to 36" in str(refused["refused"])
    ask = library.questions["panel_width"].ask
    assert refused["waits_on"] == [{"question": "panel_width", "ask": ask}]
    assert by_id["slope_loads"]["state"] == "open"
