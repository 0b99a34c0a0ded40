"""A season's table from a spreadsheet, and its page as a workbook, against the library openpyxl."""

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
    assert rows[1][7].value == "van: -2+3"
    assert rows[2][1].value == "@sum" and rows[2][7].value == 'van: <&"'


def test_a_cell_that_the_spreadsheet_could_not_work_out_is_told(season):
    said = season([["departure", "start date", "learners"], ["june-1", "#N/A", 3]], status=1)
    assert "row 2, column B" in said or "row 2, `starts`" in said
