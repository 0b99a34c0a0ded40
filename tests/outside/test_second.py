"""Whole trips, computed a second time by tests/reference/second.py with
general-purpose reference libraries (named there), against `plan --json`."""

import json
import pathlib
import sys

import pytest

REFERENCE = pathlib.Path(__file__).resolve().parents[1] / "reference"
sys.path.insert(0, str(REFERENCE))
import second  # noqa: E402

TRIPS = ["canister-cold", "white-gas-snow", "alcohol-summer", "exchanger-high-snow", "alcohol-no-lid", "kerosene-large-group", "canister-mixed-shelf"]


@pytest.fixture(scope="module", params=TRIPS)
def both(request, leeside):
    path = REFERENCE / "trips" / f"{request.param}.yaml"
    trip, plan = second.Trip(path), json.loads(leeside("plan", path, "--json").stdout)
    if trip.blend:
        # the flame of a cold canister sinks
        trip.in_the_cold(plan["kitchens"][0])
        if request.param == "canister-cold":
            assert min(trip.cold.values()) < 0.8 * trip.watts
    return trip, plan


def test_camps(both):
    ours, plan = both
    for camp, got in zip(ours.raw["camps"], plan["camps"], strict=True):
        pressure, boil = second.boiling(second.quantity(camp["elevation"]))
        assert got["pressure_kpa"] == pytest.approx(pressure, rel=1e-4)
        assert got["boiling_c"] == pytest.approx(boil, abs=0.02)


def test_every_meal(both):
    ours, plan = both
    rows, grams, _ = ours.likely_grams()
    got = {(plan_row["camp"], plan_row["meal"]): plan_row for plan_row in plan["kitchens"][0]["meals"]}
    assert len(got) == len(rows)
    for row, fuel in zip(rows, grams, strict=True):
        mine = got[ours.raw["camps"][row["camp"]]["name"], row["meal"]]
        assert mine["times"] == row["times"]
        assert mine["water_l"] == pytest.approx(row["water"], rel=1e-3)
        assert mine["batches"] == row["batches"]
        for part in ("water", "pot", "melt"):
            assert mine["heat_kj"][part] == pytest.approx(row["heat"][part], rel=0.01, abs=0.05), (row["meal"], part)
        assert mine["fuel_g"] == pytest.approx(float(fuel), rel=0.01), row["meal"]


def test_fuel(both):
    ours, plan = both
    fuel = plan["kitchens"][0]["fuel"]
    _, _, likely = ours.likely_grams()
    assert fuel["likely_g"] == pytest.approx(float(likely), rel=0.01)
    assert fuel["at_confidence_g"] == pytest.approx(ours.at_confidence_grams(), rel=0.02)
    if ours.blend:
        assert fuel["heating_value_mj_per_kg"] == pytest.approx(ours.lhv, rel=1e-4)
    need = max(fuel["at_confidence_g"], fuel["likely_g"] + float(ours.spare_grams()))
    assert need - 1 <= fuel["carry_g"] <= need + 6, "the larger of percentile and spare day, up to the next 5 g"
    assert fuel["carry_g"] % 5 == 0
    nights = sum(int(camp["nights"]) for camp in ours.raw["camps"])
    assert fuel["grams_per_person_day"] == pytest.approx(float(likely) / ours.people / nights, rel=0.01)


def test_containers(both):
    ours, plan = both
    kitchen = plan["kitchens"][0]
    if not ours.blend:
        bottles = sum(c["count"] * c["net_g"] for c in kitchen["containers"])
        assert bottles >= kitchen["fuel"]["carry_g"]
        return
    carry = kitchen["fuel"]["carry_g"]
    if ours.shelf:
        # nothing stays in them for the cold alone: what one can give is what is in it, less 4 g
        for can in [*ours.shelf.values(), *map(ours.new_can, second.second_burn.SHELLS)]:
            for camp in ours.raw["camps"]:
                pressure, _ = second.boiling(second.quantity(camp["elevation"]))
                assert second.usable(can["liquid"], second.quantity(camp["night"]), pressure) > 0.99
        tags, new = ours.choice(carry)
        assert [one["tag"] for one in kitchen["containers"] if one["tag"]] == tags
        got = [round(one["size_g"]) for one in kitchen["containers"] if not one["tag"] for _ in range(one["count"])]
        assert got == new
        assert len(tags) > 2 and len({ours.shelf[tag]["size"] for tag in tags}) > 2 and new, "mixed sizes, and a new one"
        return
    gross, _ = second.lightest_mix(carry)
    got = kitchen["containers"]
    assert sum(c["count"] * (c["net_g"] - 4) for c in got) >= carry, "4 g of each cannot be used"
    if all(row["usable_fraction"] >= 0.99 for row in kitchen["cold"]):
        assert sum(c["count"] * c["gross_g"] for c in got) == pytest.approx(gross, rel=0.01)


def test_every_example_trip_needs_what_is_usual_in_the_field(leeside):
    """The ranges of grams a person and day are common practice, no source; a trip with some nights
    from snow lies between them. A lesson is held against none."""
    for path in sorted((pathlib.Path(__file__).resolve().parents[2] / "content/trips").glob("*.yaml")):
        plan = json.loads(leeside("plan", path, "--json").stdout)
        for kitchen in plan["kitchens"]:
            usual = kitchen["fuel"]["usual"]
            grams = kitchen["fuel"]["grams_per_person_day"]
            if plan["kind"] == "lesson":
                assert usual["season"] is None
                continue
            assert usual["inside"], f"{path.stem}, {kitchen['name']}: {grams} g, {usual}"
            assert usual["low"] <= grams <= usual["high"]
