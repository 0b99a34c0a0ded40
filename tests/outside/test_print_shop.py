"""The files of a season for the print shop: whole, tagged, each departure on leaves of its own,
all return sheets together at the end. Read by poppler, qpdf, pypdf and the checkers of PDF/UA."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest
from given import LEDGE

BIN = Path(sys.executable).parent
# a Friday and a Saturday of one week (ISO 8601), a Monday of the next
TABLE = """departure,base,start date,learners,guide
heron,otter,2027-06-04,3,Guide A
dipper,otter,2027-06-04,5,Guide B
bittern,otter,2027-06-05,4,Guide C
plover,otter,2027-06-07,4,Guide D
"""


def run(*command, cwd=None, threads=None):
    env = {**os.environ, **({"RAYON_NUM_THREADS": str(threads)} if threads else {})}
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, cwd=cwd, env=env)
    assert done.returncode == 0, f"{command}\n{done.stdout[-3000:]}{done.stderr[-3000:]}"
    return done.stdout


def season(folder, table=TABLE, *more, threads=None):
    (folder / "otter.yaml").write_text(LEDGE)
    (folder / "june.csv").write_text(table)
    run(os.environ["LEESIDE"], "season", "june.csv", *more, cwd=folder, threads=threads)
    return folder / "out"


def files(out):
    return sorted(str(path.relative_to(out)) for path in [*out.glob("days/*"), *out.glob("weeks/*")])


@pytest.fixture(scope="module")
def out(tmp_path_factory):
    return season(tmp_path_factory.mktemp("shop"))


def test_a_file_a_day_and_a_file_a_week(out):
    assert files(out) == [
        "days/2027-06-04.pdf", "days/2027-06-05.pdf", "days/2027-06-07.pdf",
        "weeks/2027-05-31.pdf", "weeks/2027-06-07.pdf",
    ]
    page = (out / "season/index.html").read_text()
    assert all(f"../{file}" in page for file in files(out))


def test_each_is_as_good_a_pdf_as_its_sheets(out):
    # TAG-002 as in test_bundle: a running head stands on two of many pages
    bound = [out / file for file in files(out)]
    run(BIN / "outloud", "--fail-on", "error", "--skip", "TAG-002", *bound)
    run(BIN / "pdfua", "check", *bound)
    for file in bound:
        run("qpdf", "--check", file)


def outline(reader):
    """Titles with the pages that they lead to, counted from 1, and those below them."""
    entries = []
    for item in reader.outline:
        if isinstance(item, list):
            entries[-1][2].extend(one.title for one in item if not isinstance(one, list))
        else:
            entries.append((item.title, reader.get_destination_page_number(item) + 1, []))
    return entries


def test_departures_start_on_right_hand_pages_and_returns_end_the_file(out):
    reader = pypdf.PdfReader(out / "weeks/2027-05-31.pdf")
    entries = outline(reader)
    assert [title for title, _, _ in entries] == [
        "Packets of the week of 2027-05-31", "heron", "dipper", "bittern", "Return sheets",
    ]
    assert all(page % 2 == 1 for _, page, _ in entries), entries
    for title, page, below in entries[1:4]:
        assert below[0] == "Briefing" and "Return sheet" not in below, below
        leaf = reader.pages[page - 1].extract_text()
        assert title in leaf and re.search(r"Revision [0-9a-f]{6}", leaf), leaf
    last, page, below = entries[-1]
    # in the order in which they are back; heron and dipper on the 5th, bittern on the 6th
    assert below[-3:] == ["heron", "dipper", "bittern"], below
    texts = [one.extract_text() for one in reader.pages]
    where = [number for number, text in enumerate(texts, 1) if "Return sheet:" in text]
    assert len(where) == 3 and min(where) > page, (where, page)
    # every sheet of every departure is in it, once
    for name in ("heron", "dipper", "bittern"):
        for sheet in out.glob(f"{name}/*/*.pdf"):
            first = pypdf.PdfReader(sheet).pages[0].extract_text()
            assert texts.count(first) == 1, sheet


def test_the_cover_counts_what_lies_behind_it(out):
    file = out / "weeks/2027-05-31.pdf"
    cover = " ".join(run("pdftotext", "-l", 1, file, "-").split())
    sheets = [sheet for name in ("heron", "dipper", "bittern") for sheet in out.glob(f"{name}/*/*.pdf")]
    sides = sum(len(pypdf.PdfReader(sheet).pages) for sheet in sheets)
    assert f"3 departures: {sides} sides printed" in cover, cover
    assert "The 3 return sheets lie at the end" in cover


def test_the_same_bytes_from_any_number_of_threads(out, tmp_path):
    for threads in (1, 3):
        folder = tmp_path / str(threads)
        folder.mkdir()
        again = season(folder, threads=threads)
        for file in files(out):
            assert (again / file).read_bytes() == (out / file).read_bytes(), file


def test_a_file_that_is_no_longer_true_moves_aside(tmp_path):
    out = season(tmp_path)
    notes = out / "days/notes.txt"
    notes.write_text("the printer's own")
    before = (out / "weeks/2027-06-07.pdf").read_bytes()
    fewer = "\n".join(line for line in TABLE.splitlines() if not line.startswith("plover")) + "\n"
    season(tmp_path, fewer)
    assert "days/2027-06-07.pdf" not in files(out) and "weeks/2027-06-07.pdf" not in files(out)
    assert (out / "withdrawn/weeks-2027-06-07.pdf").read_bytes() == before
    assert notes.exists()
    # only weeks are wanted: the day's file that is still true stays, the other goes
    changed = fewer.replace("dipper,otter,2027-06-04,5", "dipper,otter,2027-06-04,6")
    season(tmp_path, changed, "--print-by", "week")
    assert files(out) == ["days/2027-06-05.pdf", "days/notes.txt", "weeks/2027-05-31.pdf"]
    season(tmp_path, changed, "--print-by", "none")
    assert files(out) == ["days/2027-06-05.pdf", "days/notes.txt", "weeks/2027-05-31.pdf"]


def test_a_file_that_was_cut_off_or_changed_is_bound_again(tmp_path):
    out = season(tmp_path)
    day = out / "days/2027-06-05.pdf"
    good = day.read_bytes()
    day.write_bytes(good[:-9])
    season(tmp_path)
    assert day.read_bytes() == good


def test_a_day_of_more_sides_than_a_stack_is_parted(tmp_path):
    rows = "".join(f"d{number:02},otter,2027-06-04,3,Guide A\n" for number in range(40))
    out = season(tmp_path, TABLE.splitlines()[0] + "\n" + rows, "--print-by", "day")
    parts = [out / file for file in files(out)]
    assert len(parts) > 1
    assert [part.stem for part in parts] == [f"2027-06-04-part-{number}" for number in range(1, len(parts) + 1)]
    held = []
    for number, part in enumerate(parts, 1):
        reader = pypdf.PdfReader(part)
        assert f"part {number} of {len(parts)}" in reader.pages[0].extract_text()
        held += [title for title, _, _ in outline(reader) if re.fullmatch(r"d\d\d", title)]
    assert held == [f"d{number:02}" for number in range(40)]
