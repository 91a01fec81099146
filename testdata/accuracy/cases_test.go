package accuracy_test

import (
	"cmp"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"flowshelf/ingest"
	"flowshelf/ingest/decode"
)

// caseLog collects what went wrong, by cause: the same complaint about the
// same shape in any number of files is one case.
type caseLog struct {
	cases map[string]*failure
}

// failure is one cause: of a wrong reading within one shape, of anything else
// within all.
type failure struct {
	shape  string // of the first file
	rank   rank
	cause  string
	cells  int
	files  []example
	shapes map[string]int // cells
}

type example struct {
	b  book
	at string
}

// rank orders failures, the worst first.
type rank int

const (
	silentRank rank = iota
	misstatedRank
	unaskedRank
	unusedRank
	lostRank
	needlessRank
)

// String names a rank.
func (r rank) String() string {
	return [...]string{"SILENTLY WRONG", "CONDITION MISSTATED", "nothing asked", "not used", "condition lost", "needless question"}[r]
}

var (
	places = regexp.MustCompile(`at [^;]*, cell [A-Z]+[0-9]+`)
	digits = regexp.MustCompile(`[0-9]+([.,][0-9]+)?`)
	quoted = regexp.MustCompile(`"[^"]*"`)
)

// note files the failures of one book.
func (l *caseLog) note(b book, read ingest.FileRead, verdicts []verdict) {
	if l.cases == nil {
		l.cases = map[string]*failure{}
	}
	for _, v := range verdicts {
		switch {
		case v.outcome == silent:
			l.add(b, silentRank, v.what, v.at)
		case v.what != "" && read.Kind != "":
			l.add(b, unusedRank, "the file as a whole: "+read.Reason, v.at)
		case v.outcome == missed:
			l.add(b, unusedRank, "not read, though other cells are", v.at)
		case v.what != "":
			l.add(b, unusedRank, v.what, v.at)
		}
		for _, c := range v.misstated {
			l.add(b, misstatedRank, c, v.at)
		}
		for _, c := range v.lost {
			l.add(b, lostRank, c, v.at)
		}
	}
	if fact := unasked(b, read); fact != "" {
		l.add(b, unaskedRank, "leaves out "+fact+" and nobody is asked about it", kinds(read))
	}
	if len(b.Lacks) == 0 && onlyUsed(b) {
		for _, p := range questions(read) {
			l.add(b, needlessRank, p.Kind+" "+p.Severity.String()+": "+p.Message, p.At.Cell)
		}
	}
}

func (l *caseLog) add(b book, r rank, cause, at string) {
	// The reading itself is no part of the cause.
	short, _, _ := strings.Cut(cause, " -> ")
	short = places.ReplaceAllString(short, "at ...")
	short = digits.ReplaceAllString(short, "#")
	short = quoted.ReplaceAllString(short, `"..."`)
	key := fmt.Sprintf("%d|%s", r, short)
	if r == silentRank {
		key += b.Shape
	}
	f := l.cases[key]
	if f == nil {
		f = &failure{shape: b.Shape, rank: r, cause: cause}
		l.cases[key] = f
	}
	f.cells++
	if n := len(f.files); n == 0 || f.files[n-1].b.File != b.File {
		f.files = append(f.files, example{b, at})
	}
	if f.shapes == nil {
		f.shapes = map[string]int{}
	}
	f.shapes[b.Shape]++
}

// sorted puts the worst first, the most frequent first among equals.
func (l *caseLog) sorted() []*failure {
	var out []*failure
	for _, f := range l.cases {
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b *failure) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.cells, a.cells), cmp.Compare(a.shape, b.shape), cmp.Compare(a.cause, b.cause))
	})
	return out
}

func (f *failure) String() string {
	var names []string
	for _, e := range f.examples(3) {
		names = append(names, fmt.Sprintf("%s %s", e.b.File, e.at))
	}
	var where []string
	for _, s := range slices.Sorted(maps.Keys(f.shapes)) {
		where = append(where, fmt.Sprintf("%s %d", s[:3], f.shapes[s]))
	}
	return fmt.Sprintf("%s, %s: %s; %d cells in %d files (%s): %s",
		f.rank, f.shape, f.cause, f.cells, len(f.files), strings.Join(where, ", "), strings.Join(names, ", "))
}

// examples are up to n files, of different shapes as far as there are any.
func (f *failure) examples(n int) []example {
	var out, more []example
	seen := map[string]bool{}
	for _, e := range f.files {
		if seen[e.b.Shape] {
			more = append(more, e)
			continue
		}
		seen[e.b.Shape] = true
		out = append(out, e)
	}
	out = append(out, more...)
	return out[:min(n, len(out))]
}

func (l *caseLog) worst(n int) string {
	var b strings.Builder
	for _, f := range l.sorted()[:min(n, len(l.cases))] {
		fmt.Fprintf(&b, "  %s\n", f)
	}
	return b.String()
}

// write lists the cases with what the first sheet of each says, and copies the
// sheets beside the list.
func (l *caseLog) write(t *testing.T, dir, path, head string) {
	t.Helper()
	cases := strings.TrimSuffix(strings.TrimSuffix(path, filepath.Ext(path)), "-findings") + "-cases"
	if err := os.RemoveAll(cases); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(cases, 0o755); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Failures of the reading, worst first (files in %s)\n\n```\n%s```\n", cases, head)
	for _, f := range l.sorted() {
		fmt.Fprintf(&b, "\n- %s\n", f)
		for i, e := range f.examples(6) {
			content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(e.b.File)))
			if err == nil {
				err = os.WriteFile(filepath.Join(cases, strings.ReplaceAll(e.b.File, "/", "_")), content, 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
			if i < 3 && f.rank <= unusedRank {
				fmt.Fprintf(&b, "  `%s` %s %s\n", e.b.File, e.b.Shape, e.at)
				b.WriteString(extract(t, e.b.File, content))
			}
		}
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// extract prints the top of a book: what the sheet says.
func extract(t *testing.T, file string, content []byte) string {
	t.Helper()
	book, err := decode.Open(t.Context(), file, content, decode.Defaults())
	if err != nil {
		return "      " + err.Error() + "\n"
	}
	var b strings.Builder
	for i := range book.Sheets[:min(2, len(book.Sheets))] {
		sheet, lines, row := &book.Sheets[i], 0, 0
		fmt.Fprintf(&b, "      [%s]", sheet.Name)
		for _, c := range sheet.Cells {
			if c.Row != row {
				if lines++; lines > 9 {
					break
				}
				row = c.Row
				fmt.Fprintf(&b, "\n      %d: ", row)
			}
			text := c.Text
			if c.Kind == decode.Text {
				text = fmt.Sprintf("%q", text)
			}
			fmt.Fprintf(&b, "%s | ", text)
		}
		b.WriteString("\n")
	}
	return b.String()
}
