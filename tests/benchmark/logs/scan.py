"""Energy and means of a log with pandas in pieces: scan.py FILE

Prints seconds, rows, energy [Wh] by the trapezoid rule over all steps, mean power [W], mean
irradiance [W/m2], energy by the counter [Wh].
"""

import sys
import time

import numpy as np
import pandas as pd

begun = time.perf_counter()
rows, energy_ws, power_sum, sun_sum = 0, 0.0, 0.0, 0.0
last_time = last_power = None
first_count = last_count = None
for piece in pd.read_csv(sys.argv[1], chunksize=100_000, parse_dates=["time"]):
    seconds = piece["time"].to_numpy().astype("datetime64[us]").astype(np.int64) * 1e-6
    power = piece["power W"].to_numpy()
    if last_time is not None:
        seconds = np.concatenate(([last_time], seconds))
        power = np.concatenate(([last_power], power))
    energy_ws += float(np.sum(np.diff(seconds) * (power[1:] + power[:-1]) * 0.5))
    last_time, last_power = seconds[-1], power[-1]
    rows += len(piece)
    power_sum += float(piece["power W"].sum())
    sun_sum += float(piece["irradiance W/m2"].sum())
    count = piece["energy Wh"].to_numpy()
    first_count = count[0] if first_count is None else first_count
    last_count = count[-1]
print(time.perf_counter() - begun, rows, energy_ws / 3600, power_sum / rows, sun_sum / rows,
      last_count - first_count)
