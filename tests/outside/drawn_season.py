"""Seasons drawn from a seed, as long as asked for, the shelf that goes with them, and what a run takes."""

import datetime
import os
import random
import subprocess

FIRST = datetime.date(2027, 1, 4)
# departures a day, whatever the season's length: a longer one is longer, not busier
A_DAY = 6
CANISTERS = 300
TRIP = """title: Alder reach
starts: 2027-06-04
people: {learners: 3, instructors: 1}
kitchens:
  - {name: Alder, people: 4, stove: canister on top}
menu: boil only
water_treatment: filter
camps:
  - {name: Alder reach, nights: 1, elevation: 900 m, place: inland-forest}
"""


def table(count, seed=1):
    """A season's table: a departure a row, its party, diet and fire rule drawn."""
    dice = random.Random(seed)
    lines = ["departure,base,start date,learners,instructors,kitchens,diet,fire stage,fire rule checked,guide"]
    for number in range(count):
        day = FIRST + datetime.timedelta(days=number // A_DAY)
        learners, instructors = dice.randint(2, 7), dice.randint(1, 2)
        diet = dice.choice(["", "vegetarian", "tree nuts", "gluten; tree nuts"])
        stage = dice.choice(["none in force", ""])
        lines.append(f"d-{number:05},alder,{day},{learners},{instructors},Alder {learners + instructors},"
                     f"{diet},{stage},{stage and '2027-01-02 by the office'},Guide {chr(65 + dice.randrange(14))}")
    return "\n".join(lines) + "\n"


def write(folder, count, seed=1):
    (folder / "alder.yaml").write_text(TRIP)
    (folder / "season.csv").write_text(table(count, seed))


def change_one_row(folder):
    """Another diet for the third departure: its packet changes, and no canister moves."""
    lines = (folder / "season.csv").read_text().splitlines()
    cells = lines[3].split(",")
    cells[6] = "soya"
    lines[3] = ",".join(cells)
    (folder / "season.csv").write_text("\n".join(lines) + "\n")
    return cells[0]


def shelf(program, folder, seed=1):
    """A ledger before the season: new canisters, part-used ones, some that are out with the first departures,
    and a few that are lost, set aside or to be burnt empty."""
    dice = random.Random(seed)
    tags = [f"F-{number:03}" for number in range(1, CANISTERS + 1)]
    dice.shuffle(tags)

    def run(*args):
        command = [str(program), "shelf", *map(str, args), "--at", f"2027-01-02T{run.hour:02}:00"]
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        run.hour += 1

    run.hour = 1
    run("receive", "--size", "canister 230 g", "--tare", "150 g", "--count", CANISTERS,
        "--connection", "thread", "--gas", "propane 30, isobutane 70")
    run("weigh", *(f"{tag}={dice.randint(170, 370)} g" for tag in tags[:CANISTERS // 2]))
    run("issue", *tags[:4], "--departure", "d-00000", "--sure")
    run("issue", *tags[150:153], "--departure", "d-00002", "--sure")
    run("lost", *tags[4:9])
    run("quarantine", *tags[153:158])
    run("burn-down", *tags[9:12])


def measured(command, folder):
    """Runs a command: its status, what it said, wall s, CPU s, and the most memory it held, in MiB."""
    began = os.times().elapsed
    with subprocess.Popen([str(part) for part in command], cwd=folder, text=True,
                          stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) as run:
        said = run.stderr.read()
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
    # Linux gives kilobytes
    return run.returncode, said, os.times().elapsed - began, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
