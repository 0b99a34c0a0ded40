"""A season grows in length alone: memory stays what it was, time grows with the departures. The small
version of tests/bench_season; DEVELOPERS.md has the readings of seasons up to ten thousand."""

import os
import re

import drawn_season


def run(folder, count):
    folder.mkdir()
    drawn_season.write(folder, count)
    status, said, _, cpu, memory = drawn_season.measured([os.environ["LEESIDE"], "season", "season.csv"], folder)
    assert status == 0 and f"{count} made" in said, said
    return cpu, memory


def test_a_longer_season_holds_no_more_memory_and_takes_its_time(tmp_path):
    cpu, memory = {}, {}
    for count in (20, 120):
        cpu[count], memory[count] = run(tmp_path / str(count), count)
    # the project's own limit; from twenty on there is a whole file for the print shop
    assert memory[120] < 1.5 * memory[20], memory
    # what a departure takes, without what every run takes; half as much again for a busy machine
    each = (cpu[120] - cpu[20]) / 100
    assert each * 120 < 1.5 * cpu[120] and cpu[120] < 1.5 * 6 * cpu[20], cpu


def test_a_hundred_departures_share_a_large_shelf_in_seconds(tmp_path):
    drawn_season.write(tmp_path, 100)
    shelf = [os.environ["LEESIDE"], "shelf"]
    receive = [*shelf, "receive", "--size", "canister 230 g", "--tare", "150 g", "--count", 300,
               "--connection", "thread", "--gas", "propane 30, isobutane 70", "--at", "2027-01-01T08:00"]
    assert drawn_season.measured(receive, tmp_path)[0] == 0
    weigh = [*shelf, "weigh", *(f"F-{tag:03}={170 + tag} g" for tag in range(1, 60)), "--at", "2027-01-02T08:00"]
    assert drawn_season.measured(weigh, tmp_path)[0] == 0
    status, said, _, cpu, _ = drawn_season.measured([*shelf, "assign", "--season", "season.csv"], tmp_path)
    assert status == 0, said
    lines = (tmp_path / "assigned.csv").read_text().splitlines()
    assert len({line.split(",")[0] for line in lines[1:]}) == 100
    assert sum(bool(re.search(r"F-\d{3}", line)) for line in lines) >= 90
    assert cpu < 30, cpu
