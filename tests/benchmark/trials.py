"""The job of trial_job.cpp in numpy: trials.py WAY TRIALS

naive    as it is usually written: whole arrays from default_rng, then a sort
blocked  as fast as numpy goes: pieces that stay in the cache, arrays reused, SFC64, two threads,
         two partitions instead of a sort
summed   the same, with the six normal errors that only add to lambda drawn as one

Prints seconds, mean, standard deviation and the ends of the 95 % interval of the loss.
"""

import math
import sys
import time
from concurrent.futures import ThreadPoolExecutor

import numpy as np

GAMMA, CELL = -0.0038, 3.0
BEFORE = (80.7, 898.0, 45.7)  # W, W/m2, degC on the back
AFTER = (72.4, 858.0, 41.7)
U_GAIN = 0.003
HALF_SUN, HALF_GAMMA, HALF_CELL, HALF_PROBE = 0.05, 0.0005, 1.0, 1.0
U_ADDED = (0.004, 0.003, 0.0015)  # sky, alignment, scatter: each before and after


def naive(trials):
    rng = np.random.default_rng(1)

    def rectangular(half_width):
        return rng.uniform(-half_width, half_width, trials)

    gain = rng.normal(0.0, U_GAIN, trials)
    sun = rectangular(HALF_SUN)
    gamma = GAMMA + rectangular(HALF_GAMMA)
    cell = CELL + rectangular(HALF_CELL)

    def q(reading):
        watts, w_per_m2, back_c = reading
        suns = w_per_m2 * (1.0 + sun) / 1000.0
        cell_c = back_c + rectangular(HALF_PROBE) + cell * suns
        added = sum(rng.normal(0.0, u, trials) for u in U_ADDED)
        return (np.log(watts * (1.0 + gain)) - np.log(suns)
                - np.log(1.0 + gamma * (cell_c - 25.0)) + added)

    before = q(BEFORE)
    loss = 1.0 - np.exp(q(AFTER) - before)
    ordered = np.sort(loss)
    return loss.mean(), loss.std(ddof=1), ordered[int(0.025 * trials)], ordered[int(0.975 * trials)]


CHUNK = 16384


def fill_blocked(seed, loss, summed):
    """Fills a stretch of losses, a chunk at a time, without a new array. One logarithm a trial."""
    rng = np.random.Generator(np.random.SFC64(seed))
    work = [np.empty(CHUNK) for _ in range(9)]
    added = [math.sqrt(2.0 * sum(u * u for u in U_ADDED))] if summed else [
        u for u in U_ADDED for _ in range(2)]

    for start in range(0, len(loss), CHUNK):
        out = loss[start:start + CHUNK]
        gain, sun, gamma, cell, suns, temperature, over, under, draw = (w[:len(out)] for w in work)

        def rectangular(into, half_width, middle=0.0):
            rng.random(out=into)
            np.multiply(into, 2.0 * half_width, out=into)
            np.add(into, middle - half_width, out=into)

        def factors(reading, power, conditions):
            watts, w_per_m2, back_c = reading
            np.multiply(sun, w_per_m2 / 1000.0, out=suns)
            rectangular(temperature, HALF_PROBE, back_c - 25.0)
            np.multiply(cell, suns, out=draw)
            np.add(temperature, draw, out=temperature)
            np.multiply(temperature, gamma, out=temperature)
            np.add(temperature, 1.0, out=temperature)
            np.multiply(gain, watts, out=draw)
            np.multiply(power, draw, out=power)
            np.multiply(suns, temperature, out=suns)
            np.multiply(conditions, suns, out=conditions)

        rng.standard_normal(out=gain)
        np.multiply(gain, U_GAIN, out=gain)
        np.add(gain, 1.0, out=gain)
        rectangular(sun, HALF_SUN, 1.0)
        rectangular(gamma, HALF_GAMMA, GAMMA)
        rectangular(cell, HALF_CELL, CELL)
        over.fill(1.0)
        under.fill(1.0)
        factors(BEFORE, under, over)
        factors(AFTER, over, under)
        np.divide(over, under, out=out)
        # 1 - over/under e^x with one exponential in place of a logarithm and an exponential.
        over.fill(0.0)
        for u in added:
            rng.standard_normal(out=draw)
            np.multiply(draw, u, out=draw)
            np.add(over, draw, out=over)
        np.exp(over, out=over)
        np.multiply(out, over, out=out)
        np.subtract(1.0, out, out=out)


def blocked(trials, summed, threads=2):
    loss = np.empty(trials)
    parts = np.array_split(loss, threads)
    seeds = np.random.SeedSequence(1).spawn(threads)
    with ThreadPoolExecutor(threads) as pool:
        list(pool.map(fill_blocked, seeds, parts, [summed] * threads))
        mean = pool.submit(loss.mean)
        sd = pool.submit(loss.std, ddof=1)
        mean, sd = mean.result(), sd.result()
    ends = [int(0.025 * trials), int(0.975 * trials)]
    loss.partition(ends)
    return mean, sd, loss[ends[0]], loss[ends[1]]


WAYS = {"naive": naive,
        "blocked": lambda trials: blocked(trials, False),
        "summed": lambda trials: blocked(trials, True)}


def main():
    if len(sys.argv) != 3 or sys.argv[1] not in WAYS:
        sys.exit("usage: trials.py naive|blocked|summed TRIALS")
    start = time.perf_counter()
    figures = WAYS[sys.argv[1]](int(sys.argv[2]))
    seconds = time.perf_counter() - start
    print(f"{seconds:.6f}", *(f"{f:.6f}" for f in figures))


main()
