"""Networks by nodal analysis in 30 digits, by mpmath.

Shares no method with the core, which walks along chains: here all nodes are
solved at once, lines are given by their admittances, and noise is added up
element by element instead of being read off an impedance.
"""

import mpmath as mp

from networks import impedance

mp.mp.dps = 30

BOLTZMANN = mp.mpf("1.380649e-23")


class Nodal:
    """The network at one frequency.

    Unknowns are the voltages of the nodes and the currents of the elements that
    force a voltage (modified nodal analysis: Ho, Ruehli and Brennan, 1975).
    """

    def __init__(self, path, frequency):
        self.s = mp.mpc(0, 2 * mp.pi * frequency)
        self.stamps = {}
        self.size = 0
        # What makes noise: nodes of each element and the real part of its admittances.
        self.noisy = []
        emf, source = self.unknown(), self.unknown()
        self.current = self.unknown()
        self.stamp(emf, self.current, 1)
        self.stamp(self.current, emf, 1)
        self.source = self.one_port(path["source"], emf, source)
        self.out = self.chain(path["chain"], source)
        self.load = self.one_port(path["load"], self.out, None)
        self.solve()

    def unknown(self):
        self.size += 1
        return self.size - 1

    def stamp(self, row, column, value):
        if row is not None and column is not None:
            self.stamps[row, column] = self.stamps.get((row, column), 0) + value

    def admittances(self, nodes, matrix):
        for row, values in zip(nodes, matrix):
            for column, value in zip(nodes, values):
                self.stamp(row, column, value)
        self.noisy.append((nodes, [[mp.re(value) for value in values] for values in matrix]))

    def one_port(self, port, a, b):
        z = impedance(port, self.s)
        self.admittances((a, b), ((1 / z, -1 / z), (-1 / z, 1 / z)))
        return z

    def chain(self, chain, node):
        for part in chain:
            ((kind, value),) = part["element"].items()
            if kind == "shunt":
                self.one_port(value, node, None)
                continue
            if kind == "branch":
                self.one_port(value[1], self.chain(value[0], node), None)
                continue
            behind = self.unknown()
            if kind == "series":
                self.one_port(value, node, behind)
            elif kind == "line":
                z = (value["r"] + self.s * value["l"]) * value["length"]
                y = (value["g"] + self.s * value["c"]) * value["length"]
                root = mp.sqrt(z * y)
                own, mutual = root / z * mp.coth(root), -root / z / mp.sinh(root)
                self.admittances((node, behind), ((own, mutual), (mutual, own)))
            elif kind == "transformer":
                current = self.unknown()
                for at, turns in ((node, 1), (behind, -mp.mpf(value))):
                    self.stamp(at, current, turns)
                    self.stamp(current, at, turns)
            elif kind == "buffer":
                current = self.unknown()
                self.stamp(behind, current, 1)
                self.stamp(current, behind, 1)
                self.stamp(current, node, -mp.mpf(value))
                # The core counts only the noise that is made behind a buffer.
                self.noisy.clear()
            else:
                raise ValueError(f"no admittances for {kind}")
            node = behind
        return node

    def solve(self):
        # The transpose: a column of its inverse tells what each e.m.f. and each
        # current at a node does to one unknown (the adjoint network).
        transpose = mp.matrix(self.size)
        for (row, column), value in self.stamps.items():
            transpose[column, row] = value
        factors, order = mp.mp.LU_decomp(transpose)

        def towards(unknown):
            unit = mp.matrix(self.size, 1)
            unit[unknown] = 1
            return mp.mp.U_solve(factors, mp.mp.L_solve(factors, unit, order))

        self.to_out = towards(self.out)
        self.to_current = towards(self.current)

    def transfer(self):
        return self.to_out[self.current]

    def input_impedance(self):
        # The current of the e.m.f. flows into its positive end.
        return -1 / self.to_current[self.current] - self.source

    def output_impedance(self):
        return 1 / (1 / self.to_out[self.out] - 1 / self.load)

    def noise_density(self, temperature):
        """Thermal noise across the load, V²/Hz.

        A passive element with admittances Y makes noise currents with the
        correlations 4·k·T·Re Y (Twiss, Nyquist's and Thevenin's theorems
        generalized for nonreciprocal linear networks, J. Appl. Phys. 26, 1955).
        """
        total = mp.mpf(0)
        for nodes, conductances in self.noisy:
            gains = [mp.mpf(0) if node is None else self.to_out[node] for node in nodes]
            for gain, row in zip(gains, conductances):
                for other, g in zip(gains, row):
                    total += g * mp.re(gain * mp.conj(other))
        return 4 * BOLTZMANN * mp.mpf(temperature) * total
