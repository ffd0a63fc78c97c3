"""Networks as netlists, by ngspice in batch mode.

Its models of lossy lines are approximations, so networks with lines are left to
scikit-rf.
"""

import shutil
import subprocess
import tempfile
from pathlib import Path

import numpy as np

# As the core's own sweep: 40 a decade from 1 Hz to 100 kHz.
SWEEP = "dec 40 1 100k"


class Netlist:
    """Elements between numbered nodes; node 0 is ground."""

    def __init__(self):
        self.lines = []
        self.nodes = 0

    def node(self):
        self.nodes += 1
        return f"n{self.nodes}"

    def add(self, kind, *words):
        self.lines.append(f"{kind}{len(self.lines)} {' '.join(str(word) for word in words)}")
        return self.lines[-1].split()[0]

    def one_port(self, port, a, b):
        ((kind, value),) = port.items()
        if kind == "series_rlc":
            parts = []
            if value["r"]:
                parts.append(("R", value["r"]))
            if value["l"]:
                parts.append(("L", value["l"]))
            if value["elastance"]:
                parts.append(("C", 1 / value["elastance"]))
            # A wire that may be asked for its current: a source of nothing.
            parts = parts or [("V", "DC 0")]
            ends = [a] + [self.node() for _ in parts[1:]] + [b]
            for (letter, size), first, second in zip(parts, ends, ends[1:]):
                self.add(letter, first, second, size)
        elif kind == "parallel_rlc":
            if value["g"]:
                self.add("R", a, b, 1 / value["g"])
            if value["c"]:
                self.add("C", a, b, value["c"])
            if value["reluctance"]:
                self.add("L", a, b, 1 / value["reluctance"])
        elif kind == "series":
            ends = [a] + [self.node() for _ in value[1:]] + [b]
            for part, first, second in zip(value, ends, ends[1:]):
                self.one_port(part, first, second)
        else:
            for part in value:
                self.one_port(part, a, b)

    def chain(self, chain, node):
        for part in chain:
            ((kind, value),) = part["element"].items()
            if kind == "series":
                behind = self.node()
                self.one_port(value, node, behind)
                node = behind
            elif kind == "shunt":
                self.one_port(value, node, "0")
            elif kind == "transformer":
                inner, behind = self.node(), self.node()
                self.add("E", inner, "0", node, "0", 1 / value)
                meter = self.add("V", inner, behind, "DC 0")
                self.add("F", node, "0", meter, 1 / value)
                node = behind
            elif kind == "buffer":
                behind = self.node()
                self.add("E", behind, "0", node, "0", value)
                node = behind
            else:
                raise ValueError(f"no netlist for {kind}")
        return node

    def coupled(self, coils, k):
        """Coils on one core: inductance and two nodes each, coupled by k."""
        names = [self.add("L", a, b, inductance) for inductance, a, b in coils]
        self.add("K", *names, k)

    def run(self, analysis, outputs, kelvin=293.15, plot=None):
        """The columns named in outputs, over frequency where they have one."""
        program = shutil.which("ngspice")
        if program is None:
            raise RuntimeError("ngspice is not installed: on Debian, apt-get install ngspice")
        with tempfile.TemporaryDirectory() as folder:
            netlist, table = Path(folder, "network.cir"), Path(folder, "table.txt")
            control = [
                ".control",
                "set numdgt=16",
                "set wr_singlescale",
                analysis,
                *([f"setplot {plot}"] if plot else []),
                f"wrdata {table} {' '.join(outputs)}",
                "quit",
                ".endc",
            ]
            # No leak of the simulator's own to ground, and no rounding by its tolerances.
            options = [f".options temp={kelvin - 273.15} gmin=1e-30 reltol=1e-12 abstol=1e-18 vntol=1e-18"]
            text = ["a network of the trade", *self.lines, *options, *control, ".end"]
            netlist.write_text("\n".join(text) + "\n")
            done = subprocess.run([program, "-b", netlist], capture_output=True, text=True, check=False)
            if not table.exists():
                raise RuntimeError(f"ngspice wrote no table:\n{done.stdout}\n{done.stderr}")
            return np.loadtxt(table, ndmin=2)


class Wound(Netlist):
    """A netlist with each transformer as two windings on one core.

    The core's own equivalent, all leakage on the primary in front of an ideal
    transformer, is that of windings L1 = leakage + magnetising and
    L2 = magnetising/ratio² with M = magnetising/ratio; the losses of the iron,
    parallel to the magnetising inductance, then lie across the secondary.
    """

    def chain(self, chain, node):
        elements = [part["element"] for part in chain]
        turns = next((i for i, element in enumerate(elements) if "transformer" in element), None)
        if turns is None:
            return super().chain(chain, node)
        node = super().chain(chain[: turns - 2], node)
        primary = elements[turns - 2]["series"]["series_rlc"]
        iron = elements[turns - 1]["shunt"]["parallel_rlc"]
        ratio = elements[turns]["transformer"]
        if primary["elastance"] or iron["c"] or not (iron["reluctance"] and primary["r"]):
            raise ValueError("this transformer cannot be wound")
        magnetising = 1 / iron["reluctance"]
        inner, behind = self.node(), self.node()
        self.add("R", node, inner, primary["r"])
        windings = [(primary["l"] + magnetising, inner, "0"), (magnetising / ratio**2, behind, "0")]
        self.coupled(windings, (magnetising / (primary["l"] + magnetising)) ** 0.5)
        if iron["g"]:
            self.add("R", behind, "0", 1 / (iron["g"] * ratio**2))
        return super().chain(chain[turns + 1 :], behind)


def driven(network, netlist=None):
    """A netlist with its e.m.f. and the node of its load."""
    netlist = netlist or Netlist()
    path = network["path"]
    emf, source = netlist.node(), netlist.node()
    netlist.lines.append(f"Vemf {emf} 0 DC 0 AC 1")
    netlist.one_port(path["source"], emf, source)
    return loaded(network, netlist, path["chain"], source)


def two_coils(network, r, inductance, c, coupling):
    """As `driven`, with the source wound as two equal coils in series, each
    with its own resistance and capacitance and half the e.m.f."""
    winding, *chain = network["path"]["chain"]
    if winding["name"] != "part-winding":
        raise ValueError("the capacitance of the coils comes first")
    netlist = Netlist()
    ends = ["0", netlist.node(), netlist.node()]
    coils = []
    for name, a, b in zip(["Vemf", "Vsecond"], ends, ends[1:]):
        driven_end, inner = netlist.node(), netlist.node()
        netlist.lines.append(f"{name} {driven_end} {a} DC 0 AC 0.5")
        netlist.add("R", driven_end, inner, r)
        coils.append((inductance, inner, b))
        netlist.add("C", a, b, c)
    netlist.coupled(coils, coupling)
    return loaded(network, netlist, chain, ends[-1])


def loaded(network, netlist, chain, node):
    out = netlist.chain(chain, node)
    netlist.one_port(network["path"]["load"], out, "0")
    # No node may hang on capacitors alone; this is far above everything else.
    netlist.lines.append(f"Rhang {out} 0 1e18")
    return netlist, out


def transfer_and_current(circuit):
    """Frequencies, load voltage and current of the e.m.f. of a driven netlist."""
    netlist, out = circuit
    table = netlist.run(f"ac {SWEEP}", [f"v({out})", "i(Vemf)"])
    return table[:, 0], table[:, 1] + 1j * table[:, 2], -(table[:, 3] + 1j * table[:, 4])


def output_impedance(network):
    """One volt over the current it sends into the output, the load away and the e.m.f. at rest."""
    netlist = Netlist()
    source = netlist.node()
    netlist.one_port(network["path"]["source"], "0", source)
    out = netlist.chain(network["path"]["chain"], source)
    netlist.lines.append(f"Vback {out} 0 DC 0 AC 1")
    table = netlist.run(f"ac {SWEEP}", ["i(Vback)"])
    return -1 / (table[:, 1] + 1j * table[:, 2])


def noise_density(circuit, kelvin):
    """Thermal noise across the load of a driven netlist, V²/Hz."""
    netlist, out = circuit
    table = netlist.run(f"noise v({out}) Vemf {SWEEP}", ["onoise_spectrum"], kelvin, "noise1")
    return table[:, 1] ** 2


def noise_power(circuit, kelvin):
    """The same over 20 Hz to 20 kHz by the simulator's own integration, V².

    That is by power laws from point to point, hence the many points.
    """
    netlist, out = circuit
    table = netlist.run(f"noise v({out}) Vemf dec 10000 20 20k", ["onoise_total"], kelvin, "noise2")
    return float(table[0, -1]) ** 2


def bridge_error(bridge):
    """The difference between the legs of a balanced line re the voltage between its earths."""
    netlist = Netlist()
    earth, middle = netlist.node(), netlist.node()
    netlist.lines.append(f"Vcm {earth} 0 DC 0 AC 1")
    if bridge["floating"] is None:
        netlist.add("V", earth, middle, "DC 0")
    else:
        netlist.one_port(bridge["floating"], earth, middle)
    ends = []
    for source, load in bridge["legs"]:
        end = netlist.node()
        netlist.one_port(source, middle, end)
        netlist.one_port(load, end, "0")
        ends.append(end)
    table = netlist.run(f"ac {SWEEP}", [f"v({ends[0]},{ends[1]})"])
    return table[:, 1] + 1j * table[:, 2]


def loop_hum(loop):
    """The size of the voltage in series with the signal of a ground loop, V."""
    netlist = Netlist()
    netlist.lines.append(f"Vearth a 0 DC 0 AC {loop['emf']}")
    netlist.add("R", "a", "b", loop["earth_r"])
    netlist.add("L", "b", "c", loop["inductance"])
    if loop["isolated"] is None:
        netlist.add("R", "c", "0", loop["shield_r"])
        out = "c"
    else:
        capacitance, circuit = loop["isolated"]
        netlist.add("C", "c", "d", capacitance)
        netlist.add("R", "d", "0", circuit)
        out = "d"
    table = netlist.run(f"ac {SWEEP}", [f"v({out})"])
    return np.abs(table[:, 1] + 1j * table[:, 2])
