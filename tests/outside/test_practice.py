"""Practice problems worked a second time: each problem is read from the printed sheet, worked
from its printed givens with the formulas and unrounded figures below, and held against the
range that the key prints. Boiling points come from general reference libraries: the US Standard
Atmosphere 1976 of `fluids`, the IAPWS-IF97 saturation line of `iapws`."""

import concurrent.futures
import functools
import math
import os
import pathlib
import re
import subprocess
import sys

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from iapws import IAPWS97

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "reference"))
import second  # noqa: E402

# kJ/(kg K) and kJ/kg, kJ/g: standard tables; lower heating values of the fuels as the library
# names them (gas basis; canister gas is 30 % propane, 70 % n-butane by mass).
WATER, ICE, MELT = 4.186, 2.10, 333.55
HEAT = {
    "canister gas": 0.3 * 46.34 + 0.7 * 45.72,
    "white gas": 44.7,
    "kerosene": 43.0,
    "ethanol": 26.8,
}
GRAVITY = 9.80665
SEEDS = [1, 7, 2027]
COUNT = 36
# Sheets of every topic, three problems of each, that are worked a second time as well. By hand with
# SHEETS=1000: 36 000 problems of twelve topics, seeds 10 000 to 10 999, none outside its range; a minute.
MANY = int(os.environ.get("SHEETS", "250"))


def litres(number, unit):
    return float(number) * (0.946352946 if unit == "qt" else 1.0)


def celsius(number, unit):
    value = float(number.replace("\u2212", "-"))
    return (value - 32) / 1.8 if unit == "F" else value


def boils(number, unit):
    metres = float(number) * (0.3048 if unit == "ft" else 1.0)
    # the height is geometric, as the library takes it
    return IAPWS97(P=ATMOSPHERE_1976(metres).P / 1e6, x=0).T - 273.15


def up(value, step=1):
    return math.ceil(value / step - 1e-9) * step


VOLUME = r"([\d.]+) (L|qt)(?: \([\d.]+ qt\))?"
TEMPERATURE = r"(\u2212?\d+) °(C|F)(?: \(\u2212?\d+ °F\))?"
HEIGHT = r"(\d+) (m|ft)(?: \(\d+ ft\))?"
LENGTH = r"([\d.]+) (m|ft)(?: \([\d.]+ ft\))?"


def found(pattern, ask):
    pattern = pattern.replace("<V>", VOLUME).replace("<T>", TEMPERATURE)
    pattern = pattern.replace("<H>", HEIGHT).replace("<L>", LENGTH)
    match = re.search(pattern, ask)
    return match.groups() if match else None


def warm(water, start, end):
    return water * WATER * (end - start)


def fuel(ask):
    if got := found(r"kitchen at <H> fetches water at <T>\. How many grams of ([a-z ]+?) bring <V>", ask):
        heat = warm(litres(*got[5:7]), celsius(*got[2:4]), boils(*got[0:2]))
        return heat / 0.5 / HEAT[got[4]]
    if got := found(r"takes <V> of boiling water\. The stream is at <T>, the camp lies at <H>, and (\d+) % of the "
                    r"heat reaches the pot\. How many grams of ([a-z ]+?) does", ask):
        heat = warm(litres(*got[0:2]), celsius(*got[2:4]), boils(*got[4:6]))
        return heat / (float(got[6]) / 100) / HEAT[got[7]]
    got = found(r"(\d+) people, (\d+) nights\. Supper takes <V> of boiling water a person, breakfast <V>\. The stream "
                r"is at <T>, the camp lies at <H>, and (\d+) % of the heat of ([a-z ]+?) reaches the pot\. Add (\d+) %", ask)
    water = int(got[0]) * int(got[1]) * (litres(*got[2:4]) + litres(*got[4:6]))
    heat = warm(water, celsius(*got[6:8]), boils(*got[8:10]))
    return up(heat / (float(got[10]) / 100) / HEAT[got[11]] * (1 + float(got[12]) / 100), 5)


def snow(ask):
    def heat(water, snow_at, end):
        return water * (ICE * (0 - snow_at) + MELT) + warm(water, 0, end)

    if got := found(r"snow is at <T>\. How many grams of ([a-z ]+?) make <V> of water (to drink|brought to the boil)", ask):
        end = 5.0 if got[5] == "to drink" else boils("0", "m")
        return heat(litres(*got[3:5]), celsius(*got[0:2]), end) / 0.5 / HEAT[got[2]]
    if got := found(r"You want <V> of water to drink at <T>, made from snow of <T>\. (\d+) %.*grams of ([a-z ]+?) does", ask):
        grams = heat(litres(*got[0:2]), celsius(*got[4:6]), celsius(*got[2:4]))
        return grams / (float(got[6]) / 100) / HEAT[got[7]]
    got = found(r"(\d+) people drink <V> a person and day for (\d+) days, all of it from snow of <T> brought to <T>\. "
                r"(\d+) % of the heat of ([a-z ]+?) reaches", ask)
    water = int(got[0]) * litres(*got[1:3]) * int(got[3])
    kilojoules = heat(water, celsius(*got[4:6]), celsius(*got[6:8]))
    return up(kilojoules / (float(got[8]) / 100) / HEAT[got[9]], 5)


def minutes(ask):
    if got := found(r"By the sea, a burner of ([\d.]+) kW heats <V> of water from <T>", ask):
        return warm(litres(*got[1:3]), celsius(*got[3:5]), boils("0", "m")) / (float(got[0]) * 0.5 * 60)
    if got := found(r"^A burner of ([\d.]+) kW heats <V> of water from <T> at <H>; (\d+) %", ask):
        heat = warm(litres(*got[1:3]), celsius(*got[3:5]), boils(*got[5:7]))
        return heat / (float(got[0]) * float(got[7]) / 100 * 60)
    got = found(r"takes (\d+) boils, one after the other, of <V> each, from <T> at <H>\. The burner has ([\d.]+) kW, "
                r"(\d+) % .* needs ([\d.]+) min", ask)
    heat = warm(litres(*got[1:3]), celsius(*got[3:5]), boils(*got[5:7]))
    return int(got[0]) * (heat / (float(got[7]) * float(got[8]) / 100 * 60) + float(got[9]))


def height(ask):
    if got := found(r"move camp from <H> up to <H>\. By how many °(C|F)", ask):
        return (boils(*got[0:2]) - boils(*got[2:4])) * (1.8 if got[4] == "F" else 1)
    if got := found(r"camp lies at <H>\. At how many °(C|F)", ask):
        at = boils(*got[0:2])
        return at * 1.8 + 32 if got[2] == "F" else at
    got = found(r"simmer (\d+) minutes by the sea\. .* at <H>\?", ask)
    return int(got[0]) * 1.6 ** ((boils("0", "m") - boils(*got[1:3])) / 10)


def boils_for_a_pot(ask):
    def times(water, pot):
        return up(water / (0.75 * pot))

    if got := found(r"takes <V> of boiling water, and there is one pot of <V>", ask):
        return times(float(got[0]), float(got[2]))
    if got := found(r"(\d+) people take <V> of boiling water each .* pot holds <V>", ask):
        return times(int(got[0]) * float(got[1]), float(got[3]))
    got = found(r"(\d+) people, (\d+) nights\. Supper takes <V> .* breakfast <V>\. .* one pot of <V>", ask)
    people, pot = int(got[0]), float(got[6])
    return int(got[1]) * (times(people * float(got[2]), pot) + times(people * float(got[4]), pot))


# Typical empty masses of the sheet's own table, common practice.
TARE = {"100": 100, "230": 150, "450": 205}


def canister(ask):
    if got := found(r"A (\d+) g canister weighs (\d+) g", ask):
        return int(got[1]) - TARE[got[0]]
    if got := found(r"stamped (\d+) g empty\. It weighs (\d+) g", ask):
        return int(got[1]) - int(got[0])
    tare, first, second = map(int, found(r"stamped (\d+) g empty, weighs (\d+) g in the morning and (\d+) g", ask))
    return (second - tare - 4) // (first - second)


def spare(ask):
    if got := found(r"(\d+) kitchens burn about (\d+) g each, and each carries (\d+) %", ask):
        return int(got[0]) * up(int(got[1]) * (100 + int(got[2])) / 100, 5)
    day, days, percent = map(int, found(r"about (\d+) g a day for (\d+) days.*? carries (\d+) %", ask))
    likely = day * days
    more = likely * (100 + percent) / 100
    return up(max(more, likely + day) if "one day more" in ask else more, 5)


def steps(ask):
    if got := found(r"On a line of <L> you count (\d+), (\d+) and (\d+) steps.*goes <L> from", ask):
        step = float(got[0]) * 3 / sum(map(int, got[2:5])) * 0.9
        return float(got[5]) / step
    got = found(r"goes <L> from the lake, and your step is <L>", ask)
    return float(got[0]) / float(got[2])


def bleach(ask):
    label = float(found(r"The label says ([\d.]+) %", ask)[0])
    bowl, ppm = map(float, found(r"(\d+) L(?: and should be)? at (\d+) ppm|$", ask))
    # WHO, annex G, table G.1 (2014): 5 % is 50 000 mg/L of available chlorine
    millilitres = bowl * ppm / (label / 5 * 50_000) * 1000
    if got := found(r"washes up (\d+) times a day for (\d+) days", ask):
        millilitres *= int(got[0]) * int(got[1])
    return millilitres


def push(ask):
    mass, mass_unit = found(r"together weigh ([\d.]+) (kg|lb)", ask)
    one = float(mass) * (GRAVITY if mass_unit == "kg" else 1)
    base, rim = map(float, found(r"radius of ([\d.]+) (?:mm|in) and the rim is ([\d.]+) (?:mm|in) up", ask))
    alone = one * base / rim
    if got := found(r"on (\d) legs that reach ([\d.]+) (?:mm|in) from the middle it is ([\d.]+) (?:mm|in) up", ask):
        radius = float(got[1]) * math.cos(math.pi / int(got[0]))
        return one * radius / float(got[2]) / alone
    return alone


def shelf(ask, table):
    letters = re.findall(r"\b([A-F])\b", re.search(r"Canisters (.*?) (?:go|are)", ask)[1])
    left = sum(int(weighs) - int(tare) for tare, weighs in (table[letter] for letter in letters))
    if not (got := found(r"trip needs (\d+) g .* each a (\d+) g canister", ask)):
        return left
    return up((int(got[0]) - (left - 4 * len(letters))) / (int(got[1]) - 4))


# Of the table of boils: litres in the pot and to its brim; a pot of aluminium weighs 60 g and 70 g a litre.
POTFUL = {"L": (1.5, 2.0), "qt": (1.5 * 0.946352946, 2.0 * 0.946352946)}


@functools.cache
def one_boil(wind, lid, start, unit):
    """Grams for a boil by the sea as second.py has it, the pot's losses and all: a burner on its canister in shelter."""
    water, pot = POTFUL[unit]
    e0, f, screen = second.flames("canister on top", "natural", 0.50, 2500.0)
    each = second.surface(pot) * second.loss_in(screen, wind)
    wet = None
    if not lid:
        above = second.loss_in(screen, second.calmer(wind))
        wet = second.np.vectorize(lambda at: second.evaporation(above, pot, float(at), start))
    capacity = water * WATER * 1000 + (60 + 70 * pot) * 0.897
    seconds = second.warming(e0 * f[wind] * 2500, each, start, capacity, start, boils("0", "m"), wet)
    return float(seconds) * 2.5 / HEAT["canister gas"]


def what_if(ask):
    unit = "qt" if re.search(TEMPERATURE, ask)[2] == "F" else "L"
    wind, start = found(r"(calm|breezy|windy), lid on, water at (\u2212?\d+) °[CF]", ask)
    start = celsius(start, "F" if unit == "qt" else "C")
    now = wind, True, start
    if got := found(r"The wind rises: (\w+) now", ask):
        now = got[0], True, start
    elif "The lid is left at home." in ask:
        now = wind, False, start
    elif got := found(r"colder, and the water is at <T>", ask):
        now = wind, True, celsius(*got[0:2])
    if got := found(r"plan counts (\d+) boils", ask):
        return int(got[0]) * one_boil(*now, unit)
    people, fuel = map(int, found(r"kitchen of (\d+) people plans (\d+) g", ask))
    more = found(r"(\d+) more people come", ask)
    times = (people + int(more[0])) / people if more else 1
    fuel *= times * one_boil(*now, unit) / one_boil(wind, True, start, unit)
    if got := found(r"One full (\d+) g canister was to last (\d+) days", ask):
        return (int(got[0]) - 4) // fuel
    if got := found(r"a (?:full )?(\d+) g canister\. How many are needed for (\d+) days now", ask):
        return up(int(got[1]) * fuel / (int(got[0]) - 4))
    assert "How many grams a day is that now" in ask
    return fuel


WORK = {
    "fuel": fuel,
    "snow": snow,
    "minutes": minutes,
    "height": height,
    "boils": boils_for_a_pot,
    "canister": canister,
    "spare": spare,
    "steps": steps,
    "bleach": bleach,
    "push": push,
    "what-if": what_if,
}


def plain(markdown):
    return re.sub(r"\\([^\w\s])", r"\1", markdown)


def packet(leeside, folder, topic, seed, units, formats="md"):
    leeside("practice", "--topic", topic, "--count", COUNT, "--seed", seed, "--units", units,
            "--format", formats, "--out", folder)
    return folder / f"practice-{topic}-{seed}"


def asked(sheet):
    return dict(re.findall(r"^\*\*(\d+)\.\*\* (.*)$", sheet, re.M))


def ranges(key):
    """Number, least, most and unit of what counts as right."""
    blocks = re.split(r"^\*\*(\d+)\.\*\* ", key, flags=re.M)
    for number, block in zip(blocks[1::2], blocks[2::2], strict=True):
        got = re.search(r"Right: (-?[\d.]+)(?: to (-?[\d.]+))?(?: (\S+))? \((.*)\)\.", block)
        yield number, float(got[1]), float(got[2] or got[1]), got[4]


def worked_again(topic, sheet, number, ask):
    if topic != "shelf":
        return WORK[topic](ask)
    above = sheet[: sheet.index(f"**{number}.**")].rsplit("The shelf, weighed today:", 1)[1]
    table = {row[0]: row[1:] for row in re.findall(r"^\| ([A-F]) \|[^|]*\| (\d+) \| (\d+) \|", above, re.M)}
    return shelf(ask, table)


def hold(value, least, most, words, told):
    """Whether a value worked again is in the range that the key prints, to four digits."""
    slack = 6e-4 * abs(value) if words.startswith("within") else 1e-9
    assert least - slack <= value <= most + slack, (*told, value, least, most)


@pytest.mark.parametrize("units", ["metric", "us", "both"])
@pytest.mark.parametrize("topic", [*WORK, "shelf"])
def test_every_answer_from_its_printed_givens(leeside, tmp_path, topic, units):
    for seed in SEEDS:
        made = packet(leeside, tmp_path, topic, seed, units)
        sheet = plain((made / "learners/practice.md").read_text())
        key = plain((made / "staff/practice-key.md").read_text())
        problems = asked(sheet)
        right = list(ranges(key))
        assert len(problems) == len(right) == COUNT
        for number, least, most, words in right:
            ask = problems[number]
            hold(worked_again(topic, sheet, number, ask), least, most, words, (seed, number, ask))


# The headings of a sheet, by topic.
TITLES = {
    "Fuel for a meal": "fuel", "Boils for a pot": "boils", "Fuel left in a canister": "canister",
    "Height and boiling point": "height", "Water from snow": "snow", "Spare fuel": "spare",
    "Steps to water": "steps", "Bleach for the last bowl": "bleach", "Minutes at the stove": "minutes",
    "The push that tips a pot": "push", "The shelf of canisters": "shelf",
    "What if: one thing changes": "what-if",
}


def by_topic(sheet):
    """The number of each problem with the topic that it stands under."""
    topic, found = None, {}
    for line in sheet.splitlines():
        if line.startswith("## "):
            topic = next(word for title, word in TITLES.items() if line[3:].startswith(title))
        elif got := re.match(r"\*\*(\d+)\.\*\* ", line):
            found[got[1]] = topic
    return found


def test_a_thousand_sheets_of_every_topic(leeside, tmp_path):
    each = 3

    def one(seed):
        units = ["metric", "us", "both"][seed % 3]
        leeside("practice", "--topic", "all", "--count", each * len(TITLES), "--seed", seed, "--units", units,
                "--format", "md", "--out", tmp_path)
        made = tmp_path / f"practice-all-{seed}"
        sheet = plain((made / "learners/practice.md").read_text())
        problems, topics = asked(sheet), by_topic(sheet)
        right = list(ranges(plain((made / "staff/practice-key.md").read_text())))
        assert len(right) == len(problems) == each * len(TITLES)
        for number, least, most, words in right:
            told = (seed, units, number, problems[number])
            hold(worked_again(topics[number], sheet, number, problems[number]), least, most, words, told)
        return set(topics.values())

    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for topics in pool.map(one, range(10_000, 10_000 + MANY)):
            assert topics == set(TITLES.values())


def test_boiling_table(leeside, tmp_path):
    made = packet(leeside, tmp_path, "height", 1, "metric")
    sheet = (made / "learners/practice.md").read_text()
    rows = re.findall(r"^\| (\d+) m \| ([\d.]+) \|$", sheet, re.M)
    assert len(rows) == 9
    for metres, printed in rows:
        assert float(printed) == pytest.approx(boils(metres, "m"), abs=0.06)


def test_paper_says_the_same(leeside, tmp_path):
    made = packet(leeside, tmp_path, "fuel", 7, "metric", "md,pdf")

    def words(name):
        text = subprocess.run(["pdftotext", made / name, "-"], capture_output=True, text=True, check=True).stdout
        return " ".join(text.split())

    sheet, key = words("learners/practice.pdf"), words("staff/practice-key.pdf")
    for ask in asked(plain((made / "learners/practice.md").read_text())).values():
        # to the end of a page at most: a foot may stand between two lines
        start = " ".join(ask.split()[:8])
        assert start in sheet and start in key, ask
    assert "Seed 7." in key and "Seed" not in sheet
