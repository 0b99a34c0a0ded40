"""How hard the learner texts read, held against textstat (Flesch-Kincaid grade; syllables from
the CMU Pronouncing Dictionary, the first way of saying a word). Its text is made here, apart from
the program: without marks, headings and tables, a full stop at the end of each item."""

import pathlib
import re

import pytest
import textstat
import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
MODULES = sorted((ROOT / "content" / "modules").glob("*.yaml"))

# Ours counts syllables by spelling, textstat looks them up; ours counts each sentence, textstat
# leaves out those of one or two words.
WORDS = 0.01
SYLLABLES = 0.05
GRADES = 1.0


def plain(module):
    facts = module.get("facts") or {}

    def printed(found):
        fact = facts.get(found.group(1)) or {}
        return str(fact["text"]) if "text" in fact else "ten"

    parts = [module["text"], *(part["text"] for part in (module.get("sections") or {}).values())]
    text = re.sub(r"\{([\w.-]+)\}", printed, "\n".join(parts))
    lines = ["" if re.match(r"\s*[#|]", line) else line for line in text.splitlines()]
    parts = []
    for block in re.split(r"\n\s*\n|\n(?=\s*(?:[-*] |\d+\. ))", "\n".join(lines)):
        block = re.sub(r"^\s*(?:[-*>] |\d+\. )", "", block.strip())
        block = " ".join(re.sub(r"[*_`]", "", block).split())
        if block:
            parts.append(block if block[-1] in ".!?" else block.rstrip(";:,") + ".")
    return " ".join(parts)


@pytest.fixture(scope="session")
def ours(leeside):
    rows = [line.split() for line in leeside("list", "modules", "--reading").stdout.splitlines()[1:]]
    return {row[0]: [float(cell) for cell in row[1:5]] for row in rows}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_counts_and_grade_agree(path, ours):
    text = plain(yaml.safe_load(path.read_text(encoding="utf-8")))
    words, _, syllables, grade = ours[path.stem]
    theirs = (textstat.lexicon_count(text), textstat.syllable_count(text), textstat.flesch_kincaid_grade(text))
    assert words == pytest.approx(theirs[0], rel=WORDS), theirs
    assert syllables == pytest.approx(theirs[1], rel=SYLLABLES), theirs
    assert abs(grade - theirs[2]) <= GRADES, (grade, theirs)
    # what the content is held to, by their count as well as by ours
    assert max(grade, theirs[2]) <= 8.0


def test_every_module_is_read(ours):
    assert set(ours) == {path.stem for path in MODULES}
    assert len(MODULES) >= 30


# What a learner reads beside the text of a subject, each kind of it joined to one text.
def beside(module):
    def all_of(key, part):
        return [str(one[part]) for one in (module.get(key) or {}).values()]

    items = [str(one["say"]) for group in (module.get("checklist") or {}).values() for one in group.values()]
    return {
        "summary": [module["summary"]],
        "first response": [module.get("first_response") or ""],
        "story": [module.get("story") or ""],
        "items": items,
        "captions": all_of("drawings", "caption"),
        "questions": all_of("questions", "ask"),
        "reasons": all_of("questions", "because"),
        "objectives": all_of("objectives", "say"),
    }


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_what_stands_beside_the_text_is_as_easy(path):
    module = yaml.safe_load(path.read_text(encoding="utf-8"))
    for kind, parts in beside(module).items():
        text = plain({**module, "sections": {}, "text": "\n\n".join(parts)})
        if text:
            assert textstat.flesch_kincaid_grade(text) <= 8.0, (kind, text)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.stem)
def test_boxes_are_easier(path):
    module = yaml.safe_load(path.read_text(encoding="utf-8"))
    boxes = [
        ". ".join(str(box[part]) for part in ("hazard", "consequence", "avoid", "respond") if box.get(part)) + "."
        for box in (module.get("cautions") or {}).values()
    ]
    if boxes:
        assert textstat.flesch_kincaid_grade(plain({**module, "sections": {}, "text": "\n\n".join(boxes)})) <= 6.0, boxes
