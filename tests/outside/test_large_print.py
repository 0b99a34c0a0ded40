"""Large print (18 pt, --large-print) of every example trip: nothing is cut off or lost, the
checkers pass, and the letters are as large as promised."""

import re
import subprocess
import sys
import xml.etree.ElementTree
from collections import Counter
from pathlib import Path

import pytest

BIN = Path(sys.executable).parent
ROOT = Path(__file__).resolve().parents[2]
TRIPS = sorted((ROOT / "content/trips").glob("*.yaml"))


def run(*args, ok=(0,)):
    done = subprocess.run([str(a) for a in args], capture_output=True, text=True)
    assert done.returncode in ok, f"{args}\n{done.stdout[-3000:]}\n{done.stderr[-2000:]}"
    return done.stdout


@pytest.fixture(scope="session")
def large(leeside, tmp_path_factory):
    out = tmp_path_factory.mktemp("large")
    leeside("make", *TRIPS, "--format", "pdf", "--large-print", "--out", out)
    found = sorted(out.rglob("*.pdf"))
    assert len(found) > 80, "seven trips make more sheets than that"
    return out, found


def words(file):
    """The words of a PDF as its structure tree has them, without page furniture, sorted:
    columns may be read in another order, but no word may go missing. A hyphen parts words here,
    as a line may end at it in one print and not in the other."""
    tree = run("pdfinfo", "-struct-text", file)
    text = " ".join(re.findall(r'^\s*"(.*)"$', tree, re.M))
    # the revision names the job, and large print is another job
    text = re.sub(r"Revision \w+\.", "", text)
    return sorted(re.findall(r"\w[\w.,/']*", text))


def test_no_word_is_lost(packets, large):
    """A card in large print may draw what the usual one has no room for, so it may say more."""
    out, found = large
    for file in found:
        lost = Counter(words(packets / file.relative_to(out))) - Counter(words(file))
        assert not lost, f"{file.name} of {file.parent.parent.name}: {sorted(lost)[:10]}"


def test_nothing_stands_outside_its_page(large):
    """Every word that poppler sees lies on the page, 5 mm from its edges, and no word lies on
    another."""
    _, found = large
    for file in found:
        boxes = run("pdftotext", "-bbox", file, "-")
        boxes = re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", boxes)
        page = xml.etree.ElementTree.fromstring(boxes.replace(' xmlns="http://www.w3.org/1999/xhtml"', ""))
        for number, side in enumerate(page.iter("page"), 1):
            wide, tall = float(side.get("width")), float(side.get("height"))
            for word in side.iter("word"):
                left, right = float(word.get("xMin")), float(word.get("xMax"))
                top, bottom = float(word.get("yMin")), float(word.get("yMax"))
                inside = left > 14 and right < wide - 14 and top > 5 and bottom < tall - 14
                assert inside, f"{file.name} page {number}: '{word.text}' at {left} {top}, {right} {bottom}"


def test_letters_are_large(large):
    """The letters that most of a sheet is set in are 18 pt (the cards' a little less: they are cut
    to a size; slides and posters are larger, with a drawing's labels). A register is lines to write
    on: the foot of its pages has more letters than it."""
    import pypdf

    _, found = large
    for file in found:
        if file.stem in ("study-cards", "slides", "station-posters"):
            continue
        sizes = {}
        for page in pypdf.PdfReader(file).pages:
            def count(text, _cm, tm, _font, size):
                if text.strip():
                    sizes[round(size * abs(tm[3] or 1), 1)] = sizes.get(round(size * abs(tm[3] or 1), 1), 0) + len(text.strip())
            page.extract_text(visitor_text=count)
        if file.stem in ("register", "certificate", "week-later"):
            sizes.pop(13.5, None)
        most = max(sizes, key=sizes.get)
        assert most >= 17.9, f"{file.name} of {file.parent.parent.name}: mostly {most} pt"


def test_large_print_is_pdf_ua(large):
    _, found = large
    # TAG-002 takes a table's head that is repeated on a second page for lost words; test_pages
    # holds that rule for the same sheets at their usual size.
    run(BIN / "outloud", "--fail-on", "error", "--skip", "TAG-002", *found)
    run(BIN / "pdfua", "check", *found)
    for file in found:
        run("qpdf", "--check", file)
