// Package lists reads tables of records with a header row: price lists, stock
// books, dimension sheets, extras, the rework menu, the bench log, enquiries,
// notes and the matching key. One machine finds a header row by the words of a
// kind's columns and reads lines until the table ends; each kind says which
// words those are and what a line means.
package lists

import (
	"regexp"

	"flowshelf/analysis/head"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// role is what a column means to its kind.
type role string

// key is the role that names what a line is about.
const key role = "head"

// column is one meaning and the titles it goes by.
type column struct {
	role   role
	titles *regexp.Regexp
	says   func(title string) bool // in place of titles, where a pattern does not do
	many   bool                    // may stand several times, such as prices
}

func (c column) matches(title string) bool {
	if c.says != nil {
		return c.says(title)
	}
	return c.titles.MatchString(title)
}

// kind is one shape of list.
type kind struct {
	name    string
	columns []column // the first that matches a title wins
	needs   []role
	any     []role // at least `least` of these as well
	least   int
	flows   bool     // the titles may speak of flow
	dated   bool     // titles may be dates: months of sales
	across  bool     // lines may also run down the sheet, one head a column
	hints   []string // parts of titles, in lower case, one of which stands on a page across
	// proof decides whether the lines are what they look like; words alone are
	// found in any workbook.
	proof func(t *table, about layout.Context) bool
	read  func(r *reader)
}

// names reports whether a title goes for a role.
func (k kind) names(want role, title string) bool {
	for _, c := range k.columns {
		if c.role == want {
			return c.matches(parse.Squeeze(title))
		}
	}
	return false
}

// ofReadings is the title of a column that only a table of flow readings has. A
// header with one is left to the recognisers of flow sheets.
var ofReadings = regexp.MustCompile(`(?i)\b(cfm|flow|l/s|m3/h|m³/h)\b|^(valve )?(lift|hub)( (in|mm))?$|^[@l]?\s*0?\.\d{2,3}\b`)

// Unmistakable returns the recognisers of lists whose header cannot stand over
// flow readings, in the order they are tried. They come before the recognisers
// of flow sheets, to which valve sizes and a maximum lift look like a test.
func Unmistakable() []layout.Recogniser {
	return all(matchingKey(), stockBook(), salesBook(), dimensionSheet(), extrasList(), reworkMenu(), benchLog(), enquiryList())
}

// Others returns the recognisers of lists that take what flow sheets leave: a
// price or a remark also stands beside readings.
func Others() []layout.Recogniser {
	others := append(all(noteList(), priceList()), priceText{}, unnamedEnquiries{})
	var names []string
	for _, r := range append(Unmistakable(), others...) {
		names = append(names, r.Name())
	}
	return append(others, looseText{names})
}

// Recognisers returns every recogniser of lists.
func Recognisers() []layout.Recogniser { return append(Unmistakable(), Others()...) }

func all(kinds ...kind) []layout.Recogniser {
	out := make([]layout.Recogniser, 0, len(kinds))
	for _, k := range kinds {
		out = append(out, recogniser{k})
	}
	return out
}

type recogniser struct{ kind }

// Name implements layout.Recogniser.
func (r recogniser) Name() string { return r.name }

// Recognise implements layout.Recogniser.
func (r recogniser) Recognise(page *layout.Page, about layout.Context) head.Records {
	if !r.mayHold(page) {
		return head.Records{}
	}
	v := upright(page)
	tables := findTables(v, r.kind)
	if len(tables) == 0 && r.across {
		v = turned(page)
		tables = findTables(v, r.kind)
	}
	tables = r.proven(tables, about)
	shareNotes(tables)
	var out head.Records
	for _, t := range tables {
		rd := newReader(t, about)
		r.read(rd)
		rd.account()
		out.Append(rd.records)
	}
	return out
}

func (r recogniser) proven(tables []*table, about layout.Context) []*table {
	var out []*table
	for _, t := range tables {
		if len(t.lines) > 0 && r.proof(t, about) {
			out = append(out, t)
		}
	}
	return out
}
