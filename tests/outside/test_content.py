"""What first aid, fire and wildlife readers asked to hold, checked against what the named bodies print."""

import pathlib
import re

import pytest
import yaml

CONTENT = pathlib.Path(__file__).resolve().parents[2] / "content"
METRES = {"m": 1.0, "ft": 0.3048, "yd": 0.9144}


def read(folder, name):
    return yaml.safe_load((CONTENT / folder / f"{name}.yaml").read_text(encoding="utf-8"))


def metres(quantity):
    number, unit = quantity.split()
    return float(number) * METRES[unit]


PLACES = {path.stem: read("places", path.stem) for path in sorted((CONTENT / "places").glob("*.yaml"))}
# kinds of place, which a camp in any country may name
KINDS = [name for name, place in PLACES.items() if "country" not in place]


def test_adrenaline_comes_before_the_call():
    """Anaphylaxis UK, 'What to do in an emergency': adrenaline at once, then the call."""
    module = read("modules", "allergens")
    order = [choice.lower() for choice in module["questions"]["first-what"]["choices"]]
    told = [module["text"], module["first_response"], module["cautions"]["reaction"]["respond"], "; ".join(order)]
    for text in told:
        text = text.lower()
        assert "adrenaline" in text and text.index("adrenaline") < text.rindex("call"), text
    # ASCIA, 'How to position a person having anaphylaxis', 2024: unconscious, on the side
    assert "on one side if they cannot be woken" in " ".join(module["first_response"].split())


def test_only_who_is_awake_gets_food_or_drink():
    """NHS, 'Hypothermia': a warm drink and sugary food if they are fully awake; no rubbing, no alcohol."""
    module = read("modules", "cold-and-altitude")
    shivering = module["questions"]["shivering"]["answer"]
    for text in (module["first_response"], shivering):
        fed = [part for part in re.split(r"(?<=\.)\s", " ".join(text.split())) if "sweet" in part]
        assert fed and all("only if fully awake" in part for part in fed), text
    assert "No rubbing and no alcohol" in " ".join(module["first_response"].split())


def test_a_wound_is_pressed_and_not_raised():
    """ANZCOR guideline 9.1.1: pressure; no evidence was found that raising the part helps."""
    module = read("modules", "knives-tins-and-cuts")
    steps = [module["text"], module["first_response"], *(one["show"] for one in module["segments"].values())]
    assert not any(re.search(r"\b(raise|lift it up|hold it up)\b", step) for step in steps)
    assert "press" in module["segments"]["press-it"]["show"]


@pytest.mark.parametrize("name", [name for name in KINDS if "clear" in PLACES[name]["rules"]["fire"]])
def test_clear_ground_is_the_widest_where_no_country_speaks(name):
    """Country Fire Authority of Victoria and Tasmania Parks: 3 m; common United States orders: 3 ft."""
    facts = read("modules", "fire-restrictions")["facts"]
    widest = max(metres(fact["value"]) for key, fact in facts.items() if key.startswith("clear"))
    assert metres(PLACES[name]["rules"]["fire"]["clear"]["value"]) >= widest


def test_the_bear_caution_holds_in_each_place_of_canada():
    """Common practice, no source: bears live in the parks of each of these provinces."""
    named = read("modules", "food-storage-and-wildlife")["cautions"]["animal-in-camp"]["applies"]["place"]
    assert {name for name, place in PLACES.items() if place.get("country") == "CA"} <= set(named)


@pytest.mark.parametrize("name", [name for name in PLACES if name not in KINDS])
def test_a_distance_that_nobody_published_says_so(name):
    rule = PLACES[name]["rules"]["greywater"]["distance"]
    assert rule["basis"] == "published" or re.search("ask|default", rule["note"]), rule


# a stove of each kind: what its sheets may not speak of
FAMILIES = {
    "canister on top": ("canister", r"white.gas|kerosene|liquid.fuel|pump|prim(?:e|ing)|alcohol|fuel tablets?"),
    "canister beside": ("canister", r"white.gas|kerosene|liquid.fuel|pump|prim(?:e|ing)|alcohol|fuel tablets?"),
    "heat exchanger": ("canister", r"white.gas|kerosene|liquid.fuel|pump|prim(?:e|ing)|alcohol|fuel tablets?"),
    "white gas": ("white gas", r"canisters?|(?<!white )gas stoves?|kerosene|alcohol|snuffer|fuel tablets?"),
    "kerosene": ("kerosene", r"canisters?|gas stoves?|white.gas|snuffer|fuel tablets?"),
    "alcohol": ("alcohol", r"canisters?|white.gas|kerosene|liquid.fuel|pump|prim(?:e|ing)|fuel tablets?"),
    "tablet": ("tablet", r"canisters?|white.gas|kerosene|liquid.fuel|pump|prim(?:e|ing)|alcohol|fuel bottles?"),
}
TRIP = """title: One stove
starts: 2027-05-14
people:
  learners: 1
  instructors: 1
  youngest: 13
kitchens:
  - name: Blue
    people: 2
    stove: {stove}
menu: boil only
windscreen: partial
water_treatment: filter
camps:
  - name: Lower meadow
    nights: 1
    elevation: 1200 m
    day: 18 C
    night: 12 C
    wind: calm
    place: inland-forest
restrictions:
  stoves: yes
  checked: 2027-05-12, ranger desk
course:
  minutes: 150
  starts: 9:00
"""
OWN = ["lesson-handout", "kitchen-checklist", "study-cards", "shake-down", "packing-list-blue"]


@pytest.mark.parametrize("stove", FAMILIES)
def test_each_sheet_speaks_of_its_own_stove(stove, leeside, tmp_path):
    """Common practice, no source: steps for another stove are steps that somebody takes."""
    (tmp_path / "trip.yaml").write_text(TRIP.format(stove=stove), encoding="utf-8")
    leeside("make", tmp_path / "trip.yaml", "--format", "md,html", "--out", tmp_path / "out")
    packet = tmp_path / "out" / "trip"
    # a study card for each thing that is checked
    checked = (packet / "learners" / "learn.html").read_text(encoding="utf-8").count("<li data-objective=")
    cards = (packet / "learners" / "study-cards.md").read_text(encoding="utf-8").split("## What to know")[1]
    assert 0 < checked <= cards.count("\n### "), stove
    forms = sorted((packet / "staff").glob("skills-check*.md"))
    for sheet in [*(packet / "learners" / f"{name}.md" for name in OWN), *forms]:
        text = " ".join(sheet.read_text(encoding="utf-8").split())
        # what a kitchen could change to, or takes along, is the trip's own and not a step
        text = re.sub(r"or another stove \([^)]*\)|after priming|no alcohol|priming alcohol", "", text)
        found = re.search(rf".{{40}}\b(?:{FAMILIES[stove][1]})\b.{{40}}", text, re.IGNORECASE)
        assert not found, (sheet.name, found.group(0))


@pytest.mark.parametrize("stove", FAMILIES)
def test_each_stove_has_items_for_three_forms(stove):
    """As the library's own count, for those who cook on this alone: two a form for what is a must."""
    fuel = FAMILIES[stove][0]

    def holds(block):
        applies = block.get("applies") or {}
        return fuel in applies.get("fuel", [fuel]) and stove in applies.get("stove", [stove])

    for path in sorted((CONTENT / "modules").glob("*.yaml")):
        module = read("modules", path.stem)
        if not holds(module):
            continue
        for name, objective in module["objectives"].items():
            asked = [one for one in module["questions"].values() if one["objective"] == name and holds(one)]
            plain = [one for one in asked if "sum" not in one and "scene" not in one]
            assert len(plain) >= (6 if objective.get("critical") else 4), (path.stem, name)
            taught = [one for one in module["segments"].values() if name in one["objectives"] and holds(one)]
            assert taught, (path.stem, name)
