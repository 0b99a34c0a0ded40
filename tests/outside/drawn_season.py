"""Seasons drawn from a seed, as long as asked for, and what a run over one takes."""

import datetime
import os
import random
import subprocess

FIRST = datetime.date(2027, 1, 4)
# departures a day, whatever the season's length: a longer one is longer, not busier
A_DAY = 6
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


