"""What every outside test needs: the program, and the packets it made."""

import os
import pathlib
import subprocess

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def leeside():
    program = os.environ.get("LEESIDE")
    assert program, "set LEESIDE to the built program (tests/run does)"

    def run(*args, ok=True):
        done = subprocess.run([program, *map(str, args)], capture_output=True, text=True, cwd=ROOT)
        if ok:
            assert done.returncode == 0, done.stderr
        return done

    return run


@pytest.fixture(scope="session")
def packets():
    folder = os.environ.get("PACKETS")
    assert folder, "set PACKETS to the folder of made packets (tests/run does)"
    return pathlib.Path(folder)
