// Package status writes Folder status.xlsx: every file of the watched folder,
// what became of it and why.
package status

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// FileName is the workbook's name.
const FileName = "Folder status.xlsx"

// File is one file of the folder.
type File struct {
	Path     string // below the watched folder, with forward slashes
	State    State
	Why      string
	Changed  time.Time
	Read     time.Time
	Tables   int // tables found
	Readings Readings
	Note     string // next retry, copy of, kept under another name
}

// Readings are the flow readings of a file by what became of them. They add up:
// readings in are readings used, asked, set aside and refused.
type Readings struct{ Used, Asked, SetAside, Refused int }

// Sum returns how many readings came in.
func (r Readings) Sum() int { return r.Used + r.Asked + r.SetAside + r.Refused }

// State is what became of a file.
type State string

// The states.
const (
	Read       State = "read"
	Partly     State = "partly read"
	Waiting    State = "waiting"
	Skipped    State = "skipped"
	Refused    State = "refused"
	OwnOutput  State = "our own"
	Unreadable State = "cannot be read yet"
)

// Folder is the state of the whole folder at one moment.
type Folder struct {
	Shop      string
	Path      string // as the shop knows it
	Dated     time.Time
	Paper     head.Paper
	Reachable bool
	Message   string // the folder's own trouble, "" for none
	Files     []File
	Problems  source.Problems
	Answers   int    // answers in force, out of the questions workbook
	Up        string // the way from the workbook's folder to the watched folder
}

// Write returns the workbook.
func Write(f Folder) ([]byte, error) {
	b := book.New(book.Properties{ID: "folder status", Title: "Folder status", Subject: "what became of each file", Shop: f.Shop, Dated: f.Dated, Paper: f.Paper})
	f.files(b.Sheet("Files"))
	f.problems(b.Sheet("Problems"))
	return b.Bytes()
}

const header = 6

func (f Folder) files(s *book.Sheet) {
	s.Say(1, 1, "Folder status", book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s, %s", f.Shop, f.Path, f.Dated.Format("2006-01-02 15:04")), book.Subtitle)
	s.Say(3, 1, f.inWords(), book.Style{Bold: true})
	s.Say(4, 1, "Readings in = readings used + asked + set aside + refused. Files are never moved, renamed or changed.", book.Note)
	files := slices.Clone(f.Files)
	slices.SortStableFunc(files, func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
	body := book.Table[File]{Name: "Files", Columns: f.fileColumns(), Rows: files}.Write(s, header, 1)
	if len(files) == 0 {
		s.Say(header+1, 1, "No file has been seen in the folder.", book.Style{})
	} else {
		f.totals(s, body.ToRow+1, files)
	}
	s.Freeze(header, 1)
	s.Print(book.Print{RepeatFrom: header, RepeatTo: header, Basis: "state of the watched folder"})
}

func (f Folder) inWords() string {
	if !f.Reachable {
		return "The folder cannot be reached. Nothing is dropped: the last results stand. " + f.Message
	}
	if f.Message != "" {
		return f.Message
	}
	words := fmt.Sprintf("Files: %d, of them read: %d. Open questions: %d.", len(f.Files), f.count(Read, Partly), len(f.Problems.Open()))
	if f.Answers > 0 {
		words += fmt.Sprintf(" Answers taken over: %d.", f.Answers)
	}
	return words
}

func (f Folder) count(states ...State) int {
	n := 0
	for _, file := range f.Files {
		if slices.Contains(states, file.State) {
			n++
		}
	}
	return n
}

// counts are the columns that add up at the foot of the table.
var counts = [...]struct {
	title string
	of    func(File) int
}{
	{"Tables", func(f File) int { return f.Tables }},
	{"Readings in", func(f File) int { return f.Readings.Sum() }},
	{"used", func(f File) int { return f.Readings.Used }},
	{"asked", func(f File) int { return f.Readings.Asked }},
	{"set aside", func(f File) int { return f.Readings.SetAside }},
	{"refused", func(f File) int { return f.Readings.Refused }},
}

const firstCount = 4 // column of the first of counts

func (f Folder) fileColumns() []book.Column[File] {
	wrapped := book.Body.Wrapped()
	out := []book.Column[File]{
		{Title: "File", Width: 32, Style: wrapped, Value: func(x File) book.Value { return book.Text(x.Path) },
			Link: func(x File) book.Link { return book.ToSource(f.Up, source.Ref{File: x.Path}) }},
		{Title: "State", Width: 13, Style: book.Body.Strong(), Value: func(x File) book.Value { return book.Text(string(x.State)) }},
		{Title: "Why", Width: 34, Style: wrapped, Value: func(x File) book.Value { return book.Text(x.Why) }},
	}
	for _, c := range counts {
		out = append(out, book.Column[File]{Title: c.title, Width: 8, Style: book.Body.As(book.Flow), Value: func(x File) book.Value { return book.Count(c.of(x)) }})
	}
	return append(out,
		book.Column[File]{Title: "Changed", Width: 15, Style: book.Body.As("yyyy-mm-dd hh:mm"), Value: func(x File) book.Value { return book.Moment(x.Changed) }},
		book.Column[File]{Title: "Read", Width: 15, Style: book.Body.As("yyyy-mm-dd hh:mm"), Value: func(x File) book.Value { return book.Moment(x.Read) }},
		book.Column[File]{Title: "Remark", Width: 44, Style: wrapped.Indented(), Value: func(x File) book.Value { return book.Text(x.Note) }},
	)
}

// totals writes the sums of the counts, as figures and as formulas both.
func (f Folder) totals(s *book.Sheet, row int, files []File) {
	total := book.Style{Bold: true, Top: book.Thin, Format: book.Flow}
	s.Say(row, 1, "All files", total)
	s.Fill(row, 2, firstCount-1, total)
	for i, c := range counts {
		sum := 0
		for _, file := range files {
			sum += c.of(file)
		}
		col := firstCount + i
		formula := fmt.Sprintf("SUM(%s:%s)", book.CellName(header+1, col), book.CellName(row-1, col))
		s.Formula(row, col, formula, book.Count(sum), total)
	}
}

func (f Folder) problems(s *book.Sheet) {
	s.Say(1, 1, "Everything somebody should know", book.Title)
	s.Say(2, 1, "Noted: used all the same. Asked: waits for an answer in Questions.xlsx. Set aside: understood, not data. Refused: cannot be true, or cannot be read.", book.Subtitle)
	const top = 4
	rows := f.Problems.Sorted()
	slices.SortStableFunc(rows, func(a, b source.Problem) int { return cmp.Compare(urgency(a), urgency(b)) })
	b := book.Body.Wrapped()
	words := func(title string, width float64, of func(source.Problem) string) book.Column[source.Problem] {
		return book.Column[source.Problem]{Title: title, Width: width, Style: b, Value: func(p source.Problem) book.Value { return book.Text(of(p)) }}
	}
	file := words("File", 28, func(p source.Problem) string { return p.At.File })
	file.Link = func(p source.Problem) book.Link { return book.ToSource(f.Up, p.At) }
	table := book.Table[source.Problem]{Name: "Problems", Rows: rows, Columns: []book.Column[source.Problem]{
		words("What became of it", 12, func(p source.Problem) string { return inWords(p.Severity) }),
		file,
		words("Sheet", 12, func(p source.Problem) string { return p.At.Sheet }),
		words("Cell", 7, func(p source.Problem) string { return p.At.Cell }),
		words("Head", 11, func(p source.Problem) string { return p.Head }),
		words("Found there", 13, func(p source.Problem) string { return p.Found }),
		words("What is wrong", 36, func(p source.Problem) string { return p.Message }),
		words("What to do", 30, func(p source.Problem) string { return p.Hint }),
		words("Kind", 17, func(p source.Problem) string { return p.Kind }),
	}}
	table.Write(s, top, 1)
	if len(rows) == 0 {
		s.Say(top+1, 1, "Nothing.", book.Style{})
	}
	s.Freeze(top, 2)
	s.Print(book.Print{RepeatFrom: top, RepeatTo: top, Basis: "state of the watched folder"})
}

// urgency puts first what somebody can do something about.
func urgency(p source.Problem) int {
	return map[source.Severity]int{source.Asked: 0, source.Refused: 1, source.SetAside: 2, source.Noted: 3}[p.Severity]
}

func inWords(s source.Severity) string {
	return [...]string{"noted", "asked", "set aside", "refused"}[s]
}
