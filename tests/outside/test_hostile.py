"""Trips with the longest words that are taken: a title of 200 characters, camps of 80, ten kitchens,
forty canisters. No word of any sheet lies on another, outside its page, or is lost."""

import re
import subprocess
import xml.etree.ElementTree

import pytest

LONG_TITLE = ("Autumn crossing of the long ridge with everybody who wanted to come along " * 3)[:200].strip()
LONG_CAMP = "Upper meadow below the old sheep fold where the second stream joins the first one"[:80].strip()
# nobody can break a word for its writer: one without a space
ONE_WORD = "Unterwasserschattenwiesenhochtalquellbachsammelplatzlagerfeuerstellenverbot"[:75]


def trip(title, camps, kitchens, canisters, lesson=False):
    lines = [f"title: {title}", "starts: 2027-09-11", "organisation: fernhollow"]
    lines += ["people:", f"  learners: {2 * kitchens}", f"  instructors: {kitchens}", "  youngest: 19", "kitchens:"]
    for number in range(kitchens):
        name = f"Kitchen of the group that walks behind {number + 1}"[:40] if number % 2 else f"K{number + 1}"
        lines += [f"  - name: {name}", "    people: 3", "    stove: canister on top", "    pots: [aluminium 1.5 L]"]
    lines += ["windscreen: none", "menu: boil only", "water_treatment: filter", "washing: wipe and rinse", "eating: from the pouch", "camps:"]
    for name in camps:
        lines += [f"  - name: {name}", "    nights: 1", "    elevation: 900 m", "    day: 12 C", "    night: 5 C", "    water: 9 C", "    wind: calm", "    place: inland forest"]
    if canisters:
        lines += ["canisters_on_hand:"]
    for number in range(canisters):
        lines += [f"  - tag: F-{number + 1:03}", "    size: 230 g", f"    gross: {300 + number} g", "    tare: 150 g", "    blend: propane 30, isobutane 70", "    connection: thread"]
    lines += ["restrictions:", "  stoves: yes", "  checked: 2027-09-01, keeper of the forest", "emergency:", "  call: 555-0117", f"  nearest_help: {LONG_CAMP}"]
    return "\n".join(lines) + "\n"


CASES = {
    "long": (LONG_TITLE, [LONG_CAMP, LONG_CAMP[:-5] + " twice", ONE_WORD], 2, 2),
    "many": ("Ten kitchens", ["Lower hut", "Upper hut"], 10, 40),
}


@pytest.fixture(scope="session", params=["letter", "a4-large"])
def made(request, leeside, tmp_path_factory):
    folder = tmp_path_factory.mktemp("hostile")
    for name, case in CASES.items():
        (folder / f"{name}.yaml").write_text(trip(*case))
    looks = ["--paper", "a4", "--large-print"] if request.param == "a4-large" else ["--paper", "letter"]
    leeside("make", *sorted(folder.glob("*.yaml")), "--format", "pdf,md", *looks, "--out", folder / "out")
    found = sorted((folder / "out").rglob("*.pdf"))
    assert len(found) > 40, "two trips, one of ten kitchens, make more sheets than that"
    return found


def pages(file):
    text = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    text = re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", text)
    return xml.etree.ElementTree.fromstring(text.replace(' xmlns="http://www.w3.org/1999/xhtml"', "")).iter("page")


def box(word):
    return tuple(float(word.get(side)) for side in ("xMin", "yMin", "xMax", "yMax"))


def test_nothing_overflows(made):
    for file in made:
        for number, page in enumerate(pages(file), 1):
            wide, tall = float(page.get("width")), float(page.get("height"))
            for word in page.iter("word"):
                left, top, right, bottom = box(word)
                inside = left > 14 and right < wide - 14 and top > 5 and bottom < tall - 14
                assert inside, f"{file.parent.parent.name}/{file.stem}, page {number}: '{word.text}' at {left}, {top}"


def test_no_word_lies_on_another(made):
    """Two words share no more than a quarter of the smaller one's height and width: letters reach
    a little out of their line by design."""
    for file in made:
        for number, page in enumerate(pages(file), 1):
            words = sorted(((box(word), word.text) for word in page.iter("word")), key=lambda one: one[0][1])
            for at, ((left, top, right, bottom), one) in enumerate(words):
                for (left2, top2, right2, bottom2), other in words[at + 1 :]:
                    if top2 >= bottom:
                        break
                    across = min(right, right2) - max(left, left2)
                    down = min(bottom, bottom2) - top2
                    most = (0.25 * min(right - left, right2 - left2) + 1, 0.4 * min(bottom - top, bottom2 - top2))
                    lies = across > most[0] and down > most[1]
                    assert not lies, f"{file.parent.parent.name}/{file.stem}, page {number}: '{one}' and '{other}'"


def test_no_name_is_lost(made):
    """What the Markdown of a sheet names, its PDF names whole: title, camps, kitchens, canisters."""
    squeezed = lambda text: re.sub(r"[\s\\]+", "", text)
    seen = 0
    for file in made:
        title, camps, kitchens, canisters = CASES[file.parent.parent.name]
        names = [title, *camps, *re.findall(r"name: (K.*)", trip(title, camps, kitchens, 0)), *(f"F-{n + 1:03}" for n in range(canisters))]
        markdown = squeezed(re.sub(r"^```.*?^```", "", file.with_suffix(".md").read_text(), flags=re.M | re.S))
        tree = subprocess.run(["pdfinfo", "-struct-text", str(file)], capture_output=True, text=True, check=True).stdout
        text = squeezed("".join(re.findall(r'^\s*"(.*)"$', tree, re.M)))
        for name in names:
            if squeezed(name) in markdown:
                seen += 1
                assert squeezed(name) in text, f"{file.parent.parent.name}/{file.stem} loses '{name}'"
    assert seen > 200, seen
