"""The slides of a lesson: on their side, one idea a page, in the order of the lesson plan's clock."""

import json
import pathlib
import re
import subprocess
import xml.etree.ElementTree

import pytest
import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
LESSONS = ["school-yard", "candidates-three-days", "rainy-day", "half-hour-wash-water"]
# A slide is read at a glance, from the back of a room: common practice, no source.
MOST_WORDS = 40
LEAST_LETTER = 30
SEGMENTS = {
    f"{path.stem}.{name}": segment
    for path in (ROOT / "content" / "modules").glob("*.yaml")
    for name, segment in yaml.safe_load(path.read_text()).get("segments", {}).items()
}
# Pages that are no segment's.
OTHERS = {
    "Look", "What do we still know?", "All off!", "Break", "Your worksheet", "Your form", "Show it",
}


@pytest.fixture(scope="module", params=LESSONS)
def deck(request, packets):
    return packets / request.param / "staff" / "slides"


def run(*args):
    return subprocess.run(list(map(str, args)), capture_output=True, text=True, check=True).stdout


def test_one_idea_a_page_on_its_side(deck):
    pages = deck.with_suffix(".md").read_text().count("\n***\n") + 1
    html = run("pdftotext", "-bbox-layout", deck.with_suffix(".pdf"), "-")
    space = "{http://www.w3.org/1999/xhtml}"
    found = list(xml.etree.ElementTree.fromstring(html).iter(f"{space}page"))
    assert len(found) == pages > 3
    for page in found:
        width, height = float(page.get("width")), float(page.get("height"))
        assert width > height
        large = 0
        lines = list(page.iter(f"{space}line"))
        words = {line: [word.text for word in line.iter(f"{space}word")] for line in lines}
        foot = next(float(line.get("yMin")) for line in reversed(lines) if "page" in words[line] and "of" in words[line])
        for line in lines:
            # a line's box is about 1.25 times its letters' size; words in a drawing are small
            if float(line.get("yMax")) < foot + 5 and float(line.get("yMax")) - float(line.get("yMin")) >= LEAST_LETTER:
                large += len(words[line])
        assert 0 < large <= MOST_WORDS, (deck, large)


def test_slides_follow_the_clock(deck, leeside):
    trip = f"content/trips/{deck.parent.parent.name}.yaml"
    sessions = json.loads(leeside("plan", trip, "--json").stdout)["course"]["sessions"]
    held = []
    for row in (row for one in sessions for row in one["rows"]):
        for name in (row["segment"], *(place["does"] for place in row["places"])):
            if name in SEGMENTS and name not in held and SEGMENTS[name].get("sentence"):
                held.append(name)
    names = {one["name"] for one in sessions}
    heads = re.findall(r"^## (.*)$", deck.with_suffix(".md").read_text(), re.M)
    heads = [re.sub(r"\\([^\w\s])", r"\1", head) for head in heads]
    own = [head for head in heads if head not in OTHERS | names and not head.startswith("Your turn: ")]
    assert own == [SEGMENTS[name]["title"] for name in held]
    assert ("All off!" in heads) == any(row["flame"] for one in sessions for row in one["rows"])
