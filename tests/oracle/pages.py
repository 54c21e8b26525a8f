#!/usr/bin/python3
"""What stands on the pages of a PDF is what stands in the Markdown, letter by letter, and nothing else.

    tests/oracle/pages.py JOB...   the last line is "N passed, N failed"

Each packet of each job is written in both formats.  The Markdown is read by cmark-gfm, the PDF by poppler's pdftotext in the order in
which it is written; spaces, the bullets of lists and what stands on every page (head, foot, repeated heads of tables) do not count.
Only where the Markdown has a drawing may the PDF have letters of its own.  The contents on the first page must name the pages that
the sections stand on.  qpdf must find each file sound, pdffonts every font embedded as a subset, and a second run must give the same
bytes.  At the end the comparison is shown files that are wrong, to prove that it would notice."""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

XML = "{http://commonmark.org/xml/1.0}"
READERS = ["customer", "shop", "field", "office"]
# What a customer's file says nowhere: not of itself, not in a drawing, where the Markdown's tests do not look.
DISCREET = re.compile(r"\b(our costs?|cost of|labou?r|hourly|man-hours|crew hours|mark-?ups?|profit|overheads?|burden|gross margin)\b", re.I)


def said(*words, stdin=None):
    return subprocess.run(words, input=stdin, capture_output=True, check=True).stdout


def bare(text):
    """Without spaces, bullets, and the lines to write on."""
    return re.sub(r"[\s\u2022_\u00ad]", "", text)


# ---- What is expected ------------------------------------------------------------------------------------------------------


class Item:
    """Some letters; kind: heading, head (of a table), cell, text; or drawing, whose letters may also be left out."""

    def __init__(self, kind, text, level=0):
        self.kind, self.text, self.level = kind, bare(text), level


def text_of(element):
    return "".join(" " if e.tag in (XML + "softbreak", XML + "linebreak") else e.text or "" for e in element.iter()
                   if e.tag in (XML + "text", XML + "code", XML + "softbreak", XML + "linebreak"))


def fact_text(paragraph):
    """A fact's name has a colon in Markdown, and a column of its own on a page."""
    text = text_of(paragraph)
    first = paragraph.find("*")
    name = text_of(first) if first is not None and first.tag == XML + "strong" else ""
    return name[:-1] + text[len(name):] if name.endswith(":") else text


def items_of(element):
    """Blocks in their order."""
    kind = element.tag.removeprefix(XML)
    if kind == "heading":
        yield Item("heading", text_of(element), int(element.get("level")))
    elif kind == "paragraph":
        image = element.find(XML + "image")
        yield Item("drawing", text_of(image)) if image is not None else Item("text", text_of(element))
    elif kind == "item":
        for child in element:
            yield Item("text", fact_text(child)) if child.tag == XML + "paragraph" else Item("text", text_of(child))
    elif kind == "table_header":
        yield Item("head", "".join(map(text_of, element)))
    elif kind == "table_row":
        yield from (Item("cell", text_of(cell)) for cell in element)
    else:
        for child in element:
            yield from items_of(child)


def markdown_items(path):
    """"Name and date: ____" has no colon on a page."""
    items = list(items_of(ElementTree.fromstring(said("cmark-gfm", "-e", "table", "--to", "xml", path))))
    with open(path, encoding="utf-8") as file:
        blanks = {bare(line) for line in file if re.search(r": _{40}$", line)}
    for item in items:
        if item.text in blanks:
            item.text = item.text[:-1]
    return items


# ---- What is there ---------------------------------------------------------------------------------------------------------


def pdf_pages(path):
    return [bare(page) for page in said("pdftotext", "-raw", "-enc", "UTF-8", path, "-").decode().split("\f")[:-1]]


def without_frame(pages, frame):
    """Each page without what stands on every one; `frame` ends in the page's number."""
    for number, page in enumerate(pages, 1):
        start = f"{frame}{number}of{len(pages)}"
        if not page.startswith(start):
            raise Fault(f"page {number} begins with {page[:80]!r}, not {start!r}")
        yield page[len(start):]


class Fault(Exception):
    pass


class Reading:
    def __init__(self, pages):
        self.letters = "".join(pages)
        self.starts, at = [], 0
        for page in pages:
            self.starts.append(at)
            at += len(page)
        self.at = 0

    def page(self):
        return sum(start <= self.at for start in self.starts)

    def skip_head(self, head):
        """On a new page the head of a table stands once more."""
        if head and self.at in self.starts and self.letters.startswith(head, self.at):
            self.at += len(head)

    def take(self, item, head):
        done = 0
        while done < len(item.text):
            self.skip_head(head)
            end = min([start for start in self.starts if start > self.at] + [len(self.letters)])
            piece = item.text[done:done + end - self.at]
            if not piece or self.letters[self.at:self.at + len(piece)] != piece:
                raise Fault(f"page {self.page()}: {item.kind} {item.text!r} is not there, but {self.letters[self.at:self.at + 60]!r}")
            self.at += len(piece)
            done += len(piece)

    def skip_drawing(self, following):
        end = self.letters.find(following, self.at) if following else len(self.letters)
        if end < 0:
            raise Fault(f"page {self.page()}: behind a drawing {following!r} is not there")
        self.at = end


def contents(reading, items):
    """Takes the list of contents, if there is one: each section with the page that it names."""
    named = {}
    if reading.letters.startswith("Contents", reading.at):
        reading.at += len("Contents")
        for item in items:
            if item.kind != "heading" or item.level != 2:
                continue
            number = re.compile(re.escape(item.text) + r"(\d+?)(?=\D|$)").match(reading.letters, reading.at)
            if not number:
                raise Fault(f"the contents do not name {item.text!r}")
            named[item.text] = int(number.group(1))
            reading.at = number.end()
    return named


def compare(items, pages):
    reading, head, named = Reading(pages), "", None
    for index, item in enumerate(items):
        if item.kind == "heading" and item.level == 2 and named is None:
            named = contents(reading, items)
        if item.kind == "drawing":
            following = next((other.text for other in items[index + 1:] if other.text), "")
            reading.skip_drawing(following)
            continue
        if item.kind != "cell":
            head = ""
        reading.take(item, head)
        if item.kind == "head":
            head = item.text
        if item.kind == "heading" and item.level == 2 and named:
            begun = Reading(pages)
            begun.at = reading.at - len(item.text)
            if named[item.text] != begun.page():
                raise Fault(f"the contents have {item.text!r} on page {named[item.text]}, and it is on {begun.page()}")
    if reading.at != len(reading.letters):
        raise Fault(f"page {reading.page()}: nobody expects {reading.letters[reading.at:reading.at + 60]!r}")


# ---- The file --------------------------------------------------------------------------------------------------------------


def about(path):
    return dict(re.findall(r"^([^:\n]+): +(.*)$", said("pdfinfo", path).decode(), re.M))


def frame_of(info):
    return bare(info["Title"] + info["Subject"] + info.get("Author", ""))


def file_faults(path, reader):
    check = subprocess.run(["qpdf", "--check", path], capture_output=True)
    if check.returncode:
        yield check.stdout.decode() + check.stderr.decode()
    for line in said("pdffonts", path).decode().splitlines()[2:]:
        if not re.search(r" yes +yes +(yes|no) +\d+ +\d+$", line):
            yield f"not embedded as a subset: {line}"
    words = said("pdfinfo", path).decode() + said("pdftotext", path, "-").decode()
    if reader == "customer" and DISCREET.search(words):
        yield f"it says {DISCREET.search(words).group(0)!r}"


def written(job, reader, folder):
    """The packet in both formats; None: there is none for that reader."""
    paths = [os.path.join(folder, f"{reader}.{ending}") for ending in ("md", "pdf")]
    for path in paths:
        run = subprocess.run(["cleat", "bid", job, "--for", reader, "-o", path], capture_output=True)
        if run.returncode == 2:
            return None
        run.check_returncode()
    return paths


def faults(job, reader, folder):
    paths = written(job, reader, folder)
    if not paths:
        return None
    markdown, pdf = paths
    found = [f"{job}, {reader}: {fault}" for fault in file_faults(pdf, reader)]
    again = said("cleat", "bid", job, "--for", reader, "--format", "pdf")
    with open(pdf, "rb") as file:
        if file.read() != again:
            found.append(f"{job}, {reader}: a second run gives other bytes")
    try:
        compare(markdown_items(markdown), list(without_frame(pdf_pages(pdf), frame_of(about(pdf)))))
    except Fault as fault:
        found.append(f"{job}, {reader}: {fault}")
    return found


# ---- Would it notice -------------------------------------------------------------------------------------------------------


def spoils(items, pages):
    """The same paper with one fault each."""
    cells = [item for item in items if item.kind == "cell" and item.text]
    yield "a figure is another", [Item("cell", "999.9") if item is cells[-1] else item for item in items], pages
    yield "a row is left out", [item for item in items if item is not cells[-1]], pages
    yield "a heading is left out", [item for item in items if item.kind != "heading" or item.level != 3], pages
    yield "a page is left out", items, pages[:-2] + pages[-1:]
    yield "something is added", items, pages[:-1] + [pages[-1] + "more"]
    yield "the contents name another page", items, [re.sub(r"(Alternates|Supplyoutlets)\d", r"\g<1>9", pages[0])] + pages[1:]


def unnoticed(job, folder):
    markdown, pdf = written(job, "customer", folder)
    items, pages = markdown_items(markdown), list(without_frame(pdf_pages(pdf), frame_of(about(pdf))))
    for what, wrong, on in spoils(items, pages):
        try:
            compare(wrong, on)
            yield f"{job}: {what}, and nobody notices"
        except Fault:
            pass


def main():
    for tool in ("cmark-gfm", "pdftotext", "qpdf"):
        if not shutil.which(tool):
            sys.exit(f"{tool} is missing")
    passed = failed = 0
    with tempfile.TemporaryDirectory() as folder:
        results = [faults(job, reader, folder) for job in sys.argv[1:] for reader in READERS]
        results += [list(unnoticed(sys.argv[1], folder))]
    for found in results:
        if found is None:
            continue
        passed, failed = (passed, failed + 1) if found else (passed + 1, failed)
        print("".join(fault + "\n" for fault in found), end="")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
