"""The JSON Schemas of `leeside schema` against the validator of the jsonschema
package (draft 2020-12), the files that come with the program, the collection of
bad files, and the keys that `leeside check` itself knows in each block."""

import datetime
import json
import pathlib
import re

import pycountry
import pytest
import yaml
from jsonschema import Draft202012Validator

ROOT = pathlib.Path(__file__).resolve().parents[2]
CONTENT = ROOT / "content"
BAD = ROOT / "tests" / "bad" / "check"

SINGLE = {
    "library.yaml": "library",
    "sources.yaml": "sources",
    "menus.yaml": "menus",
    "figures.yaml": "figures",
    "plausible.yaml": "plausible",
    "gear/stoves.yaml": "stoves",
    "gear/fuels.yaml": "fuels",
    "gear/pots.yaml": "pots",
    "gear/containers.yaml": "containers",
}
FOLDERS = {"modules": "module", "places": "place", "profiles": "profile", "trials": "trial"}

# What a schema cannot see: one value held against another, against the library, against the
# calendar or against the range of a quantity (a quantity is text, and text has no size).
VALUES = set("""
blend-not-100 blend-of-liquid-fuel canister-does-not-fit course-fallback-too-short
course-check-before-teaching course-fallback-focus course-focus-banned course-focus-not-taught
course-no-free-adult course-nothing-left course-session-after-the-last course-session-focus-indoors
course-two-on-one-clock course-minutes-zero course-no-adult course-ratio course-stations course-too-short canister-equal-tags canister-heavier-than-full
canister-lighter-than-tare canister-unknown-size canister-without-scale canisters-too-many confidence content-not-there date drinking
efficiency-measured-over-100 efficiency-over-100 efficiency-zero elevation-high elevation-low equal-camps
equal-kitchens fuel-of-other-stove fuel-too-hot fuel-warmer-than-a-hand heating-value huge-number kitchen-name-is-no-name
kitchens-do-not-sum kitchens-listed-more-than-people kitchens-more-than-people kitchens-times-nights
liquid-feed nights-many nights-zero people-too-many people-zero pot-material power-of-a-furnace power-of-a-match
power-too-low pressure
price-unknown resupply-first resupply-unknown restrictions-no-stove-to-boil
restrictions-no-valve restrictions-yes-beside-a-ban snow-above-zero step temperature-high temperature-low
trial-blend trial-hotter-than-boiling trial-more-fuel-after trial-no-warmer trial-over-100 unknown-fuel
unknown-menu unknown-module unknown-objective unknown-place unknown-place-country
unknown-place-word unknown-profile unknown-stove-far unknown-stove
water-frozen water-hotter-than-boiling windscreen-full-on-canister
language-unknown language-beside-itself restrictions-camp-valve restrictions-camp-no-stove
restrictions-every-camp-no-stove restrictions-ban-and-stoves
""".split())

# Every block that a trip may have, in one file; invented.
EVERYTHING = """
kind: trip
title: Everything at once
starts: 2027-05-14
organisation: fernhollow
first_meal: supper
last_meal: breakfast
arrival: foot
units: both
paper: a4
people:
  learners: 4
  instructors: 2
  youngest: 17
  adults_per_lit_stove: 0.5
  diet:
    - tree nuts, strict
stove: white gas
kitchens:
  - name: Blue
    people: 3
    stove:
      extends: canister beside
      power: 2.4 kW
      least_power: 300 W
      efficiency:
        low: 40%
        likely: 48%
        high: 60%
      usual:
        boil_only: [20, 30]
    blend: propane 30, isobutane 70
    windscreen: partial
    lid: yes
    pots:
      - aluminium 2 L, 280 g
    measured:
      efficiency: 47%
      wind: calm
      spread: 12%
  - name: Red
    people: 3
    heating_value: 44.1 MJ/kg
    pots: stainless 2 L
camps:
  - name: Lower meadow
    nights: 1
    elevation: 8200 ft
    place: inland forest
    rules:
      checked: 2027-05-12, ranger desk
      greywater:
        distance: 200 ft
      soap.use: none at this camp
      burying: nothing
    menu:
      extends: boil only
      supper:
        boil: 0.6 L
        simmer: 8 min
        times_a_day: 1
      lunch: cold
  - name: Tarn bench
    nights: 2
    elevation: 10100 ft
    pressure: 70.5 kPa
    day: 40 F
    night: 21 F
    water_from: snow
    water: 28 F
    wind: windy
    drinking: 3 L
    fuel_temperature: 41 F
second_stove: yes
part_used_at_most: 2
spare: one extra day
confidence: 90%
resupply: Tarn bench
drinking: 3 L
prices:
  canister 230 g: 7.50
canisters_on_hand:
  - tag: F-014
    size: 230 g
    gross: 291 g
    tare: 150 g
    blend: propane 30, isobutane 70
    present: propane 20, isobutane 80
    connection: thread
menu: boil only
water_treatment: filter
washing: wipe and rinse
eating: own bowls
step_length: 0.76 m
boil_rules: cdc
restrictions:
  stage: shut-off valve only
  checked: 2027-05-12, ranger desk
  stoves: with a shut-off valve
  until: 2027-06-30
emergency:
  call: 555-0117
  nearest_help: 5 h walk out
course:
  starts: 9:00
  stations: 2
  level: scout
  focus: greywater
  sessions:
    - name: First
      minutes: 90
      starts: 14:30
  place: outdoors
  fallback:
    minutes: 45
    place: indoors
"""


@pytest.fixture(scope="session")
def schema(leeside):
    made = {}

    def validator(kind):
        if kind not in made:
            text = json.loads(leeside("schema", kind).stdout)
            Draft202012Validator.check_schema(text)
            made[kind] = Draft202012Validator(text)
        return made[kind]

    return validator


def days_as_text(value):
    """As an editor has them: a day is a text to JSON."""
    if isinstance(value, dict):
        return {str(key): days_as_text(one) for key, one in value.items()}
    if isinstance(value, list):
        return [days_as_text(one) for one in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def read_twice(text):
    """As typed, and with numbers, days and yes or no as an editor may see them."""
    yield yaml.load(text, Loader=yaml.BaseLoader)
    yield days_as_text(yaml.safe_load(text))


def kind_of(tree):
    if isinstance(tree, dict) and "runs" in tree:
        return "trial"
    return "lesson" if isinstance(tree, dict) and tree.get("kind") == "lesson" else "trip"


def content_files():
    for path in sorted(CONTENT.rglob("*.yaml")):
        name = path.relative_to(CONTENT).as_posix()
        # another language holds the texts alone, which the program holds against the English files
        if name.startswith("es/"):
            continue
        kind = SINGLE.get(name) or FOLDERS.get(path.parent.name)
        if kind is None:
            assert path.parent.name == "trips", name
            kind = kind_of(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
        yield pytest.param(path, kind, id=name)


def leaves(error):
    yield error
    for inner in error.context:
        yield from leaves(inner)


def said(errors):
    return "\n".join(f"{error.json_path}: {error.message[:300]}" for error in errors)


@pytest.mark.parametrize(("path", "kind"), list(content_files()))
def test_the_content_is_valid(schema, path, kind):
    for tree in read_twice(path.read_text(encoding="utf-8")):
        errors = list(schema(kind).iter_errors(tree))
        assert not errors, said(errors)


def test_everything_at_once_is_valid(leeside, schema, tmp_path):
    path = tmp_path / "everything.yaml"
    path.write_text(EVERYTHING)
    leeside("check", path)
    for tree in read_twice(EVERYTHING):
        errors = list(schema("trip").iter_errors(tree))
        assert not errors, said(errors)


def bad_files():
    for path in sorted(BAD.glob("*.yaml")):
        if not path.with_suffix(".args").exists():
            yield path


def test_bad_files_are_refused_but_for_values(schema):
    accepted = set()
    for path in bad_files():
        tree = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        if schema(kind_of(tree)).is_valid(tree):
            accepted.add(path.stem)
    assert accepted == VALUES


def test_keys_that_are_no_keys_are_refused(schema):
    shaped = [
        path
        for path in bad_files()
        if re.search(r"error\[(key\.|value\.shape)", path.with_suffix(".stderr").read_text(encoding="utf-8"))
    ]
    assert len(shaped) > 10
    for path in shaped:
        for tree in read_twice(path.read_text(encoding="utf-8")):
            assert not schema(kind_of(tree)).is_valid(tree), path.name


ODD = "zzqqxx"
# `check` looks for each of these to see which shape it has; a shape has one of them
SHAPES = {"line", "curve", "ellipse", "label"}
# `check` looks for these in a lesson to refuse them
OF_A_TRIP = {"arrival", "first_meal", "last_meal", "resupply", "confidence", "drinking"}
# `check` knows these of old only to refuse them with a better word than "no such key"
FORMER = {"needs_shut_off", "no_flame"}


def with_odd_keys(tree):
    if isinstance(tree, dict):
        return {**{key: with_odd_keys(one) for key, one in tree.items()}, ODD: "1"}
    return [with_odd_keys(one) for one in tree] if isinstance(tree, list) else tree


def dotted(path):
    return "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in path).lstrip(".")


def folded(words):
    return {word.replace(" ", "_").replace("-", "_") for word in words}


def known_to_check(leeside, path, tree):
    """By block: the keys that `check` names when it meets one that it does not know."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.safe_dump(with_odd_keys(tree), sort_keys=False, allow_unicode=True), encoding="utf-8")
    answer = json.loads(leeside("check", path, "--json", ok=False).stdout)
    known = {}
    for problem in answer["problems"]:
        where = problem["path"] or ""
        if problem["code"] == "key.unknown" and problem["help"].startswith("known here: ") and where.endswith(ODD):
            known[where.removesuffix(ODD).rstrip(".")] = folded(problem["help"].removeprefix("known here: ").split(", "))
    return known


def known_to_schema(validator, tree):
    """By block: the keys of each schema that refuses the odd one there."""
    known = {}
    for top in validator.iter_errors(with_odd_keys(tree)):
        for error in leaves(top):
            if error.validator == "additionalProperties" and error.schema["additionalProperties"] is False:
                where = dotted(error.absolute_path)
                known.setdefault(where, []).append(error.schema)
    return known


def sound_trees():
    for param in content_files():
        path, kind = param.values
        yield kind, path.relative_to(CONTENT), yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    yield "trip", pathlib.Path("trips/everything.yaml"), yaml.load(EVERYTHING, Loader=yaml.BaseLoader)


def test_check_and_schema_know_the_same_keys(leeside, schema, tmp_path):
    """A key that only one of the two knows is a slip of whoever added it. What `check` asks for
    may depend on the rest of the block (a stove on legs has legs): over all files together the
    keys of a schema must be those that `check` named."""
    asked = {}
    for kind, name, tree in sound_trees():
        ours = known_to_schema(schema(kind), tree)
        for where, keys in known_to_check(leeside, tmp_path / name, tree).items():
            candidates = ours.get(where, [])
            assert candidates, f"{name}: the schema takes any key in `{where}`"
            fits = 0
            for one in candidates:
                names = frozenset(folded(one["properties"]))
                fitting = keys - (SHAPES - names) if keys >= SHAPES else keys
                if kind == "lesson" and where == "":
                    fitting = fitting - OF_A_TRIP
                if where == "restrictions":
                    fitting = fitting - FORMER
                if fitting <= names:
                    fits += 1
                    asked.setdefault((kind, names), set()).update(fitting)
            assert fits, f"{name}: `{where}`: {sorted(keys)}; schema: {[sorted(one['properties']) for one in candidates]}"
    assert len(asked) > 40, len(asked)
    for (kind, names), keys in asked.items():
        # laid over before `check` sees it
        only_ours = names - keys - {"extends", "base"}
        assert not only_ours, f"{kind}: the schema alone knows {sorted(only_ours)} beside {sorted(keys)}"


def test_check_and_schema_know_the_same_rules(leeside, schema, tmp_path):
    rules = schema("trip").schema["$defs"]["rules"]["properties"]
    tree = yaml.load(EVERYTHING, Loader=yaml.BaseLoader)
    path = tmp_path / "rules.yaml"

    def sample(rule):
        return "60 m" if rule["$ref"].endswith("length") else "ask the ranger"

    def named(odd):
        """The rules that `check` names beside one that there is not."""
        tree["camps"][0]["rules"] = odd
        path.write_text(yaml.safe_dump(tree, sort_keys=False))
        answer = json.loads(leeside("check", path, "--json", ok=False).stdout)
        (problem,) = answer["problems"]
        return set(re.findall("`([^`]+)`", problem["help"]))

    groups = {key for key in rules if "." not in key and key != "checked"}
    assert named({ODD: "1"}) == groups
    flat = {key: sample(one) for key, one in rules.items() if "properties" not in one}
    nested = {}
    for group in groups:
        if "properties" in rules[group]:
            assert named({group: {ODD: "1"}}) == set(rules[group]["properties"])
            nested[group] = {key: sample(one) for key, one in rules[group]["properties"].items()}
    for sound in (flat, nested):
        tree["camps"][0]["rules"] = sound
        path.write_text(yaml.safe_dump(tree, sort_keys=False))
        leeside("check", path)
        assert schema("trip").is_valid(tree)


def test_codes_of_places_are_those_of_the_standards(schema):
    """ISO 3166-1 and ISO 639-1 as the pycountry package has them from Debian's iso-codes."""
    properties = schema("place").schema["properties"]
    countries = {one.alpha_2 for one in pycountry.countries}
    languages = {one.alpha_2 for one in pycountry.languages if hasattr(one, "alpha_2")}
    assert set(properties["country"]["enum"]) == countries
    one, several = properties["language"]["anyOf"]
    assert set(one["enum"]) == languages
    assert set(several["items"]["enum"]) == languages
