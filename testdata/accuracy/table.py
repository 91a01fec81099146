"""Lays a table of any shape down on a sheet: lift axis, columns under one to
three rows of headers, rows between the readings."""
from dataclasses import dataclass, field

from paper import Val


@dataclass
class Col:
    heads: list              # header words from the top row down
    cells: list              # a Val or None for each row
    unit: object = None      # in the units row


@dataclass
class Table:
    cols: list
    orient: str = "down"     # "across": columns become rows
    top: str = "merged"      # upper header rows: merged, first (typed once), each (typed over every column)
    units: bool = False      # a units row under the header
    repeat: tuple = ()       # row numbers before which the header is printed again
    gap: int = 0             # empty columns after the first
    above: list = field(default_factory=list)

    def levels(self):
        return max(len(c.heads) for c in self.cols)

    def height(self):
        rows = max(len(c.cells) for c in self.cols)
        return rows + self.levels() * (1 + len(self.repeat)) + (1 if self.units else 0)

    def size(self):
        wide = len(self.cols) + self.gap
        return (self.height(), wide) if self.orient == "down" else (wide, self.height())

    def lay(self, sheet, row, col):
        """Writes the table with its corner at row, col."""
        def put(r, c, v):
            if self.orient == "down":
                sheet.put(row + r, col + c, v)
            else:
                sheet.put(row + c, col + r, v)

        def header(r):
            n = self.levels()
            for level in range(n):
                start, last = 0, None
                for i, c in enumerate(self.cols):
                    words = [None] * (n - len(c.heads)) + list(c.heads)
                    word = words[level]
                    key = tuple(words[:level + 1])
                    lower = level < n - 1
                    fresh = not lower or word is None or key != last or self.top == "each"
                    if fresh and word is not None:
                        put(r + level, place(i), copy(word))
                    if lower and key != last:
                        self._merge(sheet, row, col, r + level, place(start), place(i) - 1, last)
                        start, last = i, key
                if level < n - 1:
                    self._merge(sheet, row, col, r + level, place(start), place(len(self.cols)) - 1, last)
            return r + n

        def place(i):
            return i + (self.gap if i > 0 else 0)

        r = header(0)
        if self.units:
            for i, c in enumerate(self.cols):
                put(r, place(i), copy(c.unit))
            r += 1
        for k in range(max(len(c.cells) for c in self.cols)):
            if k in self.repeat:
                r = header(r)
            for i, c in enumerate(self.cols):
                if k < len(c.cells):
                    put(r, place(i), c.cells[k])
            r += 1
        h, w = self.size()
        return row + h - 1, col + w - 1

    def _merge(self, sheet, row, col, r, c1, c2, key):
        if self.top != "merged" or key is None or key[-1] is None or c2 <= c1:
            return
        if self.orient == "down":
            sheet.merge(row + r, col + c1, row + r, col + c2)
        else:
            sheet.merge(row + c1, col + r, row + c2, col + r)


def copy(word):
    """Header words may be printed several times; each print is a cell of its own."""
    if isinstance(word, Val):
        return Val(word.v, word.fmt, note=word.note)
    return word
