"""Every DOCX of the example trips, opened and printed by LibreOffice, against the Markdown of
the same sheet: every word is there, the headings in their order."""

import re
import subprocess
import unicodedata
from collections import Counter

import pytest

MOST = 40  # files for one start of the office


@pytest.fixture(scope="session")
def printed(packets, tmp_path_factory):
    out = tmp_path_factory.mktemp("office")
    sources = sorted(packets.rglob("*.docx"))
    assert len(sources) > 80, "seven trips make more sheets than that"
    pairs = []
    for start in range(0, len(sources), MOST):
        batch = []
        for number, source in enumerate(sources[start : start + MOST], start):
            # sheets of different trips share their names
            copy = out / f"{number}.docx"
            copy.write_bytes(source.read_bytes())
            batch.append(copy)
            pairs.append((source, out / f"{number}.pdf"))
        done = subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{out}/profile", "--headless", "--convert-to", "pdf",
             "--outdir", str(out), *map(str, batch)],
            capture_output=True, text=True, timeout=900,
        )
        assert done.returncode == 0, done.stderr
    return pairs


def plain(markdown):
    """The words of a sheet's Markdown: no fences, no markup, no addresses."""
    text = re.sub(r"^```.*?^```$", " ", markdown, flags=re.M | re.S)
    text = re.sub(r"\[([^\]]*)\]\((?:https|mailto|#)[^)]*\)", lambda m: " " if re.search(r"[/.@]", m[1]) else m[1], text)
    return re.sub(r"^> \[!(\w+)\]", r"\1", text, flags=re.M)


def words(text):
    text = unicodedata.normalize("NFKC", text).replace("\u00ad", "")
    return [word for word in re.findall(r"\d+|[^\W\d_]+", text) if len(word) < 18]


def test_every_word_is_printed_and_headings_keep_their_order(printed):
    assert printed
    for source, pdf in printed:
        assert pdf.exists(), f"{source} was not opened"
        text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
        name = f"{source.parent.parent.name}/{source.stem}"
        markdown = source.with_suffix(".md").read_text()
        missing = Counter(words(plain(markdown))) - Counter(words(text))
        assert not missing, f"{name} lacks {dict(missing.most_common(12))}"
        squeezed = "".join(words(text))
        at = 0
        for heading in re.findall(r"^#{1,3} (.*)$", re.sub(r"^```.*?^```$", " ", markdown, flags=re.M | re.S), flags=re.M):
            at = squeezed.find("".join(words(heading)), at)
            assert at >= 0, f"{name}: the heading '{heading}' is not in its place"


def picture(pdf, page, dots=100):
    """A page as rows of grey values."""
    made = subprocess.run(["pdftoppm", "-gray", "-r", str(dots), "-f", str(page), "-l", str(page), str(pdf)], capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", made)
    wide, high = int(head[1]), int(head[2])
    pixels = made[head.end() :]
    return [pixels[row * wide : (row + 1) * wide] for row in range(high)]


def test_drawings_are_seen_among_their_words(printed):
    """Between the name of a bar and what is said of it there is the bar."""
    seen = 0
    for source, pdf in printed:
        if not source.stem.startswith("fuel-worksheet-key") or seen == 3:
            continue
        boxes = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
        for page, text in enumerate(boxes.split("<page ")[1:], 1):
            words = re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>', text)
            words = [(*map(float, word[:4]), word[4]) for word in words]
            for before, name in zip(words, words[1:]):
                if (before[4], name[4]) != ("your", "stove"):
                    continue
                said = [one for one in words if re.fullmatch(r"\d+%", one[4]) and abs(one[1] - name[1]) < 3 and one[0] > name[2]]
                if not said:
                    continue
                rows = picture(pdf, page)
                middle = round((name[1] + name[3]) / 2 * 100 / 72)
                between = range(round(name[2] * 100 / 72) + 2, round(said[0][0] * 100 / 72) - 2)
                dark = [x for x in between if any(rows[y][x] < 160 for y in range(middle - 4, middle + 5))]
                assert len(dark) >= 2, f"{source}: no bar beside 'efficiency of your stove'"
                seen += 1
    assert seen >= 1, "no bars were met"
