"""The largest relative difference of each network from each solver, in the output of every run."""

from agreement import SEEN


def pytest_terminal_summary(terminalreporter):
    if not SEEN:
        return
    solvers = list(dict.fromkeys(solver for seen in SEEN.values() for solver in seen))
    width = max(len(name) for name in SEEN)
    terminalreporter.section("largest relative differences")
    terminalreporter.line(" ".join([" " * width, *(f"{solver:>13}" for solver in solvers)]))
    for name, seen in SEEN.items():
        cells = (f"{seen[solver]:>13.0e}" if solver in seen else " " * 13 for solver in solvers)
        terminalreporter.line(" ".join([f"{name:<{width}}", *cells]).rstrip())
