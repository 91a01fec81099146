"""Writes the demo folder: the workbooks of Saltmarsh Head & Machine, an invented shop, as people type them.

    build.py scan STAGE           write the sheet whose picture is pasted in one of the books
    build.py write DEMO STAGE     write the books; those that LibreOffice must save again go to STAGE
    build.py settle DEMO          give every package a fixed clock, then add the copy and the lock file

Everything here is invented: the shop, its five suppliers, fourteen heads in three families, every figure.
Facts that hold across the books:

- The shop's bench pulls 28 inH2O up to about 360 cfm, then sags. Fixtures 4.030, 4.250, 4.310, 4.500 and 96 mm.
  Own plate with a clay radius on the intake; a 1-3/4 x 12 in pipe on the exhaust. JT runs it, MK is the machinist.
- Serials: LKC-07 A2214; LKC-12 H5102 (sample A), H5127 (sample B); PW-31 C2093; PW-33 C1187; OB-4 N3308;
  VR-81 V1107; VR-84 V0631; LKC-41 E0925; PW-46 C4410; OB-44 N4471; VR-49 V7719; LKC-90 F3312.
- Every 2026 test was run on a morning of the bench log: VR-81 01-08; PW-31, OB-4 01-15; LKC-12 sample A 01-22, the
  morning the check plate read 253.5; OB-44, VR-49 01-29; the shootout and VR-84 02-05; PW-46 03-05; LKC-12 sample B 03-12.
- Two ports were pulled on LKC-07, LKC-12 and OB-4, both port shapes on OB-44, one port on the others.
- VR-84 as delivered in the shootout and in the before-and-after book is one and the same pull: same serial, day, figures.
  `VR-84 old.xls` is one per cent lower, dated 2025-11-20, and its serial was left blank: nobody can say which head it was.
- The planted stories: 243 typed for 143 in PW-46; "Eff. 4/1" on Pellworth's new list; a hidden column in the shootout;
  the old .xls; one pressure column for two ports in OB-44; three stems that turned into dates in dimensions.xlsx.
- A February run leaves out what came later than 2026-02-16: LKC-12 cyl 1 and 3, PW-46, Pellworth list 4-1, Oastbridge net
  (effective 2026-02-20; until then the stock book's 880 is OB-4's cost), stock 2026-02-28. The bench log, the notes and the
  enquiries have been written on since.
"""
import pathlib
import re
import shutil
import sys
import zipfile

import bench
import office
import shopsetup
import suppliers
from sheet import write_openpyxl, write_xlsxwriter

CLOCK = (2026, 3, 16, 8, 0, 0)

BY_OPENPYXL = [
    shopsetup.shop_setup, bench.lkc12_sample_a, bench.ob4_raw, bench.pw46, bench.vr49,
    suppliers.pellworth_chart, suppliers.larkmoor_flow, suppliers.larkmoor_prices, suppliers.oastbridge_prices,
    lambda: suppliers.pellworth_list(*suppliers.PELLWORTH_FEBRUARY), office.dimensions, office.notes,
]
BY_XLSXWRITER = [
    bench.lkc12_sample_b, bench.shootout, bench.pw31, bench.vr84_before_after,
    suppliers.pellworth_wide_bore, lambda: suppliers.pellworth_list(*suppliers.PELLWORTH_COMING),
    lambda: office.stock("2026-01-31"), lambda: office.stock("2026-02-28"), office.extras, office.rework_menu,
]
BY_LIBREOFFICE = [
    bench.ob44, bench.vr81, bench.vr84_export, suppliers.oastbridge_flow, suppliers.vintner_flow,
    suppliers.tidewell_flow, suppliers.tidewell_prices, suppliers.vintner_email, office.bench_log, office.enquiries,
]


def write(demo, stage):
    for make in BY_OPENPYXL:
        save(make(), demo, write_openpyxl)
    for make in BY_XLSXWRITER:
        save(make(), demo, write_xlsxwriter)
    save(bench.old_eights_and_fours(str(stage / "scan.png")), demo, write_xlsxwriter)
    for make in BY_LIBREOFFICE:
        book = make()
        save(book, stage / ("xls" if book.path.endswith(".xls") else "xlsx"), write_openpyxl)


def save(book, root, writer):
    path = (root / book.path).with_suffix(".xlsx")
    path.parent.mkdir(parents=True, exist_ok=True)
    writer(book, str(path))


def settle(demo):
    for path in sorted(demo.rglob("*.xlsx")):
        fix_clock(path)
    tested = demo / "bench/PW-31 adv v tested.xlsx"
    shutil.copyfile(tested, tested.with_name("Copy of " + tested.name))
    (demo / "bench/~$Small Eight shootout.xlsx").write_bytes(lock_file("JT"))


def fix_clock(path):
    """Writes the package again with one time stamp on every part, so that building twice gives the same bytes."""
    with zipfile.ZipFile(path) as old:
        parts = [(info.filename, old.read(info)) for info in old.infolist()]
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as new:
        for name, data in parts:
            if name == "docProps/core.xml":
                created = re.search(rb"<dcterms:created[^>]*>([^<]*)<", data).group(1)
                data = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*<", rb"\g<1>" + created + b"<", data)
            info = zipfile.ZipInfo(name, CLOCK)
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, data)


def lock_file(owner):
    """The 165 bytes a spreadsheet program leaves beside an open book: the owner's name, narrow then wide."""
    narrow = bytes([len(owner)]) + owner.encode().ljust(54, b" ")
    wide = len(owner).to_bytes(2, "little") + owner.encode("utf-16-le")
    return (narrow + wide + b" \x00" * 54)[:165]


def main():
    command, *folders = sys.argv[1:]
    folders = [pathlib.Path(f) for f in folders]
    if command == "scan":
        save(bench.scanned_sheet(), folders[0], write_openpyxl)
    elif command == "write":
        write(*folders)
    elif command == "settle":
        settle(*folders)
    else:
        sys.exit(f"unknown command {command}")


if __name__ == "__main__":
    main()
