"""A season's table from a spreadsheet, and its page as a workbook, against the library openpyxl."""

import csv
import datetime
import os
import subprocess

import openpyxl
import pytest

BASE = """title: Otter ledge
people: {learners: 3, instructors: 1}
stove: canister on top
water_treatment: filter
camps: [{name: Otter ledge, nights: 1, elevation: 900 m}]
"""


@pytest.fixture
def season(tmp_path):
    (tmp_path / "otter.yaml").write_text(BASE)

    def run(rows, status=0):
        book = openpyxl.Workbook()
        sheet = book.active
        sheet.title = "Summer"
        for row in rows:
            sheet.append(row)
        book.save(tmp_path / "summer.xlsx")
        done = subprocess.run([os.environ["LEESIDE"], "season", "summer.xlsx", "--base", "otter.yaml"],
                              capture_output=True, text=True, cwd=tmp_path)
        assert done.returncode == status, done.stderr
        return done.stderr

    run.out = tmp_path / "out"
    return run


def test_dates_numbers_and_formulas_of_a_spreadsheet(season):
    said = season([
        ["departure", "start date", "learners", "guide"],
        ["june-1", datetime.date(2027, 6, 4), 3, "Guide A"],
        [None, None, None, None],
        ["june-2", datetime.datetime(2027, 6, 5, 12, 0), 4.0, "=1+1"],
    ])
    # openpyxl works nothing out, so the formula's cell has no value
    assert "2 departures" in said and "Summer" in said
    page = (season.out / "season" / "index.html").read_text()
    assert "2027-06-04" in page and "2027-06-05" in page


def test_the_page_as_a_workbook_holds_text_only(season):
    season([["departure", "start date", "learners", "van"],
            ["june-1", datetime.date(2027, 6, 4), 3, "-2+3"],
            ["@sum", datetime.date(2027, 6, 5), 3, '<&"']])
    book = openpyxl.load_workbook(season.out / "season" / "season.xlsx")
    rows = [[cell for cell in row] for row in book.worksheets[0].iter_rows()]
    assert len(rows) == 3
    filled = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert filled and all(cell.data_type == "s" and cell.number_format == "@" for cell in filled)
    assert rows[1][8].value == "van: -2+3"
    assert rows[2][1].value == "@sum" and rows[2][8].value == 'van: <&"'


def test_a_cell_that_the_spreadsheet_could_not_work_out_is_told(season):
    said = season([["departure", "start date", "learners"], ["june-1", "#N/A", 3]], status=1)
    assert "row 2, column B" in said


MESSY = "\ufeff" + "\r\n".join([
    "Departure;Base;Start date;Clients;Guides;Kitchens;Van;Deposit paid;Diets;Guide phone",
    'gull 1;otter;04/06/2027;6;2;2;white;yes;"nuts, strict; vegan";"=HYPERLINK(""x"";""y"")"',
    ";;;;;;;;;",
    "february;otter;31/02/2027;6;2;2;white;;;",
    "gull 1;otter;06/06/2027;6;2;2;;;;",
    "number;otter;46542;6;2;2;;;;",
    "words;otter;8 June 2027;6;2;2;;;;",
    "formula;otter;08/06/2027;=3+3;2;2;;;;",
    "kitchen;otter;08/06/2027;6;2;Red 8;;;;",
    "lost;otters;08/06/2027;6;2;2;;;;",
    "none;;08/06/2027;6;2;2;;;;",
    "bell;otter;08/06/2027;6;2;2;;;;-2+3",
    "",
])


def test_an_export_as_an_office_has_it(tmp_path):
    (tmp_path / "otter.yaml").write_text(BASE)
    (tmp_path / "june.csv").write_bytes(MESSY.encode())

    def run(*more):
        done = subprocess.run([os.environ["LEESIDE"], "season", "june.csv", *more],
                              capture_output=True, text=True, cwd=tmp_path)
        assert done.returncode == 1, done.stderr
        return done.stderr

    # June has no day past the twelfth here, and 31/02 settles the order of all
    said = run()
    for words in [
        "departure `february`, row 4, column C (Start date): `2027-02-31` is not a day",
        "departure `gull 1`, row 5: row 2 has the folder `gull-1` already",
        "departure `words`, row 7, column C (Start date)",
        "departure `formula`, row 8, column D (Clients)",
        "departure `kitchen`, row 9, column F (Kitchens)",
        "departure `lost`, row 10: there is no such file",
        "departure `none`, row 11: no trip file is named",
        "a byte order mark at its start", "lines end as on Windows", "parted by semicolons",
        "taken as notes: Van, Deposit paid, Guide phone",
        "bare numbers in a column of days",
        "3 made, 0 as they were",
    ]:
        assert words in said, f"{words}\n{said}"
    assert said.count("error[") == 7, said
    # the number is the day that openpyxl reads in it
    day = openpyxl.utils.datetime.from_excel(46542).date().isoformat()
    page = (tmp_path / "out/season/index.html").read_text()
    assert day == "2027-06-04" and page.count(day) >= 2
    assert page.count("no papers: its row has a problem") == 6
    # nothing that came in as a formula goes out as one
    table = (tmp_path / "out/season/season.csv").read_text(encoding="utf-8-sig")
    cells = [cell for row in csv.reader(table.splitlines()) for cell in row]
    assert any("HYPERLINK" in cell for cell in cells)
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)


def test_many_bad_rows_are_told_and_too_many_are_refused(tmp_path):
    (tmp_path / "otter.yaml").write_text(BASE)

    def run(command, count):
        rows = "".join(f"d{number},otter,nobody\n" for number in range(count))
        (tmp_path / "long.csv").write_text("departure,base,learners\n" + rows)
        done = subprocess.run([os.environ["LEESIDE"], command, "long.csv"], capture_output=True, text=True, cwd=tmp_path)
        assert done.returncode == 1, done.stderr
        return done.stderr

    said = run("season", 2000)
    assert "departure `d0`, row 2, column C (learners)" in said and "1900 more problems" in said
    assert "more than 100000 rows" in run("check", 100_001)
