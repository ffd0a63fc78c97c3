"""Networks as cascades of scattering matrices, by scikit-rf.

Lines come from its distributed circuit, all else from its conversion of chain
matrices; the cascading is its own.
"""

import numpy as np
import skrf
from skrf.media import DistributedCircuit

from networks import impedance

# Between the smallest and the largest impedance of the trade, so that no
# reflection is so near to 1 that digits are lost.
REFERENCE = 5000.0


class Cascade:
    def __init__(self, network):
        self.f = np.array(network["frequencies"])
        self.s = 2j * np.pi * self.f
        path = network["path"]
        self.source = impedance(path["source"], self.s)
        self.load = impedance(path["load"], self.s)
        self.chain = self.cascade(path["chain"])

    def cascade(self, chain):
        parts = [self.element(part["element"]) for part in chain]
        return skrf.network.cascade_list([self.from_chain_matrix(1, 0, 0, 1), *parts])

    def element(self, element):
        ((kind, value),) = element.items()
        if kind == "series":
            return self.from_chain_matrix(1, impedance(value, self.s), 0, 1)
        if kind == "shunt":
            return self.from_chain_matrix(1, 0, 1 / impedance(value, self.s), 1)
        if kind == "transformer":
            return self.from_chain_matrix(value, 0, 0, 1 / value)
        if kind == "buffer":
            return self.from_chain_matrix(1 / value, 0, 0, 0)
        if kind == "branch":
            chain, load = value
            a, b, c, d = self.chain_matrix(self.cascade(chain))
            load = impedance(load, self.s)
            return self.from_chain_matrix(1, 0, (c * load + d) / (a * load + b), 1)
        ones = np.ones_like(self.f)
        medium = DistributedCircuit(
            frequency=skrf.Frequency.from_f(self.f, unit="hz"),
            z0_port=REFERENCE,
            C=value["c"] * ones,
            L=value["l"] * ones,
            R=value["r"] * ones,
            G=value["g"] * ones,
        )
        return medium.line(value["length"], "m")

    def from_chain_matrix(self, a, b, c, d):
        matrix = np.zeros((len(self.f), 2, 2), dtype=complex)
        for (row, column), value in {(0, 0): a, (0, 1): b, (1, 0): c, (1, 1): d}.items():
            matrix[:, row, column] = value
        scattering = skrf.network.a2s(matrix, REFERENCE)
        return skrf.Network(f=self.f, f_unit="hz", s=scattering, z0=REFERENCE)

    @staticmethod
    def chain_matrix(network):
        return np.moveaxis(network.a, 0, -1).reshape(4, -1)

    def transfer(self):
        a, b, c, d = self.chain_matrix(self.chain)
        return 1 / (a + b / self.load + self.source * (c + d / self.load))

    def input_impedance(self):
        a, b, c, d = self.chain_matrix(self.chain)
        return (a + b / self.load) / (c + d / self.load)

    def output_impedance(self):
        a, b, c, d = self.chain_matrix(self.chain)
        return (d * self.source + b) / (c * self.source + a)
