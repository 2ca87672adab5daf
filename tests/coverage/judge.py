"""What the tests reached, by what gcov says of every unit. gcovr 5.2 cannot add them up: it stops
where functions of one name begin on different lines, as our local ones do.

A branch decides when it stands in a statement with a condition of ours: if, for, while, switch,
case, ?:, && or ||. Left out is what the compiler adds by itself: the ways out of a call by an
exception, and conditions that no run came to though their line was reached. The way into such a
condition is an exception, or another branch that was not taken and is counted itself.
"""

import collections
import json
import pathlib
import re
import subprocess
import sys

LEAST_LINES = 90.0  # per cent of the library [ours]
JUDGED = ("src/evaluate/", "include/hailwright/evaluate/",
          "src/safety/", "include/hailwright/safety/")
CONDITION = re.compile(r"\b(if|for|while|switch|case)\b|\?|&&|\|\|")
HEAD = re.compile(r"\s*(?:else\s+)?(?:if(?:\s+constexpr)?|for|while|switch)\s*\(.*\)"
                  r"|\s*(?:case\b.*|default)", re.DOTALL)
LITERAL = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'', re.DOTALL)


def blanked(text):
    """Comments and literals as blanks; digit separators stay, as nobody asks for them here."""
    return LITERAL.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def condition_lines(text):
    """Lines of statements that hold a condition, however many lines they take.

    What `if (...)` or `case ...:` leads to is a statement of its own.
    """
    found, line = set(), 1
    outer, text_so_far, lines, depth = [], "", set(), 0  # of each brace that is open; of a statement

    def end():
        if CONDITION.search(text_so_far):
            found.update(lines)

    code = blanked(text).replace("::", "__")
    for char in code:
        if char == "\n":
            line += 1
        if char == "{":
            inside = depth > 0  # a lambda or a list in an expression, which goes on after it
            if not inside:
                end()
            outer.append((text_so_far, lines | {line}, depth) if inside else ("", set(), 0))
            text_so_far, lines, depth = "", set(), 0
        elif char == "}":
            end()
            text_so_far, lines, depth = outer.pop()
        elif char == ";" and depth == 0:
            end()
            text_so_far, lines = "", set()
        else:
            depth += {"(": 1, ")": -1}.get(char, 0)
            text_so_far += char
            if not char.isspace():
                lines.add(line)
            if char in "):" and depth == 0 and HEAD.fullmatch(text_so_far.removesuffix(":")):
                end()
                text_so_far, lines = "", set()
    return found


def conditions(branches, one_group):
    """Groups of ways out of one place, without those that an exception leaves by."""
    own = []
    for branch in branches:
        if branch["throw"]:
            if own:
                own.pop()  # the other way out of the same call
        else:
            own.append(branch["count"])
    if one_group:
        return [own] if own else []
    return [own[i : i + 2] for i in range(0, len(own), 2)]


def gcov_files(built):
    """What gcov says of every unit, one after another."""
    for counts in sorted(built.rglob("*.gcda")):
        gcov = ["gcov", "--branch-probabilities", "--json-format", "--stdout", counts]
        out = subprocess.run(gcov, capture_output=True, check=True, cwd=built).stdout
        for part in out.splitlines():
            yield from json.loads(part)["files"]


class Reached:
    """Lines of all files and branches of those that decide, summed over units and instances."""

    def __init__(self, root, built):
        self.root, self.branches, self.lines = root, {}, collections.Counter()
        for part in gcov_files(built):
            path = pathlib.Path(part["file"])
            if not path.is_relative_to(root):
                continue
            name = str(path.relative_to(root))
            if name.startswith(("src/", "include/")):
                self.add(name, part["lines"])

    def add(self, name, lines):
        for line in lines:
            key, branches = (name, line["line_number"]), line["branches"]
            self.lines[key] += line["count"]
            if not name.startswith(JUDGED):
                continue
            sums = self.branches.setdefault((*key, tuple(b["throw"] for b in branches)), branches)
            if sums is not branches:
                for sum_of, one in zip(sums, branches):
                    sum_of["count"] += one["count"]

    def decisions(self):
        """(file, line, ways taken, all ways, words) of each place that decides."""
        lines = {}
        by_place = sorted(self.branches.items(), key=lambda item: item[0][:2])
        for (name, number, _), branches in by_place:
            if name not in lines:
                text = (self.root / name).read_text(encoding="utf-8")
                lines[name] = (text.splitlines(), condition_lines(text))
            source, deciding = lines[name]
            if number not in deciding:
                continue
            is_switch = re.search(r"\bswitch\b", source[number - 1]) is not None
            for group in conditions(branches, is_switch):
                if any(group) or not self.lines[name, number]:
                    taken = sum(map(bool, group))
                    yield name, number, taken, len(group), source[number - 1].strip()


class Exceptions:
    """Ways that no test can or need take: file, words of the line, reason, between bars.

    A row speaks for one line: a second one alike needs a row of its own.
    """

    def __init__(self, path):
        self.rows, self.used = [], {}  # the line of each row that is used
        for text in path.read_text(encoding="utf-8").splitlines():
            if text and not text.startswith("#"):
                name, words, reason = (part.strip() for part in text.split(" | "))
                if not (words and reason):
                    sys.exit(f"{path.name}: a row without words or reason: {text}")
                self.rows.append((name, words, reason))

    def allow(self, name, number, text):
        for i, row in enumerate(self.rows):
            if row[0] == name and row[1] in text and self.used.get(i, number) == number:
                self.used[i] = number
                return True
        return False

    def unused(self):
        return [row for i, row in enumerate(self.rows) if i not in self.used]


def share(part, whole):
    return 100.0 * part / whole if whole else 100.0


def layer_of(name):
    return name.removeprefix("include/hailwright/").removeprefix("src/").split("/")[0]


def report_lines(lines):
    """Prints the lines reached, by layer and of files below 80 %; returns the library's share."""
    layers, files = (collections.defaultdict(lambda: [0, 0]) for _ in range(2))
    for (name, _), count in lines.items():
        layer = layer_of(name)
        for sums in (files[name], layers[layer], layers["library and program"],
                     *([] if layer == "cli" else [layers["library"]])):
            sums[0] += count > 0
            sums[1] += 1
    print("lines reached")
    for name, (reached, every) in sorted(layers.items()):
        print(f"  {name:20} {share(reached, every):6.2f} %  {reached} of {every}")
    for name, (reached, every) in sorted(files.items()):
        if share(reached, every) < 80.0:
            print(f"  below 80 %: {name}  {share(reached, every):.0f} %, {reached} of {every}")
    return share(*layers["library"])


def report_branches(reached, exceptions):
    """Prints the branches that decide, by layer; returns those not taken and not excepted."""
    sums, gaps = collections.defaultdict(lambda: [0, 0, 0]), {}
    for name, number, taken, every, text in reached.decisions():
        row = sums[layer_of(name)]
        row[1] += every
        if taken == every:
            row[0] += taken
        elif exceptions.allow(name, number, text) and (every == 2 or taken == every - 1):
            row[0] += taken
            row[2] += every - taken
        else:
            row[0] += taken
            gaps.setdefault((name, number, text), []).append(f"{taken} of {every}")
    print("\nbranches that decide, taken")
    for name, (taken, every, excepted) in sorted(sums.items()):
        print(f"  {name:20} {share(taken, every):6.2f} %  {taken} of {every};"
              f" listed exceptions: {excepted}")
    return gaps


def main(root, built):
    reached = Reached(root, built)
    library = report_lines(reached.lines)
    exceptions = Exceptions(root / "tests/coverage/exceptions.txt")
    gaps = report_branches(reached, exceptions)
    for (name, number, text), ways in gaps.items():
        print(f"{name}:{number}: taken {', '.join(ways)} ways: {text}")
    for name, words, _ in exceptions.unused():
        print(f"exceptions.txt: nothing untaken like this any more: {name} | {words}")
    if library < LEAST_LINES:
        print(f"the library's lines: below {LEAST_LINES:.0f} %")
    good = library >= LEAST_LINES and not gaps and not exceptions.unused()
    print("\ncoverage: " + ("as wanted" if good else "less than wanted"))
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()))
