"""The band of part tolerances, drawn again by NumPy and searched again by SciPy."""

from functools import cache

import numpy as np
import pytest
from scipy.optimize import differential_evolution

from networks import example

DRAWS = 2000
# Above its resonance, where capacitance takes the level down, and right at it,
# where the worst case lies inside the tolerances.
FREQUENCIES = [4000.0, 9000.0]
# Value and tolerance: coil L, R, C, lead C, load R.
PARTS = {
    "coil_l": (2.5, 0.10),
    "coil_r": (6500.0, 0.10),
    "coil_c": (110e-12, 0.10),
    "lead_c": (100e-12, 0.20),
    "load_r": (1e6, 0.05),
}
LENGTH = 5.0
RANGES = [(value * (1 - off), value * (1 + off)) for value, off in PARTS.values()]


def level(parts, frequency):
    """The coil as series R and L, all capacitance and the load across it."""
    inductance, r, winding, lead, load = parts
    s = 2j * np.pi * frequency
    transfer = 1 / (1 + (r + s * inductance) * (1 / load + s * (winding + LENGTH * lead)))
    return 20 * np.log10(np.abs(transfer))


@cache
def spread(frequency):
    values = {name: value for name, (value, _) in PARTS.items()}
    bare = {"volume": "none", "tone": "none", "lead_r": 0.0, "lead_l": 0.0, "lead_length": LENGTH}
    question = {
        "calculator": "pickup",
        "values": {**values, **bare, "frequency": frequency},
        "working": False,
        "tolerances": {
            "draws": DRAWS,
            "percent": {"all": 0, **{name: 100 * off for name, (_, off) in PARTS.items()}},
        },
    }
    readings = example("solve", question=question)["tolerances"]["readings"]
    return next(reading for reading in readings if reading["id"] == "level_at")


@cache
def drawn(frequency):
    random = np.random.default_rng(1)
    return np.sort(level([random.uniform(*ends, 10**6) for ends in RANGES], frequency))


@pytest.mark.parametrize("frequency", FREQUENCIES)
@pytest.mark.parametrize(("name", "share"), [("low", 0.05), ("middle", 0.5), ("high", 0.95)])
def test_quantiles_by_draws(frequency, name, share):
    """Within four standard deviations of what so many draws know: √(p(1 − p)/n)."""
    levels = drawn(frequency)
    got = np.searchsorted(levels, spread(frequency)[name]) / len(levels)
    assert abs(got - share) < 4 * np.sqrt(share * (1 - share) / DRAWS)


@pytest.mark.parametrize("frequency", FREQUENCIES)
@pytest.mark.parametrize(("name", "sign"), [("least", 1), ("most", -1)])
def test_worst_case_by_evolution(frequency, name, sign):
    worst = differential_evolution(lambda parts: sign * level(parts, frequency), RANGES, seed=1, tol=1e-10, maxiter=3000)
    assert spread(frequency)[name] == pytest.approx(sign * worst.fun, abs=1e-4)


def test_one_worst_case_lies_inside():
    """Else no corner would have been left to tell a search from."""
    corners = np.array(np.meshgrid(*RANGES)).reshape(len(RANGES), -1)
    most = [spread(frequency)["most"] - level(corners, frequency).max() for frequency in FREQUENCIES]
    assert max(most) > 0.1
