"""Where canisters are, by the ledger and by the table of who gets which alone: worked out without the program."""

import csv
import datetime
import re

TURNAROUND = 2  # days, what `shelf assign` has where nothing else is said


def read(path):
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def grams(text):
    return float(re.fullmatch(r"([\d.]+) g", text)[1])


def walked(ledger):
    """Where each canister is after each line, and the lines that cannot be: the ledger alone, by hand."""
    where, gross, odd, went = {}, {}, [], {}
    for line in sorted(read(ledger), key=lambda line: (line["time"], int(line["id"].split("-")[0]))):
        tag, action, departure = line["tag"], line["action"], line["departure"]
        if action == "issue":
            if where[tag] != "shelf":
                odd.append(line)
            where[tag] = departure
            went.setdefault(departure, set()).add(tag)
        elif action in ("receive", "return"):
            if action == "return" and where[tag] in ("shelf", "gone"):
                odd.append(line)
            where[tag] = "shelf"
        elif action in ("lost", "retire"):
            where[tag] = "gone"
        elif action in ("quarantine", "burn down"):
            where[tag] = "aside"
        if line["gross"]:
            if action in ("return", "weigh") and grams(line["gross"]) > gross.get(tag, 1e9):
                odd.append(line)
            gross[tag] = grams(line["gross"])
    return where, gross, odd, went


def hold(assigned, ledger):
    """No canister is in two places at once, and none is given that is out, lost or set aside, but after it is back;
    what was picked stays. Gives back the rows with a canister."""
    where, gross, _, went = walked(ledger)
    given = [row for row in read(assigned) if row["tag"]]
    free = {}
    for row in sorted(given, key=lambda row: row["leaves"]):
        tag, departure = row["tag"], row["departure"]
        if row["how"] == "back again":
            assert tag in went[departure], row
            continue
        if row["how"].startswith("picked") or row["how"] == "out with it":
            assert where[tag] == departure, row
        else:
            # on the shelf now, or expected from another departure that has it before
            assert where[tag] not in ("gone", "aside"), row
            assert where[tag] == "shelf" or tag in free, row
        if row["how"] == "on the shelf" and tag in gross:
            assert grams(row["gross"]) == gross[tag], row
        if tag in free:
            assert row["how"].startswith("expected back from"), row
            assert datetime.date.fromisoformat(row["leaves"]) >= free[tag], row
        free[tag] = datetime.date.fromisoformat(row["back"]) + datetime.timedelta(days=TURNAROUND)
    return given
