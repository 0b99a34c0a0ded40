"""Canisters in the cold, computed a second time by tests/reference/second_burn.py with
general-purpose reference libraries (named there), against `plan --json`."""

import json
import pathlib
import sys

import pytest

REFERENCE = pathlib.Path(__file__).resolve().parents[1] / "reference"
sys.path.insert(0, str(REFERENCE))
import second  # noqa: E402

ORDER = ["fine", "slow", "weak", "will not work"]


@pytest.mark.parametrize("name", ["canister-cold", "canister-mixed-shelf"])
def test_cold(leeside, name):
    path = REFERENCE / "trips" / f"{name}.yaml"
    kitchen = json.loads(leeside("plan", path, "--json").stdout)["kitchens"][0]
    turns = second.Trip(path).in_the_cold(kitchen)
    assert kitchen["cold"] and len(kitchen["cold"]) == len(turns)
    for row in kitchen["cold"]:
        mine = turns[row["camp"], row["meal"]]
        worst = min(mine, key=lambda turn: (-ORDER.index(turn["verdict"]), turn["mean"], turn["low"]))
        assert (row["container"] == worst["tag"]) or not worst["tag"], (row, worst)
        what = f"{row['camp']}, {row['meal']}: {row} {worst}"
        assert row["gauge_start_kpa"] == pytest.approx(worst["start"], abs=3), what
        assert row["fuel_temperature_c"] == pytest.approx(worst["end"], abs=0.5), what
        assert row["gauge_low_kpa"] == pytest.approx(worst["low"], abs=3), what
        assert row["power_kw"] == pytest.approx(worst["mean"], rel=0.02), what
        if all(abs(worst["mean"] / 2.5 - edge) > 0.01 for edge in (0.75, 0.40)):
            assert row["verdict"] == worst["verdict"], what
