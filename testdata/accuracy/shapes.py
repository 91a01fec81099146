"""The registry of shapes and what they share."""
import world
from job import Job, not_reading, number_like, shown
from table import Col, Table

SHAPES = {}  # name -> (weight, composer)


def shape(title, weight=1.0):
    def register(f):
        SHAPES[title] = (weight, f)
        return f
    return register


def job(rng, title, **how):
    return Job(rng, title, **how)


def one_head(j, kind=None):
    if kind is None and j.style.lift == "mm" and j.some(.6):
        kind = "four"
    return world.heads(j.rng, 1, kind)[0]


def ports_of(j, both=.85):
    return ["intake", "exhaust"] if j.some(both) else ["intake"]


def simple_cols(j, head, lifts, ports=None, **facts):
    """Lift column and one column a port."""
    lift, said = j.lift_col(lifts)
    cols = [lift]
    ports = ports or ports_of(j)
    if len(ports) == 2 and j.lang == "en" and j.some(.12):
        j.ports = j.rng.choice([("In", "Ex"), ("I", "E"), ("IN", "EX")])
    elif len(j.ports[0]) < 3:
        j.ports = j.rng.choice([p for p in j.style.words["ports"] if len(p[0]) > 2])
    for p in ports:
        cols.append(Col([j.port_header(p)], j.curve(head, p, said, **facts), j.unit()))
    return cols


def table(j, cols, **how):
    how.setdefault("units", j.unit_at == "units row")
    return Table(cols, **how)


def simple_sheet(j, sheet, head, lifts=None, facts=None, ports=None, table_how=None, **title):
    """One head, one plain table: what most shapes vary. Returns the columns,
    the table and the place of its corner."""
    lifts = lifts or j.style.lifts(head.top)
    if j.some(.12) and j.unit_at != "nowhere":
        j.unit_at = "banner"  # "Flow, cfm" over all ports
    row = j.title(sheet, j.letterhead(sheet), head=head, **title)
    cols = simple_cols(j, head, lifts, ports, **(facts or {}))
    if j.unit_at == "banner":
        flow = f"{j.rng.choice(['Flow', 'Flow rate', 'Airflow']) if j.lang == 'en' else j.style.words['flow'][0]} {j.unit()}"
        for c in cols[1:]:
            c.heads = [flow] + c.heads
    t = table(j, cols, **(table_how or {}))
    t.lay(sheet, row, 1)
    return cols, t, row


def summary(j, word, cols, rule, blank=False):
    """Adds a summary row under the columns: rule makes a number of a curve."""
    from paper import Val
    cols[0].cells.append(None if blank else Val(word))
    for c in cols[1:]:
        readings = [shown(v) for v in c.cells if v is not None and v.truth and v.truth.get("want") == "used"]
        c.cells.append(not_reading(number_like(j, rule(readings)), "summary row"))
