package ingest_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

// shapes is the catalogue of what lands in the folder, and what a bad sheet of
// the shape must come to: asked, noted, refused or set aside. The trade's common
// practice, no source.
const shapes = `
F1  asked     lifts down, ports across, one head: no unit, no pressure
F2  asked     ports down, lifts across: both ways could be meant
F3  asked     one row a head, lifts across in an intake and an exhaust block: no banner
F4  asked     heads across under two rows of headers: ports do not alternate
F5  noted     three rows of headers: the middle one says something unknown
F6  asked     one head a tab, named on the tab: tab and cell disagree
F7  noted     conditions on a cover: a tab states others
F8  set_aside a form to copy among the tabs
F9  asked     blocks stacked under titles: one without a title
F10 asked     blocks in a grid: one touches its neighbour
F11 asked     a long list, one reading a row: two of one day differ
F12 noted     cylinders across with their average: it is not their mean
F13 noted     ports of two designs: one tested
F14 asked     repeat runs: one is far off
F15 asked     smallest, largest, average: over what is not said
F16 asked     lifts from the highest down: one stands twice
F17 noted     two lists of lifts side by side: one in tenths of an inch
F18 asked     lift over valve diameter: no valve
F19 noted     a row at zero lift: the leak is high
F20 asked     the header repeated down the page: over other figures
F21 set_aside totals and averages in the table: a last row without a name
F22 asked     gain columns: one without a header
F23 asked     columns that look like flow: one without a header
F24 refused   the export of a bench's computer: a web page, a damaged file
F25 refused   percent of range: no calibration
F26 refused   raw manometers: no constants
F27 asked     a test pressure a row: corrected or not
F28 asked     another pressure: 25 of what
F29 asked     two pressures: they disagree
F30 asked     observed and corrected: corrected to what
F31 asked     metric and foreign headers: a word with two meanings
F32 asked     decimal commas: three digits behind each
F33 asked     lifts spelled in many ways: tenths or millimetres
F34 refused   bores spelled in many ways: one that cannot be
F35 asked     fractions that became dates: one that is none
F36 asked     numbers among words: two in one cell
F37 set_aside cells that are no readings: nothing, zero, errors
F38 asked     footnotes: a mark without its note
F39 asked     remarks beside cells: a warning
F40 asked     struck-through readings
F41 asked     hidden rows and columns
F42 set_aside pictures: a flow sheet as a picture
F43 refused   formulas: saved without a result
F44 asked     advertised beside tested: an unlabelled pair
F45 noted     claims in words
F46 noted     exhaust with and without a pipe: not said
F47 asked     intake with and without a manifold: not said
F48 noted     entry to the port: not said
F49 asked     states of one head: one unclear
F50 noted     one sample on two bores: no serial
F51 asked     several castings: one twice
F52 noted     four valves: both open
F53 asked     the same file again: the same test with other figures
F54 refused   what we wrote ourselves, half-copied files
F55 refused   passwords, damage, macros
F56 asked     header words in five languages: a word with two meanings
P1  asked     prices each, a pair, a set: not said
P2  asked     bare and assembled: two prices without a word
P3  asked     the ladder of prices: which is ours
P4  asked     chains of discounts: a percentage or a code
P5  asked     prices by quantity: how many we buy
P6  asked     freight, surcharges, core charges: a percentage of what
P7  asked     currencies and tax: none stated
P8  asked     dates of lists: one with two readings
P9  refused   words in place of prices: one that is none
P10 asked     part numbers: nearly one of ours
P11 noted     families between the lines: a head under none
P12 asked     prices in sentences: for how many is not said
S1  asked     a stock book: heads or sets
S2  asked     sales by month: a blank month
S3  noted     lead times: no time at all
S4  asked     states of one casting: worn, or somebody else's
D1  asked     dimensions: sizes that cannot be true together
X1  asked     extras: for how many is not said
X2  asked     the rework menu: for how many is not said
X3  asked     the bench's log: a date with two readings
X4  noted     enquiries: a lift of what is not said
X5  noted     the matching key: a line without their name
`

// TestEveryShapeHasAGoodAndABadRow holds that no shape of the catalogue is
// without a sheet that is read whole and one that comes to what the catalogue
// says, and that the tables know no shape that the catalogue does not.
func TestEveryShapeHasAGoodAndABadRow(t *testing.T) {
	rows := collect(t)
	for line := range strings.Lines(strings.TrimSpace(shapes)) {
		f := strings.Fields(line)
		shape, bad := f[0], f[1]
		if !slices.ContainsFunc(rows[shape+" good"], readWhole) {
			t.Errorf("%s has no good row that is read whole: %v", shape, rows[shape+" good"])
		}
		if !slices.ContainsFunc(rows[shape+" bad"], func(want string) bool { return comesTo(want, bad) }) {
			t.Errorf("%s has no bad row that is %s: %v", shape, bad, rows[shape+" bad"])
		}
		delete(rows, shape+" good")
		delete(rows, shape+" bad")
	}
	for row := range rows {
		t.Errorf("a row is of the shape %q, which the catalogue does not have", row)
	}
}

var shapeLine = regexp.MustCompile(`(?m)^shape: (\S+ (?:good|bad))$`)

// collect returns what the rows of each shape are to be read as.
func collect(t *testing.T) map[string][]string {
	t.Helper()
	rows := make(map[string][]string)
	for _, folder := range []string{"flowsheet", "lists"} {
		found, err := filepath.Glob(folder + "/testdata/shapes/*.txt")
		if err != nil || len(found) == 0 {
			t.Fatalf("no fixtures of %s: %v", folder, err)
		}
		for _, name := range found {
			a, err := txtar.ParseFile(name)
			if err != nil || len(a.Files) == 0 {
				t.Fatalf("%s: %d parts, %v", name, len(a.Files), err)
			}
			for _, m := range shapeLine.FindAllStringSubmatch(string(a.Comment), -1) {
				rows[m[1]] = append(rows[m[1]], string(a.Files[len(a.Files)-1].Data))
			}
		}
	}
	for _, s := range fileShapes() {
		row := s.shape + map[bool]string{true: " good", false: " bad"}[s.good]
		rows[row] = append(rows[row], strings.Join(s.want, "\n"))
	}
	return rows
}

var (
	startsWithProblem = regexp.MustCompile(`^(asked|refused|noted|set_aside) `)
	openProblem       = regexp.MustCompile(`(?m)^(asked|refused) `)
)

// readWhole reports whether something was read, and nothing waits or was refused.
func readWhole(want string) bool {
	return want != "" && want != "nothing\n" && !startsWithProblem.MatchString(want) && !openProblem.MatchString(want)
}

func comesTo(want, severity string) bool {
	return regexp.MustCompile(`(?m)^` + severity + ` `).MatchString(want)
}
