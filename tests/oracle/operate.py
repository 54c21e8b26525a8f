#!/usr/bin/python3
"""Solves the operating point of each unit again, from the data and the published relations, and compares every airflow.

    tests/oracle/operate.py JOB...    the given jobs, and those written below; the last line is "N passed, N failed"

What is computed here by other means:
    the unknowns              the airflow of every terminal, found by scipy's fsolve from the equations of all paths at once
    friction                  Colebrook's factor by the fluids library; the length is what the design's friction tells
    where air divides, joins  the relations of Idelchik's handbook, written down here once more from the areas and airflows
    elbows                    the design's coefficient, moved with the Reynolds number by the table of the duct manuals
    registers, dampers ...    the design's loss, with the square of the airflow
    the blower                scipy's PchipInterpolator through its points
It ends by spoiling one figure of each network, to see that a difference would be found.
"""
import copy
import json
import math
import os
import re
import subprocess
import sys
import tempfile

import fluids
import numpy
from scipy.interpolate import PchipInterpolator
from scipy.optimize import fsolve

NEAR = 1e-6  # relative, of airflows and pressures
EXACT = 1e-9  # relative, of the design's coefficients by the relations written here
CLOSES = 1e-9 * 248.84  # Pa, round every path
FOOT, INCH = 0.3048, 0.0254
STANDARD_DENSITY = 0.075 * 0.45359237 / 0.3048**3

# ---- Jobs of our own -----------------------------------------------------------------------------------------------------------

HEAD = 'job "J%d" { date 2026-02-02; %s }\n'
UNIT = """unit fan { airflow %s; %s; drop "coil" 0.18 in.wg at %s }
"""
CURVE = "blower 400 cfm at 1.20 in.wg, 700 cfm at 1.05 in.wg, 1000 cfm at 0.80 in.wg, 1300 cfm at 0.40 in.wg, 1500 cfm at 0.05 in.wg"


def outlet(name, port, cfm, words):
    return f"outlet {name} from {port} {{ airflow {cfm} cfm; {words} }}\n"


OWN = [
    # a return tree of several inlets: a tap of 45 degrees, a wye, and a plain end
    HEAD % (1, "altitude 300 ft") + UNIT % ("900 cfm", CURVE, "900 cfm") +
    "run main from fan.supply { straight 9 ft; transition over 18 in; straight 11 ft; cap }\n" +
    "".join(outlet(f"o{i}", f"main at {at} ft {side}", 225, f"tap {tap}; damper; flex {6 + i} ft; boot; register 12 x 6")
            for i, (at, side, tap) in enumerate([(4, "left", "conical"), (8, "right", "shoe"), (14, "left", "straight"), (18, "right", "conical")])) +
    "run back from fan.return { straight 8 ft; split wye over 2 ft }\n"
    "inlet near from back at 5 ft left { airflow 250 cfm; tap shoe; straight 6 ft; grille 20 x 12 }\n"
    "inlet east from back.left { airflow 350 cfm; transition over 1 ft; straight 12 ft; elbow 90 left, radius 1.0; straight 4 ft; grille 24 x 14 }\n"
    "inlet west from back.right { airflow 300 cfm; transition over 1 ft; straight 7 ft; filter 20 x 20 x 1, 0.08 in.wg, loaded 0.25 in.wg }\n",
    # at altitude, with a tee, and a bullhead before it
    HEAD % (2, "altitude 6200 ft") + UNIT % ("800 cfm", CURVE, "800 cfm") +
    "run header from fan.supply { straight 3 ft; split bullhead over 2 ft }\n"
    "run west from header.left { transition over 2 ft; straight 8 ft; split tee over 18 in }\n"
    "outlet w1 from west.left { airflow 130 cfm; transition over 1 ft; straight 6 ft; damper; register 10 x 6 }\n"
    "outlet w3 from west.straight { airflow 270 cfm; transition over 1 ft; straight 7 ft; damper; boot; register 10 x 6 }\n"
    "outlet east from header.right { airflow 400 cfm; transition over 2 ft; straight 15 ft; elbow 90 right, radius 0.75; straight 5 ft; damper; register 20 x 10 }\n"
    "inlet back from fan.return { straight 5 ft; grille 30 x 18 }\n",
    # metric
    'job "J3" { date 2026-02-02; units metric }\n'
    "unit fan { airflow 300 L/s; blower 150 L/s at 260 Pa, 250 L/s at 220 Pa, 330 L/s at 150 Pa, 420 L/s at 30 Pa; drop \"coil\" 45 Pa }\n"
    "run main from fan.supply { straight 3 m; elbow 90 left, radius 1.5; straight 5 m; cap }\n"
    "outlet a from main at 1.5 m left { airflow 90 L/s; damper; straight 2 m; boot; register 300 x 150 }\n"
    "outlet b from main at 4 m right { airflow 100 L/s; damper; straight 3 m; boot; register 300 x 150 }\n"
    "outlet c from main at 7 m left { airflow 110 L/s; straight 4 m; boot; register 300 x 200 }\n"
    "run back from fan.return { straight 2 m }\n"
    "inlet one from back at 1 m left { airflow 140 L/s; straight 2 m; grille 500 x 300 }\n"
    "inlet two from back { transition over 300 mm; straight 3 m; grille 500 x 300 }\n",
    # one outlet, one inlet, and little air in wide duct: laminar and between
    HEAD % (4, "") + "unit fan { airflow 8 cfm; blower 4 cfm at 0.10 in.wg, 9 cfm at 0.06 in.wg, 14 cfm at 0.01 in.wg }\n"
    "run main from fan.supply { size 6; straight 40 ft }\n"
    "outlet a from main { register 6 x 4, 0.03 in.wg at 10 cfm; airflow 8 cfm }\n"
    "run back from fan.return { size 8; straight 10 ft }\n"
    "inlet b from back { grille 8 x 8 }\n",
    # a curve that is nearly a wall, and a damper that the job has set
    HEAD % (5, "") + "unit fan { airflow 600 cfm; blower 560 cfm at 1.6 in.wg, 600 cfm at 0.9 in.wg, 640 cfm at 0.1 in.wg }\n"
    "run main from fan.supply { straight 20 ft; cap }\n"
    "outlet a from main at 6 ft left { airflow 200 cfm; damper volume, open 60; flex 9 ft; boot; register 12 x 6 }\n"
    "outlet b from main at 12 ft right { airflow 200 cfm; damper volume, open 75; flex 9 ft; boot; register 12 x 6 }\n"
    "outlet c from main at 18 ft left { airflow 200 cfm; damper; flex 9 ft; boot; register 12 x 6 }\n"
    "inlet back from fan.return { straight 5 ft; grille 24 x 18 }\n",
]

# ---- Relations -----------------------------------------------------------------------------------------------------------------

EASY = ([1, 2, 3, 4, 6, 8, 10, 14, 20], [2.00, 1.77, 1.64, 1.56, 1.46, 1.38, 1.30, 1.15, 1.00])
SHARP = ([1, 2, 3, 4, 6, 8, 10, 14, 20], [1.40, 1.26, 1.19, 1.14, 1.09, 1.06, 1.04, 1.00, 1.00])
SPLIT_K = ([15, 30, 45, 60, 90], [0.04, 0.16, 0.36, 0.64, 1.00])
STRAIGHT_LEG = ([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.2, 1.4, 1.6], [1.00, 0.81, 0.64, 0.50, 0.36, 0.25, 0.16, 0.04, 0, 0.07, 0.39, 0.90])
TAP_ANGLE = {"straight": 90, "shoe": 45, "conical": 60, "spin": 90, "saddle": 90}


def reynolds_factor(reynolds, radius):
    at = min(reynolds / 1e4, 20)
    share = min(max((radius - 0.5) / 0.25, 0), 1)
    return (1 - share) * numpy.interp(at, *SHARP) + share * numpy.interp(at, *EASY)


def clamp(value, low, high):
    return min(max(value, low), high)


def line(flow, start, width, before, behind):
    return before + (behind - before) * clamp((flow - start) / width, 0, 1)


def tap_branch(angle, flow, area):
    flow, area = clamp(flow, 0, 1), clamp(area, 0.01, 1)
    x = flow / area
    factor = 1.0
    if angle < 90 and area <= 0.35:
        factor = line(flow, 0.4, 0.02, 1.1 - 0.7 * min(flow, 0.4), 0.85)
    elif angle < 90:
        factor = line(flow, 0.6, 0.02, 1 - 0.6 * min(flow, 0.6), 0.6)
    return factor * (1 + x * x - 2 * x * math.cos(math.radians(angle)))


def tap_run(flow, area):
    flow, area = clamp(flow, 0, 1), clamp(area, 0.01, 1)
    tau = 0.4 if area <= 0.4 else (2 if flow <= 0.5 else 0.3) * (2 * flow - 1)
    return tau * flow * flow


def split_leg(angle, flow, area):
    x = clamp(flow, 0, 1) / clamp(area, 0.01, 1)
    return 1 + x * x - 2 * x * math.cos(math.radians(angle)) - numpy.interp(angle, *SPLIT_K) * x * x


def join_branch(angle, flow, area):
    flow, area = clamp(flow, 0, 1), clamp(area, 0.01, 1)
    factor = 1.0 if area <= 0.35 else line(flow, 0.4, 0.005, 0.9 * (1 - min(flow, 0.4)), 0.55)
    return factor * (1 + (flow / area) ** 2 - 2 * (1 - flow) ** 2 - 2 * flow**2 / area * math.cos(math.radians(angle)))


def join_run(angle, flow, area):
    flow, area = clamp(flow, 0, 1), clamp(area, 0.01, 1)
    if angle == 90:
        return 1.55 * flow - flow * flow
    return 1 - (1 - flow) ** 2 - 2 * flow**2 / area * math.cos(math.radians(angle))


def tee_side(flow, area, other_area):
    keeps = abs(other_area - 1) <= 0.10
    return split_leg(90, flow, area) if abs(area + other_area - 1) <= 0.10 and not keeps else tap_branch(90, flow, area)


def split_coefficient(supply, words, leg, flow, area, other_flow, other_area):
    style = re.match(r"Split, (\w+)", words).group(1)
    if supply and style == "wye":
        return split_leg(45, flow, area)
    if supply and style == "bullhead":
        return 1 + (0.3 if "vanes" in words else 1.5) * (clamp(flow, 0, 1) / clamp(area, 0.01, 1)) ** 2
    if supply:
        return numpy.interp(clamp(flow, 0, 1) / clamp(area, 0.01, 1), *STRAIGHT_LEG) if leg == "straight" else tee_side(flow, area, other_area)
    if style == "wye":
        return join_branch(45, flow, area)
    if style == "bullhead":
        flow, area = clamp(flow, 0, 1), clamp(area, 0.01, 1)
        return 1 + (1 + 3 * (flow * flow - flow)) / area**2
    return join_run(90, other_flow, other_area) if leg == "straight" else join_branch(90, flow, area)


# ---- The network ---------------------------------------------------------------------------------------------------------------


def duct_area(duct):
    width, height = duct["width_m"], duct["height_m"]
    if duct["shape"] == "round":
        return math.pi * width**2 / 4
    return width * height if duct["shape"] == "rectangular" else math.pi * height**2 / 4 + height * (width - height)


def equivalent(duct):
    width, height = duct["width_m"], duct["height_m"]
    if duct["shape"] == "round":
        return width
    if duct["shape"] == "rectangular":
        return 1.30 * (width * height) ** 0.625 / (width + height) ** 0.25
    return 1.55 * duct_area(duct) ** 0.625 / (math.pi * height + 2 * (width - height)) ** 0.25


def hydraulic(duct):
    width, height = duct["width_m"], duct["height_m"]
    if duct["shape"] == "round":
        return width
    perimeter = 2 * (width + height) if duct["shape"] == "rectangular" else math.pi * height + 2 * (width - height)
    return 4 * duct_area(duct) / perimeter


class Network:
    def __init__(self, data, unit):
        self.air, self.unit = data["air"], unit
        self.sections, self.ducts = unit["sections"], unit["ducts"]
        self.runs = {run["name"]: run for run in data["runs"]}
        self.design = [section["flow_m3_s"] for section in self.sections]
        self.first = {}
        for section in self.sections:
            self.first.setdefault(section["run"], section["id"])
        self.supply = [self.runs[section["run"]]["side"] == "supply" for section in self.sections]
        self.terminals = [section["id"] for section in self.sections if section["terminal"] and section["flow_m3_s"] > 0]
        self.blades = {}  # section id: coefficient on top of what its damper has in the job
        self.loaded = False
        self.faults = []
        blower = unit["equipment"]["blower"]
        self.curve = PchipInterpolator([p["flow_m3_s"] for p in blower], [p["pressure_Pa"] for p in blower])
        self.thinner = self.air["density_kg_m3"] / STANDARD_DENSITY
        self.items = [(section, item, self.law(section, item)) for section in self.sections for item in section["items"]]

    def roughness(self, run, kind):
        if kind in ("flex", "connector"):
            return 0.01 * FOOT
        settings = self.runs[run]["settings"]
        if settings["lining_m"]:
            return 0.003 * FOOT
        return {None: 0.0003, "galvanised": 0.0003, "aluminium": 0.0001, "pvc": 0.0001, "board": 0.003}[settings["material"]] * FOOT

    def rate(self, flow, diameter, roughness):
        """Pa/m of straight duct; the sign is the flow's."""
        if flow == 0:
            return 0.0
        velocity = abs(flow) / (math.pi * diameter**2 / 4)
        reynolds = self.air["density_kg_m3"] * velocity * diameter / self.air["viscosity_Pa_s"]
        turbulent = fluids.friction_factor(Re=max(reynolds, 4000), eD=roughness / diameter, Method="Colebrook")
        factor = turbulent
        if reynolds <= 2300:
            factor = 64 / reynolds
        elif reynolds < 4000:
            factor = 64 / 2300 + (turbulent - 64 / 2300) * (reynolds - 2300) / 1700
        return math.copysign(factor / diameter * self.air["density_kg_m3"] / 2 * velocity**2, flow)

    def pressure(self, flow, area):
        return self.air["density_kg_m3"] / 2 * (flow / area) ** 2

    def reynolds(self, flow, duct):
        return self.air["density_kg_m3"] * abs(flow) / duct_area(duct) * hydraulic(duct) / self.air["viscosity_Pa_s"]

    # Each law gives the loss for the airflows of all sections.

    def law(self, section, item):
        here, kind = section["id"], item["kind"]
        design = section["flow_m3_s"]
        if design == 0:
            return lambda flows: 0.0
        friction = self.friction_law(section, item)
        rest = item["loss_Pa"] - item["friction_Pa"]
        if item["role"] in ("branch", "past", "leg") and item["coefficient"] is not None:
            return self.junction_law(section, item, friction)
        if item.get("factor_source"):
            return self.elbow_law(section, item, friction)
        if kind == "filter":
            loaded = self.loaded_pressure(section, item)
            return lambda flows: (loaded if self.loaded and loaded else rest) * flows[here] * abs(flows[here]) / design**2
        return lambda flows: friction(flows) + rest * flows[here] * abs(flows[here]) / design**2

    def loaded_pressure(self, section, item):
        """What a filter takes with its dust at the design airflow; the data has no words for it, the jobs here do."""
        at = [line for line in self.unit["dust"] if line[0] == section["run"]]
        return at[0][1] * self.thinner if at else None

    def friction_law(self, section, item):
        here, design, diameter = section["id"], section["flow_m3_s"], equivalent(self.ducts[section["duct"]])
        roughness, diameters = self.roughness(section["run"], item["kind"]), [diameter]
        if item["friction_Pa"] == 0:
            return lambda flows: 0.0
        if item["kind"] == "transition" and section["parent"] is not None:
            diameters.append(equivalent(self.ducts[self.sections[section["parent"]]["duct"]]))
        rates = sum(self.rate(design, one, roughness) for one in diameters)
        length = item["friction_Pa"] / rates
        return lambda flows: length * sum(self.rate(flows[here], one, roughness) for one in diameters)

    def elbow_law(self, section, item, friction):
        here, design, duct = section["id"], section["flow_m3_s"], self.ducts[section["duct"]]
        words = item["words"]
        radius = 1.0 if item["kind"] in ("flex", "offset") else float(re.search(r"radius ([\d.]+)", words).group(1))
        seams = 0.0
        if item["source"] == "GORED_ELBOW":
            angle, pieces = float(re.search(r", ([\d.]+)", words).group(1)), int(re.search(r"(\d+) pieces", words).group(1))
            s = math.sin(math.radians(angle / (pieces - 1) / 2))
            seams = 0.6 * (pieces - 1) * (0.95 * s**2 + 2.05 * s**4)
        smooth = (item["coefficient"] - seams) / reynolds_factor(self.reynolds(design, duct), radius)

        def law(flows):
            coefficient = smooth * reynolds_factor(self.reynolds(flows[here], duct), radius) + seams
            return friction(flows) + coefficient * item["reference_Pa"] * flows[here] * abs(flows[here]) / design**2

        return law

    def body_area(self, run, parent_duct):
        """What a run is tapped into: the duct, or a box that the tap's station lies in."""
        station = run["from"].get("station_m")
        parent = self.runs[run["from"]["name"]]
        for piece in parent["pieces"]:
            box = re.match(r"Plenum box, ([\d.]+) x ([\d.]+) x", piece["words"])
            if box and piece["station_m"] - 1e-5 <= station <= piece["station_m"] + piece["length_m"] + 1e-5:
                return float(box.group(1)) * float(box.group(2)) * INCH**2
        return duct_area(parent_duct)

    def junction_law(self, section, item, friction):
        here, above, supply = section["id"], section["parent"], self.supply[section["id"]]
        duct, parent_duct = self.ducts[section["duct"]], self.ducts[self.sections[above]["duct"]]
        run = self.runs[section["run"]]
        if item["role"] == "leg":
            legs = [one for one in self.sections if one["parent"] == above and one["id"] != here]
            other = max(legs, key=lambda one: one["flow_m3_s"])
            areas = duct_area(parent_duct), duct_area(duct) / duct_area(parent_duct), duct_area(self.ducts[other["duct"]]) / duct_area(parent_duct)

            def coefficient(flows):
                rest = sum(max(flows[one["id"]], 0) for one in legs)
                return split_coefficient(supply, item["words"], run["from"]["leg"], max(flows[here], 0) / flows[above], areas[1],
                                         rest / flows[above], areas[2])
        else:
            tapped = self.runs[item["tapped"]] if item["role"] == "past" else run
            branch = self.first[tapped["name"]]
            style = next(piece["words"] for piece in tapped["pieces"] if piece["kind"] == "tap")
            angle = TAP_ANGLE[re.match(r"Tap, (\w+)", style).group(1)]
            whole = self.body_area(tapped, parent_duct)
            areas = whole, duct_area(self.ducts[self.sections[branch]["duct"]]) / whole

            def coefficient(flows):
                share = max(flows[branch], 0) / flows[above]
                if item["role"] == "past":
                    return tap_run(share, areas[1]) if supply else join_run(angle, share, areas[1])
                return tap_branch(angle, share, areas[1]) if supply else join_branch(angle, share, areas[1])

        again = coefficient(self.design)
        if abs(again - item["coefficient"]) > EXACT * max(1, abs(again)):
            self.faults.append(f"{item['words']}: C {item['coefficient']!r}, computed again {again!r}")
        return lambda flows: friction(flows) + (coefficient(flows) * self.pressure(flows[above], areas[0]) if flows[above] > 0 else 0)

    # The equations.

    def spread(self, at):
        flows = [0.0] * len(self.sections)
        for place, terminal in enumerate(self.terminals):
            flows[terminal] = at[place]
        for section in reversed(self.sections):
            if section["parent"] is not None:
                flows[section["parent"]] += flows[section["id"]]
        return flows

    def losses(self, flows):
        sums = [0.0] * len(self.sections)
        for section, _, law in self.items:
            sums[section["id"]] += law(flows)
        for here, blade in self.blades.items():
            area = duct_area(self.ducts[self.sections[here]["duct"]])
            sums[here] += blade * math.copysign(self.pressure(flows[here], area), flows[here])
        for section in self.sections:
            if section["parent"] is not None:
                sums[section["id"]] += sums[section["parent"]]
        return sums

    def drops(self, flow):
        total = 0.0
        for drop in self.unit["equipment"]["drops"]:
            pressure = drop.get("loaded_Pa") if self.loaded and drop.get("loaded_Pa") else drop["pressure_Pa"]
            total += pressure * (flow / (drop["at_flow_m3_s"] or self.unit["equipment"]["airflow_m3_s"])) ** 2
        return total * self.thinner

    def residual(self, at):
        """Each supply path with one return path, each return path with one supply path, and the same air on both sides."""
        flows = self.spread(at)
        losses = self.losses(flows)
        out = [one for one in self.terminals if self.supply[one]]
        back = [one for one in self.terminals if not self.supply[one]]
        whole = sum(flows[one] for one in out)
        has = float(self.curve(whole)) * self.thinner - self.drops(whole)
        equations = [has - losses[one] - losses[back[0]] for one in out] + [has - losses[out[0]] - losses[one] for one in back[1:]]
        return equations + [1e3 * (whole - sum(flows[one] for one in back))]

    def solve(self, start):
        found, _, _, _ = fsolve(self.residual, start, xtol=1e-13, full_output=True)
        return self.spread(found), max(abs(one) for one in self.residual(found))


# ---- The comparison ------------------------------------------------------------------------------------------------------------


class Verdict:
    def __init__(self):
        self.passed, self.faults = 0, []

    def that(self, holds, what):
        if holds:
            self.passed += 1
        else:
            self.faults.append(what)


def compare(verdict, network, point, where):
    start = [point["section_flows_m3_s"][one] * 1.03 for one in network.terminals]
    flows, left = network.solve(start)
    verdict.that(left < 1e-7, f"{where}: scipy leaves {left} Pa")
    worst = max(abs(a - b) / max(abs(b), 1e-4 * max(flows)) for a, b in zip(point["section_flows_m3_s"], flows))
    verdict.that(worst <= NEAR, f"{where}: an airflow is off by {worst:.2e}")
    whole = point["flow_m3_s"]
    verdict.that(abs(whole / sum(flows[one] for one in network.terminals if network.supply[one]) - 1) <= NEAR, f"{where}: the unit's airflow")
    blower = float(network.curve(whole)) * network.thinner
    verdict.that(abs(point["blower_Pa"] - blower) <= NEAR * blower, f"{where}: the blower has {blower}")
    own = max(abs(one) for one in network.residual([point["section_flows_m3_s"][one] for one in network.terminals]))
    verdict.that(own <= 1e-6 and point["closure_Pa"] <= CLOSES, f"{where}: a path is open by {own} Pa")
    return worst


def set_blades(network, operation):
    for side in ("supply", "return"):
        for terminal in operation[side]:
            if terminal["damper_section"] is None:
                continue
            section = network.sections[terminal["damper_section"]]
            dampers = [item for item in section["items"] if item["kind"] == "damper" and not re.search("fire|backdraft", item["words"])]
            network.blades[section["id"]] = terminal["coefficient"] - dampers[-1]["coefficient"]


def check_share(verdict, operation, where):
    """Every terminal that can be set takes one share of its design."""
    shares = [one["set_m3_s"] / one["design_m3_s"] for one in operation["supply"] if one["setting"] in ("blade", "open")]
    verdict.that(max(shares) - min(shares) <= 2e-2 * max(shares), f"{where}: shares from {min(shares)} to {max(shares)}")
    blades = [one["set_m3_s"] / one["design_m3_s"] for one in operation["supply"] if one["setting"] == "blade"]
    if blades:
        verdict.that(max(blades) - min(blades) <= 1e-4 * max(blades), f"{where}: set shares from {min(blades)} to {max(blades)}")


def check_unit(verdict, data, unit, where):
    operation = unit.get("operation")
    verdict.that(operation is not None, f"{where}: there is no operating point")
    if not operation:
        return 0
    network = Network(data, unit)
    verdict.that(not network.faults, f"{where}: {network.faults[:2]}")
    compared = 0
    if operation["open"]["outcome"] == "found":
        compare(verdict, network, operation["open"], f"{where}, open")
        spoiled = copy.deepcopy(network)
        spoiled.blades[network.terminals[0]] = spoiled.blades.get(network.terminals[0], 0) + 0.01
        doubt = Verdict()
        compare(doubt, spoiled, operation["open"], "spoiled")
        verdict.that(doubt.faults, f"{where}: a coefficient that is off by 0.01 is not noticed")
        compared += 1
    if operation["set"]["outcome"] == "found":
        set_blades(network, operation)
        compare(verdict, network, operation["set"], f"{where}, set")
        check_share(verdict, operation, where)
        if "dirty" in operation and operation["dirty"]["outcome"] == "found":
            network.loaded = True
            compare(verdict, network, operation["dirty"], f"{where}, dirty")
        compared += 1
    return compared


def dust_of(text, data):
    """Which run's filter takes how much with its dust: from the text, as (run, Pa at its design airflow)."""
    found = []
    for match in re.finditer(r"inlet (\w+) [^{]*\{[^}]*filter[^;}]*loaded ([\d.]+) in\.wg", text):
        found.append((match.group(1), float(match.group(2)) * 248.84))
    return found


def read(job):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "x.json")
        said = subprocess.run(["cleat", "bid", job, "-o", path], capture_output=True, text=True, check=False)
        if not os.path.exists(path):
            sys.exit(f"cleat bid {job}: {said.stderr}")
        with open(path) as file:
            data = json.load(file)
    with open(job) as file:
        text = file.read()
    for unit in data["units"]:
        unit["dust"] = dust_of(text, data)
    return data


def main():
    verdict, compared = Verdict(), 0
    with tempfile.TemporaryDirectory() as folder:
        jobs = sys.argv[1:]
        for number, text in enumerate(OWN, 1):
            jobs.append(os.path.join(folder, f"own-{number}.job"))
            with open(jobs[-1], "w") as file:
                file.write(text)
        for job in jobs:
            data = read(job)
            for unit in data["units"]:
                compared += check_unit(verdict, data, unit, f"{os.path.basename(job)}, {unit['equipment']['name']}")
    verdict.that(compared >= 12, f"only {compared} operating points were compared")
    for fault in verdict.faults:
        print(fault)
    print(f"{verdict.passed} passed, {len(verdict.faults)} failed")
    sys.exit(1 if verdict.faults else 0)


main()
