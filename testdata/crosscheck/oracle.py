"""Answers the questions of analysis/crosscheck with other people's libraries.

One JSON object on standard input, {"function": [[inputs], ...], ...}; the same
shape with the answers on standard output. Needs python3-scipy and python3-fluids.
"""
import json
import sys

import bench
import flow
import port
import trade


def main():
    functions = {**flow.FUNCTIONS, **port.FUNCTIONS, **bench.FUNCTIONS, **trade.FUNCTIONS}
    questions = json.load(sys.stdin)
    answers = {
        name: [[float(v) for v in functions[name](*inputs)] for inputs in questions[name]]
        for name in questions
    }
    json.dump(answers, sys.stdout)


main()
