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
