package main

import (
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest"
)

// result is what one pass over a folder came to.
type result struct {
	folder    string
	output    string // our folder, as a person would open it
	date      time.Time
	files     []file
	waiting   map[string]string // files not taken over in their newest form, and why
	unmarked  map[string]string // files that have no marked copy, and why
	problems  source.Problems
	replies   ingest.Replies
	answers   head.Answers // of the replies, those that settle their questions
	families  []compare.Comparison
	sums      []string // fingerprints of the families
	docs      documents
	workbooks []publish.Outcome
}

// file is what became of one file of the folder.
type file struct {
	path     string
	read     ingest.FileRead
	tables   int
	readings counts // flow readings
	rows     counts // rows of price lists, stock books and other lists
}

// counts are values by what became of them; they add up to what came in.
type counts struct {
	Used     int `json:"used"`
	Asked    int `json:"asked"`
	SetAside int `json:"set_aside"`
	Refused  int `json:"refused"`
}

func (c *counts) add(s head.Status) {
	switch s {
	case head.Used:
		c.Used++
	case head.Asked:
		c.Asked++
	case head.SetAside:
		c.SetAside++
	case head.Refused:
		c.Refused++
	}
}

func (c counts) plus(o counts) counts {
	return counts{c.Used + o.Used, c.Asked + o.Asked, c.SetAside + o.SetAside, c.Refused + o.Refused}
}

func (c counts) total() int { return c.Used + c.Asked + c.SetAside + c.Refused }

// filesOf counts what each file of the folder holds. The statuses are those of
// the whole reading, where the names of heads are settled; a reading that the
// comparison refused counts as refused.
func filesOf(read ingest.Reading, families []compare.Comparison) []file {
	refused := refusedCells(families)
	out := make([]file, len(read.Files))
	at := make(map[string]*file, len(out))
	for i, f := range read.Files {
		out[i] = file{path: f.Path, read: f}
		at[f.Path] = &out[i]
	}
	for i := range read.Records.Tests {
		t := &read.Records.Tests[i]
		if f := at[t.At.File]; f != nil {
			f.tables++
			for _, r := range t.Readings {
				status := readingStatus(t, r)
				if _, bad := refused[r.Flow.Trace.At]; bad {
					status = head.Refused
				}
				f.readings.add(status)
			}
		}
	}
	seen := make(map[[3]string]bool)
	for _, row := range listRows(read.Records) {
		f, table := at[row.at.File], [3]string{row.at.File, row.at.Sheet, row.kind}
		if f == nil {
			continue
		}
		f.rows.add(row.status)
		if !seen[table] {
			seen[table] = true
			f.tables++
		}
	}
	return out
}

// refusedCells returns the cells whose readings the comparison refused, with
// the reason.
func refusedCells(families []compare.Comparison) map[source.Ref]string {
	cells := make(map[source.Ref]string)
	for _, c := range families {
		for _, p := range c.Problems {
			if p.Severity == source.Refused && p.At.Cell != "" {
				cells[p.At] = p.Message
			}
		}
	}
	return cells
}

// sum returns the readings and the list rows of all files.
func (r result) sum() (readings, rows counts) {
	for _, f := range r.files {
		readings, rows = readings.plus(f.readings), rows.plus(f.rows)
	}
	return readings, rows
}

// open reports whether a person has something to look at: a question, a file or
// value that was not used, a workbook that does not stand under its name.
func (r result) open() bool {
	for _, f := range r.files {
		if f.read.State != ingest.Read {
			return true
		}
	}
	for _, p := range r.problems {
		if p.Severity == source.Asked || p.Severity == source.Refused {
			return true
		}
	}
	for _, w := range r.workbooks {
		if w.State == publish.Numbered || w.State == publish.Blocked || w.Kept != "" || w.Beside != "" {
			return true
		}
	}
	return false
}

// having returns the problems of one severity, in order.
func (r result) having(s source.Severity) source.Problems {
	var out source.Problems
	for _, p := range r.problems.Sorted() {
		if p.Severity == s {
			out = append(out, p)
		}
	}
	return out
}

// allBlocked reports whether no workbook stands as it should.
func (r result) allBlocked() bool {
	for _, w := range r.workbooks {
		if w.State != publish.Blocked {
			return false
		}
	}
	return len(r.workbooks) > 0
}
