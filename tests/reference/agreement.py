"""How far the core and another solver are apart, kept for the table at the end."""

import numpy as np

# The largest difference seen, by network and then by solver.
SEEN = {}


def worst(ours, theirs):
    """The largest difference, relative to the largest of the two at each frequency."""
    return float(np.max(np.abs(ours - theirs) / np.maximum(np.abs(ours), np.abs(theirs))))


def check(solver, what, name, ours, theirs, limit):
    assert len(ours) == len(theirs) >= 200
    see(solver, what, name, worst(ours, theirs), limit)


def see(solver, what, name, error, limit):
    seen = SEEN.setdefault(name, {})
    # A difference that is no number is the largest.
    seen[solver] = max(seen.get(solver, 0.0), np.inf if np.isnan(error) else error)
    assert error <= limit, f"{what} of {name} by {solver}: {error:.1e} apart, {limit:.0e} allowed"
