#!/usr/bin/env python3
"""Holds the spreadsheet of a write-up against an independent spreadsheet program.

    recalculate.py HAILWRIGHT DEMO_FOLDER WORK_FOLDER

Writes up the demo records, lets LibreOffice work out every formula anew, and compares
  1. the values written beside the formulas with what it finds;
  2. after another price, another temperature coefficient and another reading were typed into the
     workbook: with what hailwright finds for a record that was changed in the same way.
Needs python3 alone and `soffice`. Exits with 0 when all agree, else with 1 and a line for each
difference.
"""
import csv
import math
import os
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as xml
import zipfile

SPACE = {"x": "http://schemas.openxmlformats.org/spreadsheetml/2006/main"}
# Both sides print 15 or 16 digits of sums of up to some thousand terms.
AGREE = 1e-9
# As csv, all sheets, cells whole and not as shown, values and not formulas.
CSV_FILTER = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"
# Work formulas out when a file is opened: 0 is "always".
PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"
 oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""

problems = []


def check(holds, words):
    if not holds:
        problems.append(words)


def near(found, wanted):
    return math.isclose(found, wanted, rel_tol=AGREE, abs_tol=AGREE)


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


class Workbook:
    """The cells of a workbook by sheet and address: (value, has a formula)."""

    def __init__(self, path):
        with zipfile.ZipFile(path) as book:
            sheets = xml.fromstring(book.read("xl/workbook.xml")).findall("x:sheets/x:sheet", SPACE)
            names = [sheet.get("name") for sheet in sheets]
            self.parts = {name: f"xl/worksheets/sheet{i + 1}.xml" for i, name in enumerate(names)}
            texts = xml.fromstring(book.read("xl/sharedStrings.xml")).findall("x:si", SPACE)
            texts = ["".join(t.itertext()) for t in texts]
            self.cells = {name: self.read(book.read(part), texts)
                          for name, part in self.parts.items()}

    @staticmethod
    def read(sheet, texts):
        cells = {}
        for cell in xml.fromstring(sheet).iterfind(".//x:c", SPACE):
            value = cell.findtext("x:v", None, SPACE)
            if value is None:
                continue
            if cell.get("t") == "s":
                value = texts[int(value)]
            cells[cell.get("r")] = (value, cell.find("x:f", SPACE) is not None)
        return cells

    def row_of(self, sheet, **wanted):
        """The number of the only row with these cells: A="Rigid A", E="panel"."""
        rows = {int(re.sub(r"\D", "", at)) for at in self.cells[sheet]}
        found = [r for r in sorted(rows)
                 if all(self.cells[sheet].get(f"{c}{r}", ("",))[0] == v for c, v in wanted.items())]
        check(len(found) == 1, f"{sheet}: {len(found)} rows with {wanted}")
        return found[0]


def type_in(path, changed_path, typed):
    """A copy of a workbook in which some numbers are others; formulas keep their old values."""
    parts = Workbook(path).parts
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(changed_path, "w") as new:
        for name in old.namelist():
            content = old.read(name).decode() if name.endswith(".xml") else old.read(name)
            for (sheet, address), value in typed.items():
                if parts[sheet] != name:
                    continue
                content, n = re.subn(rf'(<c r="{address}"[^>]*><v>)[^<]*(</v>)',
                                     rf"\g<1>{value}\g<2>", content)
                check(n == 1, f"{sheet}!{address} is no number to change")
            new.writestr(name, content)


class Office:
    def __init__(self, folder):
        self.profile = os.path.join(folder, "profile")
        os.makedirs(os.path.join(self.profile, "user"), exist_ok=True)
        with open(os.path.join(self.profile, "user", "registrymodifications.xcu"), "w") as file:
            file.write(PROFILE)

    def recalculate(self, path, folder):
        """Values by sheet as rows of texts."""
        shutil.rmtree(folder, ignore_errors=True)
        subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{self.profile}",
                        "--convert-to", CSV_FILTER, "--outdir", folder, path],
                       env={**os.environ, "LC_ALL": "C"}, check=True, timeout=300,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        stem = os.path.splitext(os.path.basename(path))[0]
        sheets = {}
        for name in os.listdir(folder):
            with open(os.path.join(folder, name), newline="", encoding="utf-8") as file:
                sheets[name[len(stem) + 1:-len(".csv")]] = list(csv.reader(file))
        return sheets


def at(sheets, sheet, address):
    letters, row = re.fullmatch(r"([A-Z]+)(\d+)", address).groups()
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - ord("A") + 1
    return sheets[sheet][int(row) - 1][column - 1]


def compare_formulas(workbook, sheets, what):
    """Every formula gives the value that was written beside it."""
    count = 0
    for sheet, cells in workbook.cells.items():
        for address, (value, live) in cells.items():
            if not live:
                continue
            count += 1
            found = at(sheets, sheet, address)
            same = (found == value if number(value) is None
                    else number(found) is not None and near(number(found), number(value)))
            check(same, f"{what}: {sheet}!{address} is {value}, worked out anew {found}")
    check(count > 0, f"{what}: no formulas")
    return count


def write_up(program, folder, records, out):
    shutil.rmtree(out, ignore_errors=True)
    subprocess.run([program, "write", *records, "-o", out], cwd=folder, check=True,
                   stdout=subprocess.DEVNULL)


def table(path):
    with open(path, newline="", encoding="utf-8") as file:
        return list(csv.reader(file))


# What follows a changed reading, coefficient or price, by the start of the columns' titles.
FOLLOWS = {"readings": ["power", "irradiance", "temperature", "normalised power", "q"],
           "set-ups": ["mean of q", "normalised power", "panel to control"],
           "comparison": ["lambda", "loss", "measured power before", "price",
                          "price per measured watt"]}


def compare_tables(sheets, folder, what):
    """What follows is what hailwright finds for the changed record."""
    compared = 0
    for name, titles in FOLLOWS.items():
        wanted = table(os.path.join(folder, name + ".csv"))
        columns = [c for c, title in enumerate(wanted[0]) if re.sub(r" \[.*", "", title) in titles]
        check(len(sheets[name]) == len(wanted), f"{what}: {name} has another number of rows")
        for r, row in enumerate(wanted[1:], start=1):
            for c in columns:
                if number(row[c]) is None:
                    continue
                compared += 1
                found = number(sheets[name][r][c])
                check(found is not None and near(found, number(row[c])),
                      f"{what}: {name}, row {r + 1}, {wanted[0][c]}: {sheets[name][r][c]} in the "
                      f"changed workbook, {row[c]} of the changed record")
    check(compared > 20, f"{what}: only {compared} numbers compared")
    return compared


def substitute(path, old, new):
    with open(path, encoding="utf-8") as file:
        text = file.read()
    check(text.count(old) == 1, f"{path}: '{old}' stands {text.count(old)} times in it")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text.replace(old, new))


# A change of a demo record: lines of its files, and the same in its workbook. Against a control,
# read in turn, so that readings have weights of a line in time; against siblings; the panel with
# itself, where nothing can be decided.
CHANGES = [
    {"record": "rigid-withstood", "title": "Rigid A", "panel": "panels/rigid-a.yaml",
     "price": ("price: 89 EUR", "price: 64.5 EUR", "64.5"),
     "coefficient": ("power: -0.38 %/K", "power: -0.31 %/K", "-0.31"),
     "readings": "readings.csv",
     "reading": ("09:35,before 1,1,A,71.2,", "09:35,before 1,1,A,69.4,"),
     "row": {"B": "before 1", "E": "panel", "F": "09:35"}, "watts": "69.4",
     "compared": True},
    {"record": "flexible-siblings", "title": "Flex B, one of five", "panel": "panels/flex-b.yaml",
     "readings": "flexible-siblings-readings.csv",
     "reading": ("13:06,after 1,1,C,87.0,", "13:06,after 1,1,C,88.2,"),
     "row": {"B": "after 1", "E": "unit C", "F": "13:06"}, "watts": "88.2",
     "compared": True},
    {"record": "rigid-undecided", "title": "Rigid A, one set-up each",
     "panel": "panels/rigid-a.yaml", "price": ("price: 89 EUR", "price: 120 EUR", "120"),
     "readings": "rigid-undecided.yaml",
     "reading": ("14:37,after 1,2,78.3,", "14:37,after 1,2,77.1,"),
     "row": {"B": "after 1", "E": "panel", "F": "14:37"}, "watts": "77.1",
     "compared": False},
]


def try_change(change, program, demo, work, office):
    name = change["record"]
    out = os.path.join(work, name)
    write_up(program, demo, [name + ".yaml"], out)
    book = Workbook(os.path.join(out, "report.xlsx"))

    copy = os.path.join(work, name + "-copy")
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(demo, copy)
    panel = os.path.join(copy, change["panel"])
    for key in ("price", "coefficient"):
        if key in change:
            substitute(panel, *change[key][:2])
    substitute(os.path.join(copy, change["readings"]), *change["reading"])
    changed = os.path.join(work, name + "-changed")
    write_up(program, copy, [name + ".yaml"], changed)

    typed = {("readings", f"H{book.row_of('readings', A=change['title'], **change['row'])}"):
             change["watts"]}
    for at_cell, (text, _) in book.cells["verdict"].items():
        if not at_cell.startswith("B"):
            continue
        for key, label in (("price", "price: yours"), ("coefficient", "temperature coefficient")):
            if key in change and text.startswith(label):
                typed[("verdict", "C" + at_cell[1:])] = change[key][2]
    path = os.path.join(work, name + "-typed.xlsx")
    type_in(os.path.join(out, "report.xlsx"), path, typed)
    sheets = office.recalculate(path, os.path.join(work, name + "-recalculated"))
    compared = compare_tables(sheets, changed, name)
    told = [row[2] for row in sheets["verdict"] if row[1].startswith("readings,")]
    check(bool(told) == change["compared"] and all(text.startswith("changed") for text in told),
          f"{name}: the first sheet does not say that readings were changed: {told}")
    return compared


def main(program, demo, work):
    program, demo, work = (os.path.abspath(p) for p in (program, demo, work))
    os.makedirs(work, exist_ok=True)
    office = Office(work)
    records = sorted(f for f in os.listdir(demo)
                     if f.endswith(".yaml") and not f.startswith("protocol"))
    out = os.path.join(work, "all")
    write_up(program, demo, records, out)
    path = os.path.join(out, "report.xlsx")
    formulas = compare_formulas(Workbook(path), office.recalculate(path, out + "-recalculated"),
                                "all demo records")
    numbers = sum(try_change(change, program, demo, work, office) for change in CHANGES)
    for problem in problems[:50]:
        print(problem, file=sys.stderr)
    print(f"{formulas} formulas of {len(records)} records and {numbers} numbers of "
          f"{len(CHANGES)} changed records; {len(problems)} differ")
    return 1 if problems else 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
