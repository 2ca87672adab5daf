#!/usr/bin/env python3
"""What pandas and numpy make of the demonstration logs, beside `hailwright readings`.

    python3 by_pandas.py PROGRAM DEMO

Run by hand: pandas is not among the packages that the tests install (Debian: python3-pandas). The tests
do the same by plain loops, in agree.py.
"""
import json
import pathlib
import subprocess
import sys

import numpy as np
import pandas as pd


def measured(program, log, options):
    done = subprocess.run([program, "readings", str(log), "--format", "json", *options],
                          capture_output=True, text=True, check=True)
    return json.loads(done.stdout)["whole"]


def show(what, ours, theirs):
    off = abs(ours - theirs) / abs(theirs)
    print(f"  {what:32} {ours!r:>24} {theirs!r:>24}   {off:.1e}")
    return off


def compare(program, log, options, separator, power, irradiance, longest_gap_s, counter=None):
    table = pd.read_csv(log, sep=separator, comment="#", parse_dates=[0])
    seconds = table.iloc[:, 0].astype("int64").to_numpy() / 1e9
    watts = table[power].to_numpy()
    steps = np.diff(seconds)
    bridged = steps <= longest_gap_s
    energy = float(np.sum(((watts[1:] + watts[:-1]) / 2 * steps)[bridged]))
    whole = measured(program, log, options)
    print(log.name, "(ours, theirs, relative difference)")
    worst = [show("energy, J", whole["energy"]["value"], energy),
             show("mean power, W", whole["mean_power"]["value"], energy / float(np.sum(steps[bridged]))),
             show("mean of the powers, W", whole["power"]["mean"], float(table[power].mean())),
             show("mean irradiance, W/m2", whole["irradiance"]["mean"], float(table[irradiance].mean())),
             show("standard deviation, W", whole["power_series"]["standard_deviation"],
                  float(table[power].std()))]
    # Over pairs that no gap parts; about the mean of all rows, as NIST defines it.
    apart = watts - watts.mean()
    products = float(np.sum((apart[1:] * apart[:-1])[bridged]))
    lag1 = products / float(np.sum(apart**2)) * (len(watts) - 1) / int(bridged.sum())
    worst.append(show("lag-1 autocorrelation", whole["power_series"]["lag1"], lag1))
    if counter:
        rises = table[counter].diff().clip(lower=0.0).sum() * 3600.0
        worst.append(show("counted, J", whole["counter"]["counted"]["value"], float(rises)))
    return max(worst)


def main():
    program, demo = sys.argv[1], pathlib.Path(sys.argv[2])
    logs = demo / "logs"
    worst = compare(program, logs / "morning.csv", ["--zone", "UTC"], ";", "Panel power (W)",
                    "Irradiance (W/m2)", 10.0, "Energy (Wh)")
    for name in ("before.csv", "after.csv"):
        worst = max(worst, compare(program, logs / name, ["--columns", str(logs / "columns.yaml")], ",", "A [W]",
                                   "sun [W/m2]", 25.0))
    print(f"largest relative difference: {worst:.1e}")
    sys.exit(1 if worst > 1e-9 else 0)


main()
