"""What makes a sheet plain bad to hold, measured on paper by poppler and pypdf. `tests/look` shows
the same as pictures. The limits are ours, from what clear-print guidance asks of body text and
from what the sheets come to: they hold a change of design to what was reached before."""

import pytest

from measure import measured

# trips that differ: an evening with three stoves, ten nights, snow, and half an hour without a flame
PACKETS = ["boathouse-evening", "kestrel-ten-days", "hoarfrost-basin", "half-hour-wash-water"]


@pytest.fixture(scope="session")
def sheets(packets):
    found = {file: measured(file) for name in PACKETS for file in sorted((packets / name).rglob("*.pdf"))}
    assert len(found) > 80, "four packets hold more sheets than that"
    return found


def named(file):
    return f"{file.parent.parent.name}/{file.stem}"


def test_no_letters_are_smaller_than_stated(sheets):
    """Words of sheets to read are 10 pt and more (the list of sources and the cards' backs 9), words
    of the foot 8.5: DEVELOPERS.md, 'The page system'. Labels in drawings shrink with the drawing."""
    small = []
    for file, sheet in sheets.items():
        least = 8.9 if file.stem in ("sources", "study-cards") or "key" in file.stem else 9.9
        if file.stem == "slides":
            least = 9.5  # pages of drawings: their labels are most of the words
        if sheet.smallest < least or 0 < sheet.foot < 8.5:
            small.append(f"{named(file)}: {sheet.smallest} pt, foot {sheet.foot} pt")
    assert not small, "\n".join(small)


def test_no_side_is_begun_for_a_few_lines(sheets):
    """A last side holds more than a tenth of what it could."""
    empty = [f"{named(file)}: {sheet.white[-1]:.0%} white" for file, sheet in sheets.items() if sheet.sides > 1 and sheet.white[-1] > 0.9]
    assert not empty, "\n".join(empty)


def test_lines_are_not_endless(sheets):
    """No line of words, boxes and tables' cells side by side taken together, is longer than 140
    characters."""
    long = [f"{named(file)}: {sheet.line}" for file, sheet in sheets.items() if sheet.line > 140]
    assert not long, "\n".join(long)
