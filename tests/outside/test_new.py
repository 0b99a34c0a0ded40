"""`leeside new` at a real terminal (a pseudo-terminal of the system): what is
typed there becomes a file in which `leeside check` finds nothing wrong."""

import os
import pty
import select
import subprocess
import time

import pytest
import yaml

LIMIT = 20.0  # seconds for an answer; a busy machine is slow


class Terminal:
    """The program at a terminal of its own, and what a person does there."""

    def __init__(self, folder, *args, kind="dumb"):
        master, slave = pty.openpty()
        self.screen = master
        self.heard = ""
        self.process = subprocess.Popen(
            [os.environ["LEESIDE"], "new", *args],
            stdin=slave, stdout=slave, stderr=slave, cwd=folder, close_fds=True, start_new_session=True,
            env=os.environ | {"TERM": kind},
        )
        os.close(slave)

    def read(self, seconds):
        ready, _, _ = select.select([self.screen], [], [], seconds)
        if not ready:
            return False
        try:
            text = os.read(self.screen, 65536)
        except OSError:  # the other side is closed
            return False
        self.heard += text.decode("utf-8", "replace")
        return bool(text)

    def wait_for(self, words):
        """Reads until the words stand on the screen; gives back what stood before and with them."""
        end = time.monotonic() + LIMIT
        while words not in self.heard:
            assert time.monotonic() < end, f"never said {words!r}; last: {self.heard!r}"
            if not self.read(0.2) and self.process.poll() is not None and not self.read(0.2):
                assert words in self.heard, f"ended without {words!r}: {self.heard!r}"
        before, _, self.heard = self.heard.partition(words)
        return before + words

    def type(self, text):
        os.write(self.screen, text.encode() + b"\n")

    def end_input(self):
        os.write(self.screen, b"\x04")

    def status(self):
        end = time.monotonic() + LIMIT
        while self.process.poll() is None:
            assert time.monotonic() < end, "does not end"
            self.read(0.1)
        while self.read(0.1):
            pass
        os.close(self.screen)
        return self.process.returncode


@pytest.fixture
def at_terminal(leeside, tmp_path):
    started = []

    def start(*args, **kind):
        terminal = Terminal(tmp_path, *args, **kind)
        started.append(terminal)
        return terminal

    yield start
    for terminal in started:
        if terminal.process.poll() is None:
            terminal.process.kill()
            terminal.process.wait()


# the question as asked, and the answer
TALK = [
    ("Name of the trip", "Two nights: \"Alder\" & Tarn"),
    ("First day", "2027-05-14"),
    ("learners", "8"),
    ("instructors", "2"),
    ("youngest", "13"),
    ("Allergies", "tree nuts, strict"),
    ("Stove", "white gas"),
    ("Menu [boil only]", ""),
    ("made safe by", "filter"),
    ("first camp", "Alder flat"),
    ("nights there [1]", ""),
    ("height above the sea", "8200 ft"),
    ("water comes from [stream]", ""),
    ("supper is cooked", "55 F"),
    ("breakfast is cooked", "38 F"),
    ("wind", "calm"),
    ("kind of place", ""),
    ("next camp", ""),
    ("land manager allows", "yes"),
    ("Fire restriction", "stage 1"),
    ("told you", "2027-05-12, ranger desk"),
    ("emergency", "555-0117"),
    ("Nearest help", "road, 2 h walk out"),
]


def talk(terminal, until=None):
    for question, answer in TALK:
        terminal.wait_for(question)
        terminal.wait_for(": ")
        if question == until:
            return
        terminal.type(answer)


def test_arrow_keys_move_and_tab_fills_in(at_terminal, tmp_path):
    """A terminal that knows how to move its cursor: a slip is mended where it stands, a word that
    the question takes is filled in, dates and hours are taken as people type them."""
    terminal = at_terminal("--lesson", kind="xterm")
    for question, answer in [
        ("Name of the trip", "Sprng\x1b[D\x1b[Di\x1b[F evening"),  # two steps left, then to the end
        ("First day", "14 May 2027"),
        ("How many learners", "6"),
        ("How many instructors", "2"),
        ("Age of the youngest", "15"),
        ("Allergies", ""),
        ("Stove of the first station", "whi\t"),
        ("Its pot", ""),
        ("keeps the wind off", ""),
        ("Stove of the next station", ""),
        ("Menu", ""),
        ("Outdoors or indoors", ""),
        ("Kind of place", ""),
        ("Height of the place", "310 m"),
        ("Air when you cook", ""),
        ("Wind where", ""),
        ("Minutes of the lesson", ""),
        ("It starts at", "7pm"),
        ("What it is about", ""),
        ("Minutes indoors", ""),
        ("land manager allows", ""),
        ("Fire restriction", ""),
        ("Whom to call", ""),
        ("Nearest help", ""),
        ("File to write", ""),
    ]:
        terminal.wait_for(question)
        terminal.type(answer)
    terminal.wait_for("written")
    assert terminal.status() == 0
    trip = yaml.safe_load((tmp_path / "spring-evening.yaml").read_text())
    assert trip["title"] == "Spring evening"
    assert str(trip["starts"]) == "2027-05-14"
    assert trip["stations"][0]["stove"] == "white gas stove"
    assert trip["course"]["starts"] in ("19:00", 19 * 60)


def test_a_trip_with_a_slip_and_a_step_back(leeside, at_terminal, tmp_path):
    terminal = at_terminal("mine.yaml")
    talk(terminal, until="height above the sea")
    terminal.type("2500")
    terminal.wait_for("`2500` has no unit")
    terminal.wait_for("height above the sea: ")
    terminal.type("?")
    terminal.wait_for("1200 m")
    terminal.wait_for("height above the sea: ")
    terminal.type("back")
    terminal.wait_for("nights there [1]: ")
    terminal.type("2")
    terminal.wait_for("height above the sea: ")
    terminal.type("8200 ft")
    rest = [question for question, _ in TALK].index("height above the sea") + 1
    for question, answer in TALK[rest:]:
        terminal.wait_for(question)
        terminal.wait_for(": ")
        terminal.type(answer)
    terminal.wait_for("leeside check mine.yaml")
    assert terminal.status() == 0

    path = tmp_path / "mine.yaml"
    written = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert written["title"] == "Two nights: \"Alder\" & Tarn"
    assert written["people"] == {
        "learners": "8", "instructors": "2", "youngest": "13", "diet": "tree nuts, strict",
    }
    assert written["restrictions"] == {
        "stoves": "yes", "stage": "stage 1", "checked": "2027-05-12, ranger desk",
    }
    assert written["camps"] == [{
        "name": "Alder flat", "nights": "2", "elevation": "8200 ft", "water_from": "stream",
        "day": "55 F", "night": "38 F", "wind": "calm", "place": "inland forest",
    }]
    assert written["emergency"] == {"call": "555-0117", "nearest_help": "road, 2 h walk out"}
    checked = leeside("check", path)
    assert "warning" not in checked.stderr, checked.stderr


def test_a_lesson_is_asked_for_too(leeside, at_terminal, tmp_path):
    terminal = at_terminal("--lesson", "evening.yaml")
    for question, answer in [
        ("Name", "Stove evening"), ("First day", ""), ("learners", "10"), ("instructors", "2"),
        ("youngest", "14"), ("Allergies", ""), ("first station", "meths"), ("taken as", None),
        ("Its pot, metal and size [aluminium 1 L]", ""), ("keeps the wind off", ""), ("next station", ""),
        ("Menu", ""), ("Outdoors or indoors [outdoors]", ""),
        ("Kind of place, for its rules [developed site]", ""), ("Height", "310 m"), ("Air", ""), ("Wind", ""),
        ("Minutes of", "150"), ("starts at", ""), ("What it is about", "greywater"), ("storms", "45"),
        ("land manager allows", ""), ("Fire restriction", ""), ("emergency", ""), ("Nearest help", ""),
    ]:
        terminal.wait_for(question)
        if answer is None:
            continue
        terminal.wait_for(": ")
        terminal.type(answer)
    terminal.wait_for("leeside check evening.yaml")
    assert terminal.status() == 0
    leeside("check", tmp_path / "evening.yaml")
    written = yaml.load((tmp_path / "evening.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    assert written["kind"] == "lesson"
    assert written["stations"] == [{"name": "Station 1", "stove": "alcohol", "pots": ["aluminium 1 L"]}]
    assert written["place"] == "outdoors" and written["land"] == "developed site"
    assert written["course"] == {
        "minutes": "150", "starts": "9:00", "focus": ["greywater"], "fallback": {"minutes": "45"},
    }


def test_the_end_of_input_writes_nothing(at_terminal, tmp_path):
    terminal = at_terminal("mine.yaml")
    talk(terminal, until="Nearest help")
    terminal.end_input()
    terminal.wait_for("nothing was written")
    assert terminal.status() == 1
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_replaced_only_after_a_yes(at_terminal, tmp_path):
    path = tmp_path / "mine.yaml"
    path.write_text("mine\n")
    terminal = at_terminal("mine.yaml")
    talk(terminal)
    terminal.wait_for("Replace it? yes or no [no]: ")
    terminal.type("")
    terminal.wait_for("Another name for the file: ")
    terminal.type("other.yaml")
    assert terminal.status() == 0
    assert path.read_text() == "mine\n"
    assert (tmp_path / "other.yaml").read_text(encoding="utf-8").startswith("# A trip")

    terminal = at_terminal("mine.yaml")
    talk(terminal)
    terminal.wait_for("Replace it? yes or no [no]: ")
    terminal.type("yes")
    assert terminal.status() == 0
    assert path.read_bytes() == (tmp_path / "other.yaml").read_bytes()
    assert len(list(tmp_path.iterdir())) == 2


def test_the_file_is_named_after_the_trip(at_terminal, tmp_path):
    terminal = at_terminal()
    talk(terminal)
    terminal.wait_for("File to write [two-nights-alder-tarn.yaml]: ")
    terminal.type("")
    assert terminal.status() == 0
    assert [path.name for path in tmp_path.iterdir()] == ["two-nights-alder-tarn.yaml"]


def test_without_a_terminal_a_starter_is_written(leeside, tmp_path):
    path = tmp_path / "starter.yaml"
    program = [os.environ["LEESIDE"], "new"]
    given = subprocess.run(program, stdin=subprocess.DEVNULL, capture_output=True, check=True)
    made = subprocess.run([*program, path], stdin=subprocess.DEVNULL, capture_output=True, check=True)
    assert made.stdout == b""
    assert path.read_bytes() == given.stdout
    assert "warning" not in leeside("check", path).stderr
    again = subprocess.run([*program, path], stdin=subprocess.DEVNULL, capture_output=True)
    assert again.returncode == 3
    assert path.read_bytes() == given.stdout
