#!/usr/bin/python3
"""The patterns checked from outside, by the vertices in the JSON and by the full-size drawings.

    tests/oracle/patterns.py JOB...   the last line is "N passed, N failed"

Of every part of each job: edges that are joined are equally long and end in the same places; a flat panel is as large laid
flat as in space; ports have the size they say; outlines to cut have the box and the area they say and do not cross
themselves; each straight edge's allowance is as far from the net line as it says; bends and openings lie where the panels have
them, and marks where the bends are; a part weighs what its sheet does; and the drawing at full size, read back from its SVG, has each vertex of the outline to a thousandth of an inch.
A joint with an 8 in side behind a 1 in pocket has its first mark at 9 in.  Then one figure at a time is spoilt, to prove that it would be noticed.
"""
import copy
import csv
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

INCH = 0.0254
POINT = INCH / 72
SAME = 1e-9  # relative, of lengths that are equal
CURVED = 1e-4  # likewise, of a curve that is known by its points alone
SCRIBED = 1e-3 * INCH  # of a drawing
PLACED = 1e-7  # m, of what is turned and moved with its sheet
POUND_FOOT2 = 0.45359237 / 0.3048**2  # kg/m2
GAUGES = pathlib.Path(__file__).parent.parent / "reference" / "gauges.csv"


def data_of(job):
    run = subprocess.run(["cleat", "bid", job, "--format", "json"], capture_output=True, check=True)
    return json.loads(run.stdout)


def length(points):
    return sum(math.dist(a, b) for a, b in zip(points, points[1:]))


def area(points):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def box(points):
    low, high = [min(p[i] for p in points) for i in (0, 1)], [max(p[i] for p in points) for i in (0, 1)]
    return low, [high[i] - low[i] for i in (0, 1)]


def near(a, b, tolerance=SAME):
    return abs(a - b) <= tolerance * max(1, abs(a), abs(b))


def from_line(at, a, b):
    """How far a point is from the line between two."""
    run = [b[0] - a[0], b[1] - a[1]]
    square = run[0] ** 2 + run[1] ** 2
    part = max(0, min(1, ((at[0] - a[0]) * run[0] + (at[1] - a[1]) * run[1]) / square)) if square else 0
    return math.dist(at, (a[0] + part * run[0], a[1] + part * run[1]))


def from_loop(at, loop):
    return min(from_line(at, a, b) for a, b in zip(loop, loop[1:] + loop[:1]))


def crosses(points):
    """Whether two sides of a loop that do not touch each other cross."""

    def side(a, b, c):
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    sides = list(zip(points, points[1:] + points[:1]))
    for i, (a, b) in enumerate(sides):
        for c, d in sides[i + 2 : len(sides) - (i == 0)]:
            if side(a, b, c) * side(a, b, d) < -1e-18 and side(c, d, a) * side(c, d, b) < -1e-18:
                return True
    return False


# ---- One part --------------------------------------------------------------------------------------------------------------


def edge_faults(part):
    for panel in part["panels"]:
        for edge in panel["edges"]:
            if panel["kind"] == "plane":
                for flat, space in zip(zip(edge["flat_m"], edge["flat_m"][1:]), zip(edge["space_m"], edge["space_m"][1:])):
                    if not near(math.dist(*flat), math.dist(*space)):
                        yield f"{panel['name']}: {math.dist(*flat)} m flat, {math.dist(*space)} m in space"
            if edge["join"] in ("port", "free"):
                continue
            mate = part["panels"][edge["mate_panel"]]["edges"][edge["mate_edge"]]
            drawn = "curve" in (edge["shape"], mate["shape"])
            if not near(flat_length(edge), flat_length(mate), CURVED * flat_length(mate) if drawn else SAME):
                yield f"{panel['name']}: {flat_length(edge)} m, its mate {flat_length(mate)} m"
            if math.dist(edge["space_m"][0], mate["space_m"][-1]) > 1e-7 or math.dist(edge["space_m"][-1], mate["space_m"][0]) > 1e-7:
                yield f"{panel['name']}: it and its mate end in different places"


def bent(a, b, c):
    """The curvature of the circle through three points."""
    sides = math.dist(a, b) * math.dist(b, c) * math.dist(a, c)
    return 2 * abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / sides if sides else 0


def curve_length(points):
    """Of the curve that the chords stand for: an arc of curvature k over a chord c is longer by (k c)^2 / 24."""
    inner = [bent(*points[i : i + 3]) for i in range(len(points) - 2)]
    ends = [inner[0]] + inner + [inner[-1]]
    return sum(math.dist(a, b) * (1 + ((k + m) / 2 * math.dist(a, b)) ** 2 / 24) for a, b, k, m in zip(points, points[1:], ends, ends[1:]))


def flat_length(edge):
    if edge["shape"] == "arc":
        return abs(edge["radius_m"] * edge["sweep_rad"])
    return curve_length(edge["flat_m"]) if len(edge["flat_m"]) > 2 else length(edge["flat_m"])


def port_faults(part):
    for index, port in enumerate(part["ports"]):
        points = [p for panel in part["panels"] for e in panel["edges"] if e["join"] == "port" and e["port"] == index for p in e["space_m"]]
        if not points or port["use"] == "base":
            continue
        from_middle = [[p[i] - port["middle_m"][i] for i in range(3)] for p in points]
        for way, size in (("right", port["width_m"]), ("up", port["height_m"])):
            along = [sum(a * b for a, b in zip(p, port[way])) for p in from_middle]
            # A round end's points need not stand where it is widest: its chords keep within 1/64 in.
            tolerance = 1e-9 if port["shape"] == "rectangular" else INCH / 64
            if abs(max(along) - size / 2) > tolerance or abs(min(along) + size / 2) > tolerance:
                yield f"{port['name']}: {max(along) - min(along)} m, not {size}"
        if port["shape"] == "round" and any(not near(math.hypot(*p), port["width_m"] / 2, 1e-8) for p in from_middle):
            yield f"{port['name']}: not round"


def blank_faults(blank):
    name, cut = blank["letter"], blank["cut_m"]
    low, size = box(cut)
    if max(abs(low[0]), abs(low[1])) > 1e-9:
        yield f"{name}: its corner is at {low}"
    if not near(size[0], blank["width_m"]) or not near(size[1], blank["height_m"]):
        yield f"{name}: {size} m, not {blank['width_m']} x {blank['height_m']}"
    if not near(area(cut), blank["cut_area_m2"], 1e-8):
        yield f"{name}: {area(cut)} m2, not {blank['cut_area_m2']}"
    if crosses(cut):
        yield f"{name}: its outline crosses itself"
    for bend in blank["bends"]:
        if any(not -1e-9 <= at[i] <= size[i] + 1e-9 for at in (bend["from_m"], bend["to_m"]) for i in (0, 1)):
            yield f"{name}: a bend outside of it"


def turns_out(edge, after):
    """Whether the outline has an outer corner between two edges; in an inner one their allowances overlap."""
    (a, b), (c, d) = edge["points_m"][-2:], after["points_m"][:2]
    return (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]) >= -1e-12


def allowance_faults(blank):
    """The stretch of a straight edge that is not notched, moved outward by its allowance, lies on the cut outline."""
    edges = blank["edges"]
    for edge, before, after in zip(edges, edges[-1:] + edges[:-1], edges[1:] + edges[:1]):
        start, end = edge["points_m"][0], edge["points_m"][-1]
        run = math.dist(start, end)
        if edge["shape"] != "line" or edge["start_cut_m"] + edge["end_cut_m"] >= run:
            continue
        along = [(end[i] - start[i]) / run for i in (0, 1)]
        out = (along[1], -along[0])  # the loop goes anticlockwise
        for part in [0.1] * turns_out(before, edge) + [0.5] + [0.9] * turns_out(edge, after):
            far = edge["start_cut_m"] + part * (run - edge["start_cut_m"] - edge["end_cut_m"])
            at = [start[i] + far * along[i] + edge["allowance_m"] * out[i] for i in (0, 1)]
            if from_loop(at, blank["cut_m"]) > PLACED:
                yield f"{blank['letter']}: {edge['label'] or edge['join']}: the cut is not {edge['allowance_m']} m from the net line"
                break


def turn_between(edge, after):
    """How far the outline turns, to the left, between two edges."""
    (a, b), (c, d) = edge["points_m"][-2:], after["points_m"][:2]
    way, on = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    return math.atan2(way[0] * on[1] - way[1] * on[0], way[0] * on[0] + way[1] * on[1])


def turns_in(blank):
    """Whether its outline has a corner that turns in between two edges that are turned."""
    edges = blank["edges"]
    return any(turn_between(a, b) < math.radians(-16) and a["turn"] == b["turn"] == "in" for a, b in zip(edges, edges[1:] + edges[:1]))


def relief_faults(blank):
    """Where the outline turns in, what is turned there is snipped free, in to the corner; every snip begins on the outline."""
    edges, turned = blank["edges"], ("in", "out")
    for edge, after in zip(edges, edges[1:] + edges[:1]):
        corner = after["points_m"][0]
        if turn_between(edge, after) > math.radians(-16) or edge["end_cut_m"] > 0 or after["start_cut_m"] > 0:
            continue
        if edge["turn"] not in turned and after["turn"] not in turned:
            continue
        if not any(math.dist(relief["to_m"], corner) < PLACED for relief in blank["reliefs"]):
            yield f"{blank['letter']}: no relief cut at {corner}, where {edge['label']} and {after['label']} meet"
    for relief in blank["reliefs"]:
        if from_loop(relief["from_m"], blank["cut_m"]) > PLACED + INCH / 64:
            yield f"{blank['letter']}: a relief cut does not begin at the outline"


def laid(place, at):
    """A panel's own point on the sheet."""
    c, s = math.cos(place["turn_rad"]), math.sin(place["turn_rad"])
    return [place["origin_m"][0] + c * at[0] - s * at[1], place["origin_m"][1] + s * at[0] + c * at[1]]


def folds(part, blank):
    """Each line that two panels of the sheet are bent along: its ends, and how far apart the two panels lie, which is what the
    bend takes of the sheet."""
    places = {place["panel"]: place for place in blank["panels"]}
    for panel, place in places.items():
        for edge in part["panels"][panel]["edges"]:
            if edge["join"] != "bend" or edge["mate_panel"] not in places or edge["mate_panel"] < panel:
                continue
            mate = part["panels"][edge["mate_panel"]]["edges"][edge["mate_edge"]]
            own = [laid(place, edge["flat_m"][i]) for i in (0, -1)]
            other = [laid(places[edge["mate_panel"]], mate["flat_m"][i]) for i in (-1, 0)]
            yield [[(a[i] + b[i]) / 2 for i in (0, 1)] for a, b in zip(own, other)]


def bend_faults(part, blank):
    left = [(bend["from_m"], bend["to_m"]) for bend in blank["bends"]]
    for a, b in folds(part, blank):
        same = [line for line in left if min(max(math.dist(a, line[i]), math.dist(b, line[1 - i])) for i in (0, 1)) < PLACED]
        if not same:
            yield f"{blank['letter']}: no bend from {a} to {b}, where two panels meet"
        else:
            left.remove(same[0])
    if left:
        yield f"{blank['letter']}: {len(left)} bends where no panels meet"


def mark_faults(blank):
    across = 0 if blank["marks_from"] in ("left", "right") else 1
    size = (blank["width_m"], blank["height_m"])[across]
    away = blank["marks_from"] in ("right", "upper")
    bends = sorted(size - bend["from_m"][across] if away else bend["from_m"][across] for bend in blank["bends"])
    marks = [mark["at_m"] for mark in blank["marks"] if mark["kind"] == "bend"]
    if blank["marks"] and (len(bends) != len(marks) or any(abs(a - b) > PLACED for a, b in zip(bends, marks))):
        yield f"{blank['letter']}: marks of bends at {marks}, bends at {bends}"


def opening_faults(part, blank):
    left = [opening["points_m"] for opening in blank["openings"]]
    for place in blank["panels"]:
        for opening in part["panels"][place["panel"]]["openings"]:
            points = [laid(place, at) for at in opening["flat_m"]]
            same = [loop for loop in left if len(loop) == len(points) and all(math.dist(*pair) < PLACED for pair in zip(loop, points))]
            if not same:
                yield f"{blank['letter']}: {opening['name']} is not where its panel has it"
            else:
                left.remove(same[0])
    if left:
        yield f"{blank['letter']}: {len(left)} openings that no panel has"


def opening_area(opening):
    return math.pi * opening["radius_m"] ** 2 if opening["round"] else abs(area(opening["flat_m"]))


def sheet_weights():
    lines = [line for line in GAUGES.read_text().splitlines() if not line.startswith("#")]
    return {int(row["gauge"]): float(row["lb_ft2"]) * POUND_FOOT2 for row in csv.DictReader(lines)}


WEIGHTS = sheet_weights()


def weight_faults(part):
    if part["material"] != "galvanised":  # the table is of that alone
        return
    cut = sum(abs(area(blank["cut_m"])) * blank["quantity"] for blank in part["blanks"])
    holes = sum(opening_area(opening) for panel in part["panels"] for opening in panel["openings"])
    if not near(part["weight_kg"], (cut - holes) * WEIGHTS[part["gauge"]], CURVED * part["weight_kg"]):
        yield f"{part['weight_kg']} kg, but its sheets weigh {(cut - holes) * WEIGHTS[part['gauge']]}"


def part_faults(part):
    yield from edge_faults(part)
    yield from port_faults(part)
    for blank in part["blanks"]:
        yield from blank_faults(blank)
        yield from allowance_faults(blank)
        yield from bend_faults(part, blank)
        yield from mark_faults(blank)
        yield from relief_faults(blank)
        yield from opening_faults(part, blank)
    yield from weight_faults(part)


# ---- The drawing at full size ----------------------------------------------------------------------------------------------

CUT = re.compile(r'<path style="[^"]*stroke-width:1\.3;[^"]*" d="(M [^"]*Z)')


def drawing_faults(job, part, blank):
    name = f"{part['number']}{blank['letter']}"
    svg = subprocess.run(["cleat", "pattern", job, name], capture_output=True, check=True).stdout.decode()
    if not re.search(r'<svg [^>]*width="[\d.]+pt" height="[\d.]+pt"', svg):
        return [f"{name}: the drawing has no size in points"]
    loops = [[(float(x), float(y)) for x, y in re.findall(r"[ML] (\S+) (\S+)", path)] for path in CUT.findall(svg)]
    if not loops:
        return [f"{name}: no outline in the drawing"]
    # The outline begins with the first vertex; between the vertices of an arc it keeps to the arc, off the chords of the data.
    first, start = loops[0][0], blank["cut_m"][0]
    drawn = [(start[0] + (x - first[0]) * POINT, start[1] - (y - first[1]) * POINT) for x, y in loops[0]]
    far = [at for at in blank["cut_m"] if from_loop(at, drawn) > SCRIBED]
    far += [at for at in drawn if from_loop(at, blank["cut_m"]) > SCRIBED + INCH / 64]
    return [f"{name}: {len(far)} vertices are not where they belong"] if far else []


# ---- Spoiling --------------------------------------------------------------------------------------------------------------


def first_joined(part):
    return next(e for panel in part["panels"] for e in panel["edges"] if e["join"] not in ("port", "free") and e["shape"] == "line")


def move(at):
    at[0] += 0.001


def spoilt(part):
    """Copies of a joint of rectangular duct that has an opening with one thing wrong in each."""
    holed = next(i for i, blank in enumerate(part["blanks"]) if blank["openings"])
    bent = next(i for i, blank in enumerate(part["blanks"]) if blank["bends"])
    for change in (
        lambda p: p["blanks"][0]["cut_m"][0].__setitem__(0, p["blanks"][0]["cut_m"][0][0] - 0.001),
        lambda p: p["blanks"][0].__setitem__("cut_area_m2", p["blanks"][0]["cut_area_m2"] * 1.001),
        lambda p: p["ports"][0].__setitem__("width_m", p["ports"][0]["width_m"] + 0.001),
        lambda p: p["panels"][0]["edges"][0]["space_m"][0].__setitem__(1, p["panels"][0]["edges"][0]["space_m"][0][1] + 0.001),
        lambda p: first_joined(p)["flat_m"][0].__setitem__(0, first_joined(p)["flat_m"][0][0] + 0.001),
        lambda p: p["blanks"][0]["edges"][0].__setitem__("allowance_m", p["blanks"][0]["edges"][0]["allowance_m"] + 0.001),
        lambda p: move(p["blanks"][bent]["bends"][0]["from_m"]),
        lambda p: p["blanks"][bent]["bends"].pop(),
        lambda p: p["blanks"][bent]["marks"][1].__setitem__("at_m", p["blanks"][bent]["marks"][1]["at_m"] + 0.001),
        lambda p: move(p["blanks"][holed]["openings"][0]["points_m"][0]),
        lambda p: p["blanks"][holed]["openings"].pop(),
        lambda p: p.__setitem__("weight_kg", p["weight_kg"] * 1.001),
    ):
        wrong = copy.deepcopy(part)
        change(wrong)
        yield wrong


NINE_INCHES = """job "First mark"
unit fan { blower 400 cfm at 0.30 in.wg; supply 14 x 8; return 14 x 8 }
run trunk from fan.supply { straight 4 ft }
outlet desk from trunk { airflow 400 cfm; register 12 x 10 }
run back from fan.return { straight 4 ft }
inlet hall from back { grille 24 x 12 }
"""


def first_mark_faults():
    """A pocket of 1 in and a side of 8 in: the first bend is marked at 9 in."""
    with tempfile.TemporaryDirectory() as folder:
        job = pathlib.Path(folder) / "first-mark.job"
        job.write_text(NINE_INCHES)
        part = data_of(str(job))["metal"]["parts"][0]
    blank = part["blanks"][0]
    pocket = [edge["allowance_m"] for edge in blank["edges"] if edge["allowance"] == "pocket"]
    marks = [mark["at_m"] for mark in blank["marks"] if mark["kind"] == "bend"]
    if not pocket or not near(pocket[0], 1 * INCH) or not near(marks[0], 9 * INCH):
        yield f"a 14 x 8 joint: pocket {pocket} m, marks {marks} m"


def main():
    faults = list(first_mark_faults())
    print(*faults, sep="\n", end="\n" if faults else "")
    passed, failed = int(not faults), int(bool(faults))
    for job in sys.argv[1:]:
        parts = data_of(job)["metal"]["parts"]
        if not parts:
            print(f"{job}: it has no parts")
            failed += 1
        for part in parts:
            faults = list(part_faults(part))
            for blank in part["blanks"]:
                faults += drawing_faults(job, part, blank)
            passed, failed = passed + (not faults), failed + bool(faults)
            for fault in faults[:5]:
                print(f"{job}: part {part['number']}, {part['title']}: {fault}")
        snipped = next((p for p in parts if any(b["reliefs"] and turns_in(b) for b in p["blanks"])), None)
        if snipped:
            wrong = copy.deepcopy(snipped)
            for blank in wrong["blanks"]:
                blank["reliefs"].clear()
            noticed = any(True for _ in part_faults(wrong))
            passed, failed = passed + noticed, failed + (not noticed)
            if not noticed:
                print(f"{job}: no relief cuts are missed")
        plain = [
            p
            for p in parts
            if p["shape"] == "straight joint"
            and p["material"] == "galvanised"
            and p["ports"][0]["shape"] == "rectangular"
            and any(b["openings"] for b in p["blanks"])
        ]
        for number, wrong in enumerate(spoilt(plain[0]) if plain else []):
            noticed = any(True for _ in part_faults(wrong))
            passed, failed = passed + noticed, failed + (not noticed)
            if not noticed:
                print(f"{job}: spoiling {number} went unnoticed")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
