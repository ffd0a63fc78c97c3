"""Ground maps solved by NumPy, their loops counted by NetworkX, and some by ngspice.

The core factors sparse admittances; here every current is an unknown beside the
potentials (modified nodal analysis), in one full matrix. Hum is written out from
potentials and currents by the conventions of the map.
"""

import numpy as np
import pytest
import networkx as nx

from agreement import see
from networks import example
from simulator import Netlist

CLOSE = 1e-9
# What the simulator prints, and how it takes a difference of two potentials.
CLOSE_BY_SIMULATOR = 1e-6


def distribution(volts=0.0, r=0.0, inductance=0.0, wave=()):
    return {"distribution": {"volts": volts, "r": r, "l": inductance, "wave": list(wave)}}


def equipment(amperes=None, source=0, capacitance=0.0, wave=(), pin_1_r=0.0):
    leakage = amperes and {"amperes": amperes, "capacitance": capacitance, "from": source, "wave": list(wave)}
    return {"equipment": {"leakage": leakage, "pin_1_r": pin_1_r}}


def edge(a, b, r, inductance=0.0, kind="earth"):
    return {"ends": [a, b], "r": r, "l": inductance, "kind": kind}


def shield(a, b, r, signal, inductance=0.0, **rest):
    return edge(a, b, r, inductance, {"shield": {"contact_r": 0.02, "signal": signal, **rest}})


def limit(volts, weighting="flat"):
    return {"volts": volts, "weighting": weighting}


def unbalanced(volts=None):
    return {"unbalanced": volts and limit(volts)}


def balanced(decibels=60.0, volts=None):
    return {"balanced": [{"decibels": decibels}, volts and limit(volts, "a")]}


def harmonics(*ratios, phase=0.0):
    return [{"order": order, "ratio": ratio, "phase": phase} for order, ratio in zip((2, 3, 5, 7), ratios)]


def isolator(cost=1.0, capacitance=100e-12):
    return {"cost": cost, "capacitance": capacitance}


def stage(nodes, edges, mains=50.0, orders=(1,)):
    return {"mains": mains, "orders": list(orders), "nodes": nodes, "edges": edges}


FIELD = {"density": 2e-6, "area": 4.0, "wave": harmonics(0.1, 0.5, 0.3, 0.2, phase=0.4)}
RICH = harmonics(0.01, 0.5, 0.25, 0.12)
ALL = (1, 2, 3, 5, 7)
TWO_BARS = [distribution(), distribution(0.1, 0.3, 10e-6, RICH)]


def large(seed, count, mains):
    """A stage by chance, with every kind of edge and end."""
    random = np.random.default_rng(seed)
    nodes = [distribution(), distribution(0.2, 0.2, 10e-6, RICH), distribution(0.05, 0.4, 0.0, RICH)]
    edges = []
    for at in range(3, count + 3):
        bar = int(random.integers(3))
        leaks = random.random() < 0.4
        capacitance, pin_1_r = 3e-9 * random.integers(2), 0.02 * random.integers(2)
        nodes.append(equipment(2e-4 if leaks else None, bar, capacitance, RICH, pin_1_r))
        if not leaks:
            edges.append(edge(bar, at, random.uniform(0.05, 0.5), 5e-6))
    for _ in range(2 * count):
        a, b = (int(node) for node in random.choice(np.arange(3, count + 3), 2, replace=False))
        signal = (None, unbalanced(1e-4), balanced(50.0, 1e-4))[random.integers(3)]
        ends = random.choice(["both", "both", "both", "one", "transformer", "optical"])
        more = {"ends": str(ends), "capacitance": 2e-10, "isolator": isolator()}
        if random.random() < 0.2:
            more["field"] = FIELD
        edges.append(shield(a, b, random.uniform(0.05, 1.0), signal, 8e-6, **more))
    return stage(nodes, edges, mains, ALL)


MAPS = {
    "two boxes on two earths": stage(
        [*TWO_BARS, equipment(), equipment()], [edge(1, 2, 0.1), shield(2, 3, 0.2, unbalanced()), edge(3, 0, 0.1)]
    ),
    "parallel leads": stage(
        [*TWO_BARS, equipment(), equipment()],
        [edge(1, 2, 0.1), *(shield(2, 3, 0.1 * n, unbalanced(), 5e-6) for n in (1, 2, 3)), edge(3, 0, 0.1)],
        orders=ALL,
    ),
    "balanced at 60 Hz": stage(
        [*TWO_BARS, equipment(), equipment(pin_1_r=0.05)],
        [
            edge(1, 2, 0.1),
            shield(2, 3, 0.2, balanced(), 5e-6),
            shield(2, 3, 0.2, balanced(), ends="one"),
            edge(3, 0, 0.1),
        ],
        60.0,
        ALL,
    ),
    "laptop that leaks over two leads": stage(
        [distribution(), equipment(2.5e-4, 0, 7e-9, RICH), equipment()],
        [shield(1, 2, 0.2, unbalanced(2e-5), isolator=isolator()) for _ in range(2)] + [edge(0, 2, 0.1)],
        orders=ALL,
    ),
    "laptop behind a transformer alone": stage(
        [distribution(), equipment(2.5e-4, 0, 7e-9), equipment()],
        [shield(1, 2, 0.2, unbalanced(), ends="transformer", capacitance=1e-10, circuit_r=150.0), edge(0, 2, 0.1)],
    ),
    "field through a loop": stage(
        [distribution(), equipment(), equipment()],
        [edge(0, 1, 0.2, 5e-6), shield(1, 2, 0.2, unbalanced(), 5e-6, field=FIELD), edge(0, 2, 0.2, 5e-6)],
        60.0,
        ALL,
    ),
    "field through an open shield": stage(
        [distribution(), equipment(), equipment()],
        [edge(0, 1, 0.2), shield(1, 2, 0.2, balanced(), field=FIELD, ends="one"), edge(0, 2, 0.2)],
    ),
    "two stages that nothing joins": stage(
        [*TWO_BARS, equipment(), equipment(), equipment(), equipment(2.5e-4, 0), equipment()],
        [
            edge(1, 2, 0.1),
            shield(2, 3, 0.2, unbalanced()),
            edge(3, 0, 0.1),
            shield(4, 5, 0.2, unbalanced()),
            shield(5, 4, 0.2, unbalanced()),
            shield(5, 6, 0.2, None),
        ],
    ),
    "triangle of three boxes": stage(
        [*TWO_BARS, equipment(), equipment(), equipment()],
        [
            edge(1, 2, 0.1),
            edge(0, 3, 0.1),
            edge(0, 4, 0.2),
            *(shield(a, b, 0.3, unbalanced(1e-3), isolator=isolator(a)) for a, b in ((2, 3), (3, 4), (4, 2))),
        ],
        60.0,
        (1, 3),
    ),
    "rack and data": stage(
        [*TWO_BARS, *(equipment() for _ in range(5))],
        [
            edge(1, 2, 0.1),
            edge(2, 3, 0.01, kind="metalwork"),
            edge(3, 4, 0.01, kind="metalwork"),
            edge(0, 5, 0.1),
            shield(4, 5, 0.3, None, isolator=isolator(3.0)),
            shield(2, 5, 0.2, balanced(50.0, 1e-6), phantom=True),
            shield(6, 5, 0.2, unbalanced()),
            shield(6, 3, 0.2, unbalanced(1e-4), isolator=isolator()),
        ],
        orders=ALL,
    ),
    "supplies that hang on capacitors": stage(
        [distribution(230.0, 0.0, 0.0, RICH), distribution(), *(equipment(1e-4, n % 2, 3e-9, RICH) for n in range(4))],
        [shield(a, b, 0.2, unbalanced()) for a, b in ((2, 3), (3, 4), (4, 5), (5, 2))],
        orders=ALL,
    ),
    "twelve boxes": large(1, 12, 50.0),
    "forty boxes at 60 Hz": large(2, 40, 60.0),
    "a hundred and fifty boxes": large(3, 150, 50.0),
}
BY_SIMULATOR = [
    "two boxes on two earths",
    "parallel leads",
    "balanced at 60 Hz",
    "laptop that leaks over two leads",
    "field through a loop",
    "triangle of three boxes",
    "twelve boxes",
]


def solved(name):
    if name not in SOLVED:
        SOLVED[name] = example("stage", question=MAPS[name], arguments=["--ground"])
    return SOLVED[name]


SOLVED = {}


def wave_at(wave, order):
    for part in wave:
        if part["order"] == order:
            return part["ratio"] * np.exp(1j * part["phase"])
    return 1.0 if order == 1 else 0.0


def shield_of(part):
    return part["kind"]["shield"] if isinstance(part["kind"], dict) else None


def pins(graph, part):
    own = shield_of(part)
    if own is None or own["signal"] is None:
        return 0.0
    of_ends = sum(graph["nodes"][node].get("equipment", {}).get("pin_1_r", 0.0) for node in part["ends"])
    return of_ends + own.get("pin_1_r", 0.0)


def circuit_r(part):
    own = shield_of(part)
    return own.get("circuit_r") or part["r"] + own["contact_r"]


def ways(graph, ends, order):
    """(name, from, to, R, L, C or none, e.m.f.) of all that carries a current; the venue's earth is None."""
    omega = 2 * np.pi * graph["mains"] * order
    found = []
    for at, part in enumerate(graph["edges"]):
        own = shield_of(part)
        field = own and own.get("field")
        emf = omega * field["density"] * field["area"] * wave_at(field["wave"], order) if field else 0.0
        if ends[at] == "both":
            r = part["r"] + (own["contact_r"] if own else 0.0) + pins(graph, part)
            found.append((("edge", at), *part["ends"], r, part["l"], None, emf))
        elif ends[at] == "transformer":
            found.append((("edge", at), *part["ends"], circuit_r(part), part["l"], own["capacitance"], emf))
        elif ends[at] in ("one", "none") and own.get("open"):
            r, x = own["open"]["z"][graph["orders"].index(order)]
            coil, capacitor = (x / omega, None) if x >= 0 else (0.0, -1 / (omega * x))
            found.append((("edge", at), *part["ends"], r, coil, capacitor, emf))
    for at, node in enumerate(graph["nodes"]):
        if "distribution" in node:
            bar = node["distribution"]
            emf = bar["volts"] * wave_at(bar["wave"], order)
            found.append((("earth", at), None, at, bar["r"], bar["l"], None, emf))
        elif (leakage := node["equipment"]["leakage"]) and leakage["capacitance"]:
            found.append((("supply", at), leakage["from"], at, 0.0, 0.0, leakage["capacitance"], 0.0))
    return found


def injected(graph, parts, order):
    """What leaks from one node into another, A: nothing between parts that nothing joins."""
    for at, node in enumerate(graph["nodes"]):
        leakage = node.get("equipment", {}).get("leakage")
        if leakage and parts[at] == parts[leakage["from"]]:
            yield leakage["from"], at, leakage["amperes"] * wave_at(leakage["wave"], order) * order


def parts_of(graph, found):
    joined = nx.Graph()
    joined.add_nodes_from([*range(len(graph["nodes"])), "venue"])
    joined.add_edges_from(("venue" if a is None else a, b) for _, a, b, *_ in found)
    return {node: min(map(str, part)) for part in nx.connected_components(joined) for node in part}


def ends_of(graph):
    return [(shield_of(part) or {}).get("ends", "both") for part in graph["edges"]]


def by_numpy(graph, order):
    """Potentials, currents by way, and the hum of each lead that carries a signal."""
    ends, count = ends_of(graph), len(graph["nodes"])
    omega = 2 * np.pi * graph["mains"] * order
    found = ways(graph, ends, order)
    parts = parts_of(graph, found)
    size = count + len(found)
    matrix, right = np.zeros((size, size), complex), np.zeros(size, complex)
    for column, (_, a, b, r, inductance, c, emf) in enumerate(found, count):
        for node, sign in ((a, 1), (b, -1)):
            if node is not None:
                matrix[node, column] += sign
                matrix[column, node] += sign
        matrix[column, column] = -(r + 1j * omega * inductance + (1 / (1j * omega * c) if c else 0))
        right[column] = -emf
    for a, b, current in injected(graph, parts, order):
        right[a] -= current
        right[b] += current
    seen = {parts["venue"]}
    for node in range(count):
        if parts[node] not in seen:
            seen.add(parts[node])
            matrix[node], right[node] = 0, 0
            matrix[node, node] = 1
    solution = np.linalg.solve(matrix, right)
    currents = {name: solution[count + at] for at, (name, *_) in enumerate(found)}
    return solution[:count], currents


def left_of(own, ends, place):
    """What a balanced lead leaves of the voltage between the grounds of its ends; none for another."""
    if "balanced" not in own["signal"]:
        return None
    if ends != "both" and own.get("open"):
        return own["open"]["error"][place]
    rejection = own["signal"]["balanced"][0]
    return rejection["by_order"][place] if "by_order" in rejection else 10 ** (-rejection["decibels"] / 20)


def hum_of(graph, v, currents, order):
    omega = 2 * np.pi * graph["mains"] * order
    hum = {}
    for at, (part, ends) in enumerate(zip(graph["edges"], ends_of(graph))):
        own = shield_of(part)
        if own is None or own["signal"] is None:
            continue
        field = own.get("field")
        emf = omega * field["density"] * field["area"] * wave_at(field["wave"], order) if field else 0.0
        across = abs(v[part["ends"][0]] - v[part["ends"][1]] + emf)
        current = abs(currents.get(("edge", at), 0.0))
        left = left_of(own, ends, graph["orders"].index(order))
        if ends in ("optical", "radio"):
            hum[at] = 0.0
        elif ends == "transformer":
            hum[at] = current * circuit_r(part)
        elif ends == "both" and left is None:
            hum[at] = current * (part["r"] + own["contact_r"] + pins(graph, part))
        else:
            hum[at] = across * (1.0 if left is None else left) + current * pins(graph, part)
    return hum


def apart(ours, theirs, among=None):
    """The largest difference re the largest of them, or of those among which they are."""
    ours, theirs = np.asarray(ours), np.asarray(theirs)
    largest = np.max(np.abs(theirs if among is None else among))
    return float(np.max(np.abs(ours - theirs)) / max(largest, 1e-30))


def numbers(pairs):
    return np.array([complex(*pair) for pair in pairs])


def test_enough_maps():
    assert len(MAPS) >= 12


@pytest.mark.parametrize("name", MAPS)
def test_currents_and_hum(name):
    graph, ours = MAPS[name], solved(name)
    for place, at in enumerate(ours["at"]):
        v, currents = by_numpy(graph, at["order"])
        edges = [currents.get(("edge", edge), 0.0) for edge in range(len(graph["edges"]))]
        earths = [-currents.get(("earth", node), 0.0) for node in range(len(graph["nodes"]))]
        all_currents = list(currents.values())
        see("numpy", "potentials", name, apart(numbers(at["potentials"]), v), CLOSE)
        see("numpy", "currents", name, apart(numbers(at["currents"]), edges, all_currents), CLOSE)
        see("numpy", "earths", name, apart(numbers(at["earths"]), earths, all_currents), CLOSE)
        hum = hum_of(graph, v, currents, at["order"])
        assert len(hum) == len(ours["hum"])
        theirs = [hum[each["edge"]] for each in ours["hum"]]
        see("numpy", "hum", name, apart([each["by_order"][place] for each in ours["hum"]], theirs), CLOSE)


@pytest.mark.parametrize("name", MAPS)
def test_loops(name):
    """Each loop of a cycle basis counts once; earths and metalwork are contracted before."""
    graph, ours = MAPS[name], solved(name)
    earths = nx.Graph()
    earths.add_nodes_from(range(len(graph["nodes"])))
    bars = [at for at, node in enumerate(graph["nodes"]) if "distribution" in node]
    nx.add_path(earths, bars)
    earths.add_edges_from(part["ends"] for part in graph["edges"] if shield_of(part) is None)
    group = {node: min(part) for part in nx.connected_components(earths) for node in part}
    shields = nx.MultiGraph()
    shields.add_nodes_from(group.values())
    for at, (part, ends) in enumerate(zip(graph["edges"], ends_of(graph))):
        if shield_of(part) is not None and ends == "both":
            a, b = (group[node] for node in part["ends"])
            shields.add_edge(a, b, key=at)
    parts = nx.number_connected_components(shields)
    loops = shields.number_of_edges() - shields.number_of_nodes() + parts
    count = {"shields": shields.number_of_edges(), "groups": len(shields), "parts": parts, "loops": loops}
    assert ours["count"] == count
    shortest = {}
    for a, b, at in shields.edges(keys=True):
        rest = shields.copy()
        rest.remove_edge(a, b, at)
        if nx.has_path(rest, a, b):
            shortest[at] = nx.shortest_path_length(rest, a, b) + 1
    is_shield = [shield_of(part) is not None for part in graph["edges"]]
    shields_along = lambda steps: sum("edge" in step and is_shield[step["edge"]] for step in steps)
    around = {loop["shield"]: shields_along(loop["steps"]) for loop in ours["loops"]}
    assert around == shortest


@pytest.mark.parametrize("name", MAPS)
def test_forest(name):
    """What costs least to open is what a maximum spanning forest leaves out."""
    graph, ours = MAPS[name], solved(name)["forest"]["isolation"]
    weighted = nx.MultiGraph()
    dearer = 2 + sum(((shield_of(part) or {}).get("isolator") or {}).get("cost", 0.0) for part in graph["edges"])
    whole, costs = 0.0, {}
    bars = [at for at, node in enumerate(graph["nodes"]) if "distribution" in node]
    for at, (part, ends) in enumerate(zip(graph["edges"], ends_of(graph))):
        own = shield_of(part)
        if own is None:
            weighted.add_edge(*part["ends"], key=at, weight=dearer**2)
        elif ends == "both":
            may = own.get("isolator") and not own.get("phantom")
            costs[at] = own["isolator"]["cost"] if may else None
            weighted.add_edge(*part["ends"], key=at, weight=own["isolator"]["cost"] if may else dearer)
            whole += own["isolator"]["cost"] if may else 0.0
    for number, (a, b) in enumerate(zip(bars, bars[1:])):
        weighted.add_edge(a, b, key=f"bar {number}", weight=dearer**2)
    kept = {key for _, _, key in nx.maximum_spanning_edges(weighted, keys=True, data=False)}
    left_out = whole - sum(costs[at] or 0.0 for at in costs if at in kept)
    assert ours["cost"] == pytest.approx(left_out, rel=1e-9, abs=1e-9)
    assert len(ours["incurable"]) == sum(cost is None and at not in kept for at, cost in costs.items())


@pytest.mark.parametrize("name", BY_SIMULATOR)
def test_currents_by_simulator(name):
    graph, ours = MAPS[name], solved(name)
    for at in ours["at"]:
        order, frequency = at["order"], at["frequency"]
        netlist = Netlist()
        found = ways(graph, ends_of(graph), order)
        of = lambda node: "0" if node is None else f"g{node}"
        meters = {}
        for (kind, number), a, b, r, inductance, c, emf in found:
            # The e.m.f. points from a to b; the source of it is the meter.
            at_source = netlist.node()
            meters[kind, number] = f"V{kind}{number}"
            size, phase = abs(emf), np.degrees(np.angle(emf))
            netlist.lines.append(f"V{kind}{number} {of(a)} {at_source} DC 0 AC {size:.17g} {phase + 180:.17g}")
            pieces = [(letter, value) for letter, value in (("R", r), ("L", inductance), ("C", c)) if value]
            stops = [at_source, *(netlist.node() for _ in pieces[1:]), of(b)]
            for (letter, value), here, there in zip(pieces or [("V", "DC 0")], stops, stops[1:]):
                netlist.add(letter, here, there, value)
        for number, (a, b, current) in enumerate(injected(graph, parts_of(graph, found), order)):
            netlist.lines.append(
                f"Ileak{number} {of(a)} {of(b)} DC 0 AC {abs(current):.17g} {np.degrees(np.angle(current)):.17g}"
            )
        edges = [edge for kind, edge in meters if kind == "edge"]
        table = netlist.run(f"ac lin 1 {frequency} {frequency}", [f"i({meters['edge', edge]})" for edge in edges])
        theirs = table[0, 1::2] + 1j * table[0, 2::2]
        see("ngspice", "currents", name, apart(numbers(at["currents"])[edges], theirs), CLOSE_BY_SIMULATOR)
