"""Ground maps of shows: what the core generates from an input list, solved by NumPy.

Phases between distributions are not known: the sources of each are solved apart, and
sizes are added, over distributions and over the leads of one input.
"""

from copy import deepcopy

import numpy as np
import pytest

from agreement import see
from ground_map import CLOSE, apart, by_numpy, hum_of, numbers, shield_of
from networks import example

SHOWS = 16
# The potential of a joint that hangs on the picofarads of transformers, through which
# less flows than counts.
HANGING = 1e-7


def show_of(seed):
    """A show by chance: three circuits, equipment of all kinds, lines of all kinds, links."""
    random = np.random.default_rng(seed)
    pick = lambda *names: str(random.choice(names))
    power = [{"id": f"c{n}", "difference": f"{random.integers(0, 80)} mV", "earth_r": f"{random.uniform(0.05, 0.5):.3f} ohm"} for n in range(3)]
    equipment = [{"id": "console", "circuit": "c0"}, {"id": "second", "circuit": "c1"}]
    for n in range(int(random.integers(3, 9))):
        kind = pick("earthed", "earthed", "insulated", "battery")
        equipment.append({"id": f"e{n}", "power": kind, "circuit": f"c{random.integers(3)}", "pin_1": pick("", "0.05 ohm")})
    names = [one["id"] for one in equipment[2:]]
    lines = []
    for n in range(int(random.integers(4, 14))):
        source = pick("output", "output", "balanced", "microphone", "pickup")
        kind = pick("none", "none", "passive", "active")
        values = {
            "source": source, "box": kind, "powered": "battery", "phantom": "off",
            "run": "balanced" if kind == "active" else pick("balanced", "unbalanced"),
            "ground": "joined" if kind == "none" else pick("joined", "lifted"),
            "lead_length": f"{random.integers(1, 8)} m", "run_length": f"{random.integers(3, 40)} m",
        }
        line = {"id": f"l{n}", "name": f"l{n}", "destination": "console", "equipment": pick(*names), "values": values}
        if kind != "none":
            line |= {"di": "box", "thru": pick("", *names)}
        if random.random() < 0.3:
            line |= {"second": "second", "split": pick("direct", "transformer")}
        line["carried"] = pick("wire", "wire", "wire", "fibre")
        lines.append(line)
    links = []
    for n in range(int(random.integers(0, 5))):
        a, b = random.choice(names, 2, replace=False)
        links.append({"id": f"k{n}", "kind": pick("metalwork", "video", "network", "audio"), "from": str(a), "to": str(b), "ends": pick("both", "both", "one", "optical")})
    gear = [{"id": "box", "name": "box", "kind": "di", "values": {}}]
    return {"version": 1, "mains": pick("50", "60"), "power": power, "equipment": equipment, "gear": gear, "lines": lines, "links": links}


def alone(graph, distribution):
    """The graph with the sources of one distribution: its e.m.f. and what leaks to it."""
    graph = deepcopy(graph)
    for at, node in enumerate(graph["nodes"]):
        if "distribution" in node and at != distribution:
            node["distribution"]["volts"] = 0.0
        leakage = node.get("equipment", {}).get("leakage")
        if leakage and leakage["from"] != distribution:
            leakage["amperes"] = 0.0
    return graph


@pytest.mark.parametrize("seed", range(SHOWS))
def test_maps_of_shows(seed):
    graph = example("stage", question=show_of(seed), arguments=["--map-graph"])
    ours = example("stage", question=graph, arguments=["--ground", "1"])
    assert graph["phases"] == "within_distributions"
    name = f"show {seed}"
    volts = {}
    for at in ours["at"]:
        place = graph["orders"].index(at["order"])
        one = alone(graph, at["by"])
        v, currents = by_numpy(one, at["order"])
        if np.max(np.abs(list(currents.values()))) > 0:
            edges = [currents.get(("edge", edge), 0.0) for edge in range(len(graph["edges"]))]
            see("numpy", "potentials", name, apart(numbers(at["potentials"]), v), HANGING)
            see("numpy", "currents", name, apart(numbers(at["currents"]), edges, list(currents.values())), CLOSE)
        for edge, hum in hum_of(one, v, currents, at["order"]).items():
            transfer = shield_of(graph["edges"][edge])["arrival"]["transfer"]
            volts[edge, place] = volts.get((edge, place), 0.0) + hum * (transfer[place] if transfer else 1.0)
    arrive = {}
    for edge, part in enumerate(graph["edges"]):
        own = shield_of(part)
        if own is not None and own["signal"] is not None:
            arrive.setdefault(own["arrival"]["input"], []).append(edge)
    assert len(arrive) == len(ours["hum"]) > 0
    besides = lambda edge, place: (shield_of(graph["edges"][edge])["arrival"]["besides"] or [0.0] * 99)[place]
    orders = range(len(graph["orders"]))
    theirs = {edges[-1]: [sum(volts[edge, place] + besides(edge, place) for edge in edges) for place in orders] for edges in arrive.values()}
    # What is between two grounds is a difference of potentials: it is as exact as these.
    loudest = list(theirs.values())
    for each in ours["hum"]:
        assert each["edges"] in arrive.values()
        see("numpy", "hum", name, apart(each["by_order"], theirs[each["edge"]], loudest), CLOSE)
