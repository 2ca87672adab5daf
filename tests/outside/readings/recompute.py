"""What `hailwright readings` measures, by plain loops over a CSV file and exact sums (math.fsum).

Written after docs/methods (energy, readings-from-a-log, two-logs) and not after the program's code.
Times are whole microseconds; a blank cell is None.
"""
import csv
import math
from datetime import datetime, timedelta, timezone

GAMMA, CELL_ABOVE_BACK, LEAST_SUN = -0.0038, 3.0, 200.0  # protocols/demo/panels/rigid-a.yaml, defaults
LOAD_ON = 1.0
WINDOW_US = 60_000_000


def read_local(path, columns):
    """A file with semicolons, decimal commas and stamps such as 03.03.2026 06:00:00,500."""
    return read(path, columns, ";", ",", form="%d.%m.%Y %H:%M:%S,%f")


def read(path, columns, separator=",", decimal=".", form="%Y-%m-%dT%H:%M:%S", offset_h=2):
    """Rows as dictionaries: `t` and the columns by role. columns: role -> (header, factor, shift)."""
    with open(path, encoding="utf-8", newline="") as file:
        lines = [line for line in file if not line.startswith("#")]
    zone = timezone(timedelta(hours=offset_h))
    epoch = datetime(1970, 1, 1, tzinfo=timezone.utc)
    table = []
    for cells in csv.DictReader(lines, delimiter=separator):
        at = datetime.strptime(cells[columns["time"][0]], form).replace(tzinfo=zone) - epoch
        row = {"t": (at.days * 86400 + at.seconds) * 1_000_000 + at.microseconds}
        for role, (header, factor, shift) in columns.items():
            if role in ("time", "marker"):
                row[role] = cells[header]
                continue
            text = cells[header].replace(decimal, ".")
            row[role] = float(text) * factor + shift if text else None
        table.append(row)
    return table


def values(rows, role):
    return [r[role] for r in rows if r.get(role) is not None]


def energy(rows, role, longest_gap_us):
    """Trapezoids from one present power to the next, unless they are too far apart."""
    present = [(r["t"], r[role]) for r in rows if r.get(role) is not None]
    parts, bridged, gaps, in_gaps = [], 0, 0, 0
    for (t0, p0), (t1, p1) in zip(present, present[1:]):
        if t1 - t0 > longest_gap_us:
            gaps, in_gaps = gaps + 1, in_gaps + t1 - t0
        else:
            bridged += t1 - t0
            parts.append((p0 + p1) / 2.0 * (t1 - t0) / 1e6)
    return math.fsum(parts), bridged / 1e6, gaps, in_gaps / 1e6


def column(rows, role):
    all_ = values(rows, role)
    if not all_:
        return None
    return {"rows": len(all_), "mean": math.fsum(all_) / len(all_), "least": min(all_), "most": max(all_)}


def effective(n, lag1):
    """How many independent readings n of a first-order series are worth."""
    if n < 20:
        return 1.0 if n > 0 else 0.0
    r = min(max(lag1, 0.0), 0.99)
    return min(max(n / (1.0 + 2.0 * math.fsum((1.0 - k / n) * r**k for k in range(1, n))), 1.0), n)


def series(groups, longest_gap_us):
    """Mean, scatter, lag 1. groups: lists of (time, value); values of two groups are no neighbours."""
    all_ = [v for group in groups for _, v in group]
    n = len(all_)
    if n == 0:
        return None
    mean = math.fsum(all_) / n
    out = {"readings": n, "mean": mean, "standard_deviation": 0.0, "lag1": 0.0, "independent_readings": n}
    if n < 2:
        return out
    squares = math.fsum((v - mean) ** 2 for v in all_)
    pairs, products = 0, []
    for group in groups:
        for (t0, a), (t1, b) in zip(group, group[1:]):
            if t1 - t0 <= longest_gap_us:
                pairs += 1
                products.append((a - mean) * (b - mean))
    out["standard_deviation"] = math.sqrt(squares / (n - 1))
    if squares > 0.0 and pairs:
        out["lag1"] = min(max(math.fsum(products) / squares * (n - 1) / pairs, -1.0), 1.0)
    out["independent_readings"] = 1.0 if pairs + 1 < 20 else effective(n, out["lag1"])
    return out


def series_of(groups, role, longest_gap_us):
    return series([[(r["t"], r[role]) for r in g if r.get(role) is not None] for g in groups],
                  longest_gap_us)


def add_normalised(rows):
    for r in rows:
        for power, back, into in (("power", "temperature", "normalised"),
                                  ("power_beside", "temperature_beside", "normalised_beside")):
            p, g, t = r.get(power), r.get("irradiance"), r.get(back)
            r[into] = None
            if p is None or g is None or t is None or p < LOAD_ON or g < LEAST_SUN:
                continue
            cell = t - 273.15 + CELL_ABOVE_BACK * g / 1000.0
            r[into] = p / (g / 1000.0 * (1.0 + GAMMA * (cell - 25.0)))


def windows(rows, length_us):
    """Lists of rows by windows counted from the first row, with the window's number."""
    out, begin = [], rows[0]["t"]
    for r in rows:
        number = (r["t"] - begin) // length_us
        if not out or out[-1][0] != number:
            out.append((number, []))
        out[-1][1].append(r)
    return out


def verdict(window, number, begin, is_last, gap_us):
    """Why a window of a minute is not steady; "kept" when it is."""
    start = begin + number * WINDOW_US
    end = start + WINDOW_US
    times = [r["t"] for r in window]
    suns = values(window, "irradiance")
    cut_off = end - times[-1] > gap_us
    if any(b - a > gap_us for a, b in zip(times, times[1:])) or times[0] - start > gap_us:
        return "broken"
    if len(suns) < 3 or math.fsum(suns) <= 0.0:
        return "broken"
    if cut_off and not (is_last and times[-1] - start >= WINDOW_US // 2):
        return "broken"
    mean = math.fsum(suns) / len(suns)
    # Thirds of the window; of the last one, of its part that there is, in whole sixths.
    sixths = (times[-1] - start) * 6 // WINDOW_US + 1 if is_last else 6
    third = (sixths + 1) // 3
    place = [(r["t"] - start) * 6 // WINDOW_US for r in window]
    first = [r["irradiance"] for r, p in zip(window, place) if p < third and r["irradiance"] is not None]
    last = [r["irradiance"] for r, p in zip(window, place)
            if sixths - third <= p < sixths and r["irradiance"] is not None]
    if not first or not last:
        return "broken"
    if max(suns) - min(suns) > 0.02 * mean:
        return "irradiance_changed"
    if abs(math.fsum(last) / len(last) - math.fsum(first) / len(first)) / mean > 0.01:
        return "irradiance_drifted"
    for role in ("temperature", "temperature_beside"):
        backs = values(window, role)
        if backs and max(backs) - min(backs) > 1.0:
            return "temperature_changed"
    return "kept"


def steady(rows, gap_us):
    """Counts by reason, and the kept rows in groups of neighbours."""
    tally = dict.fromkeys(("kept", "irradiance_changed", "irradiance_drifted", "temperature_changed",
                           "broken"), 0)
    groups, before = [], False
    all_ = windows(rows, WINDOW_US)
    for i, (number, window) in enumerate(all_):
        answer = verdict(window, number, rows[0]["t"], i + 1 == len(all_), gap_us)
        tally[answer] += len(window)
        if answer == "kept":
            if before:
                groups[-1].extend(window)
            else:
                groups.append(list(window))
        before = answer == "kept"
    return tally, groups


def counter(rows, gap_us, wraps_at=None):
    """Increases of a counter [J]; what lies between two powers too far apart is counted apart."""
    met = False
    total, in_gaps, back, pending = [], [], [], 0.0
    resets = wraps = count = 0
    last = last_power_t = None
    gap = False
    least = math.inf
    for r in rows:
        power = "power" not in r or r["power"] is not None
        if power:
            if last_power_t is not None and r["t"] - last_power_t > gap_us:
                gap = True
            last_power_t = r["t"]
        if r["energy"] is None:
            continue
        if met:
            step = r["energy"] - last
            if step > 0.0:
                least = min(least, step)
            if step < 0.0:
                over = None if wraps_at is None else wraps_at + step
                if over is not None and 0.0 <= over <= wraps_at / 2.0 and last <= wraps_at:
                    wraps, step = wraps + 1, over
                elif last > 0.0 and r["energy"] < last / 2.0:
                    resets, step = resets + 1, r["energy"]
                else:
                    back.append(-step)
                    step = 0.0
            pending += step
        met, last, count = True, r["energy"], count + 1
        if power:
            total.append(pending)
            if gap:
                in_gaps.append(pending)
            pending, gap = 0.0, False
    total.append(pending)
    in_gaps.append(pending)
    return {"counted": math.fsum(total), "in_gaps": math.fsum(in_gaps), "resets": resets, "wraps": wraps,
            "steps_back": len(back), "stepped_back": math.fsum(back), "rows": count,
            "step": 0.0 if least == math.inf else least}


def plateaus(rows, gap_us, shortest_us=120_000_000, off_us=60_000_000):
    """Runs with the load on; shorter interruptions belong to them."""
    out, open_ = [], None
    for i, r in enumerate(rows):
        if r["power"] is None or r["power"] < LOAD_ON:
            continue
        if open_ is not None and r["t"] - rows[open_[1]]["t"] < off_us:
            open_[1] = i
        else:
            if open_ is not None:
                out.append(open_)
            open_ = [i, i]
    if open_ is not None:
        out.append(open_)
    kept = []
    for first, last in out:
        stretch = rows[first:last + 1]
        tally, _ = steady(stretch, gap_us)
        bridged = energy(stretch, "power", gap_us)[1]
        if bridged * tally["kept"] / len(stretch) * 1e6 >= shortest_us:
            kept.append((first, last))
    return kept


def side_by_side(rows, gap_us):
    """ln of the ratio of energies by minutes in which both panels give power."""
    common = [r for r in rows if r["power"] is not None and r["power_beside"] is not None]
    groups, slopes, last_number = [], [], None
    at = {r["t"]: i for i, r in enumerate(common)}
    for number, window in windows(rows, WINDOW_US):
        window = [r for r in window if r["t"] in at]
        if not window:
            continue
        before = at[window[0]["t"]]
        steps = common[max(0, before - 1):before] + window
        one, bridged, gaps, _ = energy(steps, "power", gap_us)
        two = energy(steps, "power_beside", gap_us)[0]
        lit = min(r["power"] for r in steps) >= LOAD_ON and min(r["power_beside"] for r in steps) >= LOAD_ON
        if not lit or gaps or bridged < 30.0:
            continue
        if last_number is None or number != last_number + 1:
            groups.append([])
        groups[-1].append((window[-1]["t"], math.log(two / one)))
        slopes.append(-(steps[-1]["power_beside"] - steps[0]["power_beside"]) / two)
        last_number = number
    return {"windows": series(groups, 10**18), "first": energy(common, "power", gap_us)[0],
            "second": energy(common, "power_beside", gap_us)[0],
            "change_per_second_of_offset": math.fsum(slopes) / len(slopes) if slopes else 0.0}


def paired(rows, second, offset_us, gap_us):
    """The second log's power and temperature at the first one's times, by straight lines."""
    j = -1
    for r in rows:
        while j + 1 < len(second) and second[j + 1]["t"] + offset_us <= r["t"]:
            j += 1
        for role in ("power", "temperature"):
            r[role + "_beside"] = None
            if j < 0:
                continue
            t0 = second[j]["t"] + offset_us
            if t0 == r["t"]:
                r[role + "_beside"] = second[j][role]
            elif j + 1 < len(second) and second[j + 1]["t"] + offset_us - t0 <= gap_us:
                share = (r["t"] - t0) / (second[j + 1]["t"] + offset_us - t0)
                r[role + "_beside"] = second[j][role] + share * (second[j + 1][role] - second[j][role])
    return rows
