"""Killed at random moments: whatever has its name is whole, old or new."""
import collections
import os
import pathlib
import resource
import shutil
import signal
import statistics
import time

from bench import LONGEST_S, contents, ended_by, leftovers

ONE = ["demo/rigid-withstood.yaml"]
TWO = ["demo/flexible-damaged.yaml", "demo/rigid-withstood.yaml"]
POLL_S = 0.0003
NAMING = "between the first name and the last"
ENDED = "after the run had ended"


class Replaced:
    """A folder that is written anew again and again, each time with the other of two contents."""

    def __init__(self, bench, name, commands):
        self.bench, self.name = bench, name
        self.folder = bench.fresh(name)
        self.commands = [[*command, "-o", self.folder, "--replace"] for command in commands]
        self.versions = []
        for command in commands:
            made = bench.fresh(name)
            done = bench.run([*command, "-o", made])
            bench.check("a run that nobody disturbs", done.code == 0, f"{name}: {ended_by(done)}")
            self.versions.append(contents(made))
            shutil.rmtree(made)
        bench.run(self.commands[0])
        self.now = 0

    def begin(self):
        self.target = 1 - self.now
        self.before = contents(self.folder)
        return self.bench.start(self.commands[self.target])

    def torn(self, after):
        """Names of what is neither old nor new, or is missing."""
        known = [name for name in after if name not in leftovers(after)]
        bad = [n for n in known if after[n] not in [v.get(n) for v in self.versions]]
        always = set(self.versions[0]) & set(self.versions[1])
        return bad + [f"{name} is gone" for name in always - set(after)]

    def is_complete(self, after):
        new = self.versions[self.target]
        return not leftovers(after) and all(after.get(name) == data for name, data in new.items())

    def make_whole(self):
        """The next run, which nobody disturbs."""
        done = self.bench.run(self.commands[self.target])
        after = contents(self.folder)
        strangers = set(after) - set(self.versions[self.target])
        untold = [name for name in strangers if f"{name} is not part of what was written" not in done.err]
        self.now = self.target
        return done.code == 0 and self.is_complete(after) and not untold, ended_by(done)


class Started:
    """A folder that `start` writes, new each time, and one with the tables already in it."""

    name = "start"

    def __init__(self, bench):
        self.bench = bench
        made = bench.fresh()
        bench.run(["start", made])
        self.version = contents(made)
        shutil.rmtree(made)

    def begin(self):
        self.folder = self.bench.fresh("start")
        self.before = {}
        return self.bench.start(["start", self.folder])

    def torn(self, after):
        return [n for n, data in after.items()
                if n not in leftovers(after) and data != self.version.get(n)]

    def is_complete(self, after):
        return after == self.version

    def make_whole(self):
        """It overwrites nothing: what a killed run has written already is named and left."""
        before = contents(self.folder)
        named = set(before) - set(leftovers(before))
        done = self.bench.run(["start", self.folder])
        after = contents(self.folder)
        right = not leftovers(after)
        if named:
            right = right and done.code == 5 and all(f"{n} is there already" in done.err
                                                     for n in named)
            right = right and set(after) == named
            shutil.rmtree(self.folder)
            done = self.bench.run(["start", self.folder])
            after = contents(self.folder)
        right = right and done.code == 0 and self.is_complete(after)
        shutil.rmtree(self.folder)
        return right, ended_by(done)


def writing_begins(running, folder):
    """Waits for the first temporary file. Polls, since it is over in a moment."""
    while running.poll() is None:
        try:
            with os.scandir(folder) as entries:
                if any(entry.name.endswith(".part") for entry in entries):
                    return True
        except FileNotFoundError:
            pass
        time.sleep(POLL_S)
    return False


def durations(case, times):
    """How long a run reads and reckons, and how long it writes after that [s]."""
    reading, writing = [], []
    for _ in range(times):
        running = case.begin()
        began = time.monotonic()
        writing_begins(running, case.folder)
        at = time.monotonic()
        running.communicate()
        reading.append(at - began)
        writing.append(time.monotonic() - at)
        if isinstance(case, Replaced):
            case.now = case.target
        else:
            shutil.rmtree(case.folder)
    return statistics.median(reading), statistics.median(writing)


def moment(case, after):
    """What the signal hit, by what it left."""
    if case.is_complete(after):
        return "after the last name was given"
    named = {n: d for n, d in after.items() if n not in leftovers(after)}
    if named != case.before:
        return NAMING
    return "while temporary files were written" if leftovers(after) else "before the first file"


def hit(case, lasts, how, counts):
    """One run, one signal; gives whether it came before the end. Four of five come while it writes."""
    bench = case.bench
    reading, writing = lasts
    running = case.begin()
    if bench.random.random() < 0.8:
        writing_begins(running, case.folder)
        time.sleep(bench.random.uniform(0.0, 1.0) * writing)
    else:
        time.sleep(bench.random.uniform(0.0, 1.0) * (reading + writing))
    running.send_signal(how)
    err = running.communicate()[1].decode()
    after = contents(case.folder)
    what = f"{how.name} during {case.name}"
    in_time = running.returncode == -how
    if in_time:
        counts[moment(case, after)] += 1
    else:
        counts[ENDED] += 1
        bench.check(what, running.returncode == 0, f"exit code {running.returncode}: {err[:200]}")
    torn = case.torn(after)
    bench.check(what, not torn, f"neither old nor new: {torn}")
    return in_time


def hit_often(case, how, times, counts):
    lasts = durations(case, 3 if times > 10 else 1)
    what = f"the run after {how.name} during {case.name}"
    any_in_time = False
    for i in range(times):
        any_in_time = hit(case, lasts, how, counts) or any_in_time
        if not any_in_time:
            # The runs that were measured may have been slow ones, on a machine that was busy then.
            lasts = [seconds / 2 for seconds in lasts]
        # Half of them hit what another one has left.
        if isinstance(case, Started) or i == times - 1 or case.bench.random.random() < 0.5:
            case.bench.check(what, *case.make_whole())
        else:
            case.now = case.bench.random.randrange(2)
        case.bench.inputs_untouched(what, f"number {i + 1}")


def write_up(bench):
    write = ["write", "--trials", "0"]
    return Replaced(bench, "write", [[*write, *ONE], [*write, *TWO]])


def line_up(bench):
    return Replaced(bench, "line-up", [["line-up", *ONE], ["line-up", *TWO]])


def told(bench, how, counts):
    total = sum(counts.values())
    print(f"{how.name}: sent to {total} runs, {total - counts[ENDED]} ended by it")
    for where, count in counts.most_common():
        print(f"  {count:4} {where}")
    # Of a few, all may come too early or too late by chance.
    if total >= 10:
        bench.check(f"a {how.name} that comes before the end", total > counts[ENDED],
                    f"all {total} runs had ended")
    if total >= 100:
        bench.check(f"a fifth of {how.name} at moments that count", counts[NAMING] >= total / 5,
                    f"{counts[NAMING]} hit the giving of names")


def run_kills(bench, times, short):
    counts = collections.Counter()
    shares = ((line_up, 0.6), (Started, 0.4)) if short else (
        (write_up, 0.6), (line_up, 0.2), (Started, 0.2))
    for case, share in shares:
        hit_often(case(bench), signal.SIGKILL, round(share * times), counts)
    told(bench, signal.SIGKILL, counts)


def processor_time(pid):
    """What a running process has used [s], in steps of some 10 ms: proc(5), utime and stime."""
    fields = pathlib.Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def has_used(running, seconds):
    """Waits until it has used so much processor time; False where it ends or hangs before that."""
    until = time.monotonic() + LONGEST_S
    while running.poll() is None and time.monotonic() < until:
        if processor_time(running.pid) >= seconds:
            return True
        time.sleep(POLL_S)
    return False


def long_reckoning(bench, how):
    """Nothing is written before all is reckoned: half an output is none.

    A run with a hundredth of the trials is the clock. Its processor time is a few hundredths of the
    long run's on a fast machine, a slow and a busy one.
    """
    what = f"{how.name} during a long reckoning"
    judge = ["judge", ONE[0], "--threads", "1", "--trials"]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    bench.run([*judge, "100000"])
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    running = bench.start([*judge, "10000000"])
    reckons = has_used(running, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    bench.check(what, reckons, "it never got so far")
    running.send_signal(how)
    err = running.communicate()[1].decode()
    bench.check(what, running.returncode == -how and not err,
                f"exit code {running.returncode}: {err[:200]}")


def planning(bench, how):
    what = f"{how.name} during a plan"
    plan = ["plan", "demo/protocol.yaml", "--panel", "demo/panels/rigid-a.yaml", "-o"]
    folder = bench.fresh()
    began = time.monotonic()
    bench.run([*plan, folder])
    lasts = time.monotonic() - began
    before = contents(folder)
    for _ in range(5):
        running = bench.start([*plan, folder, "--replace"])
        time.sleep(bench.random.uniform(0.0, lasts))
        running.send_signal(how)
        running.communicate()
        after = contents(folder)
        named = {name: data for name, data in after.items() if name not in leftovers(after)}
        bench.check(what, named == before, "the old plan changed")
    done = bench.run([*plan, folder, "--replace"])
    bench.check(what, contents(folder) == before, f"the next run: {ended_by(done)}")


def run_signals(bench, short):
    case = (line_up if short else write_up)(bench)
    for how in (signal.SIGINT, signal.SIGTERM):
        counts = collections.Counter()
        hit_often(case, how, 2 if short else 20, counts)
        told(bench, how, counts)
        long_reckoning(bench, how)
        if not short:
            planning(bench, how)
