"""The bound file of a bundle keeps the promises of its sheets: whole, tagged, every word there."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

BIN = Path(sys.executable).parent
ROOT = Path(__file__).resolve().parents[2]


def run(*command):
    result = subprocess.run([str(part) for part in command], capture_output=True, text=True)
    assert result.returncode == 0, f"{command}\n{result.stdout[-3000:]}{result.stderr[-3000:]}"
    return result.stdout


@pytest.fixture(scope="module")
def bound(tmp_path_factory):
    out = tmp_path_factory.mktemp("bundle")
    trips = [ROOT / "content/trips" / f"{name}.yaml" for name in ("quillback-ridge", "boathouse-evening")]
    run(os.environ["LEESIDE"], "make", *trips, "--bundle", "all", "--format", "pdf", "--out", out)
    return sorted(out.glob("*/packet.pdf"))


def test_a_bound_file_is_pdf_ua(bound):
    assert len(bound) == 2
    # TAG-002 takes words off the reading order for running heads only where they stand on many
    # pages of the file; a sheet of two sides has its head on two of a hundred. That rule is held
    # for each sheet alone in test_pages.
    run(BIN / "outloud", "--fail-on", "error", "--skip", "TAG-002", *bound)
    run(BIN / "pdfua", "check", *bound)
    for file in bound:
        run("qpdf", "--check", file)


def test_a_bound_file_holds_the_words_of_its_sheets(bound):
    for file in bound:
        words = set(run("pdftotext", file, "-").split())
        # slides are for a wall and not for the printer
        for sheet in (one for one in file.parent.glob("*/*.pdf") if one.stem != "slides"):
            lost = set(run("pdftotext", sheet, "-").split()) - words
            assert not lost, f"{sheet.name}: {sorted(lost)[:10]}"


# Leaves of paper that an instructor prints on the evening before; the project's own limit.
TONIGHT = 25
LESSONS = sorted(
    path for path in (ROOT / "content/trips").glob("*.yaml") if "kind: lesson" in path.read_text()
)


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_tonight_with_twelve_learners_is_no_stack(tmp_path, path):
    text, count = re.subn(r"(?m)^  learners: \d+", "  learners: 12", path.read_text())
    assert count == 1
    trip = tmp_path / path.name
    trip.write_text(text)
    run(os.environ["LEESIDE"], "make", trip, "--bundle", "tonight", "--format", "pdf", "--out", tmp_path)
    made = json.loads((tmp_path / path.stem / "manifest.json").read_text())["sheets"]
    leaves = 0
    for stem, line in made.items():
        pages = [one for one in (tmp_path / path.stem).glob(f"*/{stem}.pdf")]
        if pages:
            # counted from the file itself: sides as the sheet's own line of the print guide says
            sides = int(re.search(r"Pages: +(\d+)", run("pdfinfo", pages[0]))[1])
            assert sides == line["pages"], stem
            one = {"one side": sides, "both": -(-sides // 2), "first": 1 + -(-(sides - 1) // 2)}
            assert line["leaves"] in one.values(), stem
            leaves += line["leaves"] * line["copies"]
    assert 0 < leaves <= TONIGHT, {stem: (line["leaves"], line["copies"]) for stem, line in made.items()}
