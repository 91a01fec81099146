"""Probabilities and least squares, by scipy.stats and numpy."""
import numpy as np
from scipy import stats

BENCHES = 4


def beats(a, ua, b, ub, rho):
    return [stats.norm.sf(0, loc=a - b, scale=np.sqrt(ua**2 + ub**2 - 2 * rho * ua * ub))]


def paired(*values):
    n = len(values) // 2
    logs = np.log(np.array(values[n:]) / np.array(values[:n]))
    test = stats.ttest_1samp(logs, 0)
    low, high = test.confidence_interval(0.95)
    return [logs.mean(), stats.sem(logs), 100 * np.expm1(low), 100 * np.expm1(high)]


def compare(*values):
    """Heads down, benches across, 0 where not read; the first bench is the shop's.

    All heads and benches at once by singular values, nothing eliminated.
    """
    table = np.array(values).reshape(-1, BENCHES)
    heads = len(table)
    rows, right = [], []
    for h, b in zip(*np.nonzero(table)):
        row = np.zeros(heads + BENCHES - 1)
        row[h] = 1
        if b:
            row[heads + b - 1] = 1
        rows.append(row)
        right.append(np.log(table[h, b]))
    a, y = np.array(rows), np.array(right)
    fit = np.linalg.lstsq(a, y, rcond=None)[0]
    rss = ((y - a @ fit) ** 2).sum()
    cov = rss / (len(y) - a.shape[1]) * np.linalg.inv(a.T @ a)
    return [*fit[heads:], *np.sqrt(np.diag(cov)[heads:]), *np.exp(fit[:heads])]


def lambda_fit(sigma, *values):
    """The prior as one more observation of a weighted least-squares fit."""
    n = len(values) // 2
    f, y = np.array(values[:n]), np.array(values[n:])
    a = np.append(f / sigma, 1 / 0.29)
    b = np.append(y / sigma, 0.5 / 0.29)
    best = np.linalg.lstsq(a[:, None], b, rcond=None)[0][0]
    return [min(max(best, 0), 1.5), 1 / np.sqrt((a**2).sum())]


def critical_range(n):
    return [stats.studentized_range.ppf(0.95, int(n), np.inf)]


FUNCTIONS = {
    "beats": beats,
    "paired benches": paired,
    "compared benches": compare,
    "lambda": lambda_fit,
    "critical range": critical_range,
}
