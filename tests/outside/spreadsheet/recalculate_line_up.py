#!/usr/bin/env python3
"""Holds the spreadsheet of a line-up against an independent spreadsheet program.

    recalculate_line_up.py HAILWRIGHT DEMO_FOLDER WORK_FOLDER

Lines up the demo records of `line-up`, lets LibreOffice work out every formula anew, and compares
  1. the values written beside the formulas with what it finds, and the first sheet with
     line-up.csv;
  2. after other prices, another weight and another rated power were typed into the sheet of
     prices: every cell with what hailwright makes of panel files that were changed in the same way.
Needs python3 alone and `soffice`. Exits with 0 when all agree, else with 1 and a line for each
difference.
"""
import os
import re
import shutil
import subprocess
import sys

sys.dont_write_bytecode = True  # nothing is left beside the sources

from recalculate import (Office, Workbook, check, compare_formulas, near, number, problems,
                         substitute, table, type_in)

RECORDS = ["rigid-c", "rigid-d", "rigid-g", "flex-e", "flex-f"]

# Of a panel file: what stands in it and what is put there; and the same in the sheet of prices, by
# the title of the record and the start of the column's.
CHANGES = [
    ("rigid-c", "{low: 79 EUR, high: 109 EUR, average: 92 EUR}",
     "{low: 68.5 EUR, high: 81 EUR, average: 74.9 EUR}",
     [("Rigid C", "lowest price", "68.5"), ("Rigid C", "price", "74.9"),
      ("Rigid C", "highest price", "81")]),
    ("flex-e", "price: 139 EUR", "price: 151.25 EUR", [("Flex E", "price", "151.25")]),
    ("rigid-g", "weight: 5.6 kg", "weight: 5.15 kg", [("Rigid G", "weight", "5.15")]),
    ("rigid-d", "power: 120 W", "power: 115 W", [("Rigid D", "rated power", "115")]),
]


def line_up(program, folder, out):
    shutil.rmtree(out, ignore_errors=True)
    subprocess.run([program, "line-up", *[name + ".yaml" for name in RECORDS], "-o", out],
                   cwd=folder, check=True, stdout=subprocess.DEVNULL)


def same(found, wanted):
    if number(found) is None or number(wanted) is None:
        return found == wanted
    return near(number(found), number(wanted))


def compare_cells(found, wanted, what):
    """Every cell of two tables; gives how many were compared."""
    check(len(found) == len(wanted), f"{what}: {len(found)} rows, not {len(wanted)}")
    count = 0
    for r, (one, other) in enumerate(zip(found, wanted), start=1):
        check(len(one) == len(other), f"{what}, row {r}: {len(one)} cells, not {len(other)}")
        for c, (a, b) in enumerate(zip(one, other)):
            count += 1
            check(same(a, b), f"{what}, row {r}, {wanted[0][c]}: {a}, not {b}")
    return count


def address(book, record, title):
    """Of the cell of a record in the column whose title begins so, on the sheet of prices."""
    columns = [at[:-1] for at, (text, _) in book.cells["prices"].items()
               if at[1:] == "1" and re.fullmatch(re.escape(title) + r"( \[.*\])?(: .*)?", text)]
    check(len(columns) == 1, f"prices: {len(columns)} columns are called {title}")
    return f"{columns[0]}{book.row_of('prices', A=record)}"


def main(program, demo, work):
    program, demo, work = (os.path.abspath(p) for p in (program, demo, work))
    os.makedirs(work, exist_ok=True)
    office = Office(work)

    out = os.path.join(work, "line-up")
    line_up(program, os.path.join(demo, "line-up"), out)
    path = os.path.join(out, "line-up.xlsx")
    book = Workbook(path)
    sheets = office.recalculate(path, out + "-recalculated")
    formulas = compare_formulas(book, sheets, "the line-up")
    cells = compare_cells(sheets["line-up"], table(os.path.join(out, "line-up.csv")), "line-up.csv")

    copy = os.path.join(work, "copy")
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(os.path.join(demo, "line-up"), copy)
    typed = {}
    for panel, old, new, typed_cells in CHANGES:
        substitute(os.path.join(copy, "panels", panel + ".yaml"), old, new)
        for record, title, value in typed_cells:
            typed["prices", address(book, record, title)] = value
    changed = os.path.join(work, "changed")
    line_up(program, copy, changed)
    by_panels = office.recalculate(os.path.join(changed, "line-up.xlsx"), changed + "-recalculated")
    path = os.path.join(work, "typed.xlsx")
    type_in(os.path.join(out, "line-up.xlsx"), path, typed)
    by_hand = office.recalculate(path, os.path.join(work, "typed-recalculated"))
    moved = 0
    for name in ("line-up", "prices", "differences"):
        cells += compare_cells(by_hand[name], by_panels[name], f"changed panels, {name}")
        moved += sum(a != b for one, other in zip(by_hand[name], sheets[name])
                     for a, b in zip(one, other))
    # On the sheet of prices and on the first one: of Rigid C 10 and 6 (three prices and what is
    # divided by watts), of Flex E 4 and 2, of Rigid G 2 and 3 (weight), of Rigid D 3 and 3 (rated).
    check(moved == 33, f"{moved} cells follow what was typed")

    for problem in problems[:50]:
        print(problem, file=sys.stderr)
    print(f"{formulas} formulas and {cells} cells of {len(RECORDS)} records, {moved} changed by "
          f"{len(typed)} typed; {len(problems)} differ")
    return 1 if problems else 0


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
