#!/usr/bin/python3
"""The take-off counted again from outside, by the runs, the vertices of the parts and the hangers in the JSON.

    tests/oracle/takeoff.py JOB...   the last line is "N passed, N failed"

Of each job: sealant by the girths of ports and the lengths of seams, wrap and lining by the areas of panels, flexible duct
by its pieces, faces by their number; sheets that hold the metal that is cut; and hangers no farther apart than they may be,
near each elbow and tap.  Then one figure at a time is spoilt, to prove that it would be noticed.
"""
import copy
import json
import math
import re
import subprocess
import sys

FOOT, INCH = 0.3048, 0.0254
SAME = 1e-6
CURVED = 2e-3  # relative: openings and seams that are known by points alone
BAND = 2 * INCH * 0.020 * INCH


def data_of(job):
    run = subprocess.run(["cleat", "bid", job, "--format", "json"], capture_output=True, check=True)
    return json.loads(run.stdout)


def girth(shape, width, height):
    less, more = min(width, height), max(width, height)
    return {"round": math.pi * width, "oval": math.pi * less + 2 * (more - less), "rectangular": 2 * (width + height)}[shape]


def port_girth(port):
    return girth(port["shape"], port["width_m"], port["height_m"])


def length(points):
    return sum(math.dist(a, b) for a, b in zip(points, points[1:]))


def shoelace(points):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))) / 2


def surface(part):
    panels = part["panels"] if part["ports"] else []
    return sum(p["area_m2"] - sum(shoelace(o["flat_m"]) for o in p["openings"]) for p in panels)


def seams(part):
    panels = part["panels"] if part["ports"] else []
    return sum(length(e["flat_m"]) for p in panels for e in p["edges"] if e["join"] == "seam") / 2


def uses(data):
    for part in data["metal"]["parts"]:
        for use in part["uses"]:
            yield part, use, next(r for r in data["runs"] if r["name"] == use["run"])


def soft_ends(run):
    """Where flexible duct and canvas end: what comes behind them brings no joint of its own."""
    return [p["station_m"] + p["length_m"] for p in run["pieces"] if p["kind"] in ("flex", "connector")]


def of_damper(bought, data):
    """The girth that the key of a bought damper tells: fire_damper 14 x 8."""
    small = INCH if data["job"]["units"] == "us" else 0.001
    sides = [float(f) * small for f in re.findall(r"[\d.]+", bought["key"])]
    return girth("round" if len(sides) == 1 else "oval" if "oval" in bought["key"] else "rectangular", sides[0], sides[-1])


def brushed(data):
    total = 0
    for part, use, run in uses(data):
        behind = any(abs(end - use["station_m"]) < 1e-9 for end in soft_ends(run))
        seal = run["settings"]["seal"]
        if part["joint_near"] and part["joint_near"] != "flange" and not behind:
            total += port_girth(part["ports"][0])
        total += sum(port_girth(p) for p in part["ports"] if p["use"] == "base")
        total += sum(port_girth(p) for p in part["ports"] if p["use"] == "face" and seal == "A")
        total += seams(part) if seal in ("A", "B") else 0
        total += 6 * INCH if seal == "A" and use["piece"].startswith("Damper, volume") else 0
    for bought in data["metal"]["bought"]:
        if bought["item"] in ("fire_damper", "backdraft_damper"):
            total += of_damper(bought, data) * bought["count"]
        if bought["item"] == "canvas_connector":  # cut an inch longer than the girth
            total += 2 * (bought["length_m"] - INCH * bought["count"])
    return total


def net(data, item):
    return sum(line["net"] for line in data["takeoff"]["lines"] if line["item"] == item)


def pulled_tight(data, piece):
    said = re.search(r"stretched ([\d.]+) %", piece["words"])
    return piece["length_m"] / (float(said.group(1)) / 100 if said else data["shop"]["flex_stretch"])


def amounts(data):
    """Item, what it should be, how near."""
    yield "duct_sealant", brushed(data) * BAND, CURVED
    yield "duct_wrap", sum(surface(part) for part, _, run in uses(data) if run["settings"]["insulation_m2K_W"]), CURVED
    yield "duct_liner", sum(surface(part) for part, _, _ in uses(data) if part["lining_m"]), CURVED
    placed = [p for run in data["runs"] for p in run["pieces"] if run["unit"]]
    yield "flex", sum(pulled_tight(data, p) for p in placed if p["kind"] == "flex"), SAME
    for face in ("register", "grille", "filter"):
        yield face, sum(p["kind"] == face for p in placed), SAME


def amount_faults(data):
    for item, want, within in amounts(data):
        if abs(net(data, item) - want) > within * max(want, 1e-9):
            yield f"{item}: {net(data, item):.6g}, counted again {want:.6g}"


def sheet_faults(data):
    sides = {}
    small = INCH if data["job"]["units"] == "us" else 0.001
    for line in data["takeoff"]["lines"]:
        if line["item"] == "sheet":
            width, height, gauge = re.findall(r"[\d.]+", line["key"])[:3]
            key = (int(gauge), "aluminium" if "aluminium" in line["key"] else "galvanised")
            sides[key] = sides.get(key, 0) + float(width) * float(height) * small**2 * line["net"]
    need = {}
    for part in data["metal"]["parts"]:
        key = (part["gauge"], part["material"])
        need[key] = need.get(key, 0) + part["area_m2"] * len(part["uses"])
    for key, area in need.items():
        if sides.get(key, 0) < area * (1 - SAME):
            yield f"{key}: sheets of {sides.get(key, 0):.3g} m2 for {area:.3g} m2 of blanks"


def stations(data, run, kinds=("straps", "band")):
    return [h["station_m"] for h in data["takeoff"]["hangers"] if h["run"] == run["name"] and h["kind"] in kinds]


def is_upright(placed):
    return not placed["free"] and all(abs(placed[end]["along"][2]) > 0.999 for end in ("near", "far"))


def risers(data, run):
    """From where to where it goes up or down, by the route: what is placed comes in the order of the pieces."""
    placed = [p for r in data["route"]["runs"] if r["run"] == run["name"] for p in r["pieces"]]
    found, begin, end = [], None, None
    for piece in run["pieces"] + [None]:
        at = 0
        while piece and at < len(placed) and placed[at]["kind"] != piece["kind"]:
            at += 1
        upright = piece is not None and piece["kind"] not in ("flex", "connector") and at < len(placed) and is_upright(placed[at])
        placed = placed[at + 1:] if piece and at < len(placed) else placed
        if upright:
            begin = piece["station_m"] if begin is None else begin
            end = piece["station_m"] + piece["length_m"]
        elif begin is not None:
            found += [(begin, end)]
            begin = None
    return found


def riser_faults(data, run, upright):
    supports = stations(data, run, ("riser",))
    for begin, end in upright:
        at = [s for s in supports if begin <= s <= end]
        if end - begin > 4 * FOOT + SAME and (not at or any(b - a > 12 * FOOT + SAME for a, b in zip(at, at[1:])) or max(at[0] - begin, end - at[-1]) > 6 * FOOT + SAME):
            yield f"{run['name']}: the riser from {begin / FOOT:.1f} ft on lacks a support"
        if any(begin + SAME < s < end - SAME for s in stations(data, run)):
            yield f"{run['name']}: a riser hangs"
    if any(not any(begin <= s <= end for begin, end in upright) for s in supports):
        yield f"{run['name']}: a support where nothing goes up"


def over_the_joint(data, run):
    """Of the run that it goes on from, along the run itself."""
    before = [r for r in data["runs"] if run["from"]["kind"] == "end" and r["name"] == run["from"]["name"]]
    return [s - r["length_m"] for r in before for s in stations(data, r)]


def hanger_faults(data):
    for run in (r for r in data["runs"] if r["unit"] and not r["faulty"]):
        for piece in (p for p in run["pieces"] if p["kind"] == "flex"):
            begin, end = piece["station_m"], piece["station_m"] + piece["length_m"]
            at = [begin] + [s for s in stations(data, run, ("saddle",)) if begin <= s <= end] + [end]
            if any(b - a > 4 * FOOT + SAME for a, b in zip(at, at[1:])):
                yield f"{run['name']}: flexible duct over 4 ft without a support"
        metal, upright = stations(data, run), risers(data, run)
        yield from riser_faults(data, run, upright)
        face = any(p["kind"] in ("register", "grille", "filter") for p in run["pieces"])
        goes_on = any(r["from"]["kind"] == "end" and r["from"]["name"] == run["name"] for r in data["runs"])
        for piece in (p for p in run["pieces"] if p["kind"] == "elbow" and not goes_on):
            near = metal + ([run["length_m"]] if face else []) + over_the_joint(data, run)
            if not any(abs(s - piece["station_m"]) <= 2 * FOOT + SAME for s in near):
                yield f"{run['name']}: no hanger within 2 ft of the elbow at {piece['station_m'] / FOOT:.1f} ft"
        for tap in (r for r in data["runs"] if r["from"]["kind"] == "tap" and r["from"]["name"] == run["name"] and r["unit"]):
            stands = any(begin - SAME <= tap["from"]["station_m"] <= end + SAME for begin, end in upright)
            if not stands and not any(abs(s - tap["from"]["station_m"]) <= 4 * FOOT + SAME for s in metal):
                yield f"{run['name']}: no hanger within 4 ft of the tap of {tap['name']}"
            across = next((d for unit in data["units"] for d in unit["ducts"] if d["run"] == tap["name"]), None)
            half = across["height_m" if tap["from"]["side"] in ("top", "bottom") else "width_m"] / 2 if across else 0
            if tap["from"]["side"] != "top" and any(abs(s - tap["from"]["station_m"]) < half for s in metal):
                yield f"{run['name']}: a strap across the opening of {tap['name']}"
        soft = any(p["kind"] in ("flex", "connector") for p in run["pieces"])
        tall = any(end - begin > 4 * FOOT + SAME for begin, end in upright)
        if any(b - a > data["shop"]["hang_every_m"] + SAME for a, b in zip(metal, metal[1:])) and not soft and not tall:
            yield f"{run['name']}: hangers too far apart"


def lining_faults(data):
    """A joint of straight duct is larger than some duct of its run by twice what that is lined with."""
    for part, use, run in uses(data):
        if part["lining_m"] != (run["settings"]["lining_m"] if part["ports"] else None) and use["piece"].startswith("Straight"):
            yield f"part {part['number']}: lined otherwise than {run['name']}"
        if part["finished_length_m"] and use["piece"].startswith("Straight"):
            port, twice = part["ports"][0], 2 * (part["lining_m"] or 0)
            inside = (port["width_m"] - twice, port["height_m"] - twice)
            ducts = [d for unit in data["units"] for d in unit["ducts"]]
            if not any(math.dist(inside, (d["width_m"], d["height_m"])) < 1e-6 for d in ducts if d["lining_m"] == part["lining_m"]):
                yield f"part {part['number']}: its metal is not that of a lined duct"


def faults(data):
    yield from lining_faults(data)
    yield from amount_faults(data)
    yield from sheet_faults(data)
    yield from hanger_faults(data)


def spoilt(data):
    for part in (p for p in data["metal"]["parts"] if p["lining_m"] and p["finished_length_m"]):
        wrong = copy.deepcopy(data)
        wrong["metal"]["parts"][part["number"] - 1]["ports"][0]["width_m"] -= part["lining_m"]
        yield f"the metal of lined part {part['number']}", wrong
    for item, want, _ in amounts(data):
        if want > 0:
            wrong = copy.deepcopy(data)
            next(line for line in wrong["takeoff"]["lines"] if line["item"] == item)["net"] *= 1.02
            yield item, wrong
    for kind in ("saddle", "straps", "riser"):
        reasons = {"saddle": ("spacing",), "straps": ("near an elbow", "near a branch"), "riser": ("its share of a riser",)}[kind]
        hung = [h for h in data["takeoff"]["hangers"] if h["kind"] == kind and h["reason"] in reasons]
        if hung:
            wrong = copy.deepcopy(data)
            wrong["takeoff"]["hangers"] = [h for h in wrong["takeoff"]["hangers"] if h not in hung]
            yield kind, wrong


def main():
    passed = failed = 0
    for job in sys.argv[1:]:
        data = data_of(job)
        found = list(faults(data))
        passed, failed = passed + (not found), failed + bool(found)
        for fault in found:
            print(f"{job}: {fault}")
        for what, wrong in spoilt(data):
            noticed = any(True for _ in faults(wrong))
            passed, failed = passed + noticed, failed + (not noticed)
            if not noticed:
                print(f"{job}: spoiling {what} went unnoticed")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
