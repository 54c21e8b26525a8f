#!/usr/bin/python3
"""Adds up every path of each job again, from the data alone, and holds the sums against the bid.

    tests/oracle/sum_paths.py JOB...          compares; the last line is "N passed, N failed"
    tests/oracle/sum_paths.py --prove JOB...  changes one figure at a time and sees that each change is found

What is computed here by other means:
    a piece's loss            friction + coefficient x velocity pressure, which itself is density / 2 x velocity^2
    friction of straight duct Colebrook's factor by the fluids library, at the equivalent diameter (Huebscher; Heyt and Diaz)
    blower pressure           scipy's PchipInterpolator through the blower's points, times the density over that of standard air
    a unit's drop             as declared, times the square of the airflow over its own, and the density likewise
    a section, a path         plain sums over the items, and over the parents
    the printed budget        from those sums, to the last printed digit
    a test point              total pressure from the losses between it and the unit, less velocity pressure
    the system curve          the costliest path at the design airflow, with the square of the airflow
"""
import copy
import json
import math
import re
import subprocess
import sys

import fluids
from scipy.interpolate import PchipInterpolator

EXACT = 1e-9  # relative, for sums of the same doubles in another order
FRICTION = 1e-6  # relative, for friction solved by another library
STANDARD_DENSITY = 0.075 * 0.45359237 / 0.3048**3  # kg/m3, of the air that makers' figures are for


class Verdict:
    def __init__(self):
        self.passed = 0
        self.faults = []

    def that(self, holds, what):
        if holds:
            self.passed += 1
        else:
            self.faults.append(what)

    def near(self, found, expected, tolerance, what, scale=1.0):
        self.that(abs(found - expected) <= tolerance * max(abs(expected), abs(scale)), f"{what}: {found!r}, computed again {expected!r}")


# ---- One item --------------------------------------------------------------------------------------------------------------


def velocity_pressure(air, flow, duct):
    return air["density_kg_m3"] / 2 * (flow / area(duct)) ** 2


def area(duct):
    width, height = duct["width_m"], duct["height_m"]
    if duct["shape"] == "rectangular":
        return width * height
    if duct["shape"] == "round":
        return math.pi * width**2 / 4
    return math.pi * height**2 / 4 + height * (width - height)


def equivalent_diameter(duct):
    width, height = duct["width_m"], duct["height_m"]
    if duct["shape"] == "round":
        return width
    if duct["shape"] == "rectangular":
        return 1.30 * (width * height) ** 0.625 / (width + height) ** 0.25
    perimeter = math.pi * height + 2 * (width - height)
    return 1.55 * area(duct) ** 0.625 / perimeter**0.25


def friction_rate(air, flow, duct):
    """Pa/m, or None where the flow is too slow for Colebrook."""
    if flow == 0:
        return 0.0
    diameter = equivalent_diameter(duct)
    velocity = flow / (math.pi * diameter**2 / 4)
    reynolds = air["density_kg_m3"] * velocity * diameter / air["viscosity_Pa_s"]
    if reynolds < 4000:
        return None
    factor = fluids.friction_factor(Re=reynolds, eD=duct["roughness_m"] / diameter, Method="Colebrook")
    return duct["friction_multiplier"] * factor / diameter * air["density_kg_m3"] / 2 * velocity**2


def velocity_pressures_about(air, unit, section):
    """What a coefficient of this section can be on: the air of the section itself or of the one toward the unit, in either duct."""
    parent = unit["sections"][section["parent"]] if section["parent"] is not None else section
    return [velocity_pressure(air, one["flow_m3_s"], unit["ducts"][other["duct"]])
            for one in (section, parent) for other in (section, parent)]


def check_item(verdict, data, unit, section, item, where):
    coefficient, reference = item.get("coefficient"), item.get("reference_Pa")
    if coefficient is not None:
        verdict.near(item["loss_Pa"], item["friction_Pa"] + coefficient * reference, EXACT, f"{where}: loss", reference)
        among = velocity_pressures_about(data["air"], unit, section)
        verdict.that(any(abs(reference - one) <= EXACT * one for one in among), f"{where}: {reference!r} Pa is no velocity pressure here")
    rate = friction_rate(data["air"], section["flow_m3_s"], unit["ducts"][section["duct"]])
    if item["kind"] == "straight" and rate is not None:
        verdict.near(item["friction_Pa"], rate * item.get("length_m", 0), FRICTION, f"{where}: friction", 1e-9)


# ---- Sections and paths -------------------------------------------------------------------------------------------------------


def check_sections(verdict, data, unit, where):
    for section in unit["sections"]:
        here = f"{where}, section {section['id']} of {section['run']}"
        for item in section["items"]:
            check_item(verdict, data, unit, section, item, f"{here}, {item['words']}")
        verdict.near(section["loss_Pa"], math.fsum(item["loss_Pa"] for item in section["items"]), EXACT, f"{here}: loss", 1)
        duct = unit["ducts"][section["duct"]]
        rate = friction_rate(data["air"], section["flow_m3_s"], duct)
        if rate is not None:
            verdict.near(section["friction_rate_Pa_m"], rate, FRICTION, f"{here}: friction rate", 1e-9)
        verdict.near(section["velocity_m_s"], section["flow_m3_s"] / area(duct), EXACT, f"{here}: velocity", 1e-9)
        check_flow(verdict, unit, section, here)


def check_flow(verdict, unit, section, here):
    children = [one for one in unit["sections"] if one["parent"] == section["id"]]
    if children and not section["terminal"]:
        verdict.near(section["flow_m3_s"], math.fsum(one["flow_m3_s"] for one in children), EXACT, f"{here}: airflow", 1e-3)


def path_sum(unit, path):
    """Item by item, from the terminal to the unit."""
    losses, at = [], path["end_section"]
    while at is not None:
        section = unit["sections"][at]
        losses += [item["loss_Pa"] for item in section["items"]]
        at = section["parent"]
    return math.fsum(losses)


def check_paths(verdict, air, unit, where):
    """The sums of each path by terminal, and the budget's own figures from them."""
    sums = {side: {path["terminal"]: path_sum(unit, path) for path in unit[f"{side}_paths"]} for side in ("supply", "return")}
    worst = {side: max(sums[side].values(), default=0) for side in sums}
    thinner = air["density_kg_m3"] / STANDARD_DENSITY
    for drop in unit["equipment"]["drops"]:
        verdict.near(drop["actual_Pa"], unit_drop(drop, unit["equipment"]["airflow_m3_s"]) * thinner, EXACT, f"{where}: {drop['label']}", 1)
    drops = math.fsum(drop["actual_Pa"] for drop in unit["equipment"]["drops"])
    budget = unit["budget"]
    blower = blower_pressure(unit["equipment"]) * thinner
    verdict.near(budget["unit_drops_Pa"], drops, EXACT, f"{where}: drops", 1)
    verdict.near(budget["blower_Pa"], blower, EXACT, f"{where}: blower", 1)
    verdict.near(budget["surplus_Pa"], blower - drops - worst["supply"] - worst["return"], EXACT, f"{where}: left over", 100)
    for side, other in (("supply", "return"), ("return", "supply")):
        verdict.that(budget[f"governing_{side}"] and math.isclose(sums[side][budget[f"governing_{side}"]], worst[side], rel_tol=EXACT),
                     f"{where}: {budget[f'governing_{side}']} is not the costliest on the {side} side")
        for path in unit[f"{side}_paths"]:
            own = sums[side][path["terminal"]]
            here = f"{where}, path of {path['terminal']}"
            verdict.near(path["loss_Pa"], own, EXACT, f"{here}: its own side", 1)
            verdict.near(path["total_Pa"], own + worst[other] + drops, EXACT, f"{here}: total", 1)
            verdict.near(path["surplus_Pa"], blower - own - worst[other] - drops, EXACT, f"{here}: left over", 100)
    return sums, worst, drops, blower


def unit_drop(drop, airflow):
    return drop["pressure_Pa"] * ((airflow / drop["at_flow_m3_s"]) ** 2 if drop["at_flow_m3_s"] else 1)


def blower_pressure(equipment):
    points = equipment["blower"]
    flows, pressures = [one["flow_m3_s"] for one in points], [one["pressure_Pa"] for one in points]
    return float(PchipInterpolator(flows, pressures, extrapolate=False)(equipment["airflow_m3_s"]))


# ---- What is read at start-up ----------------------------------------------------------------------------------------------


def straights(unit, run):
    """Of each straight of a run that has air: what is lost between the unit and its middle, and its section."""
    found = []
    for section in unit["sections"]:
        if section["run"] != run or section["flow_m3_s"] <= 0:
            continue
        lost, at = 0.0, section["parent"]
        while at is not None:
            lost += math.fsum(item["loss_Pa"] for item in unit["sections"][at]["items"])
            at = unit["sections"][at]["parent"]
        for item in section["items"]:
            if item["kind"] == "straight" and item.get("length_m", 0) > 0:
                found.append((lost + item["loss_Pa"] / 2, section))
            lost += item["loss_Pa"]
    return found


def expected_at(air, unit, point, worst):
    """Total and velocity pressure of a point that is read against the room."""
    sign, most = (1, worst["supply"]) if point["side"] == "supply" else (-1, worst["return"])
    if point["kind"] == "collar":
        first = next(section for section in unit["sections"] if section["run"] == point["run"])
        collar = unit["equipment"][f"{point['side']}_collar"] or unit["ducts"][first["duct"]]
        return sign * most, velocity_pressure(air, first["flow_m3_s"], collar)
    lost, section = straights(unit, point["run"])[0 if point["kind"] == "run-start" else -1]
    return sign * (most - lost), velocity_pressure(air, section["flow_m3_s"], unit["ducts"][section["duct"]])


def check_start_up(verdict, air, unit, worst, drops, where):
    collars = {}
    for point in unit["test_points"]:
        here = f"{where}, test point {point['kind']} of {point['run']}"
        if point["difference"]:
            continue
        total, velocity = expected_at(air, unit, point, worst)
        verdict.near(point["total_Pa"], total, EXACT, f"{here}: total", 1)
        verdict.near(point["velocity_pressure_Pa"], velocity, EXACT, f"{here}: velocity pressure", 1)
        verdict.near(point["expected_Pa"], total - velocity, EXACT, f"{here}: what the gauge shows", 1)
        if point["kind"] == "collar":
            collars[point["side"]] = point["expected_Pa"]
    across = [point["expected_Pa"] for point in unit["test_points"] if point["kind"] == "unit"]
    verdict.that(len(across) == (len(collars) == 2), f"{where}: the unit is read across once")
    for found in across:
        verdict.near(found, collars["supply"] - collars["return"], EXACT, f"{where}: across the unit", 1)
    parts = [point["expected_Pa"] for point in unit["test_points"] if point["kind"] == "drop"]
    verdict.near(math.fsum(parts), drops, EXACT, f"{where}: parts of the unit", 1)
    design = unit["equipment"]["airflow_m3_s"]
    for point in unit["system_curve"]:
        verdict.near(point["pressure_Pa"], (worst["supply"] + worst["return"] + drops) * (point["flow_m3_s"] / design) ** 2, EXACT,
                     f"{where}: the system curve", 1)


# ---- The printed budget --------------------------------------------------------------------------------------------------------


def tables_under(bid, heading):
    """The rows of each table under a heading, as lists of cells; the head first."""
    part = re.split(r"^#+ ", bid.split(f"# {heading}\n", 1)[-1], maxsplit=1, flags=re.M)[0] if f"# {heading}\n" in bid else ""
    return [[[cell.strip() for cell in line.strip("|").split("|")] for line in table.splitlines() if not re.match(r"\|[ :|-]+\|$", line)]
            for table in re.findall(r"(?:^\|.*\|\n)+", part, re.M)]


def printed(data, pascals):
    shown = data["shown_in"]["pressure"]
    text = f"{(pascals - shown['offset']) / shown['factor']:.{shown['decimals']}f}"
    return text[1:] if text.startswith("-") and float(text) == 0 else text


def check_bid(verdict, data, bid, sums, worst, drops, blower):
    budget = {row[0]: row[-1] for table in tables_under(bid, "Pressure budget") for row in table[1:]}
    left = blower - drops - worst["supply"] - worst["return"]
    wanted = [("Blower of ", blower), ("less the supply side", -worst["supply"]), ("less the return side", -worst["return"]),
              ("Short" if left < 0 else "Left over", left)]
    for start, pascals in wanted:
        found = [value for name, value in budget.items() if name.startswith(start)]
        verdict.that(found == [printed(data, pascals)], f"the printed budget, {start!r}: {found}, computed again {printed(data, pascals)}")
    rows = {row[0]: row for table in tables_under(bid, "Every path") for row in table[1:]}
    for side, other in (("supply", "return"), ("return", "supply")):
        for terminal, own in sums[side].items():
            if terminal not in rows:
                verdict.that(side == "return" and len(sums[side]) == 1, f"there is no printed path of {terminal}")
                continue
            total = own + worst[other] + drops
            expected = [printed(data, value) for value in (own, worst[other], drops, total, blower - total)]
            verdict.that(rows[terminal][2:7] == expected, f"the printed path of {terminal}: {rows[terminal][2:7]}, computed again {expected}")


# ---- The whole ---------------------------------------------------------------------------------------------------------------


def compare(data, bid):
    verdict = Verdict()
    for unit in data["units"]:
        where = f"{data['job']['title']}, {unit['equipment']['name']}"
        check_sections(verdict, data, unit, where)
        sums, worst, drops, blower = check_paths(verdict, data["air"], unit, where)
        check_start_up(verdict, data["air"], unit, worst, drops, where)
        if len(data["units"]) == 1:
            check_bid(verdict, data, bid, sums, worst, drops, blower)
    return verdict


def compiled(job):
    def text(extension):
        return subprocess.run(["cleat", "bid", job, "--format", extension], capture_output=True, check=True, text=True).stdout
    return json.loads(text("json")), text("md")


def changes(data, bid):
    """The data and the bid with one figure changed, in each way that must be found."""
    def changed(what, change):
        other = copy.deepcopy(data)
        change(other["units"][0])
        return what, other, bid

    def scale(holder, key):
        holder[key] *= 1.001

    straight = next((i, k) for i, section in enumerate(data["units"][0]["sections"]) for k, item in enumerate(section["items"])
                    if item["kind"] == "straight" and item["loss_Pa"] > 0)
    with_coefficient = next((i, k) for i, section in enumerate(data["units"][0]["sections"]) for k, item in enumerate(section["items"])
                            if item.get("coefficient") and section["parent"] is not None)
    item = lambda unit, at: unit["sections"][at[0]]["items"][at[1]]
    yield changed("loss of a straight", lambda unit: scale(item(unit, straight), "loss_Pa"))
    yield changed("friction of a straight", lambda unit: scale(item(unit, straight), "friction_Pa"))
    yield changed("a coefficient", lambda unit: scale(item(unit, with_coefficient), "coefficient"))
    yield changed("a velocity pressure", lambda unit: scale(item(unit, with_coefficient), "reference_Pa"))
    yield changed("loss of a section", lambda unit: scale(unit["sections"][-1], "loss_Pa"))
    yield changed("airflow of a section", lambda unit: scale(unit["sections"][0], "flow_m3_s"))
    yield changed("width of a duct", lambda unit: scale(unit["ducts"][-1], "width_m"))
    yield changed("loss of a path", lambda unit: scale(unit["supply_paths"][0], "loss_Pa"))
    yield changed("total of a path", lambda unit: scale(unit["supply_paths"][-1], "total_Pa"))
    yield changed("what a return path leaves over", lambda unit: scale(unit["return_paths"][0], "surplus_Pa"))
    yield changed("the unit's drops", lambda unit: scale(unit["equipment"]["drops"][0], "actual_Pa"))
    yield changed("the unit's drop as declared", lambda unit: scale(unit["equipment"]["drops"][0], "pressure_Pa"))
    yield changed("blower pressure", lambda unit: scale(unit["budget"], "blower_Pa"))
    yield changed("total pressure at a test point", lambda unit: scale(unit["test_points"][0], "total_Pa"))
    yield changed("what a gauge shows", lambda unit: scale(unit["test_points"][-1], "expected_Pa"))
    yield changed("the system curve", lambda unit: scale(unit["system_curve"][-1], "pressure_Pa"))
    row = tables_under(bid, "Every path")[0][1]
    line = next(line for line in bid.splitlines() if line.startswith(f"| {row[0]} ") and row[5] in line and row[6] in line)
    digit = row[5][:-1] + str((int(row[5][-1]) + 1) % 10)
    yield "last digit of a printed total", data, bid.replace(line, line.replace(row[5], digit, 1))


def prove(job):
    data, bid = compiled(job)
    verdict = Verdict()
    for what, other, printed_bid in changes(data, bid):
        verdict.that(compare(other, printed_bid).faults, f"{job}: {what} was changed, and it was not found")
    return verdict


def main():
    arguments = sys.argv[1:]
    only_prove = arguments[:1] == ["--prove"]
    jobs = arguments[1:] if only_prove else arguments
    passed, faults = 0, []
    for verdict in [prove(jobs[0])] if only_prove else [compare(*compiled(job)) for job in jobs] + [prove(jobs[0])]:
        passed += verdict.passed
        faults += verdict.faults
    for fault in faults:
        print(fault)
    print(f"{passed} passed, {len(faults)} failed")
    sys.exit(1 if faults else 0)


main()
