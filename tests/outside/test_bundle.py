"""The bound file of a bundle keeps the promises of its sheets: whole, tagged, every word there."""

import os
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
        for sheet in file.parent.glob("*/*.pdf"):
            lost = set(run("pdftotext", sheet, "-").split()) - words
            assert not lost, f"{sheet.name}: {sorted(lost)[:10]}"
