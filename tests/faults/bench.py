"""A folder to work in, the program that is tried, and what was found."""
import collections
import hashlib
import os
import pathlib
import random
import re
import resource
import shutil
import signal
import subprocess
import tempfile

LEFTOVER = re.compile(r"\.hailwright-\d+-\d+\.part$")
LONGEST_S = 120

Finished = collections.namedtuple("Finished", "code out err")


class Findings:
    """Counts of what was tried, and each loss in a line."""

    def __init__(self):
        self.tried = collections.Counter()
        self.losses = []
        self.skipped = []

    def check(self, what, holds, where):
        self.tried[what] += 1
        if not holds:
            self.losses.append(f"{what}: {where}")
        return holds

    def skip(self, what, reason):
        self.skipped.append(f"{what}: skipped, {reason}")


def contents(folder):
    """Every file below a folder by its name there; no files of a folder that is not there."""
    files = {}
    for path in sorted(pathlib.Path(folder).rglob("*")):
        if path.is_file() and not path.is_symlink():
            files[str(path.relative_to(folder))] = path.read_bytes()
    return files


def sums(folder):
    return {name: hashlib.sha256(data).hexdigest() for name, data in contents(folder).items()}


def leftovers(files):
    return [name for name in files if LEFTOVER.search(name)]


class Bench:
    def __init__(self, program, demo, seed, findings, short):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="hailwright-faults-"))
        os.chmod(self.folder, 0o755)  # one part runs as somebody else
        self.program = self.folder / "hailwright"
        shutil.copy(program, self.program)
        shutil.copytree(demo, self.folder / "demo")
        self.inputs = sums(self.folder / "demo")
        self.random = random.Random(seed)
        self.findings = findings
        self.check = findings.check
        # A program under the address sanitizer reserves terabytes, and needs them all.
        self.sanitized = b"__asan_init" in self.program.read_bytes()
        self.made = 0
        # Two contents of a folder. Both are written by the same code, a line-up is made sooner.
        command, self.page = (["line-up"], "line-up.html") if short else (
            ["write", "--trials", "0"], "report.html")
        self.old = [*command, "demo/rigid-withstood.yaml"]
        self.new = [*command, "demo/flexible-damaged.yaml"]

    def close(self):
        shutil.rmtree(self.folder, ignore_errors=True)

    def fresh(self, name="folder"):
        """The name of something in the bench that is not there yet."""
        self.made += 1
        return self.folder / f"{name}-{self.made}"

    def environment(self, changes=None):
        """Of the one who runs this, without what says how text looks; None takes a name out."""
        names = ("LC_ALL", "LC_CTYPE", "LANG", "COLUMNS", "NO_COLOR", "TERM", "TZ", "LOCPATH")
        env = {k: v for k, v in os.environ.items() if k not in names}
        for name, value in (changes or {}).items():
            if value is None:
                env.pop(name, None)
            else:
                env[name] = value
        return env

    def run(self, arguments, env=None, limits=(), **how):
        """Runs it to its end.

        limits: pairs of a resource and bytes. how: goes to subprocess.run.
        """
        how.setdefault("stdout", subprocess.PIPE)
        how.setdefault("stderr", subprocess.PIPE)
        how.setdefault("stdin", subprocess.DEVNULL)
        how.setdefault("cwd", self.folder)

        def before():
            for kind, most in limits:
                resource.setrlimit(kind, (most, most))

        done = subprocess.run([self.program, *map(str, arguments)], env=self.environment(env),
                              timeout=LONGEST_S, preexec_fn=before if limits else None, **how)
        return Finished(done.returncode, text_of(done.stdout), text_of(done.stderr))

    def shell(self, command, env=None):
        """A command of bash in which $H is the program."""
        done = subprocess.run(["bash", "-c", command], cwd=self.folder, timeout=LONGEST_S,
                              env={**self.environment(env), "H": str(self.program)},
                              stdin=subprocess.DEVNULL, capture_output=True)
        return Finished(done.returncode, text_of(done.stdout), text_of(done.stderr))

    def start(self, arguments):
        """Begins a run whose output nobody wants."""
        return subprocess.Popen([self.program, *map(str, arguments)], cwd=self.folder,
                                env=self.environment(), stdin=subprocess.DEVNULL,
                                stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)

    def inputs_untouched(self, what, where):
        return self.check(what, sums(self.folder / "demo") == self.inputs,
                          f"{where}: an input was changed")


def text_of(output):
    return (output or b"").decode("utf-8", "surrogateescape")


def ended_by(finished):
    """How it ended, in words."""
    if finished.code >= 0:
        return f"exit code {finished.code}, {finished.err.strip()[:200]!r}"
    return f"signal {signal.Signals(-finished.code).name}, {finished.err.strip()[:200]!r}"


# What each command prints, at least a line. {} is a folder that is not there.
PRINTING = [
    ["--help"], ["--version"], ["judge", "--help"], ["grades"], ["sources"],
    ["grades", "--format", "csv"], ["shot", "--diameter", "25mm", "--speed", "23m/s"],
    ["speed", "--drop", "3m"], ["check", "--schema", "record"],
    ["plan", "demo/protocol.yaml", "--panel", "demo/panels/rigid-a.yaml", "--estimate-only"],
    ["judge", "demo/rigid-withstood.yaml", "--trials", "0"],
    ["judge", "demo/rigid-withstood.yaml", "--trials", "0", "--explain", "--format", "html"],
    ["judge", "demo/rigid-withstood.yaml", "--trials", "0", "--format", "jsonl"],
    ["line-up", "demo/rigid-withstood.yaml", "demo/flexible-damaged.yaml"],
    ["threshold", "demo/specimens/coupons-staircase.yaml"],
    ["readings", "demo/logs/before.csv", "--columns", "demo/logs/columns.yaml", "--cut", "plateaus"],
    ["readings", "demo/logs/before.csv", "--suggest"],
    ["start", "{}"], ["write", "demo/rigid-withstood.yaml", "--trials", "0", "-o", "{}"],
]


def printing(*words):
    """The commands of PRINTING with these first words. A word without a command is our mistake."""
    unknown = set(words) - {command[0] for command in PRINTING}
    if unknown:
        raise ValueError(f"no command prints as {unknown}")
    return [command for command in PRINTING if command[0] in words]


TITLE = "Größe µ, é – 25 °C ± 1 °C, 100 W/m², 漢字"
TITLE_IN_ASCII = "Grosse u, e - 25 degC +- 1 degC, 100 W/m2, ????"


def make_signs(bench):
    """A record and a wrong one with letters and signs that are not in ASCII."""
    shutil.copytree(bench.folder / "demo", bench.folder / "signs")
    record = (bench.folder / "demo" / "rigid-withstood.yaml").read_text(encoding="utf-8")
    for name, key in (("record", "title"), ("wrong", "titel")):
        (bench.folder / "signs" / f"{name}.yaml").write_text(
            record.replace("title: Rigid A\n", f"{key}: {TITLE}\n"), encoding="utf-8")
