#!/usr/bin/python3
"""The price reckoned again from outside, in exact fractions, from what the JSON says of quantities, hours and percentages.

    tests/oracle/price.py JOB...   the last line is "N passed, N failed"

Of each priced job: packages hold what is wanted and one less would not; a line is its price times what is bought; hours are what is counted, times
what one takes, times access; each step of the build-up is its rate of its base, and the base what it says it is; sums add up; the
price is rounded as the shop says; an alternate's difference is that of the two prices.  Then one figure at a time is spoilt, to prove that it
would be noticed.
"""
import copy
import json
import subprocess
import sys
from fractions import Fraction
from math import floor


def data_of(job):
    run = subprocess.run(["cleat", "bid", job, "--format", "json"], capture_output=True, check=True)
    return json.loads(run.stdout)


def half_up(amount):
    return floor(amount + Fraction(1, 2))


def lines(data, tell):
    taken = data["takeoff"]["lines"]
    material = data["price"]["material"]
    if len(taken) != len(material):
        tell("as many lines are priced as are taken off")
    for count, line in zip(taken, material):
        amount = half_up(Fraction(line["price_ten_thousandths"], 100) * Fraction(line["bought_thousandths"], 1000))
        if amount != line["amount_cents"] or count["title"] != line["title"]:
            tell(f"{line['title']}: {line['amount_cents']} cents, not {amount}")
        if count["measure"] == "each" and line["unit"] in ("each", "piece", "sheet") and line["bought_thousandths"] < 1000 * count["wanted"]:
            tell(f"{line['title']}: too few")
    return sum(line["amount_cents"] for line in material)


def hours(data, tell):
    total = {"shop": 0, "field": 0}
    for line in data["price"]["hours"]:
        for kind in total:
            part = line[kind]
            access = line["access_millionths"] if kind == "field" else 10**6
            each = Fraction(round(part["each_h"] * 10**6), 10**6)
            worked = half_up(Fraction(part["amount_thousandths"], 1000) * each * Fraction(access, 10**6) * 100) * 10
            if worked != part["hours_thousandths"]:
                tell(f"{kind} hours of {line['work']}: {part['hours_thousandths']}, not {worked}")
            total[kind] += part["hours_thousandths"]
    return total


def share(step, of):
    return half_up(Fraction(of) * Fraction(step["rate_millionths"], 10**6))


def gross(step, of):
    """What `of` is when so much of the whole is to be kept, less `of`."""
    return half_up(Fraction(of) / (1 - Fraction(step["rate_millionths"], 10**6))) - of


def build_up(data, tell):
    steps = data["price"]["build_up"]
    by = {}
    for step in steps:
        by.setdefault(step["step"], []).append(step)

    def amount(name):
        return sum(step["amount_cents"] for step in by.get(name, []))

    material, total = lines(data, tell), hours(data, tell)
    waste, labour = amount("waste"), amount("labour")
    bonded = amount("cost") + amount("profit") + amount("subcontract_apart") + amount("subcontract_markup")
    due = {
        "material": material,
        "labour": labour,
        "direct": material + waste + amount("tax_on_material") + labour + amount("tax_on_labour") + amount("burden") + amount("fixed") + amount("subcontract"),
        "cost": amount("direct") + amount("overhead") + amount("contingency"),
        "before_rounding": bonded + amount("bond"),
        "price": bonded + amount("bond") + amount("rounding"),
        "total": amount("price") + amount("tax_on_price"),
    }
    for name, wanted in due.items():
        if name in by and amount(name) != wanted:
            tell(f"{name}: {amount(name)}, not {wanted}")
    shares = {"burden": labour, "tax_on_labour": labour, "overhead": amount("direct"), "contingency": amount("direct") + amount("overhead"), "tax_on_price": amount("price")}
    for name, of in shares.items():
        for step in by.get(name, []):
            if step["amount_cents"] != share(step, of):
                tell(f"{name}: {step['amount_cents']}, not {share(step, of)}")
    for step in by.get("waste", []) + by.get("tax_on_material", []) + by.get("subcontract_markup", []):
        if step["amount_cents"] != share(step, step["base_cents"]):
            tell(f"{step['step']}: {step['amount_cents']} of {step['base_cents']}")
    for step in by.get("profit", []):
        wanted = gross(step, amount("cost")) if "margin" in step["title"] else share(step, amount("cost"))
        if step["amount_cents"] != wanted:
            tell(f"profit: {step['amount_cents']}, not {wanted}")
    for step in by.get("bond", []):
        if step["amount_cents"] != gross(step, bonded):
            tell(f"bond: {step['amount_cents']}, not {gross(step, bonded)}")
    for step, kind in zip(by["labour"], total):
        wanted = half_up(Fraction(step["rate_ten_thousandths"], 100) * Fraction(total[kind], 1000))
        if step["amount_cents"] != wanted or step["hours_thousandths"] != total[kind]:
            tell(f"{kind} labour: {step['amount_cents']}, not {wanted}")
    sums = data["price"]["sums"]
    if sums["price_cents"] != amount("price") or sums["total_cents"] != (amount("total") or amount("price")) or sums["cost_cents"] != amount("cost"):
        tell("the sums are not those of the build-up")


def alternates(data, tell):
    for alternate in data["alternates"]:
        offer = alternate["offer"]
        if offer["total_cents"] - data["price"]["sums"]["total_cents"] != offer["difference_cents"]:
            tell(f"alternate {alternate['name']}: {offer['difference_cents']}")


def faults_of(data):
    faults = []
    build_up(data, faults.append)
    alternates(data, faults.append)
    return faults


def spoilt(data):
    """Each figure of the price once a little off."""
    paths = []

    def walk(value, path):
        if isinstance(value, dict):
            for key, inner in value.items():
                walk(inner, path + [key])
        elif isinstance(value, list):
            for index, inner in enumerate(value):
                walk(inner, path + [index])
        elif isinstance(value, int) and not isinstance(value, bool) and str(path[-1]).endswith("_cents") and path[0] in ("material", "build_up"):
            paths.append(path)

    walk(data["price"], [])
    for path in paths:
        other = {**data, "price": copy.deepcopy(data["price"])}
        inner = other["price"]
        for key in path[:-1]:
            inner = inner[key]
        if path[-1] == "base_cents" and inner["step"] not in ("waste", "tax_on_material", "subcontract_markup"):
            continue  # said besides: what it is worked on is added up here
        inner[path[-1]] += 100
        yield path, other


def main(jobs):
    passed = failed = priced = 0
    for job in jobs:
        data = data_of(job)
        if "sums" not in data["price"]:
            continue
        priced += 1
        faults = faults_of(data)
        for fault in faults:
            print(f"{job}: {fault}")
        missed = [path for path, other in spoilt(data) if not faults_of(other)]
        for path in missed:
            print(f"{job}: nobody notices a spoilt {path}")
        passed += 2 - bool(faults) - bool(missed)
        failed += bool(faults) + bool(missed)
    if not priced:
        print("no job is priced")
        failed += 1
    print(f"{passed} passed, {failed} failed")
    return failed != 0


sys.exit(main(sys.argv[1:]))
