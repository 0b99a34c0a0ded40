"""The printed pages of every example trip, read by real tools: PDF/UA checkers
(PyPI: outloud, pdfua), qpdf, poppler, pypdf; and the fuel worksheet's key worked
again from what pdftotext reads off the page."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

BIN = Path(sys.executable).parent


def sheets(packets):
    found = sorted(packets.rglob("*.pdf"))
    assert len(found) > 80, "seven trips make more sheets than that"
    return found


def run(*args, ok=(0,)):
    done = subprocess.run([str(a) for a in args], capture_output=True, text=True)
    assert done.returncode in ok, f"{args}\n{done.stdout[-3000:]}\n{done.stderr[-2000:]}"
    return done.stdout


def test_every_sheet_is_pdf_ua(packets):
    files = sheets(packets)
    # TAG-002 knows a running head only where it stands on three pages or more. The plan of several
    # sessions repeats the head of a table on its last page alone: the words of that head are read
    # once, where the table begins.
    long = [file for file in files if file.parts[-3] == "candidates-three-days" and file.stem == "lesson-plan"]
    assert len(long) == 1
    run(BIN / "outloud", "--fail-on", "error", *(file for file in files if file not in long))
    run(BIN / "outloud", "--fail-on", "error", "--skip", "TAG-002", *long)
    run(BIN / "pdfua", "check", *files)


def test_every_sheet_is_whole(packets):
    for file in sheets(packets):
        run("qpdf", "--check", file)


def test_fonts_are_embedded_subsets(packets):
    for file in sheets(packets):
        rows = run("pdffonts", file).splitlines()[2:]
        assert rows, file
        for row in rows:
            assert re.search(r"\byes\s+yes\s+(yes|no)\s+\d+\s+\d+$", row), f"{file}: not embedded and subset: {row}"


def test_a_box_is_ticked_and_drawn(packets, tmp_path):
    source = packets / "quillback-ridge/learners/kitchen-checklist.pdf"
    writer = pypdf.PdfWriter(clone_from=source)
    page = writer.pages[0]
    name = next(a.get_object()["/T"] for a in page["/Annots"] if a.get_object().get("/FT") == "/Btn")
    on = next(k for k in next(a.get_object() for a in page["/Annots"] if a.get_object().get("/T") == name)["/AP"]["/N"] if k != "/Off")
    writer.update_page_form_field_values(page, {name: on}, auto_regenerate=False)
    ticked = tmp_path / "ticked.pdf"
    writer.write(ticked)
    pictures = []
    for file in (source, ticked):
        picture = tmp_path / file.stem
        run("pdftoppm", "-r", "60", "-f", "1", "-l", "1", "-singlefile", file, picture)
        pictures.append(picture.with_suffix(".ppm").read_bytes())
    assert pictures[0] != pictures[1], "a ticked box is drawn"


def test_sides_of_paper(packets):
    """field.md asks: a briefing on one side, a kitchen card on one leaf, a handout on at most six; a grid of
    what is watched takes one leaf for six candidates, and no example fills more than four sides. A fuel
    worksheet that asks for the losses takes a second side."""
    most = {"briefing-sheet": 1, "kitchen-checklist": 2, "lesson-handout": 6, "skills-check-grid": 4, "packing-list": 1, "return-sheet": 1, "fuel-worksheet": 1, "parent-letter": 1, "stove-choice": 2}
    over = []
    for file in sheets(packets):
        for name, sides in most.items():
            if re.fullmatch(rf"{name}(-(?!key).*)?", file.stem):
                pages = len(pypdf.PdfReader(file).pages)
                with_losses = name == "fuel-worksheet" and "What is lost to the air" in file.with_suffix(".md").read_text()
                if pages > sides + with_losses:
                    over.append(f"{file.parent.parent.name}/{file.stem}: {pages} sides, at most {sides}")
    assert not over, "\n".join(over)


def value(text):
    if not re.fullmatch(r"[\d.+\-x/() ]+", text):
        return None
    return eval(text.replace("x", "*"))  # only digits and + - x / ( ) reach this


def test_the_key_works_out_from_the_page(packets):
    """Each line of the key as poppler reads it: the printed formula, worked with the printed
    numbers, is the printed result (four significant digits)."""
    worked = 0
    for file in sorted(packets.rglob("fuel-worksheet-key*.pdf")):
        reader = run("pdfinfo", "-struct-text", file)
        cells = [line.strip().strip('"') for line in reader.splitlines() if line.strip().startswith('"')]
        text = " ".join(cells)
        markdown = file.with_suffix(".md").read_text()
        for row in re.findall(r"^\| \d+ \| (.*?) \| (.*?) \| \*\*(.*?)\*\* \|$", markdown, re.M):
            _, formula, result = row
            got = value(formula)
            if got is None:
                continue
            printed = float(re.match(r"[\d.]+", result).group())
            assert got == pytest.approx(printed, rel=6e-4, abs=0.006), f"{file.name}: {formula} = {result}"
            squeezed = re.sub(r"\s+", "", text)
            assert re.sub(r"\s+", "", formula) in squeezed, f"{file.name}: the page shows {formula}"
            assert re.sub(r"\s+", "", result) in squeezed, f"{file.name}: the page shows {result}"
            worked += 1
    assert worked > 150, worked


def test_manifests_tell_the_files(packets):
    for file in packets.glob("*/manifest.json"):
        manifest = json.loads(file.read_text())
        assert manifest["format"].startswith("leeside-manifest/")


SUM = r"(\d+) s × ([\d.]+) kW ÷ ([\d.]+) MJ/kg(?: \+ (\d+) × ([\d.]+) g)? = ([\d.]+) g\s+(\d+) g"


def test_the_fuel_for_practice_works_out_from_the_page(packets):
    """Seconds x power / heating value and what lighting takes give the printed grams, and the next
    five grams up are set out."""
    found = 0
    for file in sorted(packets.glob("*/staff/lesson-plan.pdf")):
        text = run("pdftotext", "-layout", file, "-").replace("\u00a0", " ")
        for numbers in re.findall(SUM, text):
            seconds, power, heat, times, each, grams, out = (float(one or 0) for one in numbers)
            worked = seconds * power / heat + times * each
            assert worked == pytest.approx(grams, abs=0.06), (file, numbers)
            assert out % 5 == 0 and grams <= out + 0.06 and out < grams + 5, (file, numbers)
            found += 1
    assert found >= 5


def test_no_markup_is_printed(packets):
    """Marks that mean something in Markdown or on a terminal are no letters on paper."""
    for file in sheets(packets):
        text = run("pdftotext", file, "-")
        for mark in ("`", "**", "{{", "{%", "](", "\\"):
            assert mark not in text, f"{file.parent.parent.name}/{file.stem} prints {mark}"
