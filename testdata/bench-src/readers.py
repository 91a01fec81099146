#!/usr/bin/python3
"""Compares whole processes that read the same workbooks: ours and openpyxl's
read-only mode, the fastest that openpyxl offers.

Usage: /usr/bin/python3 testdata/bench-src/readers.py [RUNS]

Run it in the project folder. It writes 200 small books and one large one to a
scratch folder, lets the readers take turns, checks that they saw the same
number of values, and prints median seconds, peak memory and the ratio. Start-up
of the interpreter and of our program is included. A peak below some 12 MB is
not seen: a process starts with that of this script.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time

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


def run(command):
    """Runs a process; returns its output, seconds and peak memory in MB."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    output = process.stdout.read()
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        raise SystemExit(f"{command[0]} failed")
    return output.strip(), seconds, usage.ru_maxrss / 1024


def compare(title, files, ours, runs):
    readers = {"openpyxl read_only": [sys.executable, "-c", OPENPYXL], "flowshelf": [ours]}
    seconds, memory, values = {name: [] for name in readers}, {}, {}
    for _ in range(runs):
        for name, command in readers.items():
            values[name], took, peak = run(command + files)
            seconds[name].append(took)
            memory[name] = max(peak, memory.get(name, 0))
    if len(set(values.values())) != 1:
        raise SystemExit(f"the readers saw different numbers of values: {values}")
    median = {name: statistics.median(took) for name, took in seconds.items()}
    print(f"{title}: {values['flowshelf']} values, {runs} runs")
    for name in readers:
        print(f"  {name:20} {median[name]:8.3f} s  {memory[name]:6.0f} MB")
    print(f"  ratio                {median['openpyxl read_only'] / median['flowshelf']:8.1f} times as fast")


def main():
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    here = os.path.dirname(os.path.abspath(__file__))
    with tempfile.TemporaryDirectory() as scratch:
        subprocess.run([sys.executable, os.path.join(here, "flowsheets.py"), scratch], check=True)
        ours = os.path.join(scratch, "decodeall")
        subprocess.run(["go", "build", "-o", ours, "./testdata/bench-src/decodeall"], check=True)
        for kind, title in (("small", "200 flow sheets"), ("large", "one log of 50,000 cells")):
            folder = os.path.join(scratch, kind)
            files = [os.path.join(folder, name) for name in sorted(os.listdir(folder))]
            compare(title, files, ours, runs)


if __name__ == "__main__":
    main()
