#!/usr/bin/python3
"""Works every printed equation of `cleat explain` again, and holds what they come to against the data.

    tests/oracle/explain.py JOB...   compares (explain.job beside it, too), then changes one digit of each equation and sees that it is found; the last line is
                                     "N passed, N failed"

Every coefficient and every drop of the budget must come about by steps, each with its source: one that just stands there is a fault.
An equation is `NAME = in symbols = in figures = RESULT unit (source)`.  What is in figures is evaluated here; it must come to the
result within what rounding its numbers to six digits allows.  The results must be those of the data: losses of every piece in its order, sums of sections and paths,
what is left over, temperatures, leakage.
"""
import json
import math
import os
import re
import subprocess
import sys

DIGITS = 1e-5  # relative: results are printed to six digits
NAMES = 60  # runs of a job, at most, that are explained: as many from its front as from its back
FUNCTIONS = {
    "sqrt": math.sqrt, "log10": math.log10, "exp": math.exp, "ln": math.log, "abs": abs, "min": min, "max": max, "pi": math.pi,
    "sin": lambda a: math.sin(math.radians(a)), "cos": lambda a: math.cos(math.radians(a)), "atan": lambda t: math.degrees(math.atan(t)),
}
WORDS = r"\b(?:" + "|".join(FUNCTIONS) + r")\b|"
NUMBER = r"-?\d+(?:\.\d+)?(?:e[-+]?\d+)?"


class Verdict:
    def __init__(self):
        self.passed, self.faults = 0, []

    def that(self, holds, what):
        if holds:
            self.passed += 1
        else:
            self.faults.append(what)


def run(*words):
    return subprocess.run(["cleat", *words], capture_output=True, text=True)


def facts(markdown):
    """("Velocity", "V = Q / A = 140 / 0.349 = 401.07 fpm (2)") of every line of working, each with the headings it is under: of the
    section, and of the piece ("" where there is none), with its number so that two alike are two."""
    heading, count = ("", "", 0), 0
    text = re.sub(r"\n  +", " ", markdown).replace("\\", "")
    for line in text.splitlines():
        if line.startswith("#"):
            count += 1
            words = line.lstrip("# ")
            heading = (heading[0], words, count) if line.startswith("###") else (words, "", count)
        found = re.match(r"- \*\*(.*?):\*\* (.*)$", line)
        if found:
            yield heading, found.group(1), found.group(2)


def half_digit(number):
    """Half of the sixth digit of a number: how far it may be from what it was rounded from."""
    return 0.5 * 10.0 ** (math.floor(math.log10(abs(number))) - 5) if number else 0


def evaluate(figures):
    """The value of what is in figures, and how far rounding of its numbers may take it; None: there are words in it."""
    python = figures.replace(" x ", " * ").replace("^", "**")
    numbers = [m for m in re.finditer(r"(?<![\w.])" + NUMBER[2:], python) if not python[: m.start()].endswith("log")]
    if re.search(r"[A-Za-z_]", re.sub(WORDS + NUMBER, "", python)):
        return None

    def value(text):
        try:
            return eval(text, {"__builtins__": {}}, FUNCTIONS)
        except (TypeError, ValueError):
            return 0j

    whole, slack = value(python), 0
    if isinstance(whole, complex):
        return None
    for number in numbers:
        figure, by = float(number.group()), half_digit(float(number.group()))
        moved = [value(python[: number.start()] + repr(to) + python[number.end():]) for to in (figure + by, figure - by)]
        slack += max((abs(to - whole) for to in moved if not isinstance(to, complex)), default=math.inf)  # a root of less than nothing is none
    return whole, slack


def equation(words):
    """In figures, and the result; None: the line only gives something."""
    parts = words.split(" = ")
    if len(parts) < 3:
        return None
    result = re.match(NUMBER, parts[-1])
    return (parts[-2], float(result.group())) if result else None


def tolerance(words):
    figures, result = equation(words)
    found = evaluate(figures)
    return None if found is None else 1.1 * (found[1] + half_digit(result))


def holds(words):
    figures, result = equation(words)
    slack = tolerance(words)
    return slack is not None and abs(evaluate(figures)[0] - result) <= slack


def same(a, b, scale=0):
    return abs(a - b) <= DIGITS * max(abs(a), abs(b), scale)


def result_of(lines, what):
    """Of the one line that is so called."""
    for _, name, words in lines:
        if name == what and equation(words):
            return equation(words)[1]
    return None


def given(words):
    return float(re.search(r"= \(?(" + NUMBER + ")", words).group(1))


def check_terminal(verdict, lines, data, name, shown):
    """The sums of a path and what is left over."""
    unit = next(u for u in data["units"] for p in u["supply_paths"] + u["return_paths"] if p["terminal"] == name)
    path = next(p for p in unit["supply_paths"] + unit["return_paths"] if p["terminal"] == name)
    pressure = shown["pressure"]
    way = result_of(lines, "The way from the unit") or result_of(lines, "The way to the unit")
    verdict.that(way is not None and same(way, path["loss_Pa"] / pressure), f"{name}: the way is not that of the data: {way}")
    left = result_of(lines, "Left of what the blower gives")
    left = result_of(lines, "Short of what the blower gives") if left is None else left
    scale = unit["budget"]["blower_Pa"] / pressure
    verdict.that(left is not None and same(left, path["surplus_Pa"] / pressure, scale), f"{name}: left over {left}")
    for season, word in (("summer", "Cooling"), ("winter", "Heating")):
        outlet = next((o for o in unit["heat"][season]["outlets"] if o["terminal"] == name), None)
        share = result_of(lines, f"{word}, share of its capacity lost on the way")
        if outlet and outlet["share"] is not None:
            verdict.that(share is not None and same(share, outlet["share"], 0.05), f"{name}: {season} share {share}")


def check_sections(verdict, lines, data, name, shown):
    """Each section of the run: the sum of its pieces, and what leaks."""
    sections = [s for u in data["units"] for s in u.get("sections", []) if s["run"] == name and s["flow_m3_s"] > 0]
    leaks = [equation(words)[1] for _, what, words in lines if what.startswith("Leakage")]
    wanted = [s["leakage"]["leaks_m3_s"] / shown["flow"] for s in sections if s["heat"]["surface_m2"] > 0]
    verdict.that(len(leaks) == len(wanted) and all(same(a, b) for a, b in zip(leaks, wanted)), f"{name}: leaks {leaks} {wanted}")
    sums = [equation(words)[1] for _, what, words in lines if what == "Together"]
    wanted = [s["loss_Pa"] / shown["pressure"] for s in sections]
    verdict.that(len(sums) == len(wanted) and all(same(a, b, 1e-3) for a, b in zip(sums, wanted)), f"{name}: sums {sums} {wanted}")
    items = [i for s in sections for i in s["items"] if i["loss_Pa"]]
    pieces = [piece for piece in pieces_of(lines, name) if (loss_of(piece) or [0])[0]]
    verdict.that(len(pieces) == len(items), f"{name}: {len(items)} pieces take something, {len(pieces)} are worked")
    for piece, item in zip(pieces, items):
        check_piece(verdict, piece, item, f"{name}: {piece[0][0][1]}", shown)


def pieces_of(lines, name):
    """The lines of each piece of a run, in order."""
    pieces = {}
    for line in lines:
        if line[0][1] and line[0][0].startswith(name) and line[0][1] != "The whole of it":
            pieces.setdefault(line[0][2], []).append(line)
    return list(pieces.values())


def loss_of(piece):
    """What a piece takes, and the line that says so."""
    for _, what, words in piece:
        if words.startswith("h = ") and equation(words):
            return equation(words)[1], words
    return None


def coefficient_of(piece):
    """The last line that gives C: its value, whether it is worked or read in a table, and whether it has a source or rests on lines
    that do."""
    found = None
    for number, (_, what, words) in enumerate(piece):
        if words.startswith("C = "):
            worked = equation(words)
            value = worked[1] if worked else given(words)
            sourced = any(re.search(r" \(\d+\)$", w) for _, _, w in piece[: number + 1])
            read = re.search(r", (?:in its table at|at the end of its table,|of the duct's) .* \(\d+\)$", words)
            found = (value, bool(worked or read), sourced)
    return found


def symbols_of(piece):
    """Names that the relation of some line rests on, of those that other lines of the piece must give: coefficients and factors."""
    needed, had = set(), set()
    for _, what, words in piece:
        parts = words.split(" = ")
        had.add(parts[0])
        if len(parts) > 2:
            needed |= {word for word in re.findall(r"[A-Za-z][A-Za-z0-9]*", parts[1]) if re.match(r"[ABCFK]\w*$|tau$|[qfvn]$|hf\d", word)}
    return needed, had | {"A", "A1", "A2", "Ab", "Aall", "Abox", "Aend", "As", "F0", "F1", "F2", "k", "C90"}


def check_piece(verdict, piece, item, of, shown):
    """What it takes, and how it comes about."""
    loss, words = loss_of(piece)
    verdict.that(same(loss, item["loss_Pa"] / shown["pressure"], 1e-3), f"{of}: takes {loss}, not {item['loss_Pa'] / shown['pressure']}")
    verdict.that(evaluate(equation(words)[0]) is not None, f"{of}: {words}")
    needed, had = symbols_of(piece)
    verdict.that(needed <= had, f"{of}: {sorted(needed - had)} stand in a relation, and no line gives them")
    if item["coefficient"] is None:
        return
    coefficient = coefficient_of(piece)
    verdict.that(coefficient is not None and coefficient[1], f"{of}: its coefficient has no working")
    verdict.that(coefficient is not None and coefficient[2], f"{of}: its coefficient has no source")
    verdict.that(coefficient is not None and same(coefficient[0], item["coefficient"], 1e-3),
                 f"{of}: C is {coefficient and coefficient[0]}, not {item['coefficient']}")
    worked = [w for _, _, w in piece if w.startswith("C = ")]
    without = [line for line in piece if not line[2].startswith("C = ")] + [(piece[0][0], "C", f"C = {item['coefficient']}")]
    verdict.that(bool(worked) and not (coefficient_of(without) or (0, False))[1], f"{of}: a bare coefficient was not found")


def check_operation(verdict, lines, unit, shown):
    """Airflow, blower and what unit and ducts take, of each way that the dampers may stand."""
    titles = {"open": "Dampers as the job has them", "set": "Balanced", "dirty": "Balanced, filters full of dust"}
    operation = unit["operation"]
    for key, title in titles.items():
        point = (operation or {}).get(key)
        these = [line for line in lines if line[0] and line[0][0] == "Where blower and ducts meet" and line[0][1] == title]
        if not point or point["flow_m3_s"] is None:
            verdict.that(not these, f"{title}: there is no such point")
            continue
        flow, pressure = shown["flow"], shown["pressure"]
        wanted = {
            "What its outlets take there": point["flow_m3_s"] / flow, "What its inlets give there": point["flow_m3_s"] / flow,
            "All drops of the unit": point["unit_drops_Pa"] / pressure,
            "What unit and ducts take": (point["unit_drops_Pa"] + point["supply_Pa"] + point["return_Pa"]) / pressure,
        }
        if point["outcome"] == "found":
            wanted["In the job's air"] = point["blower_Pa"] / pressure
        for what, value in wanted.items():
            result = result_of(these, what)
            verdict.that(result is not None and same(result, value), f"{title}: {what}: {result}, not {value}")


def check_heat(verdict, lines, unit):
    for season, word in (("summer", "Cooling"), ("winter", "Heating")):
        share = unit["heat"][season]["total"]["share"]
        if share is not None:
            result = result_of(lines, f"{word}, share of it lost")
            verdict.that(result is not None and same(result, share, 0.05), f"{season}: share {result}, not {share}")


def check_unit(verdict, lines, unit, shown):
    name = unit["equipment"]["name"]
    pressure = shown["pressure"]
    budget = unit["budget"]
    verdict.that(same(result_of(lines, "In the job's air"), budget["blower_Pa"] / pressure), f"{name}: blower")
    left = result_of(lines, "Left over")
    left = result_of(lines, "Short") if left is None else left
    verdict.that(same(left, budget["surplus_Pa"] / pressure, budget["blower_Pa"] / pressure), f"{name}: left over {left}")
    verdict.that(same(result_of(lines, "What its outlets take"), budget["supply_flow_m3_s"] / shown["flow"]), f"{name}: airflow")
    verdict.that(same(result_of(lines, "Its share of the airflow"), unit["leakage"]["share"]), f"{name}: leakage")


def spoiled(words):
    """The same line with one digit of its result changed, the last whose change is more than rounding."""
    at = words.rindex(" = ") + 3
    result = re.match(NUMBER, words[at:]).group()
    for i in reversed([i for i, c in enumerate(result.split("e")[0]) if c.isdigit()]):
        other = result[:i] + str((int(result[i]) + 5) % 10) + result[i + 1:]
        if abs(float(other) - float(result)) > 3 * tolerance(words):
            return words[:at] + other + words[at + len(result):]
    return None


def check_lines(verdict, lines, of):
    for _, what, words in lines:
        if not equation(words):
            continue
        right = holds(words)
        verdict.that(right, f"{of}: {what}: {words}")
        if right and equation(words)[1]:
            other = spoiled(words)
            verdict.that(other and not holds(other), f"{of}: {what} was changed, and it was not found: {other}")


def check_job(job):
    verdict = Verdict()
    data = json.loads(run("bid", job, "--format", "json").stdout)
    metric = data["job"]["units"] == "metric"
    shown = {"pressure": 1 if metric else 248.84, "flow": 0.001 if metric else 0.3048**3 / 60}
    runs = [r for r in data["runs"] if not r["faulty"] and r["unit"]]
    chosen = runs if len(runs) <= NAMES else runs[: NAMES // 2] + runs[-(NAMES - NAMES // 2):]
    for unit in data["units"]:
        lines = list(facts(run("explain", job, unit["equipment"]["name"]).stdout))
        check_operation(verdict, lines, unit, shown)
        check_heat(verdict, lines, unit)
        check_lines(verdict, lines, unit["equipment"]["name"])
        check_unit(verdict, lines, unit, shown)
    for one in chosen:
        lines = list(facts(run("explain", job, one["name"]).stdout))
        verdict.that(len(lines) > 3, f"{one['name']}: nothing is explained")
        check_lines(verdict, lines, one["name"])
        check_sections(verdict, lines, data, one["name"], shown)
        if one["role"] != "run":
            check_terminal(verdict, lines, data, one["name"], shown)
    return verdict


def main():
    passed, faults = 0, []
    for job in [*sys.argv[1:], os.path.join(os.path.dirname(os.path.abspath(__file__)), "explain.job")]:
        verdict = check_job(job)
        passed += verdict.passed
        faults += [f"{job}: {fault}" for fault in verdict.faults]
    for fault in faults:
        print(fault)
    print(f"{passed} passed, {len(faults)} failed")
    sys.exit(1 if faults else 0)


main()
