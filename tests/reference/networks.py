"""The networks that the core solved, as it prints them."""

import json
import os
import shutil
import subprocess
from functools import cache
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]


def example(name, *options, question=None, arguments=()):
    """What an example of the core prints, to a question if it takes one; built and run for it."""
    cargo = shutil.which(os.environ.get("CARGO", "cargo"))
    if cargo is None:
        raise RuntimeError("cargo is not installed: it comes with Rust by rustup, see https://rustup.rs")
    command = [cargo, "run", "--quiet", "--locked", "--package", "stageohm", *options, "--example", name, "--", *arguments]
    asked = None if question is None else json.dumps(question).encode()
    return json.loads(subprocess.run(command, cwd=ROOT, check=True, input=asked, stdout=subprocess.PIPE).stdout)


@cache
def solved():
    """Everything that the core solved, by kind; on first use."""
    return example("networks")


def names(kind):
    return [network["name"] for network in solved()[kind]]


def named(kind, name):
    return next(network for network in solved()[kind] if network["name"] == name)


def numbers(pairs):
    """Pairs of real and imaginary part as complex numbers."""
    return np.array([complex(re, im) for re, im in pairs])


def impedance(port, s):
    """The impedance of a one-port at the complex frequencies s."""
    ((kind, value),) = port.items()
    if kind == "series_rlc":
        return value["r"] + s * value["l"] + value["elastance"] / s
    if kind == "parallel_rlc":
        with np.errstate(divide="ignore", invalid="ignore"):
            return 1 / (value["g"] + s * value["c"] + value["reluctance"] / s)
    if kind == "series":
        return sum(impedance(part, s) for part in value)
    return 1 / sum(1 / impedance(part, s) for part in value)


def has_line(chain):
    return any("line" in part["element"] or ("branch" in part["element"] and has_line(part["element"]["branch"][0])) for part in chain)
