"""The example season, from its two tables to its papers: forty departures of three trips, ninety canisters,
the returns of a month. What is held here is worked out from the tables alone, without the program."""

import datetime
import os
import pathlib
import re
import shutil
import subprocess

import pytest
import two_places
import yaml
from two_places import read, walked

ROOT = pathlib.Path(__file__).resolve().parents[2]
SEASONS = ROOT / "content/seasons"
TABLE = SEASONS / "summer-2027.csv"
LEDGER = SEASONS / "summer-2027-shelf.csv"


@pytest.fixture(scope="module")
def office(tmp_path_factory):
    """The tables where an office would have them, shared out and made."""
    folder = tmp_path_factory.mktemp("office")
    (folder / "seasons").mkdir()
    shutil.copytree(ROOT / "content/trips", folder / "trips")
    shutil.copy(TABLE, folder / "seasons/summer.csv")
    shutil.copy(LEDGER, folder / "shelf.csv")

    class Office:
        path = folder
        table = folder / "seasons/summer.csv"
        out = folder / "out"

        def run(self, *args):
            done = subprocess.run([os.environ["LEESIDE"], *map(str, args)], capture_output=True, text=True, cwd=folder)
            assert done.returncode == 0, done.stderr
            return done.stdout + done.stderr

        def season(self):
            return self.run("season", "seasons/summer.csv", "--assigned", "assigned.csv", "--out", "out")

    office = Office()
    office.shared = office.run("shelf", "assign", "--season", "seasons/summer.csv")
    office.made = office.season()
    return office


def test_the_tables_are_what_they_are_said_to_be():
    rows = read(TABLE)
    assert len(rows) == 40 and len({row["base"] for row in rows}) == 3
    lines = read(LEDGER)
    assert len({line["tag"] for line in lines}) == 90
    back = [line["time"][:10] for line in lines if line["action"] == "return"]
    days = datetime.date.fromisoformat(max(back)) - datetime.date.fromisoformat(min(back))
    assert days.days >= 28 and len(back) > 60
    assert walked(LEDGER)[2] == []


def test_no_canister_is_in_two_places_and_none_that_is_out_is_given(office):
    given = two_places.hold(office.path / "assigned.csv", LEDGER)
    assert len(given) > 80
    went = walked(LEDGER)[3]
    # a departure that is over keeps what it took, and takes nothing more
    over = {row["departure"] for row in given if row["how"] == "back again"}
    assert len(over) > 15
    for name in over:
        assert {row["tag"] for row in given if row["departure"] == name} == went[name], name
    assert f"{len(over)} more are over" in office.shared


def trip_of(row, canisters):
    """A row's trip file, written by hand from the columns."""
    base = (ROOT / "content/seasons" / f"{row['base']}.yaml").resolve()
    trip = yaml.safe_load(base.read_text())
    trip["title"] = f"{trip['title']}: {row['departure']}"
    day, month, year = row["start date"].split("/")
    trip["starts"] = f"{year}-{month}-{day}"
    people = trip["people"]
    people.update({key: int(row[key]) for key in ("learners", "instructors", "youngest")})
    if row["diet"]:
        people["diet"] = [one.strip() for one in row["diet"].split(";")]
    if row["kitchens"]:
        heads = dict(one.strip().rsplit(" ", 1) for one in row["kitchens"].split(","))
        trip["kitchens"] = [
            {**kitchen, "people": int(heads[kitchen["name"]])}
            for kitchen in trip["kitchens"] if kitchen["name"] in heads
        ]
    if row["fire stage"]:  # another stage takes no earlier answer over
        for key in ("stoves", "checked", "until"):
            trip.get("restrictions", {}).pop(key, None)
    for head, key in (("fire stage", "stage"), ("fire rule checked", "checked")):
        if row[head]:
            trip.setdefault("restrictions", {})[key] = row[head]
    trip["canisters_on_hand"] = canisters
    return trip


def plain(value):
    """Days as text: a trip file has them so."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def test_each_kind_of_row_is_what_make_makes_of_it(office):
    given = read(office.path / "assigned.csv")
    keys = {"tag": "tag", "size": "size", "gross": "gross", "tare": "tare", "gas": "blend", "connection": "connection"}
    rows = {row["departure"]: row for row in read(TABLE)}
    # one of each trip that is over, and one of each that is not
    names = ["ridge-02", "strand-02", "sands-03", "ridge-16", "strand-16", "sands-08"]
    for name in names:
        canisters = [
            {key: row[head] for head, key in keys.items() if row[head]}
            for row in given if row["departure"] == name and row["tag"]
        ]
        file = office.path / f"{name}.yaml"
        file.write_text(yaml.safe_dump(plain(trip_of(rows[name], canisters)), sort_keys=False, allow_unicode=True))
    office.run("make", *[f"{name}.yaml" for name in names], "--bundle", "field", "--format", "pdf,html", "--out", "made")
    for name in names:
        made = sorted(path.relative_to(office.path / "made") for path in (office.path / "made" / name).rglob("*.*"))
        assert len(made) > 10
        for path in made:
            if path.name != "manifest.json":
                assert (office.out / path).read_bytes() == (office.path / "made" / path).read_bytes(), path


def test_one_changed_row_makes_one_packet_again(office):
    assert "39 made, 0 as they were" in office.made
    assert "0 made, 39 as they were" in office.season()
    before = {path: path.read_bytes() for path in office.out.rglob("packet.pdf")}
    text = office.table.read_text(encoding="utf-8-sig")
    # a white gas trip: no canister moves
    changed = text.replace("ridge-14,../trips/quillback-ridge,06/07/2027,10,2,14", "ridge-14,../trips/quillback-ridge,06/07/2027,9,2,14")
    assert changed != text
    office.table.write_text(changed)
    try:
        assert "1 made, 38 as they were" in office.season()
    finally:
        office.table.write_text(text)
    other = [path.parent.name for path, bytes_ in before.items() if path.read_bytes() != bytes_]
    assert other == ["ridge-14"] and len(before) == 39
    assert (office.out / "ridge-14/change-slip.pdf").exists()


def test_returns_teach(office):
    said = office.run("shelf", "learn", "--season", "seasons/summer.csv")
    assert re.search(r"canister beside.*: [5-9] returns\n  used \d+ % of what was planned", said), said
    assert "measured: {efficiency:" in said
    assert "screen not set up" in said and "several kinds of stove" in said
