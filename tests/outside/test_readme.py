"""The README, followed to the letter: its trip and its walk through content of one's own are
taken from its blocks and run, so that it cannot say what is no longer true."""

import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
MARK = re.compile(r"base: ([0-9a-f]{4}-[0-9a-f]{4})")


def section(title):
    (text,) = re.findall(rf"^## {re.escape(title)}\n(.*?)(?=^## )", README, re.S | re.M)
    return text


def blocks(text):
    """Each block with its language and the last file that is named before it."""
    for found in re.finditer(r"^( *)```(\w*)\n(.*?)^ *```$", text, re.S | re.M):
        indent, language, body = found.groups()
        named = re.findall(r"`([\w./-]+\.yaml)`", text[: found.start()])
        lines = [line.removeprefix(indent) for line in body.splitlines()]
        yield language, named[-1] if named else None, "\n".join(lines) + "\n"


def run(line, folder):
    program, *args = shlex.split(line)
    assert program == "leeside", line
    return subprocess.run(
        [os.environ["LEESIDE"], *args], capture_output=True, text=True, cwd=folder, check=False
    )


@pytest.fixture(scope="module")
def walked(tmp_path_factory):
    """The folder after the walk, and what each command said."""
    folder = tmp_path_factory.mktemp("walk")
    (trip,) = [body for language, _, body in blocks(section("A trip file")) if language == "yaml"]
    (folder / "trip.yaml").write_text(trip, encoding="utf-8")
    said = []
    for language, name, body in blocks(section("Your own content in five minutes")):
        if language == "yaml":
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(body, encoding="utf-8")
            continue
        assert language == "", language
        for line in body.splitlines():
            done = run(line, folder)
            assert done.returncode == 0, f"{line}\n{done.stderr}"
            said.append((line, done))
    return folder, said


def test_the_walk_adds_a_module(walked):
    folder, said = walked
    commands = [line for line, _ in said]
    assert len(commands) == 6, commands
    first = said[0][1]
    assert first.stderr.strip().endswith("nothing wrong in them"), first.stderr
    applies = said[1][1].stdout
    assert re.search(r"^tarp-kitchen +yes +it always applies$", applies, re.M), applies
    for line, done in said[2:4]:
        assert re.search("^tarp-kitchen ", done.stdout, re.M), line
    assert re.search(r"^tarp-kitchen\.keep-clear +rig +how-far$", said[2][1].stdout, re.M)
    (folder / "out/trip/manifest.json").stat()
    sheets = {path.name: path.read_text(encoding="utf-8") for path in (folder / "out/trip").rglob("*.md")}
    handout = sheets["lesson-handout.md"]
    assert "Cooking under the group tarp" in handout
    # the trip is in feet: 3 m at 0.3048 m a foot
    line = r"space between the edge of the tarp and the stove: ([\d.]+) ft"
    (feet,) = re.findall(line, sheets["sources.md"].replace("\\", ""))
    assert float(feet) == pytest.approx(3 / 0.3048, rel=0.02)
    json.loads((folder / "out/trip/manifest.json").read_text(encoding="utf-8"))


def test_the_walk_edits_a_module_and_hears_when_its_base_changes(walked):
    folder, said = walked
    overlay = folder / "ours/content/modules/greywater.yaml"
    marks = MARK.findall(said[-1][1].stderr)
    assert len(marks) == 1, said[-1][1].stderr
    text = overlay.read_text(encoding="utf-8")
    overlay.write_text(text.replace("\n", f"\nbase: {marks[0]}\n", 1), encoding="utf-8")
    quiet = run("leeside check --content ours", folder)
    assert quiet.returncode == 0 and quiet.stderr.strip().endswith("nothing wrong in them"), quiet.stderr
    # a later program with another text of that module: the mark is no longer its
    overlay.write_text(text.replace("\n", "\nbase: 0000-0000\n", 1), encoding="utf-8")
    for command in ("check --content ours", "make trip.yaml --content ours --format md"):
        told = run(f"leeside {command}", folder)
        assert told.returncode == 0, told.stderr
        assert "content.base" in told.stderr and "`title`" in told.stderr, told.stderr
        assert set(MARK.findall(told.stderr)) == {marks[0], "0000-0000"}
    overlay.write_text(text, encoding="utf-8")


def test_every_command_that_is_named_is_there():
    named = set(re.findall(r"`leeside ([a-z]+)", README))
    assert {"make", "plan", "boil", "trial", "check", "list", "new", "unpack", "practice", "schema"} <= named
    for command in sorted(named):
        done = run(f"leeside {command} --help", ROOT)
        assert done.returncode == 0, f"{command}: {done.stderr}"
    flags = re.findall(r"--[a-z][a-z-]+", section("What it does").split("leeside make", 1)[1].split("\n", 1)[0])
    helped = run("leeside make --help", ROOT).stdout
    for flag in flags:
        assert flag in helped, flag


def test_the_season_goes_as_told(tmp_path):
    """The commands of the chapter on seasons, in its order, beside the examples that it names."""
    shutil.copytree(ROOT / "content", tmp_path / "content")
    lines = [line for language, _, body in blocks(section("A season")) for line in body.splitlines()]
    # those for several machines are for several machines
    tour = [line for line in lines if line.startswith(("leeside", "cp ")) and "TABLE" not in line]
    assert len(tour) == 10, tour
    said = {}
    for line in tour:
        if line.startswith("cp "):
            _, source, target = line.split()
            shutil.copy(tmp_path / source, tmp_path / target)
            continue
        done = run(line, tmp_path)
        assert done.returncode == 0, f"{line}\n{done.stderr}"
        said[" ".join(line.split()[1:3])] = done.stdout + done.stderr
    assert "more are over" in said["shelf assign"]
    assert "measured: {efficiency:" in said["shelf learn"]
    for path in ("ridge-01/packet.pdf", "season/index.html", "days/2027-06-04.pdf", "weeks/2027-05-31.pdf"):
        assert (tmp_path / "out/summer" / path).exists(), path
    assert (tmp_path / "labels.pdf").exists()
