"""Folders that may not be written, vanish, or are none."""
import contextlib
import os
import shutil
import subprocess
import time

from bench import contents, ended_by, leftovers

NOBODY = 65534


@contextlib.contextmanager
def read_only(folder):
    """The folder cannot be written, by root neither; gives False where that is not allowed."""
    done = subprocess.run(["mount", "--bind", folder, folder], stderr=subprocess.DEVNULL)
    mounted = done.returncode == 0
    if mounted:
        done = subprocess.run(["mount", "-o", "remount,ro,bind", folder], stderr=subprocess.DEVNULL)
    try:
        yield done.returncode == 0
    finally:
        if mounted:
            subprocess.run(["umount", folder], check=True)


def refused(bench, what, words, commands, folder, before, **how):
    for command in commands:
        done = bench.run(command, **how)
        bench.check(what, done.code == 5 and words in done.err and "help: " in done.err,
                    f"{command[0]}: {ended_by(done)}")
        bench.check(what, contents(folder) == before, f"{command[0]}: the folder changed")


def writing_into(bench, folder):
    return [[*bench.new, "-o", folder / "w", "--replace"], [*bench.new, "-o", folder / "other"],
            ["start", folder / "s"],
            ["plan", "demo/protocol.yaml", "--panel", "demo/panels/rigid-a.yaml", "--estimate-only",
             "-o", folder / "p"]]


def with_old_write_up(bench):
    """A folder that holds an older write-up, and what is in it."""
    folder = bench.fresh()
    folder.mkdir()
    bench.run([*bench.old, "-o", folder / "w"])
    return folder, contents(folder)


def read_only_disk(bench):
    what = "a read-only disk"
    folder, before = with_old_write_up(bench)
    with read_only(folder) as is_so:
        if not is_so:
            bench.findings.skip(what, "no file system may be mounted here")
            return
        refused(bench, what, "Read-only file system", writing_into(bench, folder), folder, before)


def without_permission(bench):
    """As nobody, where root runs this: permissions do not bind root."""
    what = "a folder without permission"
    folder, before = with_old_write_up(bench)
    how = {}
    if os.geteuid() == 0:
        how = {"user": NOBODY, "group": NOBODY, "extra_groups": []}
    else:
        for path in (folder / "w", folder):
            path.chmod(0o555)
    refused(bench, what, "Permission denied", writing_into(bench, folder), folder, before, **how)
    for path in (folder, folder / "w"):
        path.chmod(0o755)


def something_in_the_way(bench):
    what = "something in the way"
    folder = bench.fresh()
    bench.run([*bench.old, "-o", folder])
    plain = bench.fresh("file")
    plain.write_text("mine\n")
    for command in ([*bench.new, "-o", plain], [*bench.new, "-o", plain, "--replace"], ["start", plain],
                    [*bench.new, "-o", plain / "inside"], ["line-up", bench.old[-1], "-o", plain]):
        done = bench.run(command)
        bench.check(what, done.code == 5 and plain.read_text() == "mine\n",
                    f"{command[0]}, a file: {ended_by(done)}")
    (folder / bench.page).unlink()
    (folder / bench.page).mkdir()
    before = contents(folder)
    refused(bench, what, "is a folder", [[*bench.new, "-o", folder, "--replace"]], folder, before)
    (folder / bench.page).rmdir()
    (folder / bench.page).symlink_to(plain)
    refused(bench, what, "symbolic link", [[*bench.new, "-o", folder, "--replace"]], folder,
            contents(folder))
    bench.check(what, plain.read_text() == "mine\n", "what a link leads to was written")


def vanishing(bench, times):
    """The folder goes while it is written: a message or a whole write-up, never a crash."""
    what = "a folder that vanishes"
    began = time.monotonic()
    bench.run([*bench.old, "-o", bench.fresh()])
    lasts = time.monotonic() - began
    for _ in range(times):
        folder = bench.fresh()
        bench.run([*bench.old, "-o", folder])
        running = bench.start([*bench.new, "-o", folder, "--replace"])
        time.sleep(bench.random.uniform(0.3, 1.0) * lasts)
        gone = bench.fresh("gone")
        os.rename(folder, gone)
        err = running.communicate()[1].decode()
        bench.check(what, running.returncode in (0, 5) and (running.returncode == 0) == (not err),
                    f"exit code {running.returncode}, {err[:200]!r}")
        bench.check(what, not leftovers(contents(gone)) or running.returncode == 5,
                    "temporary files are left, and nothing is said")
        shutil.rmtree(gone)


def run(bench, short):
    read_only_disk(bench)
    without_permission(bench)
    something_in_the_way(bench)
    vanishing(bench, 2 if short else 20)
    bench.inputs_untouched("folders", "at the end")
