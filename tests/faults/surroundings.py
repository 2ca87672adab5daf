"""Locales, time zones, umasks and terminals: the same result everywhere, and text that can be read."""
import datetime
import fcntl
import json
import os
import pty
import re
import shutil
import struct
import subprocess
import termios
import zoneinfo

from bench import TITLE, TITLE_IN_ASCII, contents, ended_by, make_signs, text_of

RECORDS = ["demo/rigid-withstood.yaml", "demo/flexible-damaged.yaml"]
ESTIMATE = ["plan", "demo/protocol.yaml", "--panel", "demo/panels/rigid-a.yaml", "--estimate-only"]
SHOWN = [
    ["judge", RECORDS[0], "--trials", "20000", "--explain"],
    ["judge", RECORDS[1], "--trials", "0", "--format", "json"],
    ["grades", "--format", "csv"],
    ["shot", "--diameter", "25mm", "--mass", "7.53g", "--speed", "23.5m/s"],
    ["line-up", *RECORDS, "--format", "html"],
    ["readings", "demo/logs/before.csv", "--columns", "demo/logs/columns.yaml", "--cut", "plateaus"],
    ["check", "signs/record.yaml", "signs/wrong.yaml"],
]
ZONES = ["UTC", "Pacific/Kiritimati", "Etc/GMT+12", "Europe/Berlin", "America/St_Johns"]
NO_ZONES = [None, "", ":", "No/Such", "<+99>-99:99:99", "../../etc/passwd", "x" * 10_000]


def made_locales(bench):
    """Locales with a decimal comma, made here since a bare system has none: name and environment."""
    folder = bench.fresh("locales")
    folder.mkdir()
    made = []
    for name, charset in (("de_DE.UTF-8", "UTF-8"), ("de_DE.ISO-8859-1", "ISO-8859-1")):
        command = ["localedef", "-i", "de_DE", "-f", charset, "--no-archive", str(folder / name)]
        environment = {"LC_ALL": name, "LOCPATH": str(folder)}
        is_made = shutil.which("localedef") and subprocess.run(command, capture_output=True).returncode == 0
        if bench.check("a locale with a decimal comma", is_made and shows_a_comma(environment),
                       f"{name} is not to be had: localedef and its sources are in the package locales"):
            made.append((name, environment))
    return made


def shows_a_comma(environment):
    """Whether the locale works at all: printf of the shell writes 1,5 in it."""
    done = subprocess.run(["bash", "-c", "printf %.1f 1,5"], capture_output=True,
                          env={**os.environ, **environment})
    return done.stdout == b"1,5"


def locales(bench, short):
    what = "the same bytes in every locale"
    commands = SHOWN[1:2] + SHOWN[-1:] if short else SHOWN
    wanted = [bench.run(command) for command in commands]
    folder = bench.fresh()
    write = [*bench.old, "-o"]
    bench.run([*write, folder])
    german = made_locales(bench)
    plain = [] if short else [(n, {"LC_ALL": n}) for n in ("C", "POSIX", "C.UTF-8", "xx_YY.none", "x" * 5000)]
    for name, environment in german + plain:
        for command, want in zip(commands, wanted):
            bench.check(what, bench.run(command, env=environment) == want,
                        f"{name[:20]}: {' '.join(command)}")
    for name, environment in german[:1] + plain[-2:]:
        other = bench.fresh()
        done = bench.run([*write, other], env=environment)
        bench.check(what, contents(other) == contents(folder), f"{name[:20]}: write, {ended_by(done)}")


def zones(bench, short):
    what = "the same bytes in every time zone"
    commands = SHOWN[5:6] if short else [SHOWN[0], SHOWN[5]]
    wanted = [bench.run(command) for command in commands]
    folder = bench.fresh()
    write = [*bench.old, "-o"]
    bench.run([*write, folder])
    tried = ["Pacific/Kiritimati", "No/Such"] if short else ZONES + NO_ZONES
    for zone in tried:
        for command, want in zip(commands, wanted):
            bench.check(what, bench.run(command, env={"TZ": zone}) == want,
                        f"TZ={zone}"[:40] + f": {' '.join(command)}")
    other = bench.fresh()
    bench.run([*write, other], env={"TZ": "Pacific/Kiritimati"})
    bench.check(what, contents(other) == contents(folder), "Pacific/Kiritimati: write")
    for zone in tried:
        the_day_here(bench, zone)


def the_day_here(bench, zone):
    """A plan is dated by the calendar on the wall; where no zone is known, by that of UTC."""
    def day():
        named = zone if zone in ZONES else "UTC"
        return datetime.datetime.now(zoneinfo.ZoneInfo(named)).date().isoformat()
    if zone in (None, "<+99>-99:99:99") or zone.startswith(":"):
        return  # what the system makes of these is its own affair
    before = day()
    done = bench.run([*ESTIMATE, "--format", "json"], env={"TZ": zone})
    days = (before, day())  # midnight may come between
    bench.check("the day of a plan", done.code == 0 and json.loads(done.out)["date"] in days,
                f"TZ={zone}"[:40] + f": {days}, {ended_by(done)}")


def umasks(bench):
    what = "permissions by the umask"
    for mask in (0o000, 0o022, 0o027, 0o077):
        for command in ([*bench.old, "-o", "{}"], ["start", "{}"]):
            folder = bench.fresh()
            done = bench.run([folder if a == "{}" else a for a in command], umask=mask)
            bench.check(what, done.code == 0, f"{mask:03o}: {ended_by(done)}")
            wrong = [str(p) for p in [folder, *folder.rglob("*")]
                     if p.stat().st_mode & 0o777 != (0o777 if p.is_dir() else 0o666) & ~mask]
            bench.check(what, not wrong, f"{mask:03o}, {command[0]}: {wrong}")
    # Nobody can write into a folder that such a umask makes: a message, and nothing is left.
    nobody = {"user": 65534, "group": 65534, "extra_groups": []} if os.geteuid() == 0 else {}
    folder = bench.fresh()
    folder.mkdir()
    folder.chmod(0o777)
    for command in ([*bench.old, "-o", folder / "w"], ["start", folder / "w"]):
        done = bench.run(command, umask=0o777, **nobody)
        bench.check(what, done.code == 5 and "Permission denied" in done.err and "w/" in done.err,
                    f"777: {ended_by(done)}")
        bench.check(what, not list(folder.iterdir()), f"777, {command[0]}: something is left")


def on_terminal(bench, arguments, environment, columns=80):
    """What it writes to a terminal, output and messages together, with the terminal's \\r\\n undone."""
    ours, its = pty.openpty()
    fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    running = subprocess.Popen([bench.program, *arguments], cwd=bench.folder, stdin=subprocess.DEVNULL,
                               stdout=its, stderr=its, env=bench.environment(environment))
    os.close(its)
    shown = b""
    try:
        while piece := os.read(ours, 65536):
            shown += piece
    except OSError:
        pass  # a terminal ends in an error where nobody writes to it any more
    os.close(ours)
    return running.wait(), shown.replace(b"\r\n", b"\n")


def characters_on_terminals(bench, short):
    what = "signs on a terminal"
    judge = ["judge", "signs/record.yaml", "--trials", "0"]
    piped = bench.run(judge).out
    bench.check(what, TITLE in piped, "a pipe: they are not there")
    commands = [judge, ["check", "signs/wrong.yaml"], ["line-up", "signs/record.yaml"]]
    names = ["C", "", "POSIX", "de_DE", "de_DE.ISO-8859-1", "xx"]
    for name in names[:2] if short else names:
        for command in commands[1:] if short else commands:
            code, shown = on_terminal(bench, command, {"LC_ALL": name, "TERM": "xterm"})
            bench.check(what, shown.isascii(), f"LC_ALL={name}: {command[0]} is not in ASCII")
            bench.check(what, TITLE_IN_ASCII.encode() in shown,
                        f"LC_ALL={name}: {command[0]} lost its words")
    for name in ("C.UTF-8", "de_DE.utf8"):
        code, shown = on_terminal(bench, judge, {"LC_ALL": name, "TERM": "dumb"})
        bench.check(what, shown.decode() == piped, f"LC_ALL={name}: other than in a pipe")


def colour(bench):
    what = "colour on a terminal"
    judge = ["judge", RECORDS[0], "--trials", "0"]
    for wanted, environment in ((True, {"TERM": "xterm"}), (False, {"TERM": "dumb"}), (False, {}),
                                (False, {"TERM": "xterm", "NO_COLOR": "1"}),
                                (True, {"TERM": "xterm", "NO_COLOR": ""})):
        code, shown = on_terminal(bench, judge, {"LC_ALL": "C.UTF-8", **environment})
        bench.check(what, code == 0 and (b"\x1b[1" in shown) == wanted, f"{environment}")


def too_long(text, width):
    """Lines beyond the width that are not a single word, which may be: an address, a path."""
    lines = re.sub(r"\x1b\[[0-9;]*m", "", text).splitlines()
    return [line for line in lines if len(line) > width and len(line.split()) > 1]


def widths(bench, short):
    what = "lines as wide as the terminal"
    few = [["judge", RECORDS[0], "--trials", "0"]]
    more = [[*few[0], "--explain"], ["line-up", *RECORDS], ["grades"], ["sources"], SHOWN[3]]
    most = 3 if short else 8
    for command in few if short else few + more:
        usual = bench.run(command).out
        for said, width in (("1", 40), ("40", 40), ("1000000", 120), ("63", 63), ("120", 120))[:most]:
            text = bench.run(command, env={"COLUMNS": said}).out
            bench.check(what, text and not too_long(text, width),
                        f"COLUMNS={said}: {command[0]} {too_long(text, width)[:2]}")
        for said in ("0", "-3", "nonsense", "", "4.5", "9" * 20, "40 ", "\x1b[2J")[:most]:
            bench.check(what, bench.run(command, env={"COLUMNS": said}).out == usual,
                        f"COLUMNS={said!r}: {command[0]} is other than without")
        for columns, width in ((40, 40), (100, 100), (0, 80), (1, 40), (500, 120))[:most]:
            code, shown = on_terminal(bench, command, {"TERM": "dumb"}, columns)
            bench.check(what, code == 0 and not too_long(text_of(shown), width),
                        f"a terminal of {columns}: {command[0]}")
    code, shown = on_terminal(bench, few[0], {"TERM": "dumb", "COLUMNS": "44"}, 100)
    bench.check(what, not too_long(text_of(shown), 44), "COLUMNS counts before the terminal")


def run(bench, short):
    make_signs(bench)
    locales(bench, short)
    zones(bench, short)
    umasks(bench)
    characters_on_terminals(bench, short)
    colour(bench)
    widths(bench, short)
    bench.inputs_untouched("surroundings", "at the end")
