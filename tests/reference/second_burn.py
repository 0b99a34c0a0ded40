"""A second computation of canisters in the cold, written from the description of the
calculation and not from the program, with general-purpose reference libraries:

- vapour pressure of propane, isobutane, n-butane: CoolProp 8.0.0 reference
  equations of state (Lemmon 2009; Buecker and Wagner 2006)
- the burn as a differential equation: scipy 1.17.1, solve_ivp, DOP853

Fuel and shell are one lump; the air warms it, the burner gives a little back, the vapour
that leaves cools it, and the light part of the mixture leaves first (Raoult, Rayleigh).
The transfer of heat, the size of the valve and the like are assumptions of the catalogue.
"""

import functools
import math

import numpy as np
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline

GASES = {"propane": ("Propane", 44.0956), "isobutane": ("IsoButane", 58.1222), "n-butane": ("n-Butane", 58.1222)}
SHELLS = {100: (100, 90, 65), 230: (150, 110, 95), 450: (205, 110, 145)}  # tare g, diameter and height mm
WINDS = ["calm", "breezy", "windy"]
FILM = [10.0, 27.0, 38.0]  # W/(m2 K)
LATENT, LIQUID, STEEL = 370e3, 2400.0, 460.0  # J/kg, J/(kg K)
OPEN, GIVEN_BACK, RESIDUE_G = 2.0, 5.0, 4.0
KAPPA = 1.12


@functools.lru_cache(None)
def _logs(gas):
    grid = np.arange(-100.0, 60.5, 0.5)
    return CubicSpline(grid, [math.log(PropsSI("P", "T", t + 273.15, "Q", 0, GASES[gas][0])) for t in grid])


def over(gas, celsius):
    """kPa over the pure liquid"""
    return math.exp(float(_logs(gas)(celsius))) / 1000


def bubble(liquid, celsius):
    """kPa over a mixture of masses, by Raoult's law"""
    moles = {gas: mass / GASES[gas][1] for gas, mass in liquid.items()}
    return sum(n * over(gas, celsius) for gas, n in moles.items()) / sum(moles.values())


def passes(ratio):
    """share of the choked flow at a ratio of pressures behind and before a nozzle"""
    if ratio >= 1:
        return 0.0
    k = KAPPA
    if ratio <= (2 / (k + 1)) ** (k / (k - 1)):
        return 1.0
    choked = (2 / (k + 1)) ** ((k + 1) / (k - 1))
    return math.sqrt(2 / (k - 1) * (ratio ** (2 / k) - ratio ** ((k + 1) / k)) / choked)


REFERENCE = bubble({"propane": 0.3, "n-butane": 0.7}, 20.0)


def film(wind, screen):
    index = WINDS.index(wind)
    return FILM[max(0, index - 1) if screen in ("natural", "partial") else index]


class Burner:
    """A burner on its canister; watts."""

    def __init__(self, power, family, on_top, heating_value_mj):
        self.power, self.family, self.lhv = power, family, heating_value_mj * 1e6
        self.given_back = GIVEN_BACK if on_top else 0.0

    def gives(self, pressure, ambient, asked):
        if pressure <= ambient:
            return 0.0
        return min(asked, OPEN * self.family * pressure / REFERENCE * passes(ambient / pressure) / passes(101.325 / REFERENCE))

    def burn(self, can, start, air, around, ambient, asked, seconds):
        """a can with its size, tare in g and liquid in kg by gas -> left, temperature at the end, mean power, lowest gauge, emptied"""
        liquid, tare = can["liquid"], can["tare"]
        gases = sorted(liquid)
        _, wide, high = SHELLS[can["size"]]
        skin = math.pi * wide * high / 1e6 + math.pi / 2 * (wide / 1e3) ** 2

        def slope(_, y):
            masses = {gas: max(1e-12, y[i]) for i, gas in enumerate(gases)}
            power = self.gives(bubble(masses, y[-2]), ambient, asked)
            leaving = power / self.lhv
            weight = sum(masses[gas] * over(gas, y[-2]) for gas in gases)
            capacity = sum(masses.values()) * LIQUID + tare / 1e3 * STEEL
            warming = around * skin * (air - y[-2]) + self.given_back * power / self.family - leaving * LATENT
            return [-leaving * masses[gas] * over(gas, y[-2]) / weight for gas in gases] + [warming / capacity, power]

        def empty(_, y):
            return sum(y[:-2]) - RESIDUE_G / 1e3

        empty.terminal = True
        y0 = [liquid[gas] for gas in gases] + [start, 0.0]
        run = solve_ivp(slope, (0, seconds), y0, method="DOP853", rtol=1e-7, atol=1e-9, max_step=20.0, events=empty)
        gauges = [bubble(dict(zip(gases, run.y[:-2, i], strict=True)), run.y[-2, i]) - ambient for i in range(run.y.shape[1])]
        left = dict(zip(gases, run.y[:-2, -1], strict=True))
        return left, float(run.y[-2, -1]), float(run.y[-1, -1]) / run.t[-1], min(gauges), bool(len(run.t_events[0]))


def verdict(share):
    return "fine" if share >= 0.75 else "slow" if share >= 0.40 else "weak"


def nights(rows, count):
    """the rows of a camp in order of time: night by night, breakfast last"""
    rows = [row for row in rows if row["meal"] != "breakfast"] + [row for row in rows if row["meal"] == "breakfast"]
    for night in range(count):
        for row in rows:
            yield from [row] * (row["times"] * (night + 1) // count - row["times"] * night // count)


def heated(burner, row, can, air, around, ambient, flame):
    """One night's heating: the row tells minutes, fuel and loss at some power; from them come
    the share of the flame that reaches the pot and what it loses a second, and from those this night's time."""
    useful = sum(row["heat_kj"][part] for part in ("water", "pot", "melt")) * 1e3
    burnt = row["fuel_g"] / 1e3 * burner.lhv - row["heat_kj"]["simmer"] * 1e3 / row["efficiency"]
    lost = row["lost_kj"] * 1e3
    share, losing = (useful + lost) / burnt, lost / flame
    seconds = useful / (share * burner.power - losing)
    for _ in range(12):
        went = burner.burn(can, air, air, around, ambient, burner.power, seconds)
        again = useful / max(share * went[2] - losing, 1.0)
        if went[4] or abs(again / seconds - 1) < 1e-3:
            break
        seconds = again
    return went


def cold(cans, meals, camps, burner, screen, least_w, hold_minutes):
    """What the cold does to each turn of a kitchen with one leg and these canisters, used in this order: camps
    are dicts with name, nights, day, night, wind, ambient. The canisters are emptied by it."""
    turns = {}
    for camp in camps:
        rows = [row for row in meals if row["camp"] == camp["name"]]
        for row in nights(rows, camp["nights"]):
            air = camp["night" if row["meal"] == "breakfast" else "day"]
            held = row["batches"] * hold_minutes(camp, row)
            flame = (row["minutes"] - 2 * row["batches"] - held) * 60
            best = None
            for can in cans:
                start = bubble(can["liquid"], air) - camp["ambient"]
                around = film(camp["wind"], screen)
                left, end, mean, low, emptied = heated(burner, row, can, air, around, camp["ambient"], flame)
                word = "will not work" if start <= 0 or emptied else verdict(mean / burner.power)
                if held and word != "will not work":
                    fuel = row["heat_kj"]["simmer"] * 1e3 / row["efficiency"]
                    left, end, _, lower, _ = burner.burn({**can, "liquid": left}, end, air, around, camp["ambient"], max(least_w, fuel / held / 60), held * 60)
                    low = min(low, lower)
                if best is None or ["fine", "slow", "weak", "will not work"].index(word) < ["fine", "slow", "weak", "will not work"].index(best[1]["verdict"]):
                    best = (can, {"start": start, "end": end, "mean": mean / 1e3, "low": low, "verdict": word, "left": left, "tag": can["tag"]})
                if word in ("fine", "slow"):
                    break
            can, went = best
            can["liquid"] = went["left"]
            turns.setdefault((camp["name"], row["meal"]), []).append(went)
    return turns
