#!/usr/bin/env python3
"""Tries what can go wrong around the program, and looks whether anything is lost by it.

    python3 faults.py [--kills N] [--seed N] [--only PART]... PROGRAM

Prints the seed, what was tried and how often, and each loss; exits with 1 when there is one. Some
parts mount file systems of their own, which takes root; without, they say that they were skipped,
and it exits with 77 when nothing was lost.
"""
import argparse
import pathlib
import random
import sys

sys.dont_write_bytecode = True  # nothing is left beside the sources
import folders  # noqa: E402
import full_disk  # noqa: E402
import kills  # noqa: E402
import memory  # noqa: E402
import streams  # noqa: E402
import surroundings  # noqa: E402
from bench import Bench, Findings  # noqa: E402

LOST = 1
SKIPPED = 77  # CMakeLists.txt tells CTest

PARTS = {
    "disk": lambda bench, o: full_disk.run(bench, o.short),
    "folders": lambda bench, o: folders.run(bench, o.short),
    "streams": lambda bench, o: streams.run(bench, o.short),
    "memory": lambda bench, o: memory.run(bench, o.short),
    "kills": lambda bench, o: kills.run_kills(bench, o.kills, o.short),
    "signals": lambda bench, o: kills.run_signals(bench, o.short),
    "surroundings": lambda bench, o: surroundings.run(bench, o.short),
}


def options():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=500, help="runs that are killed; 500 unless given")
    parser.add_argument("--seed", type=int, help="of the random moments; any unless given")
    parser.add_argument("--only", action="append", choices=PARTS, help="this part, several times")
    parser.add_argument("--short", action="store_true", help="a few cases of each")
    parser.add_argument("program", type=pathlib.Path, help="the hailwright that is tried")
    return parser.parse_args()


def told(findings):
    for what, count in findings.tried.items():
        print(f"{count:5} {what}")
    for reason in findings.skipped:
        print(reason)
    for loss in findings.losses:
        print(f"LOSS: {loss}")
    print(f"{sum(findings.tried.values())} looks, {len(findings.losses)} losses")


def exit_code(findings):
    """That of the worst that was found; a run that tried nothing must not look like a good one."""
    if findings.losses:
        return LOST
    if findings.skipped:
        return SKIPPED
    return 0 if findings.tried else LOST


def main():
    o = options()
    seed = random.SystemRandom().randrange(10**9) if o.seed is None else o.seed
    print(f"seed {seed}", flush=True)
    findings = Findings()
    demo = pathlib.Path(__file__).resolve().parents[2] / "protocols" / "demo"
    bench = Bench(o.program, demo, seed, findings, o.short)
    try:
        for part in o.only or PARTS:
            PARTS[part](bench, o)
    finally:
        bench.close()
        told(findings)
    return exit_code(findings)


if __name__ == "__main__":
    sys.exit(main())
