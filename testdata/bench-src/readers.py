#!/usr/bin/python3
"""Compares whole processes that read the same workbooks: ours, openpyxl's
read-only mode, SheetJS, and programs that only unzip them.

Usage: /usr/bin/python3 testdata/bench-src/readers.py [RUNS]

Run it in the project folder. It writes 1,000 small flow sheets and one large
log to a scratch folder, lets the readers take turns, checks that they saw the
same number of values, and prints median seconds, seconds of work on all cores, peak
memory and how many times as long as ours each takes. Everything is cold: each run is a process of its own
that has read nothing before, start-up of interpreters included. Ours and the
unzipping of Go use all cores, as the service does; the others know one. A peak
below some 12 MB is not seen: a process starts with that of this script.

SheetJS is installed with npm into .tools/peers; where that cannot be done it is
left out, and the table says so.
"""

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

SHEETJS = "xlsx@0.18.5"  # the newest in the npm registry

OPENPYXL = """
import sys, openpyxl
values = 0
for path in sys.argv[1:]:
    book = openpyxl.load_workbook(path, read_only=True)
    for sheet in book.worksheets:
        for row in sheet.iter_rows(values_only=True):
            values += sum(v is not None for v in row)
    book.close()
print(values)
"""

ZIPFILE = """
import sys, zipfile
print(sum(len(z.read(part)) for path in sys.argv[1:] for z in [zipfile.ZipFile(path)] for part in z.infolist()))
"""

HERE = os.path.dirname(os.path.abspath(__file__))


def sheetjs(peers):
    """Installs SheetJS where that can be done; returns its command and environment, or says why not."""
    modules = os.path.join(peers, "node_modules")
    if shutil.which("node") is None:
        return None, "node is not installed (Debian: apt-get install nodejs npm)"
    if not os.path.isdir(os.path.join(modules, "xlsx")):
        os.makedirs(peers, exist_ok=True)
        install = ["npm", "install", "--no-audit", "--no-fund", "--prefix", peers, SHEETJS]
        if shutil.which("npm") is None or subprocess.run(install, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode != 0:
            return None, "could not be installed; try: " + " ".join(install)
    return (["node", os.path.join(HERE, "sheetjs.cjs")], {"NODE_PATH": modules}), None


def run(command, extra):
    """Runs a process; returns its output, seconds, seconds of work on all cores, and peak memory in MB."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=os.environ | extra)
    output = process.stdout.read()
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        raise SystemExit(f"{command[0]} failed")
    return output.strip(), seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def compare(title, files, readers, unpackers, runs):
    seconds, work, memory, said = {}, {}, {}, {}
    everybody = readers | unpackers
    for _ in range(runs):
        for name, (command, extra) in everybody.items():
            said[name], took, worked, peak = run(command + files, extra)
            seconds.setdefault(name, []).append(took)
            work.setdefault(name, []).append(worked)
            memory[name] = max(peak, memory.get(name, 0))
    for kind, group in (("values", readers), ("bytes", unpackers)):
        if len({said[name] for name in group}) != 1:
            raise SystemExit(f"they saw different numbers of {kind}: {said}")
    median, cpu = ({name: statistics.median(of[name]) for name in everybody} for of in (seconds, work))
    print(f"{title}: {len(files)} files, {said['flowshelf']} values, {runs} runs in turn, medians")
    print(f"  {'':32} {'seconds':>8} {'of work':>8} {'MB':>5}  {'ours is faster':>14}")
    for name in everybody:
        print(f"  {name:32} {median[name]:8.3f} {cpu[name]:8.3f} {memory[name]:5.0f}  {median[name] / median['flowshelf']:13.2f}x")
    print("  flowshelf against only unzipping, each turn by itself:", *(
        f"{statistics.median(a / b for a, b in zip(of[ours], of[theirs])):.2f} times the {what},"
        for what, of, ours, theirs in (("time", seconds, "flowshelf", ONLY), ("work", work, "flowshelf", ONLY),
                                       ("time on one core", seconds, ONE_CORE, ONLY_ONE_CORE))), flush=True)


ONLY, ONLY_ONE_CORE, ONE_CORE = "only unzip, Go", "only unzip, Go, one core", "flowshelf, one core"


def main():
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    peer, missing = sheetjs(os.path.join(HERE, "..", "..", ".tools", "peers"))
    with tempfile.TemporaryDirectory() as scratch:
        subprocess.run([sys.executable, os.path.join(HERE, "flowsheets.py"), scratch], check=True)
        ours = os.path.join(scratch, "decodeall")
        subprocess.run(["go", "build", "-o", ours, "./testdata/bench-src/decodeall"], check=True)
        one = {"GOMAXPROCS": "1"}
        readers = {"flowshelf": ([ours], {}), ONE_CORE: ([ours], one), "openpyxl read_only": ([sys.executable, "-c", OPENPYXL], {})}
        if missing is None:
            readers["SheetJS"] = peer
        unpackers = {ONLY: ([ours, "-unzip"], {}), ONLY_ONE_CORE: ([ours, "-unzip"], one),
                     "only unzip, Python zipfile": ([sys.executable, "-c", ZIPFILE], {})}
        for kind, title in (("small", "flow sheets"), ("large", "one log of 50,000 cells")):
            folder = os.path.join(scratch, kind)
            files = [os.path.join(folder, name) for name in sorted(os.listdir(folder))]
            compare(title, files, readers, unpackers, runs)
    if missing is not None:
        print(f"SheetJS is left out: {missing}")


if __name__ == "__main__":
    main()
