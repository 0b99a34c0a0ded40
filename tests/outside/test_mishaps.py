"""Mishaps while a season is made: killed at any moment, a disk that is full, a folder that cannot be
written to, two runs at once. After each, every packet is an old one or a new one and whole, nothing is
lost, and the next run puts all right.

KILLS=200 kills as often (10 without it; 200 were run by hand on 26 November 2026)."""

import csv
import hashlib
import json
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import time

import pytest
from given import LEDGE

KILLS = int(os.environ.get("KILLS", "10"))


def table(learners):
    rows = [f"d{day},otter,2027-06-{day:02},{learners},Guide A" for day in range(4, 10)]
    return "\n".join(["departure,base,start date,learners,guide", *rows]) + "\n"


@pytest.fixture
def office(tmp_path):
    (tmp_path / "otter.yaml").write_text(LEDGE)
    (tmp_path / "june.csv").write_text(table(3))

    class Office:
        folder = tmp_path
        out = tmp_path / "out"

        def command(self, *args):
            return [os.environ["LEESIDE"], *map(str, args)]

        def run(self, *args, status=0, before=(), **more):
            command = [*before, *self.command(*args)]
            done = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, **more)
            assert done.returncode == status, (done.returncode, done.stdout, done.stderr)
            return done.stdout + done.stderr

        def season(self, *args, **more):
            return self.run("season", "june.csv", *args, **more)

    return Office()


def whole(folder):
    """A packet's manifest, once every file that it lists is as it says."""
    manifest = json.loads((folder / "manifest.json").read_text())
    for file in manifest["files"]:
        bytes_ = (folder / file["path"]).read_bytes()
        assert hashlib.sha256(bytes_).hexdigest() == file["sha256"], folder / file["path"]
    return manifest


def packets(out):
    found = [path for path in out.glob("[!.]*") if (path / "manifest.json").exists()]
    return {path.name: whole(path) for path in found}


def departures(out):
    """The packets of departures: what lies there beside the season's own."""
    return {name: manifest for name, manifest in packets(out).items() if name != "season"}


def told(out):
    """What the season's table says of each departure's revision."""
    with (out / "season/season.csv").open(encoding="utf-8-sig") as file:
        return {row["departure"]: row["revision"] for row in csv.DictReader(file)}


def test_a_kill_at_any_moment_leaves_old_or_new_and_whole(office):
    dice = random.Random(5)
    office.season()
    revisions = [{name: one["revision"] for name, one in departures(office.out).items()}]
    began = time.monotonic()
    (office.folder / "june.csv").write_text(table(4))
    office.season()
    span = time.monotonic() - began
    revisions.append({name: one["revision"] for name, one in departures(office.out).items()})
    ended = 0
    for turn in range(KILLS):
        (office.folder / "june.csv").write_text(table(3 + turn % 2))
        run = subprocess.Popen(office.command("season", "june.csv"), cwd=office.folder,
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(dice.uniform(0, 1.1 * span))
        run.send_signal(signal.SIGKILL)
        ended += run.wait() == 0
        for name, manifest in departures(office.out).items():
            assert manifest["revision"] in {one[name] for one in revisions}, name
        for bound in [*office.out.glob("days/*.pdf"), *office.out.glob("weeks/*.pdf")]:
            assert bound.read_bytes().rstrip().endswith(b"%%EOF"), bound
    assert ended < max(2, KILLS), "most runs are killed"
    (office.folder / "june.csv").write_text(table(3))
    office.season()
    assert "0 made, 6 as they were" in office.season()
    assert told(office.out) == revisions[0]
    assert not list(office.out.glob(".leeside-*.new")) and not list(office.out.glob("*/.leeside-*"))
    # as if nothing had ever happened, but for the slips
    shutil.copytree(office.out, office.folder / "before")
    shutil.rmtree(office.out)
    office.season()
    for path in office.out.rglob("*.pdf"):
        assert path.read_bytes() == (office.folder / "before" / path.relative_to(office.out)).read_bytes(), path


def test_a_kill_of_shelf_commands_loses_nothing_that_was_said(office):
    dice = random.Random(6)
    office.run("shelf", "receive", "--size", "canister 230 g", "--count", 12, "--tare", "150 g",
               "--connection", "thread", "--at", "2027-05-01T08:00")
    ledger = office.folder / "shelf.csv"
    said = []
    for turn in range(KILLS):
        tag = f"F-{turn % 12 + 1:03}"
        commands = [
            ("weigh", f"{tag}={379 - turn % 200} g", "--note", f"turn {turn}"),
            ("issue", tag, "--departure", f"d{turn}", "--note", f"turn {turn}", "--sure"),
            ("assign", "--season", "june.csv"),
        ]
        command = commands[turn % 3]
        run = subprocess.Popen(office.command("shelf", *command), cwd=office.folder,
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(dice.uniform(0, 0.1))
        run.send_signal(signal.SIGKILL)
        if run.wait() == 0 and command[0] != "assign":
            said.append(f"turn {turn}")
        text = ledger.read_text()
        assert all(note in text for note in said)
        assigned = office.folder / "assigned.csv"
        if assigned.exists():
            lines = list(csv.reader(assigned.open()))
            assert len(lines) > 6 and {len(line) for line in lines} == {10}, "whole"
    state = json.loads(subprocess.run(office.command("shelf", "list", "--json"), capture_output=True,
                                      cwd=office.folder, check=True).stdout)
    assert len(state["canisters"]) == 12


def test_a_full_disk_is_told_and_the_old_packets_stand(office):
    office.season()
    before = packets(office.out)

    def full():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (30_000, 30_000))

    (office.folder / "june.csv").write_text(table(5))
    said = office.season(status=3, preexec_fn=full)
    assert "error[write." in said
    assert packets(office.out) == before
    assert "6 made" in office.season()


def test_a_folder_that_cannot_be_written_to_is_told(office):
    office.season()
    before = packets(office.out)
    (office.folder / "june.csv").write_text(table(5))
    # root may write anywhere unless it gives that up
    powers = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if os.geteuid() == 0 else []
    office.out.chmod(0o555)
    try:
        said = office.season(status=3, before=powers)
    finally:
        office.out.chmod(0o755)
    assert "error[write." in said and str(office.out.name) in said
    assert packets(office.out) == before


def test_two_runs_at_once_take_turns(office):
    runs = [subprocess.Popen(office.command("season", "june.csv"), cwd=office.folder, text=True,
                             stdout=subprocess.PIPE, stderr=subprocess.PIPE) for _ in range(2)]
    said = ["".join(run.communicate()) for run in runs]
    assert [run.returncode for run in runs] == [0, 0], said
    assert sorted(re.search(r"(\d+) made", one)[1] for one in said) == ["0", "6"], said
    assert len(packets(office.out)) == 7


def test_a_clock_that_goes_back_changes_no_order(office):
    receive = ("shelf", "receive", "--size", "canister 230 g", "--tare", "150 g", "--connection", "thread")
    office.run(*receive, "--at", "2099-01-01T08:00")
    office.run("shelf", "weigh", "F-001=300 g")
    # the ledger's newest line is of 2099; now is before it, and the line must follow it all the same
    lines = list(csv.DictReader((office.folder / "shelf.csv").open()))
    assert lines[1]["action"] == "weigh" and lines[1]["time"] >= lines[0]["time"]
    state = json.loads(office.run("shelf", "list", "--json"))
    assert state["canisters"][0]["gross_g"] == 300


def test_slices_run_at_the_same_time(office):
    whole_run = office.folder / "whole"
    office.season("--out", whole_run)
    first = subprocess.Popen(office.command("season", "june.csv", "--slice", "1/2"), cwd=office.folder,
                             stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    time.sleep(0.05)
    first.send_signal(signal.SIGSTOP)
    # the other host's slice does not wait for one that has stopped
    assert "3 made" in office.season("--slice", "2/2", timeout=120)
    first.send_signal(signal.SIGCONT)
    assert first.wait(timeout=120) == 0
    office.run("season", "join", "june.csv")
    here = {path.relative_to(office.out): path for path in office.out.rglob("*") if path.is_file()}
    there = {path.relative_to(whole_run): path for path in whole_run.rglob("*") if path.is_file()}
    assert here.keys() == there.keys()
    assert all(here[name].read_bytes() == there[name].read_bytes() for name in here)
