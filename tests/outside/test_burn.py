"""Canisters in the cold, computed a second time by tests/reference/second_burn.py with
general-purpose reference libraries (named there), against `plan --json`."""

import json
import pathlib
import sys

import pytest

REFERENCE = pathlib.Path(__file__).resolve().parents[1] / "reference"
sys.path.insert(0, str(REFERENCE))
import second  # noqa: E402
import second_burn  # noqa: E402

ORDER = ["fine", "slow", "weak", "will not work"]


def test_cold(leeside):
    path = REFERENCE / "trips" / "canister-cold.yaml"
    raw = second.Trip(path).raw
    kitchen = json.loads(leeside("plan", path, "--json").stdout)["kitchens"][0]
    own = raw["kitchens"][0]
    camps = [
        {
            "name": camp["name"],
            "nights": int(camp["nights"]),
            "day": second.quantity(camp["day"]),
            "night": second.quantity(camp["night"]),
            "wind": camp["wind"],
            "ambient": second.boiling(second.quantity(camp["elevation"]))[0],
            "boils": second.boiling(second.quantity(camp["elevation"]))[1],
        }
        for camp in raw["camps"]
    ]
    burner = second_burn.Burner(2500.0, 2500.0, True, kitchen["fuel"]["heating_value_mj_per_kg"])

    def hold(camp, row):
        return 8 * 1.6 ** ((99.97 - camp["boils"]) / 10) if row["meal"] == "supper" else 0.0

    turns = second_burn.cold(kitchen, camps, burner, second.blend(own["blend"]), own["windscreen"], 350.0, hold)
    assert kitchen["cold"] and len(kitchen["cold"]) == len(turns)
    for row in kitchen["cold"]:
        mine = turns[row["camp"], row["meal"]]
        worst = min(mine, key=lambda turn: (-ORDER.index(turn["verdict"]), turn["mean"], turn["low"]))
        what = f"{row['camp']}, {row['meal']}: {row} {worst}"
        assert row["gauge_start_kpa"] == pytest.approx(worst["start"], abs=3), what
        assert row["fuel_temperature_c"] == pytest.approx(worst["end"], abs=0.5), what
        assert row["gauge_low_kpa"] == pytest.approx(worst["low"], abs=3), what
        assert row["power_kw"] == pytest.approx(worst["mean"], rel=0.02), what
        if all(abs(worst["mean"] / 2.5 - edge) > 0.01 for edge in (0.75, 0.40)):
            assert row["verdict"] == worst["verdict"], what
