"""The sheet of stoves side by side against chemistry and against its own plan."""

import json
import re

# Heat of combustion of the gas (liquid for ethanol), kJ/mol, water as liquid: NIST Chemistry WebBook
# (SRD 69), from memory. Each mole of water that leaves as steam takes 44.0 kJ (25 C) with it.
# Molar masses from IUPAC standard atomic weights.
BURNT = {"propane": (2219.2, 4, 44.10), "n-butane": (2877.6, 5, 58.12), "ethanol": (1366.8, 3, 46.07)}
# Density of ethanol at 20 C, kg/L: CRC Handbook of Chemistry and Physics, from memory.
ETHANOL_DENSITY = 0.789


def lower(fuel):
    heat, waters, mass = BURNT[fuel]
    return (heat - 44.0 * waters) / mass


def table(text, heading):
    """The rows of the one table under a heading, without its head."""
    part = text.split(f"## {heading}\n")[1].split("\n## ")[0]
    lines = [line for line in part.splitlines() if line.startswith("|")]
    return [[cell.strip().replace("**", "") for cell in line.strip("|").split("|")] for line in lines[2:]]


def number(cell):
    return float(re.match(r"[\d.]+", cell).group())


def test_heat_of_fuel_and_container(packets):
    for trip in ("boathouse-evening", "school-yard"):
        text = (packets / trip / "learners/stove-choice.md").read_text()
        rows = {row[1]: row for row in table(text, "The fuel and what holds it")}
        gas = 0.3 * lower("propane") + 0.7 * lower("n-butane")
        for fuel, heat in (("ethanol", lower("ethanol")), ("canister gas", gas)):
            _, _, litre, kilogram, container, *_ = rows[fuel]
            # the sheet prints whole megajoules
            assert abs(number(kilogram) * (1 + number(container)) / heat - 1) < 0.035, (trip, fuel)
        assert abs(number(rows["ethanol"][2]) / lower("ethanol") - ETHANOL_DENSITY) < 0.025


def test_the_sheet_says_what_the_plan_says(leeside, packets):
    plan = json.loads(leeside("plan", "content/trips/hoarfrost-basin.yaml", "--json").stdout)
    text = (packets / "hoarfrost-basin/learners/stove-choice.md").read_text()
    rows = table(text, "On this trip")
    assert len(rows) == len(plan["comparison"]) >= 6
    for row, one in zip(rows, plan["comparison"]):
        if "never boils" in (one["why"] or ""):
            # half of the fuel would be read as the whole
            assert row[2] == row[3] == row[4] == row[6] == "–", row
        else:
            assert row[3] == f"{one['start_mass_g'] / 1000:.2f} kg", row
        assert row[1].split()[0] == {"yes": "yes", "no": "no", "unknown": "ask"}[one["allowed"]]
        if one["why"]:
            mark = re.search(r"\((\d+)\)", row[1]).group(1)
            note = re.search(rf"^\({mark}\) (.+?)\.?\\?$", text, re.M).group(1)
            assert note.lower() == one["why"].lower()
    figure = text.split("```figure mass-by-nights\n")[1].split("```")[0]
    drawn = {line[2:].split(":")[0] for line in figure.splitlines()}
    assert drawn == {row[0].replace(" (ours)", "") for row in rows if row[3] != "–"}
    own = {kitchen["stove"] for kitchen in plan["kitchens"]}
    marked = sum(1 for row in rows if row[0].endswith("(ours)"))
    assert marked == len([one for one in plan["comparison"] if one["stove"] in own]) >= 1
