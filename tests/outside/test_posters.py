"""A station's poster is read from 3 m away: its letters are at least 10 mm high, measured in the PDF.
A three-hundredth of the way is common practice, no source. The title and the foot are for whoever hangs it up."""

import pathlib

import pikepdf
import pypdf
from fontTools.ttLib import TTFont

ROOT = pathlib.Path(__file__).resolve().parents[2]
LEAST = 10.0
FOOT = 13.5
MM = 72 / 25.4


def capital(name):
    """How high a capital letter is, over the size of its face."""
    font = TTFont(ROOT / "templates" / "fonts" / name)
    return font["OS/2"].sCapHeight / font["head"].unitsPerEm


def test_letters_are_ten_millimetres_high(packets):
    high = min(capital(name) for name in ("SourceSans3_400Regular.ttf", "SourceSans3_700Bold.ttf"))
    files = sorted(packets.glob("*/staff/station-posters.pdf"))
    assert files
    for file in files:
        letters = 0
        for page in pypdf.PdfReader(file).pages:
            def measured(text, _cm, tm, _font, size):
                nonlocal letters
                points = size * abs(tm[3] or 1)
                if text.strip() and abs(points - FOOT) > 0.1:
                    assert points * high / MM >= LEAST, f"{file}: '{text}' is {points * high / MM:.1f} mm high"
                    letters += len(text.strip())
            page.extract_text(visitor_text=measured)
        assert letters > 20, file


def test_stations_have_their_drawing(packets):
    pages = (packets / "school-yard" / "staff" / "station-posters.md").read_text()
    assert pages.count("\n```figure") >= 2
    file = pikepdf.open(packets / "school-yard" / "staff" / "station-posters.pdf")
    # drawings as the file's own structure names them
    named = [one for one in file.objects if isinstance(one, pikepdf.Dictionary) and one.get("/S") == "/Figure"]
    assert len(named) >= 2
