"""A second computation of a whole trip, written from the description of the
calculation and not from the program, with general-purpose reference libraries:

- air pressure: fluids 1.3.1, US Standard Atmosphere 1976 (geometric height)
- boiling point: iapws 1.5.5, IAPWS-IF97 region 4
- vapour pressure of propane, isobutane, n-butane: CoolProp 8.0.0 reference
  equations of state (Lemmon 2009; Buecker and Wagner 2006)
- heating with losses: Gauss-Legendre quadrature of c dT / (flow - loss) by numpy (the program
  uses the closed form), shares of the fuel's heat from the reference boil by bisection
- random draws: numpy, 100 000 of them (the program uses another, fixed sequence)

A canister's flame sinks in the cold: second_burn.py beside this one gives what is left of it, and a
trip works with that once it has been `in_the_cold`.

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
from iapws.iapws97 import _PSat_T, _TSat_P

import second_burn

C_WATER, C_ICE, FUSION = 4.186, 2.10, 333.55  # kJ/(kg K), kJ/(kg K), kJ/kg
POT = {"aluminium": (0.897, 60, 70), "titanium": (0.522, 40, 60), "stainless": (0.500, 100, 130)}
LHV = {"propane": 46.34, "isobutane": 45.55, "n-butane": 45.72, "white gas": 44.7, "kerosene": 43.0, "ethanol": 26.8, "tablet": 28.1}
MOLAR = {"propane": 44.0956, "isobutane": 58.1222, "n-butane": 58.1222}  # g/mol, IUPAC weights
COOLPROP = {"propane": "Propane", "isobutane": "IsoButane", "n-butane": "n-Butane"}
# catalogue: efficiency low/likely/high, power kW, least flame W, fuel to light g
STOVES = {
    "canister on top": ((0.35, 0.50, 0.60), 2.5, 350, 0),
    "canister beside": ((0.35, 0.48, 0.58), 2.6, 400, 0),
    "heat exchanger": ((0.50, 0.62, 0.72), 2.2, 350, 0),
    "white gas": ((0.30, 0.42, 0.52), 2.7, 500, 5),
    "kerosene": ((0.28, 0.40, 0.50), 2.5, 600, 5),
    "alcohol": ((0.28, 0.38, 0.60), 1.0, 1000, 0),
    "tablet": ((0.20, 0.30, 0.38), 0.7, 700, 0),
}
BARE = {"calm": 0.85, "breezy": 0.75, "windy": 0.35}
PARTIAL = {"calm": 0.9, "breezy": 0.85, "windy": 0.6}
SCREENED = {"calm": 0.95, "breezy": 0.9, "windy": 0.8}
EXCHANGER = {"calm": 0.97, "breezy": 0.9, "windy": 0.6}
OPEN_BARE = {"calm": 0.8, "breezy": 0.55, "windy": 0.25}
OPEN_PARTIAL = {"calm": 0.85, "breezy": 0.7, "windy": 0.45}
OPEN_FULL = {"calm": 0.9, "breezy": 0.8, "windy": 0.6}
WINDS = ("calm", "breezy", "windy")
LOSS = (16.0, 30.0, 45.0)  # W/(m2 K) by wind
MARGIN = 1.15


def wind_factor(stove, screen, wind):
    def halfway(a, b):
        return {w: (a[w] + b[w]) / 2 for w in WINDS}

    if stove == "heat exchanger":
        return EXCHANGER[wind]
    bare, partial, full = (OPEN_BARE, OPEN_PARTIAL, OPEN_FULL) if stove in ("alcohol", "tablet") else (BARE, PARTIAL, SCREENED)
    if stove == "canister on top":
        full = PARTIAL
    return {"none": bare, "natural": halfway(bare, partial), "partial": partial}.get(screen, full)[wind]


def loss_in(screen, wind):
    """W/(m2 K): behind a screen that of one class calmer, a partial one halfway."""
    i = WINDS.index(wind)
    calmer = LOSS[max(0, i - 1)]
    return {"none": LOSS[i], "partial": (LOSS[i] + calmer) / 2}.get(screen, calmer)


def calmer(wind):
    return WINDS[max(0, WINDS.index(wind) - 1)]


def windier(wind):
    return WINDS[min(2, WINDS.index(wind) + 1)]


def width(litres):
    return (4 * litres / 1000 / math.pi) ** (1 / 3)


def surface(litres):
    return 1.5 * math.pi * width(litres) ** 2


def vapour(celsius):
    """kg/m3 over water, ideal gas at the saturation pressure of IF97."""
    kelvin = max(celsius, 0.0) + 273.15
    return _PSat_T(kelvin) * 1e6 * 0.018015 / (8.314 * kelvin)


def evaporation(h, litres, celsius, air):
    """W from the open top, Chilton-Colburn."""
    metres_a_second = (h - 6) / (1.1 * 1006 * 0.86 ** (2 / 3))
    return metres_a_second * math.pi * width(litres) ** 2 / 4 * max(0.0, vapour(celsius) - 0.5 * vapour(air)) * 2.30e6


NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)


def warming(flow, each, air, capacity, start, end, wet=None):
    """Seconds from start to end (numpy arrays are welcome), no margin asked; wet(T) is W that evaporate."""
    rise = end - start
    seconds = 0.0
    for node, weight in zip(NODES, WEIGHTS):
        at = start + rise * (node + 1) / 2
        net = flow - each * (at - air) - (0.0 if wet is None else wet(at))
        seconds = seconds + weight / 2 * capacity * rise / np.where(net > 0, net, np.nan)
    return seconds


def bisected(of, low, high):
    for _ in range(100):
        middle = (low + high) / 2
        if of(middle):
            high = middle
        else:
            low = middle
    return (low + high) / 2


REFERENCE = dict(capacity=1000 * C_WATER + 165 * 0.897, start=15.0, end=99.97)


def reference_flow(efficiency, watts, h):
    """W into the pot when the reference boil (1 L, 165 g of aluminium, lid on) takes this efficiency."""
    c, start, end = REFERENCE["capacity"], REFERENCE["start"], REFERENCE["end"]
    seconds = c * (end - start) / (efficiency * watts)
    each = h * surface(1.5)
    low = each * (end - start)

    def fast(flow):
        # the closed form: the nodes are not close enough where the flow only just makes up for the loss
        return c / each * math.log(flow / (flow - low)) < seconds

    return bisected(fast, low * (1 + 1e-12), low + 2 * c * (end - start) / seconds)


def flames(stove, screen, efficiency, watts):
    """e0 and f by wind."""
    screen = "built-in" if stove == "heat exchanger" else screen
    e0 = reference_flow(efficiency, watts, LOSS[0]) / watts

    def own(stove, efficiency, watts):
        still = reference_flow(efficiency, watts, LOSS[0]) / watts
        return [reference_flow(efficiency * wind_factor(stove, screen, w), watts, loss_in(screen, w)) / watts / still for w in WINDS]

    mine = own(stove, efficiency, watts)
    top = own("canister on top", 0.50, 2500.0) if screen in ("none", "natural", "partial") and stove != "heat exchanger" else [1.0] * 3
    return e0, {w: min([1.0, top[i]] + mine[: i + 1]) for i, w in enumerate(WINDS)}, screen


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
    if hold[largest] >= cap - 1e-9 and amount > hold[largest] + 1e-9:
        # a burner's filling is the limit: equal batches, no splash of its own
        count = math.ceil(amount / hold[largest] - 1e-9)
        return [(largest, amount / count)] * count
    out, left = [], amount
    while left > hold[largest] + 1e-9:
        out.append([largest, hold[largest]])
        left -= hold[largest]
    if left > 1e-9:
        fits = [i for i in range(len(hold)) if hold[i] >= left - 1e-9]
        out.append([min(fits, key=lambda i: hold[i]), left])
    if len(out) > 1 and out[-1][1] < 0.1 * hold[largest] - 1e-9:
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
            # the trial's wind taken out of it
            self.likely = quantity(self.measured["efficiency"]) / wind_factor(self.stove, self.screen, self.measured["wind"])
            self.low, self.high = 0.92 * self.likely, 1.08 * self.likely
        self.watts = self.power * 1000
        # by camp and meal, what a cold canister leaves of it: from second_burn.py, else full power
        self.cold = {}
        self.e0, self.f, self.shield = flames(self.stove, self.screen, self.likely, self.watts)
        self.pots = []
        for pot in kitchen["pots"]:
            name, _, mass = pot.partition(",")
            material, litres = name.split(" ", 1)
            litres = quantity(litres)
            c, base, per_litre = POT[material]
            self.pots.append((litres, c, quantity(mass) / 1000 if mass else (base + per_litre * litres) / 1000))
        self.blend = blend(kitchen["blend"]) if "blend" in kitchen else None
        # part-used ones hold what is left after drawing from full at 10 C
        self.shelf = {}
        for one in self.raw.get("canisters_on_hand", []):
            size, net = quantity(one["size"]), quantity(one["gross"]) - quantity(one["tare"])
            full = {gas: share * size / 1000 for gas, share in blend(one["blend"]).items()}
            liquid = drawn(full, net / size, 10.0)
            self.shelf[one["tag"]] = dict(tag=one["tag"], size=round(size), tare=quantity(one["tare"]), liquid=liquid)
        if self.blend:
            self.lhv = sum(share * LHV[name] for name, share in self.blend.items())
        else:
            self.lhv = LHV[{"alcohol": "ethanol"}.get(self.stove, self.stove)]

    def way(self, wind, pot, litres, snow, start, end, air, watts=None, through=1.0, warmer=0.0, more=1.0, loss=1.0, asked=True):
        """Seconds to heat one potful and whether it boils at all; arrays of draws are welcome."""
        capacity, c, mass = self.pots[pot]
        h = loss_in(self.shield, wind)
        each = h * surface(capacity) * loss
        wet = None
        at_end = each * (end - air)
        if not self.lid:
            h_open = loss_in(self.shield, calmer(wind))
            grid = np.linspace(min(start, 0.0) - 4, end + 4, 400)
            table = np.array([evaporation(h_open, capacity, t, air) for t in grid])
            wet = lambda t: np.interp(t, grid, table) * loss  # noqa: E731
            at_end = at_end + wet(end)
        flow = self.e0 * self.f[wind] * (watts or self.watts) * through
        boils = (flow >= MARGIN * at_end) | (at_end <= 0) if asked else True
        pot_c = mass * c * 1000
        seconds = 0.0
        begin = start + warmer
        if snow:
            begin = np.minimum(begin, 0.0)
            seconds = warming(flow, each, air, litres * more * C_ICE * 1000 + pot_c, begin, 0.0)
            at_zero = flow + each * air - (0.0 if wet is None else wet(0.0))
            seconds = seconds + litres * more * FUSION * 1000 / at_zero
            begin = 0.0 * begin
        seconds = seconds + warming(flow, each, air, litres * more * C_WATER * 1000 + pot_c, begin, end, wet)
        return seconds, boils & np.isfinite(seconds)

    def held(self, wind, pot, boil, air):
        """W that a pot loses at the boil."""
        capacity = self.pots[pot][0]
        lost = loss_in(self.shield, wind) * surface(capacity) * (boil - air)
        if not self.lid:
            lost += evaporation(loss_in(self.shield, calmer(wind)), capacity, boil - 3, air)
        return max(0.0, lost)

    def one_filling(self, wind, start, target, air):
        """Litres that 50 mL of ethanol (0.789 kg/L) bring to the boil, the heaviest pot warmed too."""
        heat = 50 * 0.789 * self.lhv
        widest = max(range(len(self.pots)), key=lambda i: self.pots[i][0])
        seconds, boils = self.way(wind, widest, 0.5, False, start, target, air)
        if not boils:
            return math.inf
        stays = (0.5 * C_WATER + self.pots[widest][1] * self.pots[widest][2]) * (target - start) * 1000 / (seconds * self.watts)
        pot = max(mass * c for _, c, mass in self.pots) * (target - start)
        return (heat * stays - pot) / (C_WATER * (target - start))

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
            day, night = quantity(camp["day"]), quantity(camp["night"])

            def row(meal, times, litres, target, simmer=0.0, light=0.0, safe=0.0, start=start, snow=snow, fill=fill, index=index, camp=camp, boil=boil, day=day, night=night):
                air = night if meal == "breakfast" else day
                cap = self.one_filling(camp["wind"], start, target, air) if self.stove == "alcohol" else math.inf
                batches = potfuls(litres, [p[0] for p in self.pots], fill, cap)
                heat = {"water": litres * C_WATER * (target - (0 if snow else start)), "melt": 0.0, "pot": 0.0}
                if snow:
                    heat["melt"] = litres * (C_ICE * (0 - start) + FUSION)
                for pot, _ in batches:
                    _, c, mass = self.pots[pot]
                    heat["pot"] += mass * c * (target - start)
                minutes = simmer * 1.6 ** ((100 - boil) / 10) + safe
                out.append(dict(camp=index, meal=meal, times=times, water=litres, batches=len(batches), pots=batches, heat=heat,
                                minutes=minutes, light=light, wind=camp["wind"], snow=snow, start=start, target=target, air=air, boil=boil))

            for meal in ("supper", "breakfast"):
                need = menu.get(meal, "cold")
                if need != "cold":
                    simmer = quantity(need["simmer"]) if "simmer" in need else 0.0
                    row(meal, nights, self.people * quantity(need["boil"]), boil, simmer, self.to_light)
            drinks = menu.get("drinks", "cold")
            if drinks != "cold":
                # made at supper and breakfast: lit on its own only where that meal is cold
                a_day = int(drinks["times_a_day"])
                lit = (menu.get("breakfast", "cold") == "cold") + (a_day > 1 and menu.get("supper", "cold") == "cold")
                light = self.to_light * lit / a_day
                row("drinks", nights * a_day, self.people * quantity(drinks["boil"]), boil, 0.0, light)
            drunk = self.people * quantity(self.raw["drinking"])
            if self.raw["water_treatment"] == "boil":
                # CDC: a rolling boil of 1 min, 3 min above 6 500 ft
                row("treatment", nights, drunk, boil, safe=3.0 if quantity(camp["elevation"]) > quantity("6500 ft") else 1.0)
            elif snow:
                row("snow", nights, drunk, 5.0)
            washing = self.raw["washing"]
            if washing == "wipe and rinse":
                if snow:
                    row("washing", nights, 0.5 * self.people, 5.0)
            elif washing == "two pots":
                row("washing", nights, 2.5, 45.0)
            elif washing == "three bowls":
                row("washing", nights, 15.0, 45.0)
        return out

    def heats(self, row):
        """W of the flame that heats a row."""
        return self.cold.get((row["camp"], row["meal"]), self.watts)

    def heating(self, row, wind, **draw):
        """Seconds of flame for one time of a row (four times its likely ones where a pot does not boil in a
        draw), and whether all boil."""
        total, fine = 0.0, True
        for pot, litres in row["pots"]:
            at = (pot, litres, row["snow"], row["start"], row["target"], row["air"], self.heats(row))
            seconds, boils = self.way(wind, *at, **draw)
            if draw:
                likely, _ = self.way(row["wind"], *at)
                seconds = np.where(boils, seconds, 4 * likely)
            total, fine = total + seconds, fine & boils
        return total, fine

    def fuel(self, row, wind=None, ratio=1.0, gust=1.0, warmer=0.0, more=1.0, loss=1.0):
        """Grams for one time of a row, and whether it boils; numpy arrays are welcome."""
        wind = wind or row["wind"]
        draw = {} if np.isscalar(ratio) else dict(through=ratio * gust, warmer=warmer, more=more, loss=loss)
        seconds, boils = self.heating(row, wind, **draw)
        grams = seconds * self.heats(row) / self.lhv / 1e6 * 1000
        if row["minutes"]:
            for pot, _ in row["pots"]:
                flame = np.maximum(self.held(wind, pot, row["boil"], row["air"]) * loss / (self.e0 * ratio), self.least * loss)
                grams = grams + flame * row["minutes"] * 60 / self.lhv / 1000
        return grams + row["light"], boils

    def new_can(self, size):
        liquid = {gas: share * size / 1000 for gas, share in self.blend.items()}
        return dict(tag=None, size=size, tare=second_burn.SHELLS[size][0], liquid=liquid)

    def cans(self, containers):
        """The canisters of a plan, in its order: ours by tag, and new ones."""
        for one in containers:
            for _ in range(one["count"]):
                yield dict(self.shelf[one["tag"]] if one["tag"] else self.new_can(round(one["size_g"])))

    def handed_out(self, containers):
        """What is burnt has the mean heating value of what is handed out."""
        cans = list(self.cans(containers))
        of = {gas: sum(can["liquid"].get(gas, 0.0) for can in cans) for gas in MOLAR}
        self.lhv = sum(mass * LHV[gas] for gas, mass in of.items()) / sum(of.values())

    def in_the_cold(self, kitchen):
        """The burns of the canisters that a plan hands out, and from them what the cold leaves of the flame:
        the mean of all nights that work. Rows are ours; what is handed out is the plan's."""
        self.handed_out(kitchen["containers"])
        rows, turns = self.rows(), self.turns(self.cans(kitchen["containers"]))
        cold = {}
        for row in rows:
            mine = turns[self.raw["camps"][row["camp"]]["name"], row["meal"]]
            working = [one["mean"] * 1000 for one in mine if one["verdict"] != "will not work"]
            if working:
                cold[row["camp"], row["meal"]] = sum(working) / len(working)
        self.cold = cold
        return turns

    def turns(self, cans):
        """How each turn of each of our rows goes with these canisters."""
        rows, camps, meals = self.rows(), [], []
        for camp in self.raw["camps"]:
            ambient, _ = boiling(quantity(camp["elevation"]))
            day, night = quantity(camp["day"]), quantity(camp["night"])
            camps.append(dict(name=camp["name"], nights=int(camp["nights"]), wind=camp["wind"], ambient=ambient, day=day, night=night))
        for row in rows:
            seconds, _ = self.heating(row, row["wind"])
            grams, _ = self.fuel(row)
            simmer = float(grams) * self.lhv - float(seconds) * self.heats(row) / 1000
            reaches = self.e0 * self.f[row["wind"]] * self.heats(row) * float(seconds) / 1000
            meals.append(dict(
                camp=camps[row["camp"]]["name"], meal=row["meal"], times=row["times"], batches=row["batches"],
                minutes=float(seconds) / 60 + row["batches"] * (2 + row["minutes"]), fuel_g=float(grams), efficiency=1.0,
                heat_kj={**row["heat"], "simmer": simmer}, lost_kj=reaches - sum(row["heat"].values()),
            ))
        hold = {(meal["camp"], meal["meal"]): row["minutes"] for meal, row in zip(meals, rows)}
        burner = second_burn.Burner(self.watts, self.watts, self.stove in ("canister on top", "heat exchanger"), self.lhv)
        return second_burn.cold(
            list(cans), meals, camps, burner, self.screen, self.least, lambda camp, row: hold[camp["name"], row["meal"]]
        )

    def choice(self, carry):
        """Tags and sizes of new ones: of all ways to carry so much the one with the least mass of new ones, then the
        least left over, then the least mass, with which every meal is cooked; tried one by one in that order."""
        ways = []
        for count in range(len(self.shelf) + 1):
            for mine in itertools.combinations(self.shelf.values(), count):
                held = sum(sum(can["liquid"].values()) * 1000 - 4 for can in mine)
                for counts in itertools.product(range(4), repeat=3):
                    new = [size for size, n in zip(second_burn.SHELLS, counts) for _ in range(n)]
                    over = held + sum(size - 4 for size in new) - carry
                    bought = sum(size + second_burn.SHELLS[size][0] for size in new)
                    mass = bought + sum(can["tare"] + sum(can["liquid"].values()) * 1000 for can in mine)
                    if over > -0.05:
                        ways.append(((round(bought, 1), round(over, 1), round(mass, 1)), [can["tag"] for can in mine], new))
        for _, tags, new in sorted(ways):
            cans = [dict(self.shelf[tag]) for tag in tags] + [self.new_can(size) for size in new]
            if all(one["verdict"] in ("fine", "slow") for turn in self.turns(cans).values() for one in turn):
                return tags, new
        return None

    def likely_grams(self):
        rows = self.rows()
        each = [self.fuel(r)[0] for r in rows]
        return rows, each, 1.02 * sum(r["times"] * g for r, g in zip(rows, each))

    def spare_grams(self):
        rows, each, _ = self.likely_grams()
        best = 0.0
        for camp in {r["camp"] for r in rows}:
            nights = int(self.raw["camps"][camp]["nights"])
            best = max(best, 1.02 * sum(g * r["times"] / nights for r, g in zip(rows, each) if r["camp"] == camp))
        # one night: half a spare day
        alone = sum(int(camp["nights"]) for camp in self.raw["camps"]) == 1
        return best / 2 if alone else best

    def at_confidence_grams(self, draws=100_000, seed=20261125):
        rng = np.random.default_rng(seed)
        rows = self.rows()
        tri = rng.triangular
        ratio = tri(self.low, self.likely, self.high, draws) / self.likely
        warmer = tri(-3, 0, 3, draws)
        more = tri(0.9, 1.0, 1.1, draws)
        spill = tri(1.0, 1.02, 1.04, draws)
        trip_wind = tri(0.8, 1.0, 1.2, draws)
        loss = tri(0.75, 1.0, 1.25, draws)
        total = np.zeros(draws)
        for camp in {r["camp"] for r in rows}:
            nights = int(self.raw["camps"][camp]["nights"])
            for _ in range(nights):
                gust = trip_wind * tri(0.85, 1.0, 1.15, draws)
                other = rng.random(draws)
                for r in (r for r in rows if r["camp"] == camp):
                    by_wind = [self.fuel(r, w, ratio, gust, warmer, more, loss)[0] for w in (calmer(r["wind"]), r["wind"], windier(r["wind"]))]
                    grams = np.where(other < 0.1, by_wind[0], np.where(other < 0.9, by_wind[1], by_wind[2]))
                    total += r["times"] / nights * grams
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


def lightest_mix(need, sizes=((100, 100), (230, 150), (450, 205)), residue=4.0, most=12):
    """Least gross mass of new canisters that hold `need` grams that can be burnt."""
    best = None
    for counts in itertools.product(range(most), repeat=len(sizes)):
        net = sum(n * (size - residue) for n, (size, _) in zip(counts, sizes))
        if net >= need - 1e-9 and any(counts):
            gross = sum(n * (size + tare) for n, (size, tare) in zip(counts, sizes))
            if best is None or gross < best[0]:
                best = (gross, dict(zip((size for size, _ in sizes), counts)))
    return best
