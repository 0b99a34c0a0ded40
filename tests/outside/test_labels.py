"""Labels of canisters, printed to pixels and scanned by a general library for codes (zxing-cpp)."""

import os
import subprocess

import pypdf
import pytest
import zxingcpp
from PIL import Image

DPI = 200


@pytest.fixture
def labels(tmp_path):
    def run(*args, status=0):
        done = subprocess.run([os.environ["LEESIDE"], "shelf", *map(str, args)],
                              capture_output=True, text=True, cwd=tmp_path)
        assert done.returncode == status, done.stderr
        return done.stderr

    def scanned():
        """Text of each code, with the middle of it in millimetres, page by page."""
        subprocess.run(["pdftoppm", "-r", str(DPI), "-png", "labels.pdf", "page"], cwd=tmp_path, check=True)
        pages = []
        for path in sorted(tmp_path.glob("page*.png")):
            found = {}
            for code in zxingcpp.read_barcodes(Image.open(path), formats=zxingcpp.BarcodeFormat.QRCode):
                corners = [code.position.top_left, code.position.bottom_right]
                found[code.text] = tuple(sum(getattr(c, axis) for c in corners) / 2 / DPI * 25.4
                                         for axis in "xy")
            pages.append(found)
        return pages

    run.scanned, run.folder = scanned, tmp_path
    run("receive", "--size", "canister 230 g", "--count", 30, "--tare", "150 g",
        "--gas", "propane 30, isobutane 70")
    return run


def test_every_label_is_scanned_in_its_place(labels):
    labels("labels", "--start", 5)
    first, second = labels.scanned()
    # 24 labels of 70 x 37 mm on A4, three side by side, the first four gone
    assert len(first) == 20 and len(second) == 10
    tags = [f"F-{number:03}" for number in range(1, 31)]
    for page, start, offset in ((first, 4, 0), (second, 0, 20)):
        for text, (x, y) in page.items():
            at = tags.index(text.split(".")[0]) - offset + start
            row, column = divmod(at, 3)
            assert column * 70 < x < column * 70 + 35, text
            assert abs(y - (row * 37 + 18.5)) < 1.0, text


def test_other_sheets_are_stated(labels):
    labels("labels", "F-2", "--paper", "letter", "--columns", 3, "--rows", 10, "--width", "2.625 in",
           "--height", "1 in", "--left", "0.19 in", "--top", "0.5 in", "--across", "2.75 in")
    (page,) = labels.scanned()
    ((text, (x, y)),) = page.items()
    assert text.startswith("F-002.") and 0.19 < x / 25.4 < 1.5 and abs(y / 25.4 - 1.0) < 0.05
    words = pypdf.PdfReader(labels.folder / "labels.pdf").pages[0].extract_text()
    assert text in words and "canister 230 g" in words and "empty 150 g" in words
    assert pypdf.PdfReader(labels.folder / "labels.pdf").pages[0].mediabox[2] == 612


def test_a_sheet_that_cannot_be_and_a_tag_that_is_not_are_told(labels):
    for wrong in (["--columns", 4], ["--start", 25], ["--down", "20 mm"], ["--top", "5 mm"]):
        said = labels("labels", *wrong, status=2)
        assert "--columns, --rows" in said, wrong
    assert "F-099" in labels("labels", "F-99", status=1)
    assert not (labels.folder / "labels.pdf").exists()
