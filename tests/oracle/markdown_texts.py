#!/usr/bin/python3
"""What a job says must come out of its bid as it was written, whatever it is.

    tests/oracle/markdown_texts.py [JOB...]   the last line is "N passed, N failed"

Jobs of its own, with hard and random texts (fixed seed), are compiled; the Markdown is read by cmark-gfm, and each text must
be found again in the element where it belongs; nothing may turn into a link, an image, code, emphasis or HTML.  Jobs that
are named are only read by cmark-gfm, each packet of them: they hold no text that may turn into anything but headings, lists and tables.
"""
import html.parser
import os
import random
import shutil
import subprocess
import sys
import tempfile
import urllib.parse

HARD = [
    "# Kiln ##", "> quoted", "- item", "+ item", "1. first", "12) twelfth", "---", "===", "***", "___", "_ _ _", "* * *",
    "a | b || c", "`code` ``x``", "*a* **b** _c_ __d__ ~~e~~ ~f~", "[a](b) ![c](d) [e]: f [^g]", "[x] done", "<b>bold</b>",
    "<script>alert(1)</script>", "<!-- gone -->", "<a@b.c> <http://a.b>", "&lt; &amp; &#35; &#x41; &nosuch; AT&T",
    "http://a.b/_c_*d* https://e.f www.g.h/_i_", "back\\slash \\* \\\\ end\\", "glaze_room __init__ a__b _x y_", ":--", "--:",
    "| - |", "    four spaces", "trailing  ", "窯場 É µ ½ \u202f \u00a0.", "\"quoted\"", "``` fence", "~~~ fence", "#", "-",
    "1.", "=", ">", "+", "!", "<", "&", "\\", "|", "_", "*", "~",
]
ALPHABET = "ab1 _*`~[]()<>#&;:|\\!-+=.,/'\"@窯"
FIELDS = ["title", "customer", "location", "include", "exclude", "note", "room"]
ALLOWED = {"h1", "h2", "h3", "h4", "p", "ul", "li", "strong", "table", "thead", "tbody", "tr", "th", "td", "blockquote"}

JOB = """job {title} {{
    customer {customer}
    location {location}
    include {include}
    exclude {exclude}
    note {note}
}}
unit fan {{
    blower 400 cfm at 0.30 in.wg
    cooling 1 ton
    supply 12 x 8
    return 12 x 10
}}
run trunk from fan.supply {{
    straight 10 ft
}}
outlet desk from trunk at 8 ft top {{
    room {room}
    airflow 400 cfm
    register 12 x 6
}}
run back from fan.return {{
    straight 4 ft
}}
inlet hall from back {{
    grille 20 x 14
}}
"""


class Page(html.parser.HTMLParser):
    """The text of each element that holds text, and what elements there are."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.texts, self.tags, self.rows, self.images, self.rules = [], set(), [], [], 0

    def handle_starttag(self, tag, attrs):
        self.rules += tag == "hr"
        if tag != "hr" or self.rules > 1:  # one stands before the record of the design
            self.tags.add(tag)
        if tag in ("h1", "h2", "h3", "h4", "p", "li", "td", "th"):
            self.texts.append([tag, ""])
        if tag == "img":
            self.images.append(dict(attrs)["src"])
        if tag == "tr":
            self.rows.append(0)
        if tag in ("td", "th"):
            self.rows[-1] += 1

    def handle_data(self, data):
        if self.texts:
            self.texts[-1][1] += data


def plain(text):
    """Spaces and line ends are one space in a bid; a no-break space is a character like others."""
    return " ".join(part for part in text.replace("\n", " ").split(" ") if part)


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def page_of(path):
    bid = subprocess.run(["cleat", "bid", path], capture_output=True, check=False)
    if bid.returncode != 0:
        sys.exit(f"{path} does not compile:\n" + bid.stderr.decode())
    return page_read(bid.stdout)


def page_read(paper):
    command = ["cmark-gfm", "-e", "table", "-e", "strikethrough", "-e", "autolink", "-e", "tasklist"]
    shown = subprocess.run(command, input=paper, capture_output=True, check=True)
    page = Page()
    page.feed(shown.stdout.decode())
    return page


def packet_faults(path, reader):
    """Of a packet with drawings, under a name that a link cannot hold as it is: its elements, and its drawings as links lead to them."""
    with tempfile.TemporaryDirectory() as folder:
        paper = os.path.join(folder, "a b (c)].md")
        subprocess.run(["cleat", "bid", path, "--for", reader, "-o", paper], capture_output=True, check=True)
        with open(paper, "rb") as file:
            page = page_read(file.read())
        if page.tags - ALLOWED - {"img"}:
            yield f"{path}, for the {reader}, has elements {page.tags - ALLOWED}"
        linked = sorted(os.path.normpath(os.path.join(folder, urllib.parse.unquote(image))) for image in page.images)
        written = sorted(os.path.join(at, name) for at, _, names in os.walk(folder) for name in names if name.endswith(".svg"))
        if linked != written or not linked:
            yield f"{path}, for the {reader}: {len(linked)} drawings are shown, {len(written)} written"


def page_with(texts):
    with tempfile.NamedTemporaryFile("w", encoding="utf-8", suffix=".job") as file:
        file.write(JOB.format(**{field: quoted(text) for field, text in texts.items()}))
        file.flush()
        return page_of(file.name)


PLACE = {"title": ("h1", "{}"), "customer": ("li", "Customer: {}"), "location": ("li", "Location: {}"),
         "include": ("li", "{}"), "exclude": ("li", "{}"), "note": ("p", "Note: {}"), "room": ("td", "{}")}


def faults(page, texts):
    strange = page.tags - ALLOWED
    # An address of electronic mail becomes a link whatever is done; its text stays as it was.
    if "@" in "".join(texts.values()):
        strange -= {"a"}
    if strange:
        yield "there are elements " + ", ".join(sorted(strange))
    found = {(tag, plain(text)) for tag, text in page.texts}
    for field, (tag, words) in PLACE.items():
        wanted = (tag, plain(words.format(texts[field])))
        if wanted not in found:
            yield f"{field} {texts[field]!r} is not in a <{tag}>"


def cases():
    yield from ({field: text for field in FIELDS} for text in HARD if text.strip())
    random.seed(20260418)
    for _ in range(200):
        yield {field: "".join(random.choices(ALPHABET, k=random.randint(1, 150))).strip() or "x" for field in FIELDS}


def main():
    if not shutil.which("cmark-gfm"):
        sys.exit("cmark-gfm is missing: it is the outside reader of this test")
    passed = failed = 0
    found = [faults(page_with(texts), texts) for texts in cases()]
    found += [[f"{path} has elements {page.tags - ALLOWED}"] if page.tags - ALLOWED else [] for path, page in
              ((path, page_of(path)) for path in sys.argv[1:])]
    found += [packet_faults(path, reader) for path in sys.argv[1:] for reader in ("customer", "shop", "field")]
    for said in map(list, found):
        passed, failed = (passed, failed + 1) if said else (passed + 1, failed)
        print("".join(fault + "\n" for fault in said), end="")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


main()
