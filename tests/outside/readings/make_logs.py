#!/usr/bin/env python3
"""Writes the invented logs of protocols/demo/logs, always the same bytes.

    python3 make_logs.py DIR

All values are invented (simulated): a panel "A" that loses 9 % between before.csv and after.csv, and
an unstruck control of its model beside it. Nothing is of a real panel, logger or place.
"""
import math
import pathlib
import random
import sys
from datetime import datetime, timedelta

GAMMA = -0.0038  # 1/K, as the invented panel file says
CELL_ABOVE_BACK = 3.0  # K at 1000 W/m2
AIR = 24.0  # degC
LOSS = 0.09
SETUP_SCATTER = 0.004


def power(nominal, sun, back):
    cell = back + CELL_ABOVE_BACK * sun / 1000.0
    return nominal * sun / 1000.0 * (1.0 + GAMMA * (cell - 25.0))


class Back:
    """The back of a panel follows the sun within minutes."""

    def __init__(self, sun, per_sun=26.0, minutes=5.0):
        self.per_sun = per_sun
        self.seconds = 60.0 * minutes
        self.now = AIR + per_sun * sun / 1000.0

    def step(self, sun, seconds):
        wanted = AIR + self.per_sun * sun / 1000.0
        self.now += (wanted - self.now) * (1.0 - math.exp(-seconds / self.seconds))
        return self.now


class Flicker:
    """Haze and air: values that follow each other, with a time constant of 8 s."""

    def __init__(self, chance, size, step):
        self.chance, self.size = chance, size
        self.keep = math.exp(-step / 8.0)
        self.now = 0.0

    def step(self):
        fresh = self.chance.gauss(0.0, self.size * math.sqrt(1.0 - self.keep**2))
        self.now = self.keep * self.now + fresh
        return self.now


def cloud(at, middle, seconds, depth):
    """Share of the sun that a cloud takes; its edges are soft."""
    edge = 6.0
    inside = 1.0 / (1.0 + math.exp((abs(at - middle) - seconds / 2.0) / edge))
    return depth * inside


def stamped(begin, seconds):
    return (begin + timedelta(seconds=seconds)).strftime("%Y-%m-%dT%H:%M:%S")


def write(path, lines):
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def stage(path, name, begin, sun_of, loss, chance):
    """Four set-ups of 8 minutes, 6 minutes between them in which panel A is taken down; every 5 s."""
    step, on, off, lead = 5, 480, 360, 60
    lines = [
        "# Demonstration: invented values of no real panel. Panel A and the control, a meter for each.",
        "time,A [W],control [W],sun [W/m2],A back [degC],control back [degC],set-up",
    ]
    scatter = [chance.gauss(0.0, SETUP_SCATTER) for _ in range(4)]
    scatter = [s - sum(scatter) / 4.0 for s in scatter]
    flicker = Flicker(chance, 0.0012, step)
    backs = Back(sun_of(0.0)), Back(sun_of(0.0))
    length = lead + 4 * on + 3 * off + lead
    for at in range(0, length + 1, step):
        haze = cloud(at, lead + 2 * (on + off) + 250, 12.0, 0.05)  # in the third set-up
        sun = sun_of(at) * (1.0 + flicker.step()) * (1.0 - haze)
        a_back, c_back = backs[0].step(sun, step), backs[1].step(sun, step)
        setup, inside = divmod(at - lead, on + off)
        is_on = at >= lead and inside <= on and setup < 4
        a = power(98.5 * (1.0 - loss) * (1.0 + scatter[setup]), sun, a_back) if is_on else 0.0
        c = power(99.2, sun, c_back)
        # In the first 40 s after plugging in the tracker looks for its point, and nobody marks them.
        marked = is_on and 40 <= inside < 460
        if is_on and inside < 20:
            a *= 0.9
        a *= 1.0 + chance.gauss(0.0, 0.001)
        c *= 1.0 + chance.gauss(0.0, 0.001)
        lines.append(
            f"{stamped(begin, at)},{a:.1f},{c:.1f},{sun + chance.gauss(0, 0.5):.0f},"
            f"{a_back + chance.gauss(0, 0.05):.1f},{c_back + chance.gauss(0, 0.05):.1f},"
            f"{f'{name} {setup + 1}' if marked else ''}"
        )
    write(path, lines)


def morning(path, chance):
    """42 minutes every 2 s: a cloud, the panel unplugged for 3.5 minutes, a gap of 40 s, a counter."""
    begin = datetime(2026, 6, 26, 10, 0, 0)
    step = 2
    lines = [
        "# Demonstration: invented values of no real panel.",
        "Date and time;Panel power (W);Irradiance (W/m2);Panel temperature (degC);Energy (Wh)",
    ]
    flicker = Flicker(chance, 0.0015, step)
    back = Back(790.0)
    counter = 1204.32
    for at in range(0, 2520 + 1, step):
        clear = 790.0 + 0.022 * at
        sun = clear * (1.0 + flicker.step()) * (1.0 - cloud(at, 710.0, 190.0, 0.62))
        warm = back.step(sun, step)
        on = 180 <= at < 1140 or 1350 <= at < 2460
        watts = power(98.5, sun, warm) * (1.0 + chance.gauss(0.0, 0.001)) if on else 0.0
        counter += watts * step / 3600.0
        if 1800 < at < 1840:
            continue
        lines.append(
            f"{stamped(begin, at)};{watts:.2f};{sun + chance.gauss(0, 0.5):.1f};"
            f"{warm + chance.gauss(0, 0.05):.1f};{math.floor(counter * 10) / 10:.1f}"
        )
    write(path, lines)


def clouds(first, second, chance):
    """Half an hour every 2 s, a logger for each panel; the clock of the second one is 7 s behind."""
    begin = datetime(2026, 6, 26, 11, 0, 0)
    passing = []
    at = 40.0
    while at < 1800.0:
        passing.append((at, chance.uniform(20.0, 70.0), chance.uniform(0.1, 0.6)))
        at += chance.uniform(60.0, 200.0)

    def sun_at(seconds):
        dark = max((cloud(seconds, *one) for one in passing), default=0.0)
        return (830.0 + 0.02 * seconds) * (1.0 - dark)

    for path, nominal, behind, head in (
        (first, 98.5, 0.0, "A"),
        (second, 99.2, 7.0, "control"),
    ):
        back = Back(830.0)
        lines = [
            f"# Demonstration: invented values of no real panel. {head}",
            "time,power [W],temperature [degC]",
        ]
        for at in range(0, 1800 + 1, 2):
            sun = sun_at(at + behind)  # what this logger stamps `at` happened `behind` later
            warm = back.step(sun, 2)
            watts = power(nominal, sun, warm) * (1.0 + chance.gauss(0.0, 0.002))
            lines.append(f"{stamped(begin, at)},{watts:.2f},{warm:.1f}")
        write(path, lines)


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: python3 make_logs.py DIR")
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    chance = random.Random(627)
    stage(folder / "before.csv", "before", datetime(2026, 6, 27, 10, 0),
          lambda s: 830.0 + 60.0 * math.sin(s / 2700.0), 0.0, chance)
    stage(folder / "after.csv", "after", datetime(2026, 6, 27, 14, 40),
          lambda s: 885.0 - 55.0 * math.sin(s / 2700.0), LOSS, chance)
    morning(folder / "morning.csv", chance)
    clouds(folder / "clouds-a.csv", folder / "clouds-control.csv", chance)


main()
