#!/usr/bin/env python3
"""The bid's budget, added up by hand from the job's data.

For each job: from the JSON, follow every path from its end section toward the unit, add the losses of all pieces, the
unit's drops and the costliest path of the other side; the sums, rounded, must be the figures of the bid's "Every path"
table to the last printed digit, and the blower's pressure less them the surplus.

usage: budget_by_hand.py CLEAT JOB...
"""
import json
import math
import subprocess
import sys


def bid(cleat, job, form):
    done = subprocess.run([cleat, "bid", job, "--format", form], capture_output=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{job}: no {form}:\n{done.stderr.decode()}")
    return done.stdout.decode()


def loss_of(unit, path):
    """Piece by piece from the terminal to the collar."""
    pieces, section = [], path["end_section"]
    while section is not None:
        pieces += [item["loss_Pa"] for item in unit["sections"][section]["items"]]
        section = unit["sections"][section]["parent"]
    return math.fsum(pieces)


def rows_under(text, heading):
    """Rows of the tables under a heading, by the first cell."""
    rows, inside = {}, False
    for line in text.splitlines():
        if line.startswith("#"):
            inside = line == heading
        elif inside and line.startswith("| "):
            cells = [cell.strip() for cell in line.strip("|").split(" | ")]
            rows[cells[0].strip("| ")] = cells
    return rows


def compare(job, what, printed, value, shown, faults):
    wanted = f"{value / shown['factor']:.{shown['decimals']}f}"
    if float(wanted) == 0:
        wanted = wanted.lstrip("-")
    if printed != wanted:
        faults.append(f"{job}: {what} is printed as {printed}, by hand it is {wanted}")


def check(job, data, text):
    faults, shown = [], data["shown_in"]["pressure"]
    rows, compared = rows_under(text, "### Every path"), 0
    for unit in data["units"]:
        budget = unit["budget"]
        drops = math.fsum(drop["actual_Pa"] for drop in unit["equipment"]["drops"])
        losses = {side: {path["terminal"]: loss_of(unit, path) for path in unit[side + "_paths"]}
                  for side in ("supply", "return")}
        worst = {side: max(losses[side].values(), default=0) for side in losses}
        for side, other in (("supply", "return"), ("return", "supply")):
            for terminal, loss in losses[side].items():
                total = loss + worst[other] + drops
                cells = rows.get(terminal)
                if cells is None:
                    continue  # one inlet alone has no table of its own
                for column, value in ((2, loss), (3, worst[other]), (4, drops), (5, total), (6, budget["blower_Pa"] - total)):
                    compare(job, f"column {column} of {terminal}", cells[column], value, shown, faults)
                    compared += 1
        if budget["surplus_Pa"] is not None:
            by_hand = budget["blower_Pa"] - worst["supply"] - worst["return"] - drops
            if abs(by_hand - budget["surplus_Pa"]) > 1e-9:
                faults.append(f"{job}: {by_hand} Pa are left over, not {budget['surplus_Pa']}")
    if not compared:
        faults.append(f"{job}: no figure was compared")
    return faults


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    faults = []
    for job in sys.argv[2:]:
        faults += check(job, json.loads(bid(sys.argv[1], job, "json")), bid(sys.argv[1], job, "md"))
    print("\n".join(faults + [f"{len(sys.argv) - 2} jobs, {len(faults)} faults"]))
    sys.exit(1 if faults else 0)


main()
