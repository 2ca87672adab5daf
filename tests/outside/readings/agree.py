#!/usr/bin/env python3
"""Holds `hailwright readings --format json` against plain loops over the same files.

    python3 agree.py PROGRAM DEMO DIR

DEMO is protocols/demo, DIR a folder for logs that are made here and for the answers. Real numbers
agree to 1e-9 of their size, counts exactly.
"""
import json
import math
import pathlib
import random
import subprocess
import sys
from datetime import datetime, timedelta

sys.dont_write_bytecode = True  # nothing is left beside the sources
import recompute as plain  # noqa: E402

TOLERANCE = 1e-9
WH = 3600.0
faults, compared = [], 0


def check(where, got, want, scale=0.0):
    """scale: size below which a difference is measured against it and not against the value."""
    global compared
    compared += 1
    if isinstance(want, int) and not isinstance(want, bool):
        right = got == want
    else:
        right = got is not None and math.isclose(got, want, rel_tol=TOLERANCE, abs_tol=TOLERANCE * scale)
    if not right:
        faults.append(f"{where}: the program says {got}, plain loops {want}")


def check_series(where, got, want):
    if want is None:
        check(f"{where}, readings", 0 if got is None else got["readings"], 0)
        return
    for key, value in want.items():
        # A scatter is a difference of values, and an autocorrelation has the size 1.
        scale = {"standard_deviation": abs(want["mean"]), "lag1": 1.0}.get(key, 0.0)
        check(f"{where}, {key}", got[key], value, scale)


def check_stretch(where, got, rows, gap_us, is_steady, wraps_at):
    check(f"{where}, rows", got["rows"], len(rows))
    joules, bridged, gaps, in_gaps = plain.energy(rows, "power", gap_us)
    check(f"{where}, energy", got["energy"]["value"], joules)
    check(f"{where}, bridged", got["bridged"]["value"], bridged)
    check(f"{where}, gaps", got["gaps"]["count"], gaps)
    check(f"{where}, time in gaps", got["gaps"]["time"]["value"], in_gaps)
    check(f"{where}, mean power", got["mean_power"]["value"], joules / bridged)
    groups = [rows]
    if is_steady:
        tally, groups = plain.steady(rows, gap_us)
        for key, value in tally.items():
            check(f"{where}, {key}", got["steady"][key], value)
    kept = [r for g in groups for r in g]
    for role in ("power", "irradiance", "temperature", "power_beside", "temperature_beside"):
        want = plain.column(kept, role)
        if want is None:
            check(f"{where}, {role}", 0 if got[role] is None else 1, 0)
            continue
        for key, value in want.items():
            check(f"{where}, {role}, {key}", got[role][key], value)
    check_series(f"{where}, power", got["power_series"], plain.series_of(groups, "power", gap_us))
    for role in ("normalised", "normalised_beside"):
        check_series(f"{where}, {role}", got[role + "_series"], plain.series_of(groups, role, gap_us))
    if "energy" in rows[0]:
        want = plain.counter(rows, gap_us, wraps_at)
        for key in ("counted", "in_gaps", "step", "stepped_back"):
            check(f"{where}, counter, {key}", got["counter"][key]["value"], want[key], want["counted"])
        for key in ("resets", "wraps", "steps_back", "rows"):
            check(f"{where}, counter, {key}", got["counter"][key], want[key])
        share = (want["counted"] - want["in_gaps"]) / joules - 1.0
        check(f"{where}, counter less integral", got["counter"]["less_integral"]["value"], share, 1.0)
    if "power_beside" in rows[0]:
        want = plain.side_by_side(rows, gap_us)
        check_series(f"{where}, ratio", got["side_by_side"]["windows"], want["windows"])
        for key in ("first", "second"):
            check(f"{where}, {key}", got["side_by_side"][key]["value"], want[key])
        check(f"{where}, change by the offset", got["side_by_side"]["change_per_second_of_offset"]["value"],
              want["change_per_second_of_offset"], 1e-3)


def run(program, name, folder, arguments):
    done = subprocess.run([program, "readings", *map(str, arguments), "--format", "json"],
                          capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{name}: exit {done.returncode}\n{done.stderr}")
    (folder / f"{name}.json").write_text(done.stdout, encoding="utf-8")
    return json.loads(done.stdout)


def check_log(name, answer, rows, gap_us, spans, is_steady=False, wraps_at=None):
    """spans: rows of each stretch, by their indices."""
    check(f"{name}, longest gap", answer["rules"]["longest_gap"]["value"], gap_us / 1e6)
    check(f"{name}, stretches", len(answer["stretches"]), len(spans))
    check_stretch(f"{name}, whole", answer["whole"], rows, gap_us, is_steady, wraps_at)
    for got, (first, last) in zip(answer["stretches"], spans):
        check_stretch(f"{name}, {got['name']}", got, rows[first:last + 1], gap_us, is_steady, wraps_at)


def runs_of_markers(rows):
    spans = []
    for i, r in enumerate(rows):
        if not r["marker"]:
            continue
        if spans and spans[-1][1] == i - 1 and rows[i - 1]["marker"] == r["marker"]:
            spans[-1][1] = i
        else:
            spans.append([i, i])
    return spans


def stamp(begin, seconds):
    at = begin + timedelta(seconds=seconds)
    return at.strftime("%d.%m.%Y %H:%M:%S.") + f"{at.microsecond // 1000:03d}"


def write_odd_log(path):
    """Two days of uneven steps: blanks, gaps, clouds, nights, a counter that wraps and is reset."""
    chance = random.Random(6)
    begin, at, counter, is_reset = datetime(2026, 3, 3, 6, 0), 0.0, 900.0, False
    lines = ["stamp;P in W;G in W/m2;T in degC;E in Wh"]
    sun_now = 1.0
    while at < 2 * 86400.0:
        day = max(0.0, math.sin(2.0 * math.pi * (at % 86400.0) / 86400.0))
        sun_now += (1.0 - sun_now) * 0.02 + (-0.6 * chance.random() if chance.random() < 0.002 else 0.0)
        sun = 950.0 * day * min(1.0, max(0.1, sun_now)) - 1.5 + chance.gauss(0.0, 0.4)  # offset at night
        watts = max(0.0, 0.095 * sun + chance.gauss(0.0, 0.05))
        step = chance.choice((0.5, 1.0, 1.25, 2.0))
        counter += watts * step / 3600.0
        if counter > 1000.0:
            counter -= 1000.0
        if not is_reset and at > 20_000.0 and 100.0 < counter < 400.0:
            counter, is_reset = 0.0, True  # switched off and on: too low for a wrap-around
        shown = counter - 0.05 if chance.random() < 0.0001 else counter  # a step back, and forth again
        cells = [f"{watts:.2f}", f"{sun:.1f}", f"{18.0 + 0.028 * sun:.1f}", f"{max(shown, 0.0):.2f}"]
        if chance.random() < 0.01:
            cells[chance.randrange(4)] = ""
        lines.append(";".join([stamp(begin, at), *cells]).replace(".", "§", 2).replace(".", ",")
                     .replace("§", "."))
        at += 400.0 * chance.random() if chance.random() < 0.0003 else step
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def write_large_numbers(path):
    """A scatter of 1 W on 90 kW: what loses digits in a sum of squares shows here."""
    chance = random.Random(7)
    lines = ["time,power [W],irradiance [W/m2]"]
    for i in range(40_000):
        at = (datetime(2026, 7, 1) + timedelta(seconds=2 * i)).strftime("%Y-%m-%dT%H:%M:%S")
        lines.append(f"{at},{90_000.0 + chance.gauss(0.0, 1.0):.4f},{1000.0 + chance.gauss(0.0, 1.0):.3f}")
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def demo_logs(program, demo, folder):
    zone, panel = ["--zone", "+02:00"], demo / "panels" / "rigid-a.yaml"
    rows = plain.read(demo / "logs" / "morning.csv", {
        "time": ("Date and time", 0, 0), "power": ("Panel power (W)", 1.0, 0.0),
        "irradiance": ("Irradiance (W/m2)", 1.0, 0.0), "temperature": ("Panel temperature (degC)", 1.0, 273.15),
        "energy": ("Energy (Wh)", WH, 0.0)}, separator=";")
    plain.add_normalised(rows)
    morning = demo / "logs" / "morning.csv"
    check_log("morning", run(program, "morning", folder, [morning, *zone, "--panel", panel]), rows,
              10_000_000, [])
    spans = plain.plateaus(rows, 10_000_000)
    check("plateaus of the morning", len(spans), 2)
    check_log("plateaus", run(program, "plateaus", folder,
                              [morning, *zone, "--panel", panel, "--cut", "plateaus"]),
              rows, 10_000_000, spans, is_steady=True)
    for name in ("before", "after"):
        log = demo / "logs" / f"{name}.csv"
        rows = plain.read(log, {
            "time": ("time", 0, 0), "power": ("A [W]", 1.0, 0.0), "power_beside": ("control [W]", 1.0, 0.0),
            "irradiance": ("sun [W/m2]", 1.0, 0.0), "temperature": ("A back [degC]", 1.0, 273.15),
            "temperature_beside": ("control back [degC]", 1.0, 273.15), "marker": ("set-up", 0, 0)})
        plain.add_normalised(rows)
        answer = run(program, name, folder, [log, "--columns", demo / "logs" / "columns.yaml", "--panel", panel,
                                             "--beside-panel", panel, "--cut", "markers"])
        check_log(name, answer, rows, 25_000_000, runs_of_markers(rows), is_steady=True)
    columns = {"time": ("time", 0, 0), "power": ("power [W]", 1.0, 0.0),
               "temperature": ("temperature [degC]", 1.0, 273.15)}
    first, second = (demo / "logs" / f"clouds-{name}.csv" for name in ("a", "control"))
    rows = plain.paired(plain.read(first, columns), plain.read(second, columns), 7_000_000, 10_000_000)
    plain.add_normalised(rows)
    check_log("clouds", run(program, "clouds", folder, [first, "--beside", second, *zone, "--offset", "7s"]),
              rows, 10_000_000, [])
    found = run(program, "clouds-found", folder, [first, "--beside", second, *zone, "--offset", "auto"])
    # Made with 7 s (make_logs.py): within three standard uncertainties.
    off = abs(found["clock"]["offset"]["value"] - 7.0) / found["clock"]["offset"]["standard_uncertainty"]
    if off > 3.0:
        faults.append(f"clouds: the offset is {off:.1f} standard uncertainties from what it was made with")


def made_logs(program, demo, folder):
    odd = folder / "odd.csv"
    write_odd_log(odd)
    rows = plain.read_local(odd, {
        "time": ("stamp", 0, 0), "power": ("P in W", 1.0, 0.0), "irradiance": ("G in W/m2", 1.0, 0.0),
        "temperature": ("T in degC", 1.0, 273.15), "energy": ("E in Wh", WH, 0.0)})
    plain.add_normalised(rows)
    options = [odd, "--zone", "+02:00", "--decimal", "comma", "--counter-wraps", "1000Wh", "--longest-gap", "12s",
               "--columns", write_map(folder), "--panel", demo / "panels" / "rigid-a.yaml"]
    check_log("odd", run(program, "odd", folder, options), rows, 12_000_000, [], wraps_at=1000.0 * WH)
    check_log("odd, steady", run(program, "odd-steady", folder, [*options, "--cut", "plateaus"]), rows,
              12_000_000, plain.plateaus(rows, 12_000_000), is_steady=True, wraps_at=1000.0 * WH)
    large = folder / "large.csv"
    write_large_numbers(large)
    rows = plain.read(large, {"time": ("time", 0, 0), "power": ("power [W]", 1.0, 0.0),
                              "irradiance": ("irradiance [W/m2]", 1.0, 0.0)})
    answer = run(program, "large", folder, [large, "--zone", "+02:00", "--steady"])
    check_log("large", answer, rows, 10_000_000, [], is_steady=True)


def write_map(folder):
    path = folder / "odd-columns.yaml"
    path.write_text("hailwright: columns 1\ncolumns:\n  time: stamp\n  power: {name: P in W, unit: W}\n"
                    "  irradiance: {name: G in W/m2, unit: W/m2}\n  temperature: {name: T in degC, unit: degC}\n"
                    "  energy: {name: E in Wh, unit: Wh}\n", encoding="utf-8")
    return path


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: python3 agree.py PROGRAM DEMO DIR")
    program, demo, folder = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    demo_logs(program, demo, folder)
    made_logs(program, demo, folder)
    for fault in faults[:40]:
        print(fault, file=sys.stderr)
    print(f"{compared} numbers compared, {len(faults)} differ")
    sys.exit(1 if faults else 0)


main()
