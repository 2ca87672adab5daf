"""A disk, a file or a table of open files that takes no more."""
import contextlib
import os
import resource
import shutil
import subprocess

from bench import PRINTING, contents, ended_by, leftovers, printing

FULL = "hailwright: the output could not be written: No space left on device\n"


@contextlib.contextmanager
def small_disk(bench, what, options):
    """The folder of a file system of its own; None, and told as skipped, where none may be mounted."""
    folder = bench.fresh("disk")
    folder.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", options, "none", folder],
                             stderr=subprocess.DEVNULL).returncode == 0
    if not mounted:
        bench.findings.skip(what, "no file system may be mounted here")
    try:
        yield folder if mounted else None
    finally:
        if mounted:
            subprocess.run(["umount", folder], check=True)


def printing_to_a_full_disk(bench, commands):
    for command in commands:
        arguments = [a.replace("{}", str(bench.fresh())) for a in command]
        with open("/dev/full", "wb") as full:
            done = bench.run(arguments, stdout=full)
        bench.check("output to a full disk", done.code == 5 and done.err.endswith(FULL),
                    f"{' '.join(command)}: {ended_by(done)}")


def old_is_whole(bench, what, folder, before, done, where):
    after = contents(folder)
    bench.check(what, done.code == 5 and "help: " in done.err, f"{where}: {ended_by(done)}")
    bench.check(what, after == before and not leftovers(after),
                f"{where}: {sorted(set(after) ^ set(before))} are other files than before")


def disk_with_little_room(bench, rooms):
    """A write-up, and so many kB of room beside it for the one that replaces it."""
    what = "a write-up on a full disk"
    for room in rooms:
        with small_disk(bench, what, "size=4m") as disk:
            if disk is None:
                return
            bench.run([*bench.old, "-o", disk / "w"])
            before = contents(disk / "w")
            state = os.statvfs(disk)
            keep = max(0, state.f_bavail * state.f_frsize - room * 1024)
            (disk / "filling").write_bytes(bytes(keep))
            done = bench.run([*bench.new, "-o", disk / "w", "--replace"])
            old_is_whole(bench, what, disk / "w", before, done, f"{room} kB of room")
            (disk / "filling").unlink()
            done = bench.run([*bench.new, "-o", disk / "w", "--replace"])
            bench.check(what, done.code == 0, f"with room again: {ended_by(done)}")


def disk_without_names(bench):
    """Room for bytes, and none for another file."""
    what = "a disk that takes no more files"
    with small_disk(bench, what, "size=4m,nr_inodes=12") as disk:
        if disk is None:
            return
        for i in range(6):
            (disk / f"filling-{i}").touch()
        for command in (["start", disk / "s"], [*bench.old, "-o", disk / "w"]):
            done = bench.run(command)
            bench.check(what, done.code == 5 and "No space left" in done.err,
                        f"{command[0]}: {ended_by(done)}")
            left = [n for n in contents(disk) if not n.startswith("filling")]
            bench.check(what, not left, f"{command[0]} left {left}")


def no_room_for_temporary_files(bench):
    what = "a full folder for temporary files"
    with small_disk(bench, what, "size=16k") as disk:
        if disk is None:
            return
        (disk / "filling").write_bytes(bytes(16384))
        for command in (["start", "{}"], [*bench.old, "-o", "{}"]):
            target = bench.fresh()
            done = bench.run([a if a != "{}" else target for a in command],
                             env={"TMPDIR": str(disk)})
            bench.check(what, done.code == 5 and "TMPDIR" in done.err and not target.exists(),
                        f"{command[0]}: {ended_by(done)}")


def files_that_may_not_grow(bench, limits):
    """`ulimit -f`: needs no rights."""
    what = "files that may not grow"
    folder = bench.fresh()
    line_up = bench.fresh()
    started = bench.fresh()
    records = ["demo/rigid-withstood.yaml", "demo/flexible-damaged.yaml"]
    bench.run([*bench.old, "-o", folder])
    bench.run(["line-up", *records, "-o", line_up])
    bench.run(["start", started])
    largest_start = max(map(len, contents(started).values()))
    shutil.rmtree(started)
    written = contents(folder)
    lined_up = contents(line_up)
    for limit in limits:
        small = [(resource.RLIMIT_FSIZE, limit)]
        done = bench.run([*bench.new, "-o", folder, "--replace"], limits=small)
        old_is_whole(bench, what, folder, written, done, f"write, {limit} bytes")
        done = bench.run(["line-up", *reversed(records), "-o", line_up, "--replace"], limits=small)
        old_is_whole(bench, what, line_up, lined_up, done, f"line-up, {limit} bytes")
        if limit >= largest_start:
            continue
        done = bench.run(["start", started], limits=small)
        old_is_whole(bench, what, started, {}, done, f"start, {limit} bytes")


def few_open_files(bench, counts):
    """`ulimit -n`: whatever cannot be opened is named, and nothing is written in part."""
    what = "few open files"
    folder = bench.fresh()
    bench.run([*bench.old, "-o", folder])
    before = contents(folder)
    for count in counts:
        done = bench.run([*bench.new, "-o", folder, "--replace"],
                         limits=[(resource.RLIMIT_NOFILE, count)])
        if done.code == 0:
            break
        loader = done.code == 127 and "shared libraries" in done.err
        told = done.code in (3, 5) and ("hailwright: " in done.err or done.err.startswith("demo/"))
        bench.check(what, loader or told, f"{count} files: {ended_by(done)}")
        bench.check(what, contents(folder) == before, f"{count} files: the old files changed")


def run(bench, short):
    commands = printing("--version", "grades", "judge", "start") if short else PRINTING
    printing_to_a_full_disk(bench, commands)
    disk_with_little_room(bench, [40] if short else [0, 4, 16, 40, 80, 120, 160, 200])
    no_room_for_temporary_files(bench)
    files_that_may_not_grow(bench, [4096] if short else [0, 1, 512, 4096, 20_000, 30_000])
    if not short:
        disk_without_names(bench)
        few_open_files(bench, range(3, 12))
    bench.inputs_untouched("full disk", "at the end")
