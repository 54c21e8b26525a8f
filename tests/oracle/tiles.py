#!/usr/bin/python3
"""A pattern on pages is at full size, and its pages fit together.

    tests/oracle/tiles.py JOB...   the last line is "N passed, N failed"

The widest blank of each job and one with a curved edge are written as PDF; qpdf unpacks what each page draws.  Every line must be the
line that the SVG has (which patterns.py measures), moved and not scaled; the outline must be as wide as the data say; the crosses of
neighbours must fall on each other; the bar must be 6 in or 150 mm long; and what no page shows must be nothing.  At the end a page is
scaled and moved by little, to prove that it would be noticed."""
import json
import re
import subprocess
import sys
import tempfile

POINT = 0.0254 / 72  # m
SAME = 0.01  # pt; cairo holds places in 256ths, and moves the pages by others
NUMBER = r"-?[\d.]+"
PAIR = re.compile(rf"({NUMBER})\s+({NUMBER})\s+([mlc])\b")
BOX = re.compile(rf"({NUMBER}) ({NUMBER}) ({NUMBER}) ({NUMBER}) re\s+S")
LINE = re.compile(rf"({NUMBER}) ({NUMBER}) m\s+({NUMBER}) ({NUMBER}) l\s+S")


def said(*words):
    return subprocess.run(words, capture_output=True, check=True).stdout


class Page:
    """What a page draws of the sheet, its frame, the middles of its crosses, the ends of the bar."""

    def __init__(self, content):
        frame = list(BOX.finditer(content))[-1]  # nothing that is drawn later is a box
        inside, outside = content[:frame.start()], content[frame.end():]
        self.frame = tuple(map(float, frame.groups()))
        self.subpaths = []
        for x, y, kind in PAIR.findall(re.sub(r"\s+", " ", inside)):
            if kind == "m":
                self.subpaths.append([])
            self.subpaths[-1].append((float(x), float(y)))
        self.subpaths = [path for path in self.subpaths if len(path) > 1]
        for x, y, width, height in (map(float, box.groups()) for box in BOX.finditer(inside)):
            self.subpaths.append([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])
        lines = [tuple(map(float, line)) for line in LINE.findall(outside)]
        flat = [line for line in lines if line[1] == line[3]]
        self.crosses = [((x + to) / 2, y) for x, y, to, _ in flat if abs(to - x - 24) < SAME]
        self.bar = max(to - x for x, y, to, _ in flat)

    def move(self, by, scale):
        self.subpaths = [[(x * scale + by, y * scale) for x, y in path] for path in self.subpaths]


def read_pages(pdf):
    """Those behind the map, each with its name."""
    with tempfile.NamedTemporaryFile(suffix=".pdf") as plain:
        said("qpdf", "--qdf", "--object-streams=disable", pdf, plain.name)
        with open(plain.name, "rb") as file:
            text = file.read().decode("latin-1")
    contents = re.findall(r"%% Contents for page (\d+)\n.*?stream\n(.*?)endstream", text, re.S)
    names = [re.search(r"^([A-Z]+\d+)$", page, re.M) for page in said("pdftotext", "-raw", pdf, "-").decode().split("\f")]
    box = re.search(r"/MediaBox \[\s*0\s+0\s+(\S+)\s+(\S+)\s*\]", text)
    return {names[int(number) - 1].group(1): Page(content) for number, content in contents[1:]}, tuple(map(float, box.groups()))


def svg_lines(job, part):
    """Each line of the SVG as its points."""
    svg = said("cleat", "pattern", job, part).decode().split("</defs>")[-1]  # the letters stand in the part before
    paths = re.findall(r'<path [^>]*d="([^"]*)"', svg)
    subpaths = [re.findall(rf"[MLC] ({NUMBER}) ({NUMBER})", piece) for path in paths for piece in re.split(r"(?=M )", path)]
    return [[(float(x), float(y)) for x, y in path] for path in subpaths if len(path) > 1]


def column_row(name):
    letters, digits = re.match(r"([A-Z]+)(\d+)", name).groups()
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return column - 1, int(digits) - 1


def key(point):
    return round(point[0] * 20), round(point[1] * 20)


def near(points, point):
    x, y = key(point)
    return any(abs(a - point[0]) < 2 * SAME and abs(b - point[1]) < 2 * SAME
               for i in (-1, 0, 1) for j in (-1, 0, 1) for a, b in points.get((x + i, y + j), ()))


def indexed(lines):
    points = {}
    for line in lines:
        for point in line:
            points.setdefault(key(point), []).append(point)
    return points


def page_faults(name, page, points, shift):
    for path in page.subpaths:
        for x, y in path:
            if not near(points, (x + shift[0], y + shift[1])):
                yield f"{name}: ({x}, {y}) is no point of the pattern"
                return


def shifts_of(pages):
    """How far each page is along the sheet, from the overlap that its crosses stand in the middle of."""
    first = next(iter(pages.values()))
    left, top, width, height = first.frame
    overlap = 36  # pt, half an inch
    return {name: (column * (width - overlap) - left, row * (height - overlap) - top)
            for name, (column, row) in ((name, column_row(name)) for name in pages)}


def cross_faults(pages, shifts):
    placed = {name: [(x + shifts[name][0], y + shifts[name][1]) for x, y in page.crosses] for name, page in pages.items()}
    for name in pages:
        column, row = column_row(name)
        for other in pages:
            if column_row(other) not in ((column + 1, row), (column, row + 1)):
                continue
            shared = sum(any(abs(x - a) < SAME and abs(y - b) < SAME for a, b in placed[other]) for x, y in placed[name])
            if shared != 2:
                yield f"{name} and {other} share {shared} crosses"


def cover_faults(pages, shifts, lines):
    frames = [(shifts[name][0] + page.frame[0], shifts[name][1] + page.frame[1], page.frame[2], page.frame[3]) for name, page in pages.items()]
    for line in lines:
        for x, y in line:
            if not any(a - SAME <= x <= a + w + SAME and b - SAME <= y <= b + h + SAME for a, b, w, h in frames):
                yield f"no page shows ({x}, {y})"
                return


def faults(pages, lines, width, bar):
    shifts, points = shifts_of(pages), indexed(lines)
    for name, page in pages.items():
        yield from page_faults(name, page, points, shifts[name])
        if abs(page.bar - bar) > SAME:
            yield f"{name}: the bar is {page.bar} pt long"
    drawn = [path for page in pages.values() for path in page.subpaths]
    if width and not any(abs(max(x for x, _ in path) - min(x for x, _ in path) - width) < 2 * SAME for path in drawn):
        yield f"nothing is {width} pt wide"
    yield from cross_faults(pages, shifts)
    yield from cover_faults(pages, shifts, lines)


def width_of(blank):
    across = [x for x, _ in blank["cut_m"]]
    return (max(across) - min(across)) / POINT


def chosen(job):
    """The widest blank and the smallest one with a curved edge: each as it is asked for, with its width in points."""
    data = json.loads(said("cleat", "bid", job, "--format", "json"))
    blanks = [(f"{part['number']}{blank['letter']}", blank) for part in data["metal"]["parts"] for blank in part["blanks"]]
    curved = [pair for pair in blanks if len(pair[1]["cut_m"]) > 30]
    wanted = [max(blanks, key=lambda pair: width_of(pair[1]))] + ([min(curved, key=lambda pair: width_of(pair[1]))] if curved else [])
    return [(name, width_of(blank)) for name, blank in wanted]


def pattern_of(job, part):
    """Its pages, its lines, and the length of the bar."""
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        said("cleat", "pattern", job, part, "-o", file.name)
        said("qpdf", "--check", file.name)
        pages, box = read_pages(file.name)
    return pages, svg_lines(job, part), 150 / 25.4 * 72 if abs(min(box) - 595.276) < 0.1 else 432


def main():
    passed = failed = 0
    for job in sys.argv[1:]:
        for part, width in chosen(job):
            pages, lines, bar = pattern_of(job, part)
            found = list(faults(pages, lines, width, bar))
            passed, failed = (passed, failed + 1) if found else (passed + 1, failed)
            print("".join(f"{job}, part {part}: {fault}\n" for fault in found), end="")
    name = next(iter(pages))
    for scale, by in ((1.001, 0), (1, 0.05)):
        subpaths = pages[name].subpaths
        pages[name].move(by, scale)
        if not list(faults(pages, lines, width, bar)):
            print(f"a page {scale} times its size and moved by {by} pt is not noticed")
            failed += 1
        pages[name].subpaths = subpaths
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
