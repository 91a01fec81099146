"""Value, by scipy.stats and scipy.spatial."""
import numpy as np
from scipy.spatial import ConvexHull
from scipy.stats import theilslopes


def theil_sen(*values):
    n = len(values) // 2
    return [theilslopes(values[n:], values[:n])[0]]


def frontier(*values):
    """The lower hull of cost over flow from the cheapest offer to the largest flow.

    Qhull's facets with the outward normal toward less cost and more flow.
    """
    n = len(values) // 2
    points = np.column_stack([values[:n], values[n:]])
    hull = ConvexHull(points)
    on = set()
    for (dflow, dcost, _), simplex in zip(hull.equations, hull.simplices):
        if dcost < 0 and dflow > 0:
            on.update(int(i) for i in simplex)
    # No facet faces that way when one offer is cheapest and largest at once.
    if not on:
        on = {int(np.argmin(points[:, 1]))}
    member = [float(i in on) for i in range(n)]
    order = sorted(on, key=lambda i: points[i, 0])
    rates = [
        (points[b, 1] - points[a, 1]) / (points[b, 0] - points[a, 0])
        for a, b in zip(order, order[1:])
    ]
    return member + rates


FUNCTIONS = {"theil-sen": theil_sen, "frontier": frontier}
