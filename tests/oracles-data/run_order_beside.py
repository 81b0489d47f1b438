"""The run order beside OR-Tools CP-SAT in one run: how long each takes to prove the least cost.

Run from this folder: python3 run_order_beside.py PROGRAM
where PROGRAM is the program built with optimisation. It prints a line for each problem; nothing is kept.
"""

import json
import subprocess
import sys
import tempfile
import time

import run_order

WEIGHTS = (150, 600, 60, 80, 30)


def main(program):
    for sites in (4, 6, 8):
        for lie in ("shared", "rising"):
            data = run_order.problem(1, sites, 5, lie, WEIGHTS, "fewest_resets")
            with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
                json.dump(data, file)
                file.flush()
                start = time.monotonic()
                done = subprocess.run(
                    [program, "order", file.name], capture_output=True, check=True
                )
                own_s = time.monotonic() - start
            own = json.loads(done.stdout)
            other = run_order.solve(data)
            value = own["cost"]["resets"] * other["ahead"] + own["cost"]["time_ds"]
            print(
                f"{sites} sites x 5, {lie}: own {value} proved {own['proved']} in {own_s:.3f} s;"
                f" CP-SAT {other['status']} {other['value']} bound {other['bound']}"
                f" in {other['seconds']} s",
                flush=True,
            )


main(sys.argv[1])
