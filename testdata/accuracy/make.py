"""Composes flow sheets with known truth, and workbooks that are none.

    make.py OUT --n 2000 --other 150 --seed 1

writes OUT/*.xlsx, *.csv, OUT/bench/*, OUT/other/* and OUT/truth.jsonl: one line a book and
one a cell whose truth is known. Everything is drawn from the seed alone. The
recognisers of this project had no part in it: a sheet is written as a shop or
a supplier writes it, and the truth is what a stranger would read there.

Another seed draws other sheets from the same words. A reader that was mended on
these words does better on them than on others, so a figure measured here is not
the figure for sheets nobody has seen: for that, run it with fresh words."""
import argparse
import json
import pathlib
import random
import shutil
import tempfile

import lacking  # noqa: F401 - the shapes register themselves
import other
import shapes_beside  # noqa: F401
import shapes_conditions  # noqa: F401
import shapes_layout  # noqa: F401
import shapes_many  # noqa: F401
import shapes_ports  # noqa: F401
import shapes_values  # noqa: F401
import writers
from shapes import SHAPES

LACKING = 0.75  # scales the weights of the sheets that leave a fact out: 13 % of all
NAMES = ["flow sheet", "flow", "heads", "bench", "test"]


def plan(n):
    """How many books of each shape, in a fixed order."""
    weights = {k: w * (LACKING if k.startswith("N") else 1) for k, (w, _) in sorted(SHAPES.items())}
    total = sum(weights.values())
    counts = {k: max(1, round(n * w / total)) for k, w in weights.items()}
    order = [k for k, c in counts.items() for _ in range(c)]
    random.Random("order").shuffle(order)
    return (order * 2)[:n]


def write(book, rng, out, number, again, office):
    suffix = ".xlsx"
    folder, book.file = book.file, ""
    stem = f"{folder}{rng.choice(NAMES)} {number:04d}"
    pick = rng.random()
    if writers.fits_csv(book) and pick < (.5 if book.shape.startswith("F24") else .16):
        mark = "," if any("," in str(v.v) and str(v.v).replace(",", "").isdigit() for v in book.sheets[0].cells.values()) else "."
        suffix = ".xls" if book.shape.startswith("F24") and rng.random() < .2 else ".csv"
        encoding = rng.choice(["utf-8", "utf-8-sig", "cp1252", "utf-16"])
        text = "".join(str(v.v) for v in book.sheets[0].cells.values())
        if encoding == "cp1252" and text.encode("cp1252", "replace").decode("cp1252") != text:
            encoding = "utf-8"
        book.file, book.writer = stem + suffix, f"csv {encoding}" if suffix == ".csv" else f"csv {encoding} named .xls"
        writers.as_csv(book, out / book.file, mark, encoding)
        return
    book.file = stem + suffix
    if writers.needs_no_results(book) or not writers.needs_stored_results(book) and pick < .60:
        book.writer = "openpyxl"
        writers.with_openpyxl(book, out / book.file)
    else:
        book.writer = "xlsxwriter"
        writers.with_xlsxwriter(book, out / book.file)
    if office and rng.random() < .12 and not writers.needs_no_results(book):
        book.writer += ", saved by LibreOffice"
        again.append(out / book.file)


def main():
    args = argparse.ArgumentParser(description=__doc__)
    args.add_argument("out", type=pathlib.Path)
    args.add_argument("--n", type=int, default=2000)
    args.add_argument("--other", type=int, default=150)
    args.add_argument("--seed", type=int, default=1)
    args.add_argument("--shape", default="", help="only shapes whose name starts so")
    a = args.parse_args()
    office = shutil.which("soffice") is not None
    if not office:
        print("soffice is not installed: no book is saved again by LibreOffice")
    for sub in ("", "bench", "other"):
        (a.out / sub).mkdir(parents=True, exist_ok=True)
    again, lines = [], []
    for i, title in enumerate(plan(a.n)):
        if not title.startswith(a.shape):
            continue
        rng = random.Random(f"{a.seed}/{i}/{title}")
        book = SHAPES[title][1](rng, title)
        write(book, rng, a.out, i, again, office)
        lines.append(dict(kind="book", file=book.file, shape=title, lang=book.lang, writer=book.writer, lacks=book.lacks, why=book.why))
        lines += [dict(t, kind="cell") for t in book.truths()]
    for i, path in enumerate(other.write_all(a.out / "other", a.other, a.seed)):
        lines.append(dict(kind="other", file=f"other/{path.name}", shape="other"))
    with tempfile.TemporaryDirectory() as tmp:
        for folder in sorted({p.parent for p in again}):
            writers.save_again([p for p in again if p.parent == folder], pathlib.Path(tmp))
            for p in again:
                if p.parent == folder:
                    shutil.move(pathlib.Path(tmp) / p.name, p)
    with open(a.out / "truth.jsonl", "w") as f:
        for line in lines:
            f.write(json.dumps(line, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
