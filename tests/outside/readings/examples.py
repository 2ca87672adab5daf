#!/usr/bin/env python3
"""Runs the examples of docs/readings.md and holds them against what the page shows.

    python3 examples.py PROGRAM PROJECT

An example is a block below `<!-- output of: COMMAND -->`; the command is the shell's, run in
protocols/demo/logs, and its output holds the block somewhere.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

PAGE = "docs/readings.md"
FEWEST = 8


def output_of(command, folder, programs):
    environment = dict(os.environ, PATH=f"{programs}:{os.environ['PATH']}", LC_ALL="C.UTF-8")
    done = subprocess.run(["bash", "-c", f"set -o pipefail; {command}"], cwd=folder, env=environment,
                          capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{command}: exit {done.returncode}\n{done.stderr}")
    return done.stdout


def main():
    if len(sys.argv) != 3:
        sys.exit("usage: python3 examples.py PROGRAM PROJECT")
    project = pathlib.Path(sys.argv[2])
    text = (project / PAGE).read_text(encoding="utf-8")
    examples = re.findall(r"<!-- output of: (.*?) -->\n```\n(.*?)```", text, re.DOTALL)
    if len(examples) < FEWEST or len(examples) != text.count("<!-- output of:"):
        sys.exit(f"{PAGE}: {len(examples)} examples were found")
    wrong = 0
    with tempfile.TemporaryDirectory() as programs:
        os.symlink(pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(programs) / "hailwright")
        for command, shown in examples:
            if shown in output_of(command, project / "protocols/demo/logs", programs):
                continue
            wrong += 1
            print(f"{PAGE} shows otherwise: {command}", file=sys.stderr)
    print(f"{len(examples)} examples run, {wrong} shown otherwise")
    sys.exit(1 if wrong else 0)


main()
