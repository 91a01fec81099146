// Package marked makes marked-up copies of people's workbooks: a coloured cell
// with a note for each thing somebody should look at, and a sheet that lists
// them all.
//
// A copy is the original, part by part and byte for byte, but for the few
// places that carry the marks: programs that open and save a workbook lose or
// misplace notes, drawings and macros of other programs' making.
package marked

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// Finding is one thing that somebody should know about a place in a workbook.
type Finding struct {
	Sheet    string // "" for the whole workbook
	Cell     string // "AB14", "" for the whole sheet
	Severity source.Severity
	Head     string
	Found    string // what stood there
	Message  string
	Hint     string
}

// ByFile returns the findings by the files they are about, a finding for each
// place that a problem concerns; the most urgent come first.
func ByFile(problems source.Problems) map[string][]Finding {
	out := make(map[string][]Finding)
	for _, p := range problems.Sorted() {
		for i, at := range append([]source.Ref{p.At}, p.Also...) {
			f := Finding{at.Sheet, at.Cell, p.Severity, p.Head, p.Found, p.Message, p.Hint}
			if i > 0 {
				f.Found = "" // that was said of the first place
			}
			if !slices.Contains(out[at.File], f) {
				out[at.File] = append(out[at.File], f)
			}
		}
	}
	for _, found := range out {
		slices.SortStableFunc(found, func(a, b Finding) int { return cmp.Compare(urgency(a.Severity), urgency(b.Severity)) })
	}
	return out
}

// urgency puts first what somebody can do something about.
func urgency(s source.Severity) int {
	switch s {
	case source.Asked:
		return 0
	case source.Refused:
		return 1
	case source.Noted:
		return 2
	default:
		return 3
	}
}

// Original is the workbook to copy.
type Original struct {
	Path    string // below the watched folder, with forward slashes
	Content []byte
}

// Limits bound the work on one workbook.
type Limits struct {
	UnzippedBytes int64
	Tags          int // elements of all its parts, begun and ended
	Findings      int // those beyond are counted on the list, not shown
}

var (
	errOurs     = errors.New("it is a workbook of ours")
	errDiffers  = errors.New("a cell of the copy came out otherwise than it stands in the original")
	errUnsealed = errors.New("the copy would not be known again as one of ours")
)

// Make returns a marked copy. Asked, refused and noted findings with a cell
// colour it and put a note on it, where none stands yet; the sheet Findings
// lists all. The error says in a few words why there can be no copy. The same
// input gives the same bytes.
func Make(original Original, findings []Finding, limits Limits) ([]byte, error) {
	w, err := openWorkbook(original.Content, limits)
	if err != nil {
		return nil, err
	}
	if _, ours, _, err := book.Identity(original.Content); ours || err != nil {
		return nil, cmp.Or(err, errOurs)
	}
	list := &list{original: original, rows: rowsOf(findings, limits.Findings), of: len(findings)}
	styles, err := w.styles()
	if err != nil {
		return nil, err
	}
	for _, s := range w.sheets {
		if err := w.mark(s, list.rows, styles); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.name, err)
		}
	}
	if err := w.addSheet("Findings", list.sheet(w, styles)); err != nil {
		return nil, err
	}
	w.save(styles.document)
	w.save(w.doc)
	w.save(w.rels.document)
	return w.seal(original)
}

// row is a finding and what was done about it.
type row struct {
	Finding
	done string
}

func rowsOf(findings []Finding, most int) []row {
	out := make([]row, 0, min(len(findings), most))
	for _, f := range findings[:min(len(findings), most)] {
		out = append(out, row{f, "listed here only"})
	}
	return out
}

// mark is what one cell gets: the colour of the worst finding and a note with
// the texts of all.
type mark struct {
	at       place
	severity source.Severity
	text     string
	rows     []int // findings it stands for
}

// mark puts the marks of one sheet.
func (w *workbook) mark(s sheet, rows []row, styles *styles) error {
	wanted := marksOf(s.name, rows)
	if len(wanted) == 0 {
		return nil
	}
	doc, err := w.document(s.part, 4) // the sheet, its cells, a row, a cell
	if err != nil {
		return err
	}
	p := &page{document: doc, styles: styles}
	p.anchors(wanted)
	marks := joined(wanted)
	if err := p.fill(marks); err != nil {
		return err
	}
	notes, err := w.notes(p)
	if err != nil {
		return err
	}
	var noted []mark
	for _, m := range marks {
		done := "colour and note"
		if notes.taken[m.at] {
			done = "colour only: the cell has a note of its own"
		} else {
			noted = append(noted, m)
		}
		for _, i := range m.rows {
			rows[i].done = done
		}
	}
	if len(noted) > 0 {
		if err := notes.add(noted); err != nil {
			return err
		}
	}
	w.save(doc)
	return nil
}

func marksOf(sheet string, rows []row) []mark {
	var out []mark
	for i, r := range rows {
		at, ok := placeOf(r.Cell)
		if r.Sheet != sheet || !ok || r.Severity == source.SetAside {
			continue
		}
		out = append(out, mark{at, r.Severity, r.note(), []int{i}})
	}
	return out
}

// joined puts the marks in order of place, those of one cell together.
func joined(marks []mark) []mark {
	slices.SortStableFunc(marks, func(a, b mark) int { return a.at.compare(b.at) })
	var out []mark
	for _, m := range marks {
		last := len(out) - 1
		if last < 0 || out[last].at != m.at {
			out = append(out, m)
			continue
		}
		if len(out[last].text) < longestNote {
			out[last].text += "\n\n" + m.text
		}
		out[last].severity = worse(out[last].severity, m.severity)
		out[last].rows = append(out[last].rows, m.rows...)
	}
	return out
}

// worse returns the severity that a cell of both is coloured for.
func worse(a, b source.Severity) source.Severity {
	rank := func(s source.Severity) int {
		return slices.Index([]source.Severity{source.Noted, source.Asked, source.Refused}, s)
	}
	if rank(b) > rank(a) {
		return b
	}
	return a
}

// The longest texts, in letters; a note must fit on a screen.
const (
	longestNote = 1500
	longestText = 2000
)

// note spells a finding for the cell itself.
func (f Finding) note() string {
	text := capital(inWords(f.Severity)) + ": " + f.Message
	if f.Hint != "" {
		text += "\n" + capital(f.Hint)
	}
	return cut(text, longestNote)
}

func inWords(s source.Severity) string {
	if s == source.SetAside {
		return "set aside"
	}
	return s.String()
}

func capital(s string) string {
	for i, r := range s {
		if i == 0 {
			return strings.ToUpper(string(r)) + s[len(string(r)):]
		}
	}
	return s
}

// cut shortens a text, and says so.
func cut(s string, most int) string {
	letters := []rune(strings.ToValidUTF8(strings.ReplaceAll(s, "\r\n", "\n"), "\ufffd"))
	if len(letters) <= most {
		return string(letters)
	}
	return string(letters[:most]) + " ... (cut)"
}

// fingerprint names a content in a few letters.
func fingerprint(content []byte) string {
	const letters = 12
	return fmt.Sprintf("%x", sha256.Sum256(content))[:letters]
}
