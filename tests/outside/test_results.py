"""What the commands print with --json against the schemas of `leeside schema`, by the validator
of the jsonschema package (draft 2020-12), and that the schemas leave no key untold."""

import json
import pathlib

import pytest
from jsonschema import Draft202012Validator

ROOT = pathlib.Path(__file__).resolve().parents[2]
TRIPS = sorted((ROOT / "content" / "trips").glob("*.yaml"))
RIDGE = "content/trips/quillback-ridge.yaml"


@pytest.fixture(scope="module")
def schemas(leeside):
    kinds = ("plan", "check", "why", "list", "make")
    found = {kind: json.loads(leeside("schema", kind).stdout) for kind in kinds}
    for schema in found.values():
        Draft202012Validator.check_schema(schema)
    return found


def untold(value, schema, path=""):
    """Paths of a value that a schema says nothing of; an open schema tells whatever is below it."""
    for other in schema.get("anyOf", []):
        if other.get("type") != "null":
            schema = other
    if isinstance(value, dict) and "properties" in schema:
        for key, below in value.items():
            if key not in schema["properties"]:
                yield f"{path}.{key}"
            else:
                yield from untold(below, schema["properties"][key], f"{path}.{key}")
    elif isinstance(value, list) and "items" in schema:
        for below in value:
            yield from untold(below, schema["items"], f"{path}[]")


def held(said, schema):
    value = json.loads(said)
    problems = [f"{list(one.path)}: {one.message}" for one in Draft202012Validator(schema).iter_errors(value)]
    assert not problems, problems[:5]
    assert not sorted(set(untold(value, schema)))
    return value


@pytest.mark.parametrize("trip", TRIPS, ids=lambda trip: trip.stem)
def test_plan(leeside, schemas, trip):
    plan = held(leeside("plan", trip, "--json").stdout, schemas["plan"])
    assert plan["kitchens"]


def test_what_if(leeside, schemas):
    plan = held(leeside("plan", RIDGE, "--json", "--what-if").stdout, schemas["plan"])
    assert plan["what_if"]


def test_why(leeside, schemas):
    ids = held(leeside("why", RIDGE, "--json").stdout, schemas["why"])["ids"]
    assert len(ids) > 20
    for one in ids[:: max(1, len(ids) // 10)]:
        why = held(leeside("why", RIDGE, one["id"], "--json").stdout, schemas["why"])
        assert why["why"]["id"] == one["id"]


def test_check(leeside, schemas):
    said = leeside("check", "tests/bad/check/bare-number.yaml", "--json", ok=False).stdout
    assert held(said, schemas["check"])["problems"]


def test_make(leeside, schemas, tmp_path):
    said = leeside("make", RIDGE, "--format", "md", "--out", tmp_path, "--dry-run", "--json").stdout
    (packet,) = held(said, schemas["make"])["packets"]
    assert packet["would"] and not any(tmp_path.iterdir())


def test_list(leeside, schemas):
    for what in "modules sheets bundles gear fuels menus places profiles sources topics".split():
        rows = json.loads(leeside("list", what, "--json").stdout)
        assert not list(Draft202012Validator(schemas["list"]).iter_errors(rows)), what
        assert rows["what"] == what and all(row["id"] for row in rows["rows"])
