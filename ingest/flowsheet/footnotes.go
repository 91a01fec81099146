package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// footnote is a note that a mark points at.
type footnote struct {
	mark       string
	text       string
	cell       decode.Cell
	statements []statement
}

var (
	onlyInitials = regexp.MustCompile(`^\s*[A-Z]{2,3}\s*$`)
	footLine     = regexp.MustCompile(`^\s*(\*+|†+|‡+|#|§|¹|²|³|\^\d|\(\d\)|\[\d\])\s*(?:[=:]\s*)?(.{2,})$`)
)

// areInitials reports whether a text is nothing but the tester's initials: CFM
// and EXH are words of the trade.
func areInitials(text string) bool {
	if !onlyInitials.MatchString(text) {
		return false
	}
	_, unit := parse.FindFlowUnit(text)
	known := slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(text)), func(h words.Hit) bool { return h.Role != words.Power })
	return !unit && !known
}

func (r *reader) footnoteOf(page *layout.Page, c decode.Cell) (footnote, bool) {
	m := footLine.FindStringSubmatch(c.Text)
	if c.Kind != decode.Text || m == nil {
		return footnote{}, false
	}
	return footnote{m[1], strings.TrimSpace(m[2]), c, r.statements(m[2], r.trace(page, c))}, true
}

func (s *surroundings) addFootnote(n footnote) {
	if !slices.ContainsFunc(s.footnotes, func(o footnote) bool { return o.cell.Row == n.cell.Row && o.cell.Col == n.cell.Col }) {
		s.footnotes = append(s.footnotes, n)
	}
}

// bindFootnotes lets a footnote whose mark stands in a title line speak as that
// line does.
func (s *surroundings) bindFootnotes() {
	bind := func(sc scope) scope {
		for _, st := range slices.Clone(sc.statements) {
			for _, n := range s.footnotes {
				if st.facts.footmark == n.mark {
					sc.statements = append(sc.statements, n.statements...)
				}
			}
		}
		return sc
	}
	for t, sc := range s.blocks {
		s.blocks[t] = bind(sc)
	}
	s.page = bind(s.page)
}

// cover reads the conditions that another tab gives once for all: a small tab
// without lifts, named or looking like a cover.
func (r *reader) cover(page *layout.Page) scope {
	var out scope
	for _, other := range covers(page) {
		sc := r.scopeOf(other, allLines(other), nil)
		for _, st := range sc.statements {
			st.facts = st.facts.conditions()
			out.statements = append(out.statements, st)
		}
	}
	return out
}

// covers returns the other tabs of a book that give conditions for a page.
func covers(page *layout.Page) []*layout.Page {
	var out []*layout.Page
	for i := range page.Book.Sheets {
		if sheet := &page.Book.Sheets[i]; sheet.Name != page.Sheet.Name {
			if other := layout.NewPage(page.Path, page.Book, sheet); isCover(other) {
				out = append(out, other)
			}
		}
	}
	return out
}

// coverCells is how many cells a tab with nothing but conditions can have.
const coverCells = 80

// isCover reports whether a tab is named as one that gives conditions for the
// others, and holds no lifts of its own.
func isCover(page *layout.Page) bool {
	if page.Sheet.Hidden || len(page.Sheet.Cells) > coverCells {
		return false
	}
	hits := words.FlowSheet().Find(words.Tokens(page.Sheet.Name))
	named := slices.ContainsFunc(hits, func(h words.Hit) bool { return h.Role == words.Cover || h.Role == words.Note })
	return named && len(axes(layout.Plane{Page: page})) == 0
}

func allLines(page *layout.Page) []layout.Line {
	return layout.Lines(page, decode.Area{Top: 1, Left: 1, Bottom: page.Sheet.Rows(), Right: page.Sheet.Cols()})
}

// sideTabs recognises tabs that hold no curve and are read with those that do:
// a cover with the conditions, the calibration of the bench's ranges.
type sideTabs struct{}

// Name returns the stable name.
func (sideTabs) Name() string { return "conditions for other tabs" }

// Recognise claims what the other tabs of the book are read with.
func (s sideTabs) Recognise(page *layout.Page, about layout.Context) head.Records {
	if len(page.Sheet.Cells) > 200 || page.Sheet.Hidden || len(page.Unclaimed()) < len(page.Sheet.Cells) {
		return head.Records{}
	}
	r := &reader{names: namesOf(about), about: about}
	cover := isCover(page)
	calibration := calibrations{}
	r.calibrationsOn(layout.NewPage(page.Path, page.Book, page.Sheet), nil, calibration)
	if !cover && len(calibration) == 0 || !r.curvesElsewhere(page) {
		return head.Records{}
	}
	r.calibrationsOn(page, nil, calibrations{})
	for _, c := range page.Unclaimed() {
		page.Claim(c.Row, c.Col, layout.Claim{By: s.Name(), Used: cover, Why: "conditions for the other tabs"})
	}
	return head.Records{}
}

// curvesElsewhere reports whether another tab of the book holds readings.
func (r *reader) curvesElsewhere(page *layout.Page) bool {
	for i := range page.Book.Sheets {
		sheet := &page.Book.Sheets[i]
		if sheet.Name != page.Sheet.Name && !sheet.Hidden && len(r.tables(layout.NewPage(page.Path, page.Book, sheet))) > 0 {
			return true
		}
	}
	return false
}
