"""The shelf's ledger from outside: nothing said is lost, whatever happens to the program."""

import csv
import json
import os
import random
import resource
import signal
import subprocess
import time

import pytest
from stdnum.iso7064 import mod_37_36


@pytest.fixture
def shelf(tmp_path):
    program = os.environ["LEESIDE"]
    ledger = tmp_path / "shelf.csv"

    class Shelf:
        path = ledger

        def command(self, *args):
            return [program, "shelf", args[0], "--shelf", str(ledger), *map(str, args[1:])]

        def run(self, *args, status=0, **more):
            done = subprocess.run(self.command(*args), capture_output=True, text=True, **more)
            if status is not None:
                assert done.returncode == status, done.stderr
            return done

        def state(self):
            return json.loads(self.run("list", "--json").stdout)

        def receive(self, count=6):
            self.run("receive", "--size", "canister 230 g", "--count", count, "--tare", "150 g",
                     "--connection", "thread", "--at", "2027-05-01T08:00")

    return Shelf()


def keys(shelf):
    return {one["tag"]: one for one in shelf.state()["canisters"]}


def test_check_characters_are_those_of_iso_7064(shelf):
    # ISO/IEC 7064 MOD 37,36 as the general library python-stdnum has it
    shelf.receive(40)
    for tag in keys(shelf):
        name, check = tag.rsplit(".", 1)
        prefix, number = name.split("-")
        assert mod_37_36.is_valid(f"{prefix}{int(number)}{check}"), tag


def test_a_canister_goes_its_way(shelf):
    shelf.receive()
    shelf.run("issue", "f1", "F-002", "--departure", "june-1", "--at", "2027-06-01T07:00", "--sure")
    out = [one for one in shelf.state()["canisters"] if one["standing"] == "out with june-1"]
    assert len(out) == 2
    refused = shelf.run("issue", "F-001", "--departure", "june-2", status=1)
    assert "out with june-1" in refused.stderr
    shelf.run("return", "F-001=251 g", "F-002=302 g", "--at", "2027-06-05T15:00")
    net = {one["tag"][:5]: one["net_g"] for one in shelf.state()["canisters"]}
    assert (net["F-001"], net["F-002"]) == (101, 152)
    for reading, hint in [("8.9 oz", None), ("8.9 g", "ounces"), ("60 g", "fuel alone")]:
        done = shelf.run("weigh", f"F-001={reading}", status=None)
        assert done.returncode == (1 if hint else 0), done.stderr
        assert hint is None or hint in done.stderr


def test_formulas_stay_text(shelf):
    shelf.receive(1)
    shelf.run("weigh", "F-001=300 g", "--note", "=1+1", "--who", "@sum")
    cells = [cell for row in csv.reader(shelf.path.open()) for cell in row]
    assert "'=1+1" in cells and "'@sum" in cells
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)


def test_runs_at_once_lose_nothing(shelf):
    shelf.receive(12)
    runs = [
        subprocess.Popen(shelf.command("weigh", f"F-{number:03}={300 - number} g"),
                         stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for number in range(1, 13)
    ]
    assert all(run.wait() == 0 for run in runs)
    gross = sorted(one["gross_g"] for one in shelf.state()["canisters"])
    assert gross == list(range(288, 300))


def test_a_kill_at_any_moment_loses_nothing_that_was_said(shelf):
    dice = random.Random(7)
    shelf.receive(4)
    said, weight = 0, 370.0
    for turn in range(120):
        weight -= 0.5
        run = subprocess.Popen(shelf.command("weigh", f"F-001={weight} g", "--note", f"turn {turn}"),
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(dice.uniform(0, 0.06))
        run.send_signal(signal.SIGKILL)
        if run.wait() == 0:
            said += 1
        text = shelf.path.read_text()
        notes = [f"turn {turn}"] if run.returncode == 0 else []
        assert all(note in text for note in notes)
        assert len(shelf.state()["canisters"]) == 4
    assert shelf.path.read_text().count("\n") >= 5 + said


def test_a_full_disk_is_told_and_nothing_is_added(shelf):
    shelf.receive(6)
    before = shelf.path.read_bytes()
    # room for two lines of the four
    limit = len(before) + 150

    def full():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    four = ("issue", "F-001", "F-002", "F-003", "F-004", "--departure", "june-1", "--sure")
    said = shelf.run(*four, status=3, preexec_fn=full).stderr
    assert "nothing was added" in said and "say it again" in said, said
    assert shelf.path.read_bytes() == before
    shelf.run(*four)
    assert sum(one["standing"] == "out with june-1" for one in shelf.state()["canisters"]) == 4


def test_a_line_that_was_cut_short_is_laid_aside_and_said(shelf):
    shelf.receive(3)
    before = shelf.path.read_bytes()
    with shelf.path.open("ab") as file:
        file.write(b"4-0a1b2c3d,2027-05-02T08:00:00,,F-001.C,iss")
    assert "cut short" in shelf.run("list").stderr
    shelf.run("weigh", "F-001=300 g")
    assert shelf.path.read_bytes().startswith(before)
    assert shelf.path.with_name("shelf.csv.torn").read_bytes().endswith(b",iss\n")
    assert "cut short" not in shelf.run("list").stderr


def test_a_ledger_that_cannot_be_written_to_is_told(shelf):
    shelf.receive(1)
    before = shelf.path.read_bytes()
    shelf.path.chmod(0o444)
    # root may write anywhere unless it gives that up
    powers = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if os.geteuid() == 0 else []
    done = subprocess.run([*powers, *shelf.command("weigh", "F-001=300 g")], capture_output=True, text=True)
    assert done.returncode == 3 and "error[write.permission]" in done.stderr, done.stderr
    assert shelf.path.read_bytes() == before and len(shelf.state()["canisters"]) == 1


def test_copies_edited_apart_are_one_again(shelf, tmp_path):
    dice = random.Random(3)
    shelf.receive(6)
    base = shelf.path.read_bytes()
    other = tmp_path / "other.csv"
    for turn in range(8):
        tag = dice.randint(1, 6)
        shelf.run("weigh", f"F-{tag:03}={370 - turn} g", "--at", f"2027-05-{turn + 2:02}T08:00", "--sure")
    here = shelf.path.read_bytes()
    shelf.path.write_bytes(base)
    for turn in range(8):
        tag = dice.randint(1, 6)
        shelf.run("weigh", f"F-{tag:03}={360 - turn} g", "--at", f"2027-05-{turn + 2:02}T09:00", "--sure")
    there = shelf.path.read_bytes()
    states = []
    for one, two in [(here, there), (there, here)]:
        shelf.path.write_bytes(one)
        other.write_bytes(two)
        shelf.run("merge", other)
        states.append((shelf.state(), shelf.path.read_bytes()))
        shelf.run("merge", other)
        assert shelf.path.read_bytes() == states[-1][1], "twice is once"
    assert states[0] == states[1]


def test_any_ledger_is_read_or_refused(shelf):
    dice = random.Random(11)
    shelf.receive(6)
    shelf.run("issue", "F-003", "--departure", "june, 1", "--sure")
    good = shelf.path.read_bytes()
    for _ in range(150):
        bytes_ = bytearray(good)
        for _ in range(dice.randint(1, 6)):
            at = dice.randrange(len(bytes_))
            kind = dice.random()
            if kind < 0.4:
                bytes_[at] = dice.randrange(256)
            elif kind < 0.7:
                del bytes_[at:at + dice.randint(1, 30)]
            else:
                bytes_[at:at] = dice.choice([b'"', b",", b"\n", b";", b"\xff", b"=cmd", b"\x00"])
        shelf.path.write_bytes(bytes(bytes_))
        done = shelf.run("list", status=None)
        assert done.returncode in (0, 1), done.stderr
        assert "panicked" not in done.stderr
