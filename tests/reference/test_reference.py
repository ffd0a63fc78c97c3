"""The core's networks, solved again by reference solvers: agreement 1e-6."""

import numpy as np
import pytest

import microwave
import simulator
from agreement import check, see
from networks import has_line, impedance, named, names, numbers
from nodal import Nodal

# Of this, the simulator's noise takes 3.5e-7: its constant of Boltzmann is of 2014.
CLOSE = 1e-6
# What the core promises; the nodal solution has digits to spare.
PROMISED = 1e-12

NETWORKS = names("networks")
# Thermal noise starts afresh behind a buffer, so that is counted without.
PASSIVE = [name for name in NETWORKS if named("networks", name)["passive"]]
LUMPED = [name for name in NETWORKS if not has_line(named("networks", name)["path"]["chain"])]
LUMPED_PASSIVE = [name for name in LUMPED if name in PASSIVE]
TRANSFORMERS = [
    name
    for name in LUMPED
    if any("transformer" in part["element"] for part in named("networks", name)["path"]["chain"])
]


def test_enough_networks():
    assert len(NETWORKS) >= 12
    assert len(LUMPED) >= 6
    assert len(TRANSFORMERS) >= 3
    assert any("600 m" in name for name in NETWORKS)


@pytest.mark.parametrize("name", NETWORKS)
def test_transfer_by_scattering_matrices(name):
    network = named("networks", name)
    theirs = microwave.Cascade(network).transfer()
    check("scikit-rf", "transfer", name, numbers(network["transfer"]), theirs, CLOSE)


@pytest.mark.parametrize("name", NETWORKS)
def test_impedances_by_scattering_matrices(name):
    network = named("networks", name)
    cascade = microwave.Cascade(network)
    theirs = {"input_impedance": cascade.input_impedance(), "output_impedance": cascade.output_impedance()}
    for what, values in theirs.items():
        check("scikit-rf", what, name, numbers(network[what]), values, CLOSE)


@pytest.mark.parametrize("name", PASSIVE)
def test_noise_power_by_quadrature(name):
    """The band power, from the scattering cascade's impedance on a fine grid of its own."""
    network = dict(named("networks", name))
    nodes, weights = np.polynomial.legendre.leggauss(400)
    low, high = np.log(20.0), np.log(20e3)
    network["frequencies"] = np.exp(0.5 * (high - low) * nodes + 0.5 * (high + low))
    cascade = microwave.Cascade(network)
    z = 1 / (1 / cascade.output_impedance() + 1 / cascade.load)
    density = 4 * 1.380649e-23 * network["temperature"] * z.real
    power = float(np.sum(weights * density * network["frequencies"]) * 0.5 * (high - low))
    see("scikit-rf", "noise power", name, abs(power / network["noise_power"] - 1), CLOSE)


@pytest.mark.parametrize("name", NETWORKS)
def test_everything_by_nodal_analysis(name):
    network = named("networks", name)
    solutions = [Nodal(network["path"], frequency) for frequency in network["frequencies"]]
    theirs = {
        "transfer": [solution.transfer() for solution in solutions],
        "input_impedance": [solution.input_impedance() for solution in solutions],
        "output_impedance": [solution.output_impedance() for solution in solutions],
    }
    for what, values in theirs.items():
        values = np.array([complex(value) for value in values])
        check("mpmath", what, name, numbers(network[what]), values, PROMISED)
    noise = np.array([float(solution.noise_density(network["temperature"])) for solution in solutions])
    check("mpmath", "noise", name, np.array(network["noise_density"]), noise, PROMISED)


@pytest.mark.parametrize("name", LUMPED)
def test_transfer_and_impedances_by_simulator(name):
    network = named("networks", name)
    check_driven("ngspice", name, simulator.driven(network))
    theirs = simulator.output_impedance(network)
    check("ngspice", "output_impedance", name, numbers(network["output_impedance"]), theirs, CLOSE)


@pytest.mark.parametrize("name", LUMPED_PASSIVE)
def test_noise_by_simulator(name):
    network = named("networks", name)
    circuit = simulator.driven(network)
    check_noise("ngspice noise", name, circuit)
    power = simulator.noise_power(circuit, network["temperature"])
    see("ngspice noise", "noise power", name, abs(power / network["noise_power"] - 1), CLOSE)


@pytest.mark.parametrize("name", TRANSFORMERS)
def test_transformers_as_coupled_windings(name):
    circuit = simulator.driven(named("networks", name), simulator.Wound())
    check_driven("coupled coils", name, circuit)
    check_noise("coupled coils", name, circuit)


def test_two_coils_as_coupled_coils():
    """The core takes two coils as one; each by itself here, as in crate/tests/common/networks.rs."""
    name = "two coils in series, lumped lead"
    circuit = simulator.two_coils(named("networks", name), r=4e3, inductance=2.0, c=110e-12, coupling=0.3)
    check_driven("coupled coils", name, circuit)
    check_noise("coupled coils", name, circuit)


@pytest.mark.parametrize("name", names("bridges"))
def test_hum_of_balanced_lines_by_simulator(name):
    bridge = named("bridges", name)
    check("ngspice", "bridge", name, numbers(bridge["error"]), simulator.bridge_error(bridge), CLOSE)


@pytest.mark.parametrize("name", names("loops"))
def test_hum_of_ground_loops_by_simulator(name):
    loop = named("loops", name)
    check("ngspice", "hum", name, np.array(loop["hum"]), simulator.loop_hum(loop), CLOSE)


def check_driven(solver, name, circuit):
    network = named("networks", name)
    frequencies, transfer, current = simulator.transfer_and_current(circuit)
    assert np.allclose(frequencies, network["frequencies"], rtol=1e-9)
    check(solver, "transfer", name, numbers(network["transfer"]), transfer, CLOSE)
    source = impedance(network["path"]["source"], 2j * np.pi * np.array(network["frequencies"]))
    check(solver, "impedance on the e.m.f.", name, numbers(network["input_impedance"]) + source, 1 / current, CLOSE)


def check_noise(solver, name, circuit):
    network = named("networks", name)
    density = simulator.noise_density(circuit, network["temperature"])
    check(solver, "noise", name, np.array(network["noise_density"]), density, CLOSE)
