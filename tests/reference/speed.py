"""Times the sweep of one chain over 1,000 frequencies, in the core and in scikit-rf.

Nothing is asserted about the times. `python tests/reference/speed.py`
"""

import os
from statistics import median
from time import perf_counter

from skrf.network import cascade_list

import microwave
from agreement import worst
from networks import example, numbers

# Few in a run that only has to go through.
RUNS = 3 if "STAGEOHM_BRIEF" in os.environ else 51
GOAL = 300


def seconds(work):
    start = perf_counter()
    work()
    return perf_counter() - start


def main():
    timed = example("sweep_time", "--release")
    # Times compare only where the answers do.
    error = worst(numbers(timed["transfer"]), microwave.Cascade(timed).transfer())
    if not error <= 1e-6:
        raise SystemExit(f"the core and scikit-rf do not agree: {error:.1e} apart")
    whole = median(seconds(lambda: microwave.Cascade(timed).transfer()) for _ in range(RUNS))
    ready = microwave.Cascade(timed)
    # Element matrices at hand: only what scikit-rf itself does with them.
    parts = [ready.element(part["element"]) for part in timed["path"]["chain"]]
    cascading = median(seconds(lambda: cascade_list(parts)) for _ in range(RUNS))
    print(f"{len(parts)} elements, {len(timed['frequencies'])} frequencies; answers {error:.0e} apart")
    print(f"core                                     {timed['seconds'] * 1e6:10.1f} µs")
    for what, time in (("scikit-rf, from the elements", whole), ("scikit-rf, its cascading alone", cascading)):
        print(f"{what:<40} {time * 1e6:10.1f} µs   {time / timed['seconds']:8.0f} times the core  goal: {GOAL}")


if __name__ == "__main__":
    main()
