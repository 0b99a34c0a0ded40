"""What can be measured on the sheets of a packet without judging them: poppler says where the words
stand, pypdf how large they are and which tables go over a page's end."""

import html
import re
import subprocess
import xml.etree.ElementTree
from dataclasses import dataclass

import pypdf


@dataclass
class Sheet:
    """One file of a packet, measured."""

    sides: int
    # the part of the room for text, of each side, that is empty below the last word
    white: list
    # the smallest letters, in points, not counting the foot's
    smallest: float
    # the smallest letters of the foot
    foot: float
    # tables whose rows stand on more than one side
    split: int
    # characters in the longest line of words
    line: int


def boxes(file):
    """The pages of a file as poppler's layout has them: blocks, lines, words with their places."""
    text = subprocess.run(
        ["pdftotext", "-bbox-layout", str(file), "-"], capture_output=True, text=True, check=True
    ).stdout
    text = re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", text)
    return list(xml.etree.ElementTree.fromstring(text.replace(' xmlns="http://www.w3.org/1999/xhtml"', "")).iter("page"))


def words(line):
    return " ".join(html.unescape(word.text or "") for word in line.iter("word"))


def foot_top(page):
    """Where the foot of a page begins: at the line that says which page of how many it is."""
    tops = [float(line.get("yMin")) for line in page.iter("line") if re.search(r"page \d+ of \d+$", words(line))]
    return max(tops) if tops else float(page.get("height"))


def white(page):
    """The share of a page's text room that is empty below its last word."""
    foot = foot_top(page)
    spans = [(float(line.get("yMin")), float(line.get("yMax"))) for line in page.iter("line")]
    body = [(top, bottom) for top, bottom in spans if bottom < foot + 2]
    if not body:
        return 1.0
    first, last = min(top for top, _ in body), max(bottom for _, bottom in body)
    return max(0.0, (foot - last) / max(1.0, foot - first))


def letters(page):
    """The sizes of a page's letters above its foot, and in it."""
    above, foot = [], []

    def look(text, _cm, tm, _font, size):
        if text.strip():
            seen = round(size * abs(tm[3] or 1), 2)
            # two lines and a rule above the margin
            (foot if tm[5] < 100 and seen < 10 else above).append(seen)

    page.extract_text(visitor_text=look)
    return above, foot


def split_tables(reader):
    """How many tables have content on more than one page, by the structure tree."""
    found = 0

    def pages(node, inherited):
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, int):
            return {inherited}
        if isinstance(node, list):
            return set().union(*(pages(kid, inherited) for kid in node)) if node else set()
        if not isinstance(node, dict):
            return set()
        own = node.raw_get("/Pg").idnum if "/Pg" in node else inherited
        if node.get("/Type") in ("/MCR", "/OBJR"):
            return {own}
        return pages(node["/K"], own) if "/K" in node else set()

    def walk(node):
        nonlocal found
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            for kid in node:
                walk(kid)
        elif isinstance(node, dict) and "/K" in node:
            if node.get("/S") == "/Table":
                found += len(pages(node, None) - {None}) > 1
            else:
                walk(node["/K"])

    walk(reader.trailer["/Root"]["/StructTreeRoot"]["/K"])
    return found


def measured(file):
    """The measures of one sheet."""
    reader = pypdf.PdfReader(file)
    pages = boxes(file)
    above, foot = [], []
    for page in reader.pages:
        one, other = letters(page)
        above += one
        foot += other
    lines = [words(line) for page in pages for line in page.iter("line") if float(line.get("yMax")) < foot_top(page)]
    return Sheet(
        sides=len(pages),
        white=[white(page) for page in pages],
        smallest=min(above, default=0.0),
        foot=min(foot, default=0.0),
        split=split_tables(reader),
        line=max(map(len, lines), default=0),
    )
