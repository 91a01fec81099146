"""A neutral workbook: cells, merges, hidden parts, and beside them the truth
about every cell that holds a reading (or that a careless reader could take for
one)."""
from dataclasses import dataclass, field


@dataclass
class Val:
    """What goes into one cell. truth is None for a cell that is no reading."""
    v: object
    fmt: str = None
    truth: dict = None
    strike: bool = False
    colour: str = None
    bold: bool = False
    note: str = None       # cell comment
    formula: str = None    # v is then the stored result
    stored: bool = True    # False: the formula is saved without its result


def name(row, col):
    """1-based row and column as "AB14"."""
    letters = ""
    while col:
        col, rest = divmod(col - 1, 26)
        letters = chr(65 + rest) + letters
    return f"{letters}{row}"


@dataclass
class Sheet:
    name: str
    cells: dict = field(default_factory=dict)
    merges: list = field(default_factory=list)
    hidden_rows: set = field(default_factory=set)
    hidden_cols: set = field(default_factory=set)
    hidden: bool = False
    chart: bool = False   # a chart floats over the cells

    def put(self, row, col, val):
        if val is None:
            return
        if not isinstance(val, Val):
            val = Val(val)
        assert (row, col) not in self.cells, f"{self.name}!{name(row, col)} written twice"
        self.cells[row, col] = val

    def merge(self, r1, c1, r2, c2):
        if (r1, c1) != (r2, c2):
            self.merges.append((r1, c1, r2, c2))

    def shift(self, rows, cols):
        """Moves everything down and right: a table that does not start at A1.
        A formula is a function of the shift."""
        self.cells = {(r + rows, c + cols): v for (r, c), v in self.cells.items()}
        self.merges = [(a + rows, b + cols, c + rows, d + cols) for a, b, c, d in self.merges]
        self.hidden_rows = {r + rows for r in self.hidden_rows}
        self.hidden_cols = {c + cols for c in self.hidden_cols}
        for v in self.cells.values():
            if callable(v.formula):
                v.formula = v.formula(rows, cols)

    def end(self):
        return max((r for r, _ in self.cells), default=0), max((c for _, c in self.cells), default=0)


@dataclass
class Book:
    shape: str
    lang: str
    sheets: list = field(default_factory=list)
    lacks: list = field(default_factory=list)  # facts the book does not state
    file: str = ""
    writer: str = ""
    why: str = ""
    tab_speaks: bool = False  # the name of a tab says something: no CSV

    def sheet(self, title):
        s = Sheet(title)
        self.sheets.append(s)
        return s

    def truths(self):
        for s in self.sheets:
            for (r, c), v in sorted(s.cells.items()):
                if v.truth is not None:
                    yield dict(v.truth, file=self.file, sheet="" if self.file.endswith((".csv", ".txt")) else s.name,
                               cell=name(r, c), shape=self.shape, found=str(v.v))
