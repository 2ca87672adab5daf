"""Less and less memory: a right result or a plain message, and never a part of a file."""
import resource

from bench import contents, ended_by

MB = 1 << 20
NO_MEMORY = "hailwright: the system gives no more memory\n"
ABORT = ("terminate called", "Aborted", "core dumped", "our mistake", "assertion", "Segmentation")


def limited(megabytes):
    return [(resource.RLIMIT_AS, round(megabytes * MB))]


def least_to_load(bench):
    """So much that the system can load the program at all [MB]."""
    low, high = 1.0, 512.0
    while high - low > 0.25:
        middle = (low + high) / 2
        low, high = (low, middle) if bench.run(["--version"], limits=limited(middle)).code == 0 else (
            middle, high)
    return high


def commands_of(bench):
    records = ["demo/rigid-withstood.yaml", "demo/flexible-damaged.yaml"]
    return {
        "judge": ["judge", records[0], "--trials", "adaptive", "--threads", "2"],
        "judge --explain": ["judge", *records, "--trials", "20000", "--explain", "--format", "html"],
        "plan": ["plan", "demo/protocol.yaml", "--panel", "demo/panels/rigid-a.yaml",
                 "--estimate-only"],
        "line-up": ["line-up", *records, "--format", "json"],
        "check": ["check", *records],
        "readings": ["readings", "demo/logs/before.csv", "--columns", "demo/logs/columns.yaml",
                     "--cut", "plateaus"],
        "threshold": ["threshold", "demo/specimens/coupons-staircase.yaml"],
        "grades": ["grades"],
    }


def plain_end(done, wanted):
    if done.code == 0:
        return done.out == wanted.out and done.err == wanted.err
    told = done.code == 71 and done.err.endswith(NO_MEMORY + done.err.splitlines(True)[-1])
    return told and not any(word in done.err for word in ABORT)


def printing(bench, least, step):
    """Until it has enough."""
    for name, command in commands_of(bench).items():
        wanted = bench.run(command)
        most, at, short_of = least * 4 + 400, least, 0
        while at < most:
            done = bench.run(command, limits=limited(at))
            bench.check("little memory", plain_end(done, wanted), f"{name}, {at:.1f} MB: {ended_by(done)}")
            if done.code == 0:
                break
            short_of += 1
            at += step * bench.random.uniform(0.5, 1.5)
        if bench.check("little memory", done.code == 0, f"{name}: no limit is enough"):
            print(f"  {name}: {short_of} runs without enough, {at:.0f} MB were enough")


def writing(bench, least, step):
    what = "little memory while a folder is written"
    folder = bench.fresh()
    write = ["write", "--trials", "0", "-o", folder, "--replace"]
    bench.run([*write, "demo/rigid-withstood.yaml"])
    before = contents(folder)
    new = bench.fresh()
    bench.run(["write", "--trials", "0", "-o", new, "demo/flexible-damaged.yaml"])
    at, short_of = least, 0
    while True:
        done = bench.run([*write, "demo/flexible-damaged.yaml"], limits=limited(at))
        if done.code == 0:
            break
        short_of += 1
        bench.check(what, done.code == 71 and NO_MEMORY in done.err and "mistake" not in done.err,
                    f"{at:.1f} MB: {ended_by(done)}")
        bench.check(what, contents(folder) == before, f"{at:.1f} MB: the old files changed")
        at += step * bench.random.uniform(0.5, 1.5)
        if not bench.check(what, at < least * 4 + 400, "no limit is enough"):
            return
    bench.check(what, contents(folder) == contents(new), "with enough memory: other files")
    print(f"  write: {short_of} runs without enough, {at:.0f} MB were enough")


def run(bench, short):
    if bench.sanitized:
        bench.findings.skip("memory", "a program under the address sanitizer needs all of it")
        return
    least = least_to_load(bench)
    step = 2.0 if short else 0.15
    print(f"memory: the system loads the program with {least:.1f} MB")
    printing(bench, least, step)
    writing(bench, least, step)
    bench.inputs_untouched("memory", "at the end")
