"""The recipe of a release names the licence of everything that is compiled in: held against
the crates that Cargo itself lists."""

import pathlib
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]


def test_every_crate_of_the_program_has_its_licence(tmp_path):
    out = tmp_path / "licences.txt"
    subprocess.run([ROOT / "src" / "release", "--licences", out], check=True, cwd=ROOT)
    text = out.read_text()
    tree = ["cargo", "tree", "--locked", "--edges", "normal", "--prefix", "none", "--format", "{p}"]
    lines = subprocess.run(tree, check=True, cwd=ROOT, capture_output=True, text=True).stdout.splitlines()
    crates = {tuple(line.split()[:2]) for line in lines if line and not line.startswith("leeside ")}
    assert len(crates) > 80
    for name, version in crates:
        assert f"{name} {version.removeprefix('v')}" in text, name
    for words in ("Permission is hereby granted", "Apache License", "SIL OPEN FONT LICENSE"):
        assert words in text, words
