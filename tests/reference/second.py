"""A second computation of a whole trip, written from the description of the
calculation and not from the program, with general-purpose reference libraries:

- air pressure: fluids 1.3.1, US Standard Atmosphere 1976 (geometric height)
- boiling point: iapws 1.5.5, IAPWS-IF97 region 4
- vapour pressure of propane, isobutane, n-butane: CoolProp 8.0.0 reference
  equations of state (Lemmon 2009; Buecker and Wagner 2006)
- random draws: numpy, 200 000 of them (the program uses another, fixed sequence)

Constants are those that the sheets print: 4.186 and 2.10 kJ/(kg K), 333.55 kJ/kg.
Efficiencies, wind factors and the like are assumptions of the catalogue; the
trips beside this file state what they can.
"""

import itertools
import math
import re

import CoolProp.CoolProp as cp
import numpy as np
import yaml
from fluids.atmosphere import ATMOSPHERE_1976
from iapws.iapws97 import _TSat_P

C_WATER, C_ICE, FUSION = 4.186, 2.10, 333.55  # kJ/(kg K), kJ/(kg K), kJ/kg
POT = {"aluminium": (0.897, 60, 70), "titanium": (0.522, 40, 60), "stainless": (0.500, 100, 130)}
LHV = {"propane": 46.34, "isobutane": 45.55, "n-butane": 45.72, "white gas": 44.7, "ethanol": 26.8}
MOLAR = {"propane": 44.0956, "isobutane": 58.1222, "n-butane": 58.1222}  # g/mol, IUPAC weights
COOLPROP = {"propane": "Propane", "isobutane": "IsoButane", "n-butane": "n-Butane"}
# catalogue: efficiency low/likely/high, power kW, least flame W, fuel to light g
STOVES = {
    "canister on top": ((0.35, 0.50, 0.60), 2.5, 350, 0),
    "canister beside": ((0.35, 0.48, 0.58), 2.6, 400, 0),
    "white gas": ((0.30, 0.42, 0.52), 2.7, 500, 5),
    "alcohol": ((0.28, 0.38, 0.48), 1.0, 1000, 0),
}
BARE = {"calm": 0.85, "breezy": 0.75, "windy": 0.35}
PARTIAL = {"calm": 0.9, "breezy": 0.85, "windy": 0.6}
SCREENED = {"calm": 0.95, "breezy": 0.9, "windy": 0.8}
WIND = {
    ("canister on top", "none"): BARE,
    ("canister on top", "partial"): PARTIAL,
    ("canister beside", "none"): BARE,
    ("canister beside", "partial"): PARTIAL,
    ("canister beside", "full"): SCREENED,
    ("white gas", "full"): SCREENED,
    ("white gas", "built-in"): SCREENED,
    ("white gas", "partial"): PARTIAL,
    ("alcohol", "none"): {"calm": 0.8, "breezy": 0.55, "windy": 0.25},
    ("alcohol", "partial"): {"calm": 0.85, "breezy": 0.7, "windy": 0.45},
    ("alcohol", "full"): {"calm": 0.9, "breezy": 0.8, "windy": 0.6},
}
HOLD = {"calm": 16, "breezy": 30, "windy": 45}  # W/(m2 K)
UNIT = {
    "C": lambda v: v, "F": lambda v: (v - 32) / 1.8, "m": lambda v: v, "ft": lambda v: v * 0.3048,
    "km": lambda v: v * 1000, "L": lambda v: v, "mL": lambda v: v / 1000, "g": lambda v: v, "kg": lambda v: v * 1000,
    "%": lambda v: v / 100, "min": lambda v: v, "kPa": lambda v: v, "kW": lambda v: v, "W": lambda v: v / 1000,
}


def quantity(text):
    number, unit = re.fullmatch(r"\s*(-?[\d.]+)\s*([A-Za-z%]+)\s*", str(text)).groups()
    return UNIT[unit](float(number))


def boiling(height_m):
    pressure = ATMOSPHERE_1976(height_m).P
    return pressure / 1000, _TSat_P(pressure / 1e6) - 273.15


def blend(text):
    parts = dict(part.strip().rsplit(" ", 1) for part in text.split(","))
    return {name: float(share) / 100 for name, share in parts.items()}


def potfuls(amount, capacities, fill, cap=math.inf):
    """Fill the largest pot while more is left than any pot holds; the rest in
    the smallest pot that holds it; a last splash is shared among the others.
    No batch is more than one filling of an alcohol burner boils (the cap)."""
    hold = [min(capacity * fill, cap) for capacity in capacities]
    largest = max(range(len(hold)), key=lambda i: hold[i])
    out, left = [], amount
    while left > hold[largest] + 1e-9:
        out.append([largest, hold[largest]])
        left -= hold[largest]
    if left > 1e-9:
        fits = [i for i in range(len(hold)) if hold[i] >= left - 1e-9]
        out.append([min(fits, key=lambda i: hold[i]), left])
    small = len(out) > 1 and out[-1][1] < 0.1 * hold[largest] - 1e-9
    if small and hold[largest] + out[-1][1] / (len(out) - 1) <= cap + 1e-9:
        _, splash = out.pop()
        for one in out:
            one[1] += splash / len(out)
    return [(i, litres) for i, litres in out]


class Trip:
    """The rows of one kitchen of a trip whose values are all stated."""

    def __init__(self, path):
        self.raw = yaml.load(open(path), yaml.BaseLoader)
        kitchen = next(iter(self.raw["kitchens"]))
        self.stove = kitchen["stove"]
        self.screen = kitchen["windscreen"] if "windscreen" in kitchen else self.raw["windscreen"]
        self.lid = self.raw["lid"] == "yes"
        self.people = int(kitchen["people"])
        (self.low, self.likely, self.high), self.power, self.least, self.to_light = STOVES[self.stove]
        self.measured = kitchen.get("measured")
        if self.measured:
            self.likely = quantity(self.measured["efficiency"])
            self.low, self.high = 0.95 * self.likely, 1.05 * self.likely
        self.pots = []
        for pot in kitchen["pots"]:
            name, _, mass = pot.partition(",")
            material, litres = name.split(" ", 1)
            litres = quantity(litres)
            c, base, per_litre = POT[material]
            self.pots.append((litres, c, quantity(mass) / 1000 if mass else (base + per_litre * litres) / 1000))
        self.blend = blend(kitchen["blend"]) if "blend" in kitchen else None
        if self.stove.startswith("canister"):
            self.lhv = sum(share * LHV[name] for name, share in self.blend.items())
        elif self.stove == "alcohol":
            self.lhv = LHV["ethanol"]
        else:
            self.lhv = LHV["white gas"]

    def wind_factor(self, wind):
        factor = WIND[self.stove, self.screen][wind]
        if self.measured:
            return factor / WIND[self.stove, self.screen][self.measured["wind"]]
        return factor

    def one_filling(self, wind, start, target):
        """Litres that 50 mL of ethanol (0.789 kg/L) bring to the boil, the heaviest pot warmed too."""
        heat = 50 * 0.789 * self.lhv * self.likely * self.wind_factor(wind)
        pot = max(mass * c for _, c, mass in self.pots) * (target - start)
        return (heat - pot) / (C_WATER * (target - start))

    def rows(self):
        """Rows as (camp index, meal, times, litres, batches, kilojoule parts, simmer fuel, lightings)."""
        out = []
        menu = self.raw["menu"]
        for index, camp in enumerate(self.raw["camps"]):
            nights = int(camp["nights"])
            snow = camp.get("water_from") == "snow"
            start = quantity(camp["water"])
            _, boil = boiling(quantity(camp["elevation"]))
            fill = 0.6 if snow else 0.75
            air = {"supper": quantity(camp["day"]), "lunch": quantity(camp["day"]), "breakfast": quantity(camp["night"]), "drinks": quantity(camp["day"])}

            def row(meal, times, litres, target, simmer=0.0, light=0.0, start=start, snow=snow, fill=fill, air=air, index=index, camp=camp, boil=boil):
                cap = self.one_filling(camp["wind"], start, target) if self.stove == "alcohol" else math.inf
                batches = potfuls(litres, [p[0] for p in self.pots], fill, cap)
                heat = {"water": litres * C_WATER * (target - (0 if snow else start)), "melt": 0.0, "pot": 0.0}
                if snow:
                    heat["melt"] = litres * (C_ICE * (0 - start) + FUSION)
                for pot, _ in batches:
                    _, c, mass = self.pots[pot]
                    heat["pot"] += mass * c * (target - start)
                minutes = simmer * 1.6 ** ((100 - boil) / 10)
                holds = []
                if simmer:
                    for pot, _ in batches:
                        d = (4 * self.pots[pot][0] / 1000 / math.pi) ** (1 / 3)
                        p = HOLD[camp["wind"]] * 1.5 * math.pi * d * d * (boil - air[meal]) / 1000
                        holds.append(p * (1.0 if self.lid else 1.6))
                out.append(dict(camp=index, meal=meal, times=times, water=litres, batches=len(batches), heat=heat,
                                holds=holds, minutes=minutes, light=light, wind=camp["wind"], snow=snow, start=start, target=target, litres=litres))

            for meal in ("supper", "breakfast"):
                need = menu.get(meal, "cold")
                if need != "cold":
                    simmer = quantity(need["simmer"]) if "simmer" in need else 0.0
                    row(meal, nights, self.people * quantity(need["boil"]), boil, simmer, self.to_light)
            drinks = menu.get("drinks", "cold")
            if drinks != "cold":
                light = self.to_light if menu.get("breakfast", "cold") == "cold" else 0.0
                row("drinks", nights * int(drinks["times_a_day"]), self.people * quantity(drinks["boil"]), boil, 0.0, light)
            if snow:
                row("snow", nights, self.people * quantity(self.raw["drinking"]), 5.0)
            washing = self.raw["washing"]
            if washing == "wipe and rinse":
                if snow:
                    row("washing", nights, 0.5 * self.people, 5.0)
            elif washing == "two pots":
                row("washing", nights, 2.5, 45.0)
            elif washing == "three bowls":
                row("washing", nights, 15.0, 45.0)
        return out

    def fuel(self, row, efficiency, factor, warmer=0.0, more=1.0):
        """Grams for one time of a row; numpy arrays are welcome."""
        water = row["heat"]["water"] * more
        if row["snow"]:
            melt = (row["heat"]["melt"] - row["litres"] * C_ICE * warmer) * more
        else:
            water = (row["litres"] * C_WATER * (row["target"] - row["start"] - warmer)) * more
            melt = 0.0
        pot = row["heat"]["pot"]
        grams = (water + melt + pot) / (efficiency * factor * self.lhv)
        for hold in row["holds"]:
            rate = np.maximum(hold / efficiency, self.least / 1000)  # kW; wind is in the loss already
            grams = grams + rate * row["minutes"] * 60 / self.lhv
        return grams + row["light"]

    def likely_grams(self):
        rows = self.rows()
        each = [self.fuel(r, self.likely, self.wind_factor(r["wind"])) for r in rows]
        return rows, each, 1.02 * sum(r["times"] * g for r, g in zip(rows, each))

    def spare_grams(self):
        rows, each, _ = self.likely_grams()
        best = 0.0
        for camp in {r["camp"] for r in rows}:
            nights = int(self.raw["camps"][camp]["nights"])
            best = max(best, 1.02 * sum(g * r["times"] / nights for r, g in zip(rows, each) if r["camp"] == camp))
        return best

    def at_confidence_grams(self, draws=200_000, seed=20261125):
        rng = np.random.default_rng(seed)
        rows = self.rows()
        tri = rng.triangular
        efficiency = tri(self.low, self.likely, self.high, draws)
        warmer = tri(-3, 0, 3, draws)
        more = tri(0.9, 1.0, 1.1, draws)
        spill = tri(1.0, 1.02, 1.04, draws)
        total = np.zeros(draws)
        for camp in {r["camp"] for r in rows}:
            nights = int(self.raw["camps"][camp]["nights"])
            for _ in range(nights):
                swing = tri(0.85, 1.0, 1.15, draws)
                for r in (r for r in rows if r["camp"] == camp):
                    total += r["times"] / nights * self.fuel(r, efficiency, self.wind_factor(r["wind"]) * swing, warmer, more)
        return float(np.quantile(total * spill, quantity(self.raw["confidence"])))

    def carry_grams(self):
        _, _, likely = self.likely_grams()
        need = max(self.at_confidence_grams(), likely + self.spare_grams())
        return 5 * math.ceil(need / 5 - 1e-9)


def vapour_pressure(name, celsius):
    return cp.PropsSI("P", "T", celsius + 273.15, "Q", 0, COOLPROP[name]) / 1000


def gauge(liquid, celsius, ambient):
    """Gauge pressure (kPa) by Raoult's law of a liquid given by masses."""
    moles = {name: mass / MOLAR[name] for name, mass in liquid.items()}
    total = sum(moles.values())
    return sum(n / total * vapour_pressure(name, celsius) for name, n in moles.items()) - ambient


def drawn(liquid, left, celsius):
    """Composition after vapour is drawn until `left` of the mass is left
    (Rayleigh, isothermal): m_i = m_i0 s^(P_i / P_max), s by bisection."""
    pressures = {name: vapour_pressure(name, celsius) for name in liquid}
    top = max(pressures.values())
    total = sum(liquid.values())

    def at(s):
        return {name: mass * s ** (pressures[name] / top) for name, mass in liquid.items()}

    low, high = 0.0, 1.0
    for _ in range(200):
        middle = (low + high) / 2
        if sum(at(middle).values()) > left * total:
            high = middle
        else:
            low = middle
    return at((low + high) / 2)


def usable(liquid, celsius, ambient, least=20.0):
    """Share of what is in it that can be drawn before the gauge falls to `least`."""
    if gauge(liquid, celsius, ambient) <= least:
        return 0.0
    low, high = 1e-9, 1.0
    if gauge(drawn(liquid, low, celsius), celsius, ambient) >= least:
        return 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if gauge(drawn(liquid, middle, celsius), celsius, ambient) > least:
            high = middle
        else:
            low = middle
    return 1.0 - (low + high) / 2


def lightest_mix(need, sizes=((100, 105), (230, 150), (450, 205)), residue=4.0, most=12):
    """Least gross mass of new canisters that hold `need` grams that can be burnt."""
    best = None
    for counts in itertools.product(range(most), repeat=len(sizes)):
        net = sum(n * (size - residue) for n, (size, _) in zip(counts, sizes))
        if net >= need - 1e-9 and any(counts):
            gross = sum(n * (size + tare) for n, (size, tare) in zip(counts, sizes))
            if best is None or gross < best[0]:
                best = (gross, dict(zip((size for size, _ in sizes), counts)))
    return best


def table(folder):
    """All rows and sums of the trips in a folder, as comma-separated lines."""
    out = [
        "# Three invented trips computed a second time by second.py beside them (its head names the reference libraries)",
        "trip,what,camp,meal,times,water_l,batches,water_kj,pot_kj,melt_kj,fuel_g",
    ]
    for name in ("alcohol-summer", "canister-cold", "white-gas-snow"):
        trip = Trip(f"{folder}/{name}.yaml")
        rows, each, likely = trip.likely_grams()
        for r, grams in zip(rows, each):
            heat = r["heat"]
            camp = trip.raw["camps"][r["camp"]]["name"]
            out.append(
                f"{name},row,{camp},{r['meal']},{r['times']},{r['water']:.6g},{r['batches']},"
                f"{heat['water']:.6g},{heat['pot']:.6g},{heat['melt']:.6g},{float(grams):.6g}"
            )
        sums = {"likely": likely, "at confidence": trip.at_confidence_grams(), "carry": trip.carry_grams()}
        out += [f"{name},{what},,,,,,,,,{grams:.6g}" for what, grams in sums.items()]
        if trip.blend:
            for camp in trip.raw["camps"]:
                ambient, _ = boiling(quantity(camp["elevation"]))
                for meal, air in (("supper", "day"), ("breakfast", "night")):
                    start = gauge(trip.blend, quantity(camp[air]), ambient)
                    out.append(f"{name},gauge kPa,{camp['name']},{meal},,,,,,,{start:.6g}")
                    share = usable(trip.blend, quantity(camp[air]), ambient)
                    out.append(f"{name},usable share at the air's temperature,{camp['name']},{meal},,,,,,,{share:.6g}")
    return "\n".join(out) + "\n"


if __name__ == "__main__":
    import pathlib

    here = pathlib.Path(__file__).parent
    (here / "trips" / "second.csv").write_text(table(here / "trips"))
