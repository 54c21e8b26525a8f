#!/usr/bin/python3
"""Works every printed equation of `cleat explain` again, and holds what they come to against the data.

    tests/oracle/explain.py JOB...   compares, then changes one digit of each equation and sees that it is found; the last line is
                                     "N passed, N failed"

An equation is `NAME = in symbols = in figures = RESULT unit (source)`.  What is in figures is evaluated here; it must come to the
result within what rounding its numbers to six digits allows.  The results must be those of the data: losses of every piece in its order, sums of sections and paths,
what is left over, temperatures, leakage.
"""
import json
import math
import re
import subprocess
import sys

DIGITS = 1e-5  # relative: results are printed to six digits
NAMES = 6  # runs of a job, at most, that are explained: as many from its front as from its back
FUNCTIONS = {"sqrt": math.sqrt, "log10": math.log10, "exp": math.exp, "ln": math.log, "abs": abs, "pi": math.pi}
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
    """("Velocity", "V = Q / A = 140 / 0.349 = 401.07 fpm (2)") of every line of working, each with the heading it is under."""
    heading = None
    text = re.sub(r"\n  +", " ", markdown).replace("\\", "")
    for line in text.splitlines():
        if line.startswith("#"):
            heading = line.lstrip("# ")
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
    if re.search(r"[A-Za-z_]", re.sub(r"\b(?:sqrt|log10|exp|ln|abs|pi)\b|" + NUMBER, "", python)):
        return None

    def value(text):
        return eval(text, {"__builtins__": {}}, FUNCTIONS)

    whole, slack = value(python), 0
    for number in numbers:
        moved = float(number.group()) + half_digit(float(number.group()))
        slack += abs(value(python[: number.start()] + repr(moved) + python[number.end():]) - whole)
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
    wanted = [s["loss_Pa"] / shown["pressure"] for s in sections if sum(i["loss_Pa"] != 0 for i in s["items"]) > 1]
    verdict.that(len(sums) == len(wanted) and all(same(a, b, 1e-3) for a, b in zip(sums, wanted)), f"{name}: sums {sums} {wanted}")
    losses = [i["loss_Pa"] / shown["pressure"] for s in sections for i in s["items"] if i["loss_Pa"]]
    printed = [equation(words)[1] if equation(words) else given(words) for heading, what, words in lines
               if words.startswith("h = ") and heading.startswith(name) and what != "Together"
               and not what.startswith("Together, so far") and not what.endswith(", friction")]
    printed = [loss for loss in printed if loss]
    verdict.that(len(printed) == len(losses) and all(same(a, b, 1e-3) for a, b in zip(printed, losses)),
                 f"{name}: losses of pieces {printed} {losses}")


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
    for job in sys.argv[1:]:
        verdict = check_job(job)
        passed += verdict.passed
        faults += [f"{job}: {fault}" for fault in verdict.faults]
    for fault in faults:
        print(fault)
    print(f"{passed} passed, {len(faults)} failed")
    sys.exit(1 if faults else 0)


main()
