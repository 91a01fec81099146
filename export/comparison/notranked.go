package comparison

import (
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// why is one reason of one head that has no place, or one problem behind it.
type why struct {
	compare.NotRanked
	standing string
	problem  source.Problem
}

// notRanked lists every head that was left out and what would bring it in, then
// everything else that was found in the family's books.
func (w *writer) notRanked(s *book.Sheet) {
	header := w.page(s, "Not ranked: who, why, and what would help",
		"Links open the file at the cell. A head is never left out without a line here.")
	s.Width(1, 15, 9, 27, 22, 10, 20, 11, 6, 11, 28, 26)
	w.paper(s, header, book.Print{})
	var rows []why
	for _, n := range w.NotRanked {
		standing := "left out"
		if n.Held {
			standing = "held"
		}
		if len(n.Problems) == 0 {
			rows = append(rows, why{NotRanked: n, standing: standing})
		}
		for _, p := range n.Problems.Sorted() {
			rows = append(rows, why{n, standing, p})
		}
	}
	rows = append(rows, w.withoutPlace()...)
	row := book.Table[why]{Name: "LeftOut", Columns: w.whyColumns(), Rows: rows}.Write(s, header, 1).ToRow
	s.Freeze(header, 1)
	if len(rows) == 0 {
		s.Say(row, 1, "Every head of this family is ranked.", book.Style{})
	}
	if found := w.remarks(); len(found) > 0 {
		s.Say(row+2, 1, "Everything found in this family's books", book.Section)
		book.Table[why]{Columns: w.whyColumns(), Rows: found}.WriteBody(s, row+3, 1)
	}
}

// withoutPlace are the heads that are shown without a place, and what each wants
// for one.
func (w *writer) withoutPlace() []why {
	var out []why
	add := func(e compare.Entry, standing, reason string, missing ...string) {
		out = append(out, why{NotRanked: compare.NotRanked{Label: e.Label, Reason: reason, Missing: missing}, standing: standing})
	}
	for _, e := range w.Unpriced {
		add(e, e.Cost.Without(), e.Cost.Missing, e.Cost.Wants...)
	}
	const ownTest = "a flow test of one on our own bench"
	for _, e := range w.BelowLine {
		add(e, "below the line", "its supplier's own sheet, never ranked against tests", ownTest)
	}
	for _, e := range w.Advertised {
		add(e, "advertised", "a claim, never ranked against tests", ownTest)
	}
	return out
}

func (w *writer) whyColumns() []book.Column[why] {
	b := book.Body.Wrapped()
	words := func(title string, of func(why) string) book.Column[why] {
		return book.Column[why]{Title: title, Style: b, Value: func(r why) book.Value { return book.Text(of(r)) }}
	}
	columns := []book.Column[why]{
		words("Head and state", func(r why) string { return r.Label }),
		words("Standing", func(r why) string { return r.standing }),
		words("Why", func(r why) string { return r.Reason }),
		words("What is missing", func(r why) string { return strings.Join(r.Missing, "; ") }),
		words("What became of it", func(r why) string { return became(r.problem) }),
	}
	return append(columns, placeOf(w.opts.Up, b, func(r why) source.Problem { return r.problem })...)
}

// placeOf are the columns that say where a problem stands and what to do.
func placeOf[T any](up string, b book.Style, of func(T) source.Problem) []book.Column[T] {
	words := func(title string, get func(source.Problem) string) book.Column[T] {
		return book.Column[T]{Title: title, Style: b, Value: func(r T) book.Value { return book.Text(get(of(r))) }}
	}
	file := words("File", func(p source.Problem) string { return p.At.File })
	file.Link = func(r T) book.Link { return book.ToSource(up, of(r).At) }
	return []book.Column[T]{
		file,
		words("Sheet", func(p source.Problem) string { return p.At.Sheet }),
		words("Cell", func(p source.Problem) string { return p.At.Cell }),
		words("Found there", func(p source.Problem) string { return p.Found }),
		words("What is wrong", func(p source.Problem) string { return p.Message }),
		words("What to do", func(p source.Problem) string { return p.Hint }),
	}
}

func became(p source.Problem) string {
	if p.Message == "" {
		return ""
	}
	return [...]string{"noted", "asked", "set aside", "refused"}[p.Severity]
}

// remarks are the problems of the family's books, those of ranked heads too, in
// the columns of the heads left out: what is missing of a question is its answer.
func (w *writer) remarks() []why {
	var out []why
	for _, p := range slices.Concat(w.Questions, w.Problems).Sorted() {
		row := why{NotRanked: compare.NotRanked{Label: p.Head}, problem: p}
		if q := p.Question; q != nil {
			row.Reason = q.Text
			if q.Changes != "" {
				row.Missing = []string{"an answer; it changes " + q.Changes}
			}
		}
		out = append(out, row)
	}
	return out
}
