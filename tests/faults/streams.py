"""Standard output that nobody reads to its end, or that is not there."""
import signal

from bench import PRINTING, contents, ended_by, printing

BROKEN = "hailwright: the output could not be written: Broken pipe\n"
CLOSED = "hailwright: the output could not be written: Bad file descriptor\n"
JUDGE = "judge demo/rigid-withstood.yaml --trials 0"


def words_of(bench, command):
    return " ".join(a.replace("{}", str(bench.fresh())) for a in command)


def read_by_nobody(bench, commands):
    """The shell's status is the program's: 0 when all was in the pipe before it was closed."""
    what = "a reader that stops"
    for command in commands:
        for reader in ("head -1", "true"):
            words = words_of(bench, command)
            done = bench.shell(f'"$H" {words} | {reader}; exit ${{PIPESTATUS[0]}}')
            bench.check(what, done.code in (0, 128 + signal.SIGPIPE) and not complaint(done.err),
                        f"{words} | {reader}: {ended_by(done)}")
            words = words_of(bench, command)
            # As services and some languages start programs: the signal is ignored.
            done = bench.shell(f'(trap "" PIPE; "$H" {words}) | {reader}; exit ${{PIPESTATUS[0]}}')
            right = complaint(done.err) == "" if done.code == 0 else (
                done.code == 5 and complaint(done.err) == BROKEN)
            bench.check(what, right, f"ignored, {words} | {reader}: {ended_by(done)}")


def complaint(err):
    """What is said beside warnings about the files."""
    return "".join(line + "\n" for line in err.splitlines() if line.startswith("hailwright: ")
                   and "warning" not in line)


def closed_output(bench, commands):
    what = "a closed standard output"
    for command in commands:
        words = words_of(bench, command)
        done = bench.shell(f'"$H" {words} >&-')
        bench.check(what, done.code == 5 and complaint(done.err) == CLOSED,
                    f"{words}: {ended_by(done)}")


def closed_messages(bench):
    """A closed standard error must not become one of the files that are written."""
    what = "closed standard streams"
    want = bench.fresh()
    bench.run([*bench.old, "-o", want])
    codes = {"2>&-": 0, "0<&-": 0, "0<&- 2>&-": 0, ">&-": 5, ">&- 2>&-": 5, "0<&- >&- 2>&-": 5}
    for streams, code in codes.items():
        folder = bench.fresh()
        done = bench.shell(f'"$H" {" ".join(bench.old)} -o {folder} {streams}')
        bench.check(what, done.code == code, f"{streams}: {ended_by(done)}")
        bench.check(what, contents(folder) == contents(want), f"{streams}: other files")
    done = bench.shell(f'"$H" check demo/readings.csv 2>&-')
    bench.check(what, done.code == 3, f"check of a wrong file: {ended_by(done)}")


def full_messages(bench):
    """Nobody can be told, and the exit code says it."""
    what = "messages to a full disk"
    done = bench.shell('"$H" check demo/readings.csv 2>/dev/full')
    bench.check(what, done.code == 3, ended_by(done))
    done = bench.shell(f'"$H" {JUDGE} 2>/dev/full')
    bench.check(what, done.code == 0 and done.out, ended_by(done))


def run(bench, short):
    commands = printing("--help", "grades", "line-up", "start") if short else PRINTING
    read_by_nobody(bench, commands)
    closed_output(bench, commands)
    closed_messages(bench)
    full_messages(bench)
    bench.inputs_untouched("streams", "at the end")
