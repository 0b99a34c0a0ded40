"""A lesson walked minute by minute from the plan's JSON alone: the examples, and seeded lessons made
here. Nothing of the program is used but `leeside plan --json`; the rules are written down below.

The rules themselves (an adult at each flame, one free for those who wait, rest for hot burners, the
limit on waiting) are common practice, no published source; COOLING is the least rest that the papers
promise, ten minutes."""

import concurrent.futures
import copy
import json
import os
import pathlib
import random
import re
import subprocess

import pytest
import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
# Two thousand take about a minute and a half on two cores.
COUNT = int(os.environ.get("LESSONS", "2000"))
COOLING = 10
# Minutes that a written form takes; common practice, no source.
FORM = 15
# Minutes that a teacher may be late; common practice, no source.
LATE = 5
DOES = {"say it", "dry run unlit", "do together", "you do it", "I stand beside", "check"}
GAS = {"canister-on-top", "canister-beside", "heat-exchanger"}
STOVES = [*(name.replace("-", " ") for name in sorted(GAS)), "white gas", "kerosene", "alcohol"]
FOCUS = [
    "lighting-and-flames", "burns-scalds-tip-over", "greywater", "kitchen-place", "wind-and-screens",
    "water-treatment", "pots-lids-handles", "cleanup-without-soap", "carbon-monoxide",
    "simmering-and-burnt-pots", "fire-restrictions",
]
SEGMENTS = {
    f"{path.stem}.{segment}": about
    for path in (ROOT / "content" / "modules").glob("*.yaml")
    for segment, about in yaml.safe_load(path.read_text()).get("segments", {}).items()
}
# What learners do in each segment, as the content says it.
KINDS = {name: about["kind"] for name, about in SEGMENTS.items()}
OF_STOVE = {
    "white gas": ["liquid-fuel-stoves", "refuelling-and-spills"],
    "kerosene": ["liquid-fuel-stoves"],
    "alcohol": ["alcohol-stoves"],
}


def minutes(clock):
    hour, minute = clock.split(":")
    return int(hour) * 60 + int(minute)


def made(seed):
    """A lesson drawn from a seed, as the text of its file and what was asked."""
    dice = random.Random(seed)
    stoves = [dice.choice(STOVES) for _ in range(dice.randint(1, 4))]
    pool = list(FOCUS)
    for stove in stoves:
        pool += OF_STOVE.get(stove, ["canister-stoves", "canister-end-of-life"])
    focus = sorted(set(dice.sample(pool, dice.randint(0, 3))))
    adults, learners = dice.randint(1, 5), dice.randint(1, 20)
    length, starts = dice.choice(range(30, 241, 15)), dice.choice([9, 11, 14, 18])
    lines = [
        "kind: lesson", f"title: Drawn {seed}", "starts: 2027-06-12", "people:",
        f"  learners: {learners}", f"  instructors: {adults}",
        f"  youngest: {dice.choice([11, 13, 17])}",
        f"place: {dice.choice(['outdoors', 'outdoors', 'outdoors', 'indoors'])}", "elevation: 200 m",
        "day: 15 C", f"wind: {dice.choice(['calm', 'breezy'])}", "restrictions:",
        f"  stoves: {dice.choice(['yes'] * 8 + ['with a shut-off valve', 'no'])}",
        "  checked: 2027-06-10, desk", "stations:",
    ]
    for number, stove in enumerate(stoves):
        lines += [f"  - name: S{number + 1}", f"    stove: {stove}", "    pots:", "      - aluminium 1 L"]
    lines += ["course:"]
    banned = "  stoves: no" in lines
    sessions = dice.choice([1, 1, 1, 2, 3])
    if focus:
        lines += ["  focus:"] + [f"    - {one}" for one in focus]
    if dice.random() < 0.3:
        lines += [f"  stations: {dice.randint(1, len(stoves))}"]
    if dice.random() < 0.3:
        lines += [f"  latitude: {dice.choice([-40, 0, 47, 62])}"]
    if sessions == 1:
        lines += [f"  minutes: {length}", f"  starts: {starts}:00"]
    else:
        kinds = ["teach", "teach", dice.choice(["teach-back", "check"])][-sessions:]
        lines += ["  sessions:"]
        for number, kind in enumerate(["teach", *kinds[1:]]):
            lines += [
                f"    - name: Day {number + 1}", f"      date: 2027-06-{12 + number}",
                f"      starts: {starts}:00", f"      minutes: {length}", f"      kind: {kind}",
            ]
    if dice.random() < 0.4:
        lines += ["  fallback:", f"    minutes: {dice.choice([40, 60])}", "    place: indoors"]
        if dice.random() < 0.3:
            lines += ["    focus:", f"      - {dice.choice(['carbon-monoxide', 'allergens', 'greywater'])}"]
    return "\n".join(lines) + "\n", focus, banned


def planned(program, path):
    done = subprocess.run([program, "plan", str(path), "--json"], capture_output=True, text=True)
    if done.returncode == 0:
        return json.loads(done.stdout), ""
    assert done.returncode == 1 and done.stdout == "", done
    return None, done.stderr


def walk_rows(rows, learners, adults, per_stove, starts):
    """The rules that hold in every row; returns where the walk ended."""
    now, out, waited = starts, {}, {}
    for row in rows:
        assert minutes(row["start"]) == now % 1440, row
        takes = (minutes(row["end"]) - minutes(row["start"])) % 1440
        assert takes > 0, row
        who = [one for place in row["places"] for one in place["who"]]
        assert len(who) == len(set(who)) == learners, (row, "each learner in one place")
        assert sum(place["learners"] for place in row["places"]) == learners
        groups = [place["group"] for place in row["places"]]
        assert len(groups) == len(set(groups)), row
        stations = [place["station"] for place in row["places"] if place["station"]]
        assert len(stations) == len(set(stations)), (row, "two groups at one station")
        lit = [place for place in row["places"] if place["lit"]]
        beside = [place for place in row["places"] if not place["lit"]]
        busy = sum(place["adults"] for place in row["places"])
        assert busy + row["free_adults"] == adults, row
        assert row["flame"] == bool(lit) and len(lit) <= adults, row
        for place in lit:
            assert place["station"] and place["fuel_open"], row
            assert place["adults"] >= max(1, per_stove), (row, "an adult at each flame")
        if lit and beside:
            assert row["free_adults"] >= 1, (row, "nobody free for those who wait")
            placed(row, beside)
            assert not any(place["fuel_open"] for place in beside), (row, "fuel beside a flame")
        for place in lit:
            last = out.get(place["station"])
            if place["stove"] not in GAS and last is not None and row["segment"] != "all-off":
                assert now - last >= COOLING, (row, "lit hot")
            out[place["station"]] = now + takes
        for place in row["places"]:
            if place["does"] == "wait":
                for one in place["who"]:
                    waited[one] = waited.get(one, 0) + takes
        now += takes
    return now, max(waited.values(), default=0)


def placed(row, beside):
    """Each adult without a stove stands at a place that is named: first where no card can lead, or
    where learners walk about; and no adult has more than two benches to look after."""
    here = [place for place in beside if place["free_adult_here"]]
    assert len(here) == min(row["free_adults"], len(beside)), (row, "where does the adult stand?")
    for place in beside:
        about = SEGMENTS.get(place["does"], {})
        led = "." in place["does"] and (not about.get("alone") or about.get("outdoors_only"))
        assert place["free_adult_here"] or not (led or place["does"] == "rehearse"), (row, place)
    benches = [place for place in beside if (place["station"] or "").startswith("bench")]
    assert len(benches) <= 2 * row["free_adults"], (row, "more benches than the adults can see")


def fuelled(plan):
    """Fuel is handed out to stations that are lit, and to no other."""
    rows = [row for session in plan["course"]["sessions"] for row in session["rows"]]
    lit = {
        place["station"].removesuffix(" (second burner)")
        for row in rows for place in row["places"] if place["lit"]
    }
    for kitchen in plan["kitchens"]:
        issued = sum(leg["issued_g"] for leg in kitchen["fuel"]["legs"])
        assert kitchen["name"] in lit or issued == 0, (kitchen["name"], issued, "fuel at a cold station")


def carousels(rows, adults):
    """Parts side by side, each at a place of its own, then each at the next, until all were at all;
    an adult beside each that no card can lead. Returns the places in use, round by round."""
    rounds, been, at = [], {}, {}

    def whole():
        for group, places in been.items():
            assert sorted(places) == sorted(at), (group, places, "not at every place once")

    for row in rows:
        places = row["places"]
        now = {place["station"]: place["does"] for place in places}
        other = any(at.get(station, does) != does for station, does in now.items())
        moved = any(does in at.values() and at.get(station) != does for station, does in now.items())
        if row["segment"] != "carousel" or other or moved:
            whole()
            been, at = {}, {}
        if row["segment"] != "carousel":
            continue
        assert not row["flame"] and None not in now, row
        assert len(now) == len(set(now.values())) == len(places) > 1, (row, "its things are there once")
        led = [name for name in now.values() if not SEGMENTS[name].get("alone")]
        assert len(led) <= max(adults, 1), (row, "nobody leads it")
        for place in places:
            assert place["learners"] <= SEGMENTS[place["does"]].get("learners_per_instructor", 12), row
            been.setdefault(place["group"], []).append(place["station"])
        at.update(now)
        rounds.append(len(places))
    whole()
    return rounds


def turns(rows, learners):
    """Everyone has one turn at each segment: at its flame, or with nothing lit where it has none;
    and does what is done beside a flame once, in a row as long as any."""
    had = {}
    for row in rows:
        for place in row["places"]:
            if place["does"] == "row" and "." in row["segment"]:
                had.setdefault(row["segment"], []).extend(place["who"])
            if "." in place["does"]:
                assert row["segment"] != place["does"], row
                had.setdefault(place["does"], []).extend(place["who"])
    for what, who in had.items():
        assert len(who) == len(set(who)) == learners, what


def order(rows):
    """All off and cooling follow the last flame; the drill comes before the first."""
    lit = [index for index, row in enumerate(rows) if row["flame"]]
    if not lit:
        return
    assert rows[lit[-1]]["segment"] == "all-off"
    after = rows[lit[-1] + 1]
    assert after["segment"] == "cooling" or "cool" in after["segment"], after
    assert minutes(after["end"]) - minutes(after["start"]) >= COOLING or after["end"] < after["start"]
    names = [row["segment"] for row in rows[: lit[0]]]
    assert any(name == "drill" or name.endswith("all-off-drill") for name in names), names
    assert rows[-1]["segment"] == "clearing-up" and rows[0]["segment"] == "handing-out"


def form_once(rows):
    """Each writes the form once: while others are watched, and all together only what is left of it
    for whoever had least time."""
    beside, together, watched = {}, 0, {}
    parts = {row["checks"] for row in rows if row["segment"] == "check"} - {None}
    for row in rows:
        takes = (minutes(row["end"]) - minutes(row["start"])) % 1440
        all_write = all(place["does"] == "form" for place in row["places"])
        together += takes if all_write else 0
        for place in row["places"]:
            for one in place["who"]:
                writes = place["does"] == "form" and not all_write
                beside[one] = beside.get(one, 0) + (takes if writes else 0)
                seen = row["segment"] == "check" and place["does"] == "row"
                of = (one, row["checks"])
                watched[of] = watched.get(of, 0) + (1 if seen and not all_write else 0)
    assert together == max(0, FORM - min(beside.values())), (beside, together)
    seen = {of: times for of, times in watched.items() if of[1] in parts or times}
    assert set(seen.values()) == {1}, seen


def taught_by(session):
    """Learners teach each other what has no turns at a flame: nobody lights and teaches at once."""
    for row in session["rows"]:
        turns = row["kind"] == "you do it, I stand beside" and row["flame"]
        assert not (turns and row["teacher"]), row


def menu(plan):
    """Each meal at each station of a lesson once: a boil a row on a lit stove of its own with a pot on it,
    drunk after the last flame; or a reason why not, and where nothing is lit no fuel for it."""
    if plan["kind"] != "lesson":
        assert plan["course"]["menu"] == []
        return
    sessions = {one["name"]: one for one in plan["course"]["sessions"]}
    lit = any(row["flame"] for one in sessions.values() for row in one["rows"])
    told = [(one["station"], one["meal"]) for one in plan["course"]["menu"]]
    assert len(told) == len(set(told))
    if lit:
        assert set(told) == {(one["name"], row["meal"]) for one in plan["kitchens"] for row in one["meals"]}
    else:
        assert all(one["why_not"] == "nothing is lit" for one in plan["course"]["menu"])
        assert all(one["fuel"]["carry_g"] == 0 and not one["meals"] for one in plan["kitchens"])
    mugs = sum(one["people"] for one in plan["course"]["menu"] if not one["why_not"])
    listed = sum(one["count"] for one in plan["course"]["kit"] if one["item"].startswith("mug, "))
    assert mugs == listed, "what is on the list is what is made"
    used = set()
    for one in plan["course"]["menu"]:
        assert bool(one["why_not"]) == (not one["boiled"]) == (one["drunk"] is None), one
        rows = {row["start"]: row for row in sessions[one["session"]]["rows"]}
        for start in one["boiled"]:
            assert SEGMENTS[rows[start]["segment"]].get("pot") is True, one
            places = [place for place in rows[start]["places"] if place["lit"]]
            assert any(place["station"].startswith(one["station"]) for place in places), one
            assert (one["station"], one["session"], start) not in used, "one pot, two meals"
            used.add((one["station"], one["session"], start))
        if one["drunk"]:
            after = sessions[one["session"]]["rows"]
            at = [row["start"] for row in after].index(one["drunk"])
            assert not any(row["flame"] for row in after[at:]), "drunk beside a flame"


def walk(plan, focus):
    course = plan["course"]
    menu(plan)
    held, checked, beside = set(), False, []
    left = {one["subject"] for one in course["not_placed"] if one["why"]}
    for session in course["sessions"]:
        rows, learners, adults = session["rows"], session["learners"], session["adults"]
        starts = minutes(session["starts"])
        ends, waited = walk_rows(rows, learners, adults, session["adults_per_lit_stove"], starts)
        assert ends % 1440 == minutes(session["ends"])
        assert ends - starts <= session["minutes"], session["name"]
        assert (minutes(session["least_ends"]) - starts) % 1440 <= ends - starts
        assert waited == session["waiting"]["most_minutes"]
        assert waited <= session["waiting"]["limit_minutes"], (session["name"], waited)
        turns(rows, learners)
        order(rows)
        taught_by(session)
        beside += carousels(rows, adults)
        for row in rows:
            names = [row["segment"], *(place["does"] for place in row["places"])]
            held |= {name.split(".")[0] for name in names if KINDS.get(name) in DOES}
            if session["kind"] == "check" and row["segment"] == "check":
                checked = True
            if session["place"] == "indoors":
                assert not (row["flame"] or row["opens_fuel"] or row["outdoors_only"]), row
        if session["kind"] == "check":
            form_once(rows)
        fallback = session.get("fallback")
        if fallback:
            rows = fallback["rows"]
            walk_rows(rows, learners, adults, session["adults_per_lit_stove"], starts)
            if fallback["place"] == "indoors":
                for row in rows:
                    assert not (row["flame"] or row["opens_fuel"] or row["outdoors_only"]), row
                    assert not any(place["fuel_open"] for place in row["places"])
    for subject in focus:
        assert subject in held or subject in left, (subject, "neither practised nor refused")
    assert checked == any(session["kind"] == "check" for session in course["sessions"])
    for one in course["objectives"]:
        assert one["taught"], one
        if one["critical"]:
            assert one["checked"], one
    if plan["kind"] == "lesson":
        fuelled(plan)
    items = [one["item"] for one in course["kit"]]
    assert len(items) == len(set(items)), "one list, each thing once"
    return beside


@pytest.fixture(scope="module")
def program():
    program = os.environ.get("LEESIDE")
    assert program, "set LEESIDE to the built program (tests/run does)"
    return program


EXAMPLES = sorted(
    path for path in (ROOT / "content" / "trips").glob("*.yaml") if "\ncourse:" in path.read_text()
)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_can_be_walked(program, path):
    plan, refused = planned(program, path)
    assert plan is not None, refused
    walk(plan, [])
    for session in plan["course"]["sessions"]:
        takes = (minutes(session["ends"]) - minutes(session["starts"])) % 1440
        # a worksheet of its own is done at home where there is no time
        at_home = [row for row in session["rows"] if row["segment"] == "worksheet"]
        if session["minutes"] >= 45 and not at_home:
            assert takes + LATE <= session["minutes"], (session["name"], "who begins five minutes late ends late")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_lesson_plan_says_who_is_where(program, packets, path):
    """Whenever not all do the same, a row of the lesson plan says where each is: also while burners rest."""
    plan, _ = planned(program, path)
    text = (packets / path.stem / "staff" / "lesson-plan.md").read_text()
    for session in plan["course"]["sessions"]:
        for row in session["rows"]:
            if row["flame"] or any(place["does"] != "row" for place in row["places"]):
                hour, minute = row["start"].split(":")
                together = all(place["does"] == "form" for place in row["places"])
                assert together or f"\n| {int(hour)}:{minute} | " in text, (path.stem, row)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_register_lists_on_its_back_what_may_be_known(program, packets, path):
    """Each thing that is checked once, the musts marked; what has acts to see is not done with saying it."""
    plan, _ = planned(program, path)
    if plan["kind"] != "lesson":
        return
    back = (packets / path.stem / "staff" / "register.md").read_text().split("\n## Beforehand")[1]
    rows = [line.strip("|").split("|") for line in back.splitlines() if "________ |" in line]
    checked = [one for one in plan["course"]["objectives"] if one["checked"]]
    assert len(rows) == len(checked) and len({row[0] for row in rows}) == len(rows)
    assert sum("**MUST:**" in row[0] for row in rows) == sum(one["critical"] for one in checked)
    acts = [row for row in rows if "act" in row[2]]
    assert len(acts) == sum("station" in one["checked"] for one in checked)
    assert all(row[1].strip() for row in rows)


def test_drawn_lessons_can_be_walked(program, tmp_path):
    def one(seed):
        text, focus, banned = made(seed)
        path = tmp_path / f"drawn-{seed}.yaml"
        path.write_text(text)
        plan, refused = planned(program, path)
        if plan is None:
            # Refused: with the minutes, adults, stations or subjects that would do.
            assert "panic" not in refused, (seed, refused)
            assert re.search(r"write `(minutes|instructors|place)|leave (it out|out some)|name a subject|give it more|take another stove", refused), (
                seed, refused,
            )
            return False, False, []
        try:
            beside = walk(plan, focus)
            lit = any(row["flame"] for one in plan["course"]["sessions"] for row in one["rows"])
            assert not (banned and lit), "lit where no stove is allowed"
        except AssertionError as wrong:
            raise AssertionError(f"seed {seed}: {wrong}\n{text}") from wrong
        return True, lit, beside

    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        told = list(pool.map(one, range(COUNT)))
    # Enough of both kinds that the walk says something.
    assert sum(held for held, *_ in told) > COUNT // 2
    assert sum(lit for _, lit, _ in told) > COUNT // 8
    assert sum(bool(beside) for *_, beside in told) > COUNT // 12


def test_three_groups_are_at_three_stations(program):
    """Twelve pupils, three adults, three stoves: nobody stands twelve deep round one of them."""
    plan, refused = planned(program, ROOT / "content" / "trips" / "school-yard.yaml")
    assert plan is not None, refused
    rows = plan["course"]["sessions"][0]["rows"]
    turning = [row["places"] for row in rows if row["segment"] == "carousel"]
    assert turning and all(len(places) == 3 for places in turning)
    assert all(place["learners"] == 4 for places in turning for place in places)
    for row in rows:
        at = [place for place in row["places"] if place["stove"]]
        assert all(place["learners"] <= 6 for place in at), row


def test_each_candidate_lights_the_burner_that_few_can_light_at_once(program):
    """Three sessions, six candidates, one burner of white gas that must rest and is lit five times in
    them: nobody has it twice before everyone had it."""
    plan, refused = planned(program, ROOT / "content" / "trips" / "candidates-three-days.yaml")
    assert plan is not None, refused
    had = {}
    for session in plan["course"]["sessions"]:
        for row in session["rows"]:
            if row["flame"] and row["segment"] in ("lighting-and-flames.first-flame", "check"):
                for place in row["places"]:
                    if place["lit"] and place["stove"] == "white-gas":
                        for one in place["who"]:
                            had[one] = had.get(one, 0) + 1
    assert len(had) >= 5 and set(had.values()) == {1}, had


def test_a_check_with_minutes_in_hand_watches_what_keeps_people_alive(program):
    """Whatever critical was practised by hand is watched in the check, as far as its minutes go."""
    plan, refused = planned(program, ROOT / "content" / "trips" / "candidates-three-days.yaml")
    assert plan is not None, refused
    check = plan["course"]["sessions"][-1]
    watched = {row["checks"] for row in check["rows"] if row["checks"]}
    seen = {
        f"{name.split('.')[0]}.{objective}"
        for name in watched for objective in SEGMENTS[name].get("objectives", [])
    }
    missing = [one["id"] for one in plan["course"]["objectives"] if one["critical"] and one["id"] not in seen]
    takes = (minutes(check["ends"]) - minutes(check["starts"])) % 1440
    assert not missing or takes + LATE + 8 > check["minutes"], (missing, takes)


def shorter(lesson):
    course = lesson["course"]
    for one in course.get("sessions", [course]):
        one["minutes"] = str(int(one["minutes"]) * 3 // 4)


def ill(lesson):
    lesson["people"]["instructors"] = str(int(lesson["people"]["instructors"]) - 1)


def stove_less(lesson):
    lesson["course"]["stations"] = str(max(1, len(lesson["stations"]) - 1))


def rain(lesson):
    lesson["place"] = "indoors"


LESSONS = [path for path in EXAMPLES if "kind: lesson" in path.read_text()]


@pytest.mark.parametrize("change", [shorter, ill, stove_less, rain], ids=lambda one: one.__name__)
@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_what_a_teacher_changes_still_gives_a_plan(program, tmp_path, path, change):
    lesson = yaml.load(path.read_text(), Loader=yaml.BaseLoader)
    changed = copy.deepcopy(lesson)
    change(changed)
    file = tmp_path / "changed.yaml"
    file.write_text(yaml.safe_dump(changed, sort_keys=False).replace("'", ""))
    plan, refused = planned(program, file)
    if changed["people"]["instructors"] == "0":
        assert plan is None and "write `instructors: 2`" in refused
        return
    assert plan is not None, refused
    walk(plan, [])
    first, _ = planned(program, path)
    for session, before in zip(plan["course"]["sessions"], first["course"]["sessions"], strict=True):
        lit, was = (any(row["flame"] for row in one["rows"]) for one in (session, before))
        assert not (change is rain and lit)
        if was and not lit and session["kind"] == "teach":
            whys = {one["why"] for one in session["left_out"] if SEGMENTS[one["segment"]].get("flame")}
            assert whys, "nothing is lit, and no word why"
