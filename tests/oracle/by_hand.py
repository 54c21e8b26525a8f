#!/usr/bin/python3
"""One path of the demo's field packet, worked as on a sheet of paper: choirhouse, from the return grille to the kitchen's register.

    tests/oracle/by_hand.py [JOB...]   (the jobs are not looked at; the last line is "N passed, N failed")

Only what is printed is read: the airflows expected with dampers open and set, the blade's angle, the test points, the places of the
registers, and the lines of the plan.  What they must come to stands below in inches, feet, cfm and fpm, from the job's text, with the
handbook's relation over each line.  It ends by spoiling what was printed, a figure at a time, to see that each would be missed.
"""
import copy
import math
import os
import re
import subprocess
import sys
import tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
JOB = f"{ROOT}/jobs/choirhouse.job"

# ---- What is printed -----------------------------------------------------------------------------------------------------------


def rows(text, head):
    """The rows of the table under that first column, as lists of cells."""
    table = text[text.index(f"\n| {head}") + 1:].split("\n\n")[0]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in table.splitlines()[2:]]


def inches(words):
    """13 ft 11-5/8 in, -6 in, 0 ft: as inches."""
    sign = -1 if words.startswith("-") else 1
    feet = re.search(r"(\d+) ft", words)
    whole = re.search(r"(\d+)(?:-(\d+)/(\d+))? in", words)
    part = int(whole.group(2)) / int(whole.group(3)) if whole and whole.group(2) else 0
    return sign * ((12 * int(feet.group(1)) if feet else 0) + (int(whole.group(1)) if whole else 0) + part)


class Packet:
    def __init__(self, text, plan):
        self.sheet = {cells[0]: cells for cells in rows(text, "Outlet or inlet ")}
        self.points = {cells[1]: [float(cell) if cell else None for cell in cells[2:6]] for cells in rows(text, "No. ")}
        self.places = {cells[0]: [inches(cell) for cell in cells[1:4]] for cells in rows(text, "Register or grille ")}
        self.parts = [(cells[3], cells[4]) for cells in rows(text, "Order ")]
        self.lines = [tuple(map(float, line)) for line in re.findall(
            r'd="M ([-\d.]+) ([-\d.]+) L ([-\d.]+) ([-\d.]+) ?"', plan.split("</defs>")[-1])]

    def flow(self, name, column):
        return float(self.sheet[name][column])


DESIGN, OPEN, SET = 3, 4, 5  # the columns of the balancing sheet


def packet_of_the_demo():
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["cleat", "bid", JOB, "--for", "field", "-o", f"{folder}/field.md"], check=True,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        with open(f"{folder}/field.md") as text, open(f"{folder}/field-figures/plan-3.svg") as plan:
            return Packet(text.read(), plan.read())


# ---- The sheet of paper: relations ---------------------------------------------------------------------------------------------

# 640 ft up: 1 - 640 x 6.875e-6 = 0.99560, to the 5.256th power (US Standard Atmosphere 1976, from memory).
THINNER = (1 - 640 * 6.875e-6) ** 5.256


def pv(cfm, square_inches):
    """Velocity pressure, in. w.g.: (fpm / 4005)^2 in standard air, the trade's rule."""
    return (cfm / (square_inches / 144) / 4005) ** 2 * THINNER


def rub(cfm, feet, width, height=None):
    """Friction, in. w.g., of galvanised duct.  A rectangular one counts as the round one of 1.30 (ab)^0.625 / (a+b)^0.25
    (Huebscher, 1948); the factor is Swamee and Jain's explicit one (1976, from memory), within 2 % of Colebrook's here."""
    inch = 1.30 * (width * height) ** 0.625 / (width + height) ** 0.25 if height else width
    reynolds = cfm / (math.pi / 4 * inch**2 / 144) / 60 * inch / 12 / (1.6277e-4 / THINNER)  # ft2/s, air of 70 F
    factor = 0.25 / math.log10(0.0003 * 12 / inch / 3.7 + 5.74 / reynolds**0.9) ** 2
    return factor * feet * 12 / inch * pv(cfm, math.pi / 4 * inch**2)


def branch(angle, share, area):
    """A tap, on the trunk's velocity pressure before it: A (1 + x^2 - 2 x cos), x = share of air over share of area;
    A = 1.1 - 0.7 q of small branches, 0.85 over 0.4 of the air (Idelchik, diagrams 7-15 and others; 1 - 0.6 q of wide ones)."""
    factor = 1 - 0.6 * share if area > 0.35 else 1.1 - 0.7 * share if share <= 0.4 else 0.85
    x = share / area
    return factor * (1 + x * x - 2 * x * math.cos(math.radians(angle)))


def passing(share, area):
    """What the air that goes on loses at a tap, on the same pressure: 0.4 q^2 of a small branch (Idelchik, the same)."""
    return (0.4 if area <= 0.4 else (2 if share <= 0.5 else 0.3) * (2 * share - 1)) * share**2


# ---- The sheet of paper: losses ------------------------------------------------------------------------------------------------


def to_kitchen(packet, column, blade):
    """in. w.g. from the unit's collar into the room, by pieces; with the airflows that are printed."""
    vestibule, library, kitchen, office, teaching = (
        packet.flow(name, column) for name in ("vestibule", "library", "kitchen", "office", "teaching"))
    whole = packet.flow("hall_return", column)
    trunk = vestibule + library + kitchen + office + teaching
    behind_1, behind_2 = trunk - vestibule, trunk - vestibule - library
    seven, eight = math.pi / 4 * 7**2, math.pi / 4 * 8**2
    x = trunk / whole / (8 * 14 / (20 * 14))
    return {
        # connector 4 in (canvas, 33 times as rough: a little more than as much sheet), straight 24 in
        "plenum, 20 x 14, 28 in": rub(whole, 28 / 12, 20, 14),
        # a leg at 45 degrees of a wye that shares the area: 1 + x^2 - 2 x cos 45 - 0.36 x^2 (Idelchik 7-16), and its 24 in
        "wye, leg of 8 x 14": (1 + x * x - 2 * x * math.cos(math.pi / 4) - 0.36 * x * x) * pv(whole, 20 * 14) + rub(trunk, 2, 8, 14),
        # 8 x 14 to 10 x 10 over 24 in, a tenth less area, moved 2 in: C 0.02; friction as of 24 in, half and half
        "transition to 10 x 10": 0.02 * pv(trunk, 100) + rub(trunk, 1, 8, 14) + rub(trunk, 1, 10, 10),
        "3 ft of 10 x 10": rub(trunk, 3, 10, 10),
        "past the vestibule's tap": passing(vestibule / trunk, seven / 100) * pv(trunk, 100),
        "4 ft": rub(behind_1, 4, 10, 10),
        # the library's cone has half the trunk's area: (Idelchik, the air that goes on, under half of it leaves)
        "past the library's tap": passing(library / behind_1, eight / 100) * pv(behind_1, 100),
        "3 ft": rub(behind_2, 3, 10, 10),
        # 45 degrees, r/W 1, H/W 1: 0.126 (Idelchik 6-1), times 1.59 at this Reynolds number of 36,500 (duct manuals, from
        # memory: 1.64 at 30,000, 1.56 at 40,000); friction of its arc, 7.9 in
        "elbow": 0.126 * 1.59 * pv(behind_2, 100) + rub(behind_2, 7.9 / 12, 10, 10),
        "3 ft behind it": rub(behind_2, 3, 10, 10),
        # a cone counts as a branch of 60 degrees
        "kitchen's tap": branch(60, kitchen / behind_2, seven / 100) * pv(behind_2, 100),
        "its blade": blade * pv(kitchen, seven),
        "6 ft of 7 in round": rub(kitchen, 6, 7),
        # a square elbow, 1.19 (Idelchik 6-5), and the widening from 38.5 to 60 in2 in 8 in, about 0.06
        "boot": (1.19 + 0.06) * pv(kitchen, seven),
        # 0.03 in. w.g. at 110 cfm, assumed
        "register": 0.03 * (kitchen / 110) ** 2 * THINNER,
    }


def from_room(whole):
    return {
        "filter, 0.12 at 1200 cfm": 0.12 * (whole / 1200) ** 2 * THINNER,
        # 24 x 20 to 20 x 16 in 14 in, a third less area, gentle: C 0.014
        "transition": 0.014 * pv(whole, 320) + rub(whole, 7 / 12, 24, 20) + rub(whole, 7 / 12, 20, 16),
        "vaned elbow, C 0.12 (duct manuals, from memory)": 0.12 * pv(whole, 320),
        "straight, 7 ft 6 in and the connector": rub(whole, 7.5 + 4 / 12, 20, 16),
    }


def in_the_unit(whole):
    return {"coil and strips, 0.28 at 1200 cfm": 0.28 * (whole / 1200) ** 2 * THINNER}


def blower(whole):
    """From its point at 1200 cfm, 0.50 in. w.g.: before it the curve falls by 0.00125 in. w.g. a cfm, behind it by 0.0015, and there by
    their harmonic mean (Fritsch and Butland, from memory)."""
    return (0.50 - 2 / (1 / 0.00125 + 1 / 0.0015) * (whole - 1200)) * THINNER


# A flap from wide open, 0.20 (common practice), to 10 degrees closed, 0.52 (Weisbach's throttle plates), straight between.
def blade_at(opened):
    return 0.20 + (90 - opened) / 10 * (0.52 - 0.20)


# ---- Held against it -----------------------------------------------------------------------------------------------------------


def closes(packet, column, opened):
    """What the blower gives less all losses must be nothing, but for what half a cfm in each printed airflow comes to, and one part
    in forty of the ducts' and fittings' losses, which is how near the relations above are to the finer ones."""
    whole, kitchen = packet.flow("hall_return", column), packet.flow("kitchen", column)
    supply, back, unit = to_kitchen(packet, column, blade_at(opened)), from_room(whole), in_the_unit(whole)
    left = blower(whole) - sum(supply.values()) - sum(back.values()) - sum(unit.values())
    declared = supply["register"] + back["filter, 0.12 at 1200 cfm"]
    steep = 0.0014 + 2 * (sum(back.values()) + sum(unit.values())) / whole
    rounding = 0.5 * (steep + 2 * sum(supply.values()) / kitchen)
    allowed = rounding + (sum(supply.values()) + sum(back.values()) - declared) / 40
    yield abs(left) <= allowed, f"column {column}: {left:+.4f} in. w.g. are left, {allowed:.4f} allowed"
    supplies = sum(packet.flow(name, column) for name in packet.sheet if name != "hall_return")
    yield abs(supplies - whole) <= 0.5 * len(packet.sheet), f"column {column}: {supplies} cfm go out, {whole} come back"


def flows(packet):
    yield packet.sheet["kitchen"][6] == "kitchen", "the kitchen's damper is not on its own run"
    opened = float(re.fullmatch(r"open (\d+)", packet.sheet["kitchen"][7]).group(1))
    yield from closes(packet, OPEN, 90)
    yield from closes(packet, SET, opened)
    # Set, every outlet has the same share of its design.
    share = packet.flow("hall_return", SET) / packet.flow("hall_return", DESIGN)
    for name in packet.sheet:
        off = packet.flow(name, SET) - share * packet.flow(name, DESIGN)
        yield abs(off) <= 1, f"{name}: {off:+.2f} cfm off its share"


def gauges(packet):
    """At the design: static pressures between three points of this path, read off the losses above."""
    losses, names = to_kitchen(packet, DESIGN, blade_at(90)), list(packet.points)
    collar = packet.points["AHU, supply collar"]
    first = packet.points[next(name for name in names if name.startswith("streetside, first straight, at 3 ft 6 in"))]
    between = (losses["plenum, 20 x 14, 28 in"] + losses["wye, leg of 8 x 14"] + losses["transition to 10 x 10"]
               + losses["3 ft of 10 x 10"] / 2)
    yield abs(collar[0] - first[0] - between) <= 0.0011 + between / 40, f"from the collar {collar[0] - first[0]:.4f}, by hand {between:.4f}"
    yield abs(collar[1] - pv(1200, 280)) <= 0.0006, f"velocity pressure at the collar {collar[1]}"
    yield abs(first[1] - pv(480, 100)) <= 0.0006, f"velocity pressure in the trunk {first[1]}"
    for name, point in (("collar", collar), ("trunk", first)):
        yield abs(point[2] - (point[0] - point[1])) <= 0.0011, f"the gauge at the {name} is not total less velocity pressure"
        # All is the square of the airflow, which grows by the printed share.
        grown = point[2] * (packet.flow("hall_return", SET) / 1200) ** 2
        yield abs(point[3] - grown) <= 0.0011, f"balanced, the gauge at the {name} shows {point[3]}, by hand {grown:.4f}"


# ---- The sheet of paper: places, inches from the supply collar: east, north, up ----------------------------------------------------

SLANT = math.sqrt(0.5)
START = (4 + 24 + 24, -8.0)  # canvas, straight and wye; its right leg, 8 in south by the shop packet's drawing of part 2
TRUNK = (START[0] + 24, START[1] - 2)  # the transition, moved 2 in right
TOP = 12 + (14 - 10) / 2  # flat top: the middle rises by half of what the height loses
CORNER = (TRUNK[0] + 120, TRUNK[1])  # 10 ft
# An elbow of 45 degrees about 10 in, with the shop's 2 in straight at both ends.
BEHIND = (CORNER[0] + 2 + 10 * SLANT + 2 * SLANT, CORNER[1] - 10 * (1 - SLANT) - 2 * SLANT)
# The kitchen's tap at 15 ft: 36 in behind the elbow (2 + 10 ft stand before it), to the south-east; it leaves to the south-west.
TAP = (BEHIND[0] + 36 * SLANT, BEHIND[1] - 36 * SLANT)
OUT = 10 / 2 + 6 + 72 + 8  # half the trunk, the cone, 6 ft, the boot
KITCHEN = (TAP[0] - OUT * SLANT, TAP[1] - OUT * SLANT, TOP + 4)  # an elbow boot in a crawl space looks up, its face 4 in above
VESTIBULE = (TRUNK[0] + 36, TRUNK[1] - (5 + 6 + 96 + 8), TOP + 4)  # the tap at 5 ft, 8 ft of flexible duct straight on


def crosses(lines):
    """Middles of the crosses that registers are drawn with: two lines of one length and one middle that are not one line."""
    found = []
    for i, a in enumerate(lines):
        for b in lines[:i]:
            middle = [(a[k] + a[k + 2] - b[k] - b[k + 2]) / 2 for k in (0, 1)]
            turn = (a[2] - a[0]) * (b[3] - b[1]) - (a[3] - a[1]) * (b[2] - b[0])
            same = abs(math.dist(a[:2], a[2:]) - math.dist(b[:2], b[2:])) < 0.01
            if max(map(abs, middle)) < 0.01 and same and abs(turn) > 1:
                found.append(((a[0] + a[2]) / 2, (a[1] + a[3]) / 2))
    return found


def places(packet):
    for name, place in (("Kitchen", KITCHEN), ("Vestibule", VESTIBULE)):
        off = max(abs(a - b) for a, b in zip(packet.places[name], place))
        yield off <= 0.0626, f"{name}: {off:.3f} in off"  # printed to an eighth
    for title in ("Straight joint, 10 x 10 in", "Radius elbow, 10 x 10 in, 45 degrees"):
        yield any(words.startswith(title) and run == "streetside" for words, run in packet.parts), f"streetside has no {title}"
    yield ("Tap, conical, 7 in round", "kitchen") in packet.parts, "the kitchen's tap is another"


def plan(packet):
    """The plan, at 1:64: its points are 64 times as far apart as on the paper, east to the right and north up."""
    drawn = 72 / 64
    found = crosses(packet.lines)
    yield len(found) == 5, f"{len(found)} registers on the plan"
    if not found:
        return
    corner = min(found)  # the vestibule's is the farthest west

    def on_paper(place):
        return corner[0] + (place[0] - VESTIBULE[0]) * drawn, corner[1] - (place[1] - VESTIBULE[1]) * drawn

    ends = [point for line in packet.lines for point in (line[:2], line[2:])]
    wanted = {"the start of the 10 ft, north side": (TRUNK[0], TRUNK[1] + 5), "its south side": (TRUNK[0], TRUNK[1] - 5),
              "the end of the 10 ft, north side": (CORNER[0], CORNER[1] + 5),
              "behind the elbow, outside": (BEHIND[0] + 5 * SLANT, BEHIND[1] + 5 * SLANT),
              "behind the elbow, inside": (BEHIND[0] - 5 * SLANT, BEHIND[1] - 5 * SLANT)}
    for name, place in wanted.items():
        off = min(math.dist(on_paper(place), end) for end in ends)
        yield off <= 0.02, f"the plan has nothing at {name}: {off:.2f} pt off"
    off = min(math.dist(on_paper(KITCHEN), cross) for cross in found)
    yield off <= 0.02, f"the kitchen's register stands {off:.2f} pt off on the plan"


def verdicts(packet):
    for check in (flows, gauges, places, plan):
        yield from check(packet)


# ---- Spoiling ------------------------------------------------------------------------------------------------------------------


def spoiled():
    """Each is a change that the checks must not let pass."""
    def sheet(name, column, by):
        def change(packet):
            packet.sheet[name][column] = str(float(packet.sheet[name][column]) + by)
        return f"{name}, column {column}, {by:+}", change

    def blade(packet):
        packet.sheet["kitchen"][7] = "open 60"

    def point(packet):
        packet.points["AHU, supply collar"][3] += 0.003

    def place(packet):
        packet.places["Kitchen"][1] += 0.25

    def line(packet):
        packet.lines = [tuple(v + (0.1 if i % 2 == 0 and v > 180 else 0) for i, v in enumerate(line)) for line in packet.lines]

    yield sheet("kitchen", OPEN, 6)
    yield sheet("kitchen", OPEN, -6)
    yield sheet("hall_return", OPEN, 6)
    yield sheet("hall_return", SET, -6)
    yield sheet("teaching", SET, 2)
    yield from (("the blade", blade), ("a test point", point), ("a place", place), ("a line", line))


def main():
    packet, passed, failed = packet_of_the_demo(), 0, 0
    for holds, words in verdicts(packet):
        passed, failed = passed + holds, failed + (not holds)
        if not holds:
            print(words)
    for words, change in spoiled():
        other = copy.deepcopy(packet)
        change(other)
        found = not all(holds for holds, _ in verdicts(other))
        passed, failed = passed + found, failed + (not found)
        if not found:
            print(f"spoilt and not missed: {words}")
    print(f"{passed} passed, {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
