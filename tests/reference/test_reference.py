"""The core's networks, solved again by reference solvers: agreement 1e-6."""

import numpy as np
import pytest

import microwave
import simulator
from networks import has_line, impedance, named, names, numbers, worst

CLOSE = 1e-6
# The simulator's own constant of Boltzmann is an older one, 3e-7 off.
CLOSE_NOISE = 2e-6

NETWORKS = names("networks")
# Thermal noise starts afresh behind a buffer, so that is counted without.
PASSIVE = [name for name in NETWORKS if named("networks", name)["passive"]]
LUMPED = [name for name in NETWORKS if not has_line(named("networks", name)["path"]["chain"])]


def check(what, name, ours, theirs, limit=CLOSE):
    error = worst(ours, theirs)
    print(f"{what}, {name}: {error:.1e}")
    assert len(ours) == len(theirs) >= 200
    assert error <= limit


def test_enough_networks():
    assert len(NETWORKS) >= 12
    assert len(LUMPED) >= 6
    assert any("600 m" in name for name in NETWORKS)


@pytest.mark.parametrize("name", NETWORKS)
def test_transfer_by_scattering_matrices(name):
    network = named("networks", name)
    check("transfer", name, numbers(network["transfer"]), microwave.Cascade(network).transfer())


@pytest.mark.parametrize("name", NETWORKS)
def test_impedances_by_scattering_matrices(name):
    network = named("networks", name)
    cascade = microwave.Cascade(network)
    check("input", name, numbers(network["input_impedance"]), cascade.input_impedance())
    check("output", name, numbers(network["output_impedance"]), cascade.output_impedance())


@pytest.mark.parametrize("name", LUMPED)
def test_transfer_and_input_by_simulator(name):
    network = named("networks", name)
    frequencies, transfer, current = simulator.transfer_and_current(network)
    assert np.allclose(frequencies, network["frequencies"], rtol=1e-9)
    check("transfer", name, numbers(network["transfer"]), transfer)
    source = impedance(network["path"]["source"], 2j * np.pi * np.array(network["frequencies"]))
    check("impedance on the e.m.f.", name, numbers(network["input_impedance"]) + source, 1 / current)


@pytest.mark.parametrize("name", [name for name in LUMPED if name in PASSIVE])
def test_noise_by_simulator(name):
    network = named("networks", name)
    check("noise", name, np.array(network["noise_density"]), simulator.noise_density(network), CLOSE_NOISE)


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
    print(f"noise power, {name}: {abs(power / network['noise_power'] - 1):.1e}")
    assert power == pytest.approx(network["noise_power"], rel=1e-5, abs=0)


@pytest.mark.parametrize("name", names("bridges"))
def test_hum_of_balanced_lines_by_simulator(name):
    bridge = named("bridges", name)
    check("bridge", name, numbers(bridge["error"]), simulator.bridge_error(bridge))


@pytest.mark.parametrize("name", names("loops"))
def test_hum_of_ground_loops_by_simulator(name):
    loop = named("loops", name)
    check("hum", name, np.array(loop["hum"]), simulator.loop_hum(loop))
