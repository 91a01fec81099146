package flowsheet_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
)

// vocabulary is what cells of strange sheets are made of.
func vocabulary() []string {
	return []string{
		"", "", "Lift", "Int", "Exh", "Intake", "Exhaust", "Hub mm", "L/D", "CFM", "cfm @28", "28 inH2O", "PW-33", "LKC-12", "OB 4",
		".100", ".200", ".300", ".400", "L100", "200", "0,3", `"`, "Avg", "Peak", "Total", "Gain", "%", "Rng", "% Int", "TP", "Cyl 1", "Cyl 3",
		"Run 1", "Adv", "Tested", "Stock", "VJ + blend", "4.030 bore", "1-3/4 pipe", "no pipe", "x", "-", "n/t", "264*", "* note", ">265",
		"262/258", "2 65", "(265)", "Head", "Port", "Date", "Note", "Serial A12", "Range cal (int): 1=40 2=80", "E", "EV", "AV", "IN", "l/s",
		"flows 278 cfm @ .600 lift", "#REF!", "60 mbar", "Bore:", "4.030/4.155", "\x00", "é", "†", "(1)",
	}
}

func strangeSheet(t *rapid.T) decode.Sheet {
	s := decode.Sheet{Name: rapid.SampledFrom([]string{"Sheet1", "PW-33 4.030 28in", "Cover", "INTAKE"}).Draw(t, "name"),
		HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}
	rows, cols := rapid.IntRange(1, 14).Draw(t, "rows"), rapid.IntRange(1, 9).Draw(t, "cols")
	for row := 1; row <= rows; row++ {
		for col := 1; col <= cols; col++ {
			c := decode.Cell{Row: row, Col: col, Stored: rapid.IntRange(0, 20).Draw(t, "stored") > 0}
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				c.Kind, c.Text = decode.Text, rapid.SampledFrom(vocabulary()).Draw(t, "text")
				if c.Text == "" {
					continue
				}
			case 1:
				c.Kind, c.Num = decode.Number, rapid.SampledFrom([]float64{0, .1, .2, .3, .4, .5, 1, 2, 3, 100, 200, 300, 57.5, -3, math.NaN(), math.Inf(1), 1e300}).Draw(t, "num")
			case 2:
				c.Kind, c.Num = decode.Date, rapid.Float64Range(-5, 60000).Draw(t, "day")
			default:
				continue
			}
			if rapid.IntRange(0, 15).Draw(t, "formula") == 0 {
				c.Formula = rapid.SampledFrom([]string{"A1*1.058", "AVERAGE(B2:C2)", "B2-C2", "[x]A!B1", "A1*SQRT(28/0)", "("}).Draw(t, "f")
			}
			s.Cells = append(s.Cells, c)
		}
	}
	if rapid.Bool().Draw(t, "merged") {
		top, left := rapid.IntRange(1, rows).Draw(t, "top"), rapid.IntRange(1, cols).Draw(t, "left")
		s.Merges = append(s.Merges, decode.Area{Top: top, Left: left, Bottom: top + rapid.IntRange(0, 2).Draw(t, "h"), Right: left + rapid.IntRange(0, 3).Draw(t, "w")})
	}
	s.HiddenCols[rapid.IntRange(1, 9).Draw(t, "hidden")] = true
	s.Index()
	return s
}

// Whatever stands on a sheet, reading it never panics, every reading comes
// from a cell claimed as used, and no reading that counts lacks a lift, a flow,
// a head or a port.
func TestStrangeSheets(t *testing.T) { rapid.Check(t, strangeSheetsAreSound) }

// FuzzStrangeSheets is the same, driven by coverage.
func FuzzStrangeSheets(f *testing.F) { f.Fuzz(rapid.MakeFuzz(strangeSheetsAreSound)) }

func strangeSheetsAreSound(t *rapid.T) {
	book := &decode.Book{Sheets: []decode.Sheet{strangeSheet(t)}}
	if rapid.Bool().Draw(t, "second") {
		book.Sheets = append(book.Sheets, strangeSheet(t))
		book.Sheets[1].Name += " 2"
	}
	got, pages := readBook("bench/x.xlsx", book, demoShop())
	checkSound(t, got)
	again, _ := readBook("bench/x.xlsx", book, demoShop())
	if describe(got) != describe(again) {
		t.Fatalf("the same sheet read differently:\n%s\n%s", describe(got), describe(again))
	}
	claimed := map[string]bool{}
	for _, p := range pages {
		for _, c := range p.Sheet.Cells {
			if claim, ok := p.ClaimedBy(c.Row, c.Col); ok && claim.Used {
				claimed[p.Ref(c).String()] = true
			}
		}
	}
	for _, test := range got.Tests {
		for _, r := range test.Readings {
			if !claimed[r.Flow.Trace.At.String()] {
				t.Fatalf("%s: a reading from a cell nobody claimed as used", r.Flow.Trace.At)
			}
		}
	}
}

type failer interface{ Fatalf(string, ...any) }

func checkSound(t failer, got head.Records) {
	for _, test := range got.Tests {
		if test.Status == head.Used && (test.Head == "" || test.Port == 0) {
			t.Fatalf("a test counts without a head or a port: %s", show(test))
		}
		for _, r := range test.Readings {
			if r.Status != head.Used {
				if r.Why == "" {
					t.Fatalf("a reading is not used and nobody says why: %s", show(test))
				}
				continue
			}
			if !r.Lift.Known || !r.Flow.Known || r.Flow.Value <= 0 || math.IsNaN(r.Flow.Value.CFM()) || math.IsInf(r.Flow.Value.CFM(), 0) {
				t.Fatalf("a reading counts without a lift or a flow: %s", show(test))
			}
			if !test.Pressure.Known && !r.Pressure().Known && test.Class != head.Advertised {
				t.Fatalf("a reading counts without a test pressure: %s", show(test))
			}
			if r.Flow.Trace.At.Cell == "" || r.Flow.Trace.Unit == "" {
				t.Fatalf("a reading cannot be traced: %s", show(test))
			}
		}
	}
}

// plainSheet is an ordinary sheet with its lifts down: one head, two ports.
func plainSheet(t *rapid.T) ([]float64, [2][]float64) {
	n := rapid.IntRange(3, 9).Draw(t, "lifts")
	var lifts []float64
	var flows [2][]float64
	int0, exh0 := rapid.IntRange(30, 80).Draw(t, "int"), rapid.IntRange(20, 70).Draw(t, "exh")
	for i := range n {
		lifts = append(lifts, float64(i+1)/10)
		int0 += rapid.IntRange(1, 60).Draw(t, "step")
		exh0 += rapid.IntRange(1, 50).Draw(t, "step")
		flows[0] = append(flows[0], float64(int0))
		flows[1] = append(flows[1], float64(exh0))
	}
	return lifts, flows
}

type put struct{ s *decode.Sheet }

func (p put) text(row, col int, text string) {
	p.s.Cells = append(p.s.Cells, decode.Cell{Row: row, Col: col, Kind: decode.Text, Text: text, Stored: true})
}

func (p put) number(row, col int, x float64) {
	p.s.Cells = append(p.s.Cells, decode.Cell{Row: row, Col: col, Kind: decode.Number, Num: x, Text: fmt.Sprint(x), Stored: true})
}

// Lifts down or lifts across, rising or falling: the same readings.
func TestOrientationDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lifts, flows := plainSheet(t)
		order := make([]int, len(lifts))
		for i := range order {
			order[i] = i
		}
		if rapid.Bool().Draw(t, "falling") {
			slices.Reverse(order)
		}
		var down, across decode.Sheet
		for _, s := range []*decode.Sheet{&down, &across} {
			s.Name = "PW-33"
			put{s}.text(1, 1, "4.030 bore, 28 inH2O, cfm, with pipe")
		}
		place := func(row, col int, write func(put, int, int)) {
			write(put{&down}, row+2, col+1)
			write(put{&across}, col+2, row+1)
		}
		place(0, 0, func(p put, r, c int) { p.text(r, c, "Lift") })
		for side, name := range []string{"Int", "Exh"} {
			place(0, side+1, func(p put, r, c int) { p.text(r, c, name) })
		}
		for at, i := range order {
			place(at+1, 0, func(p put, r, c int) { p.number(r, c, lifts[i]) })
			for side := range flows {
				place(at+1, side+1, func(p put, r, c int) { p.number(r, c, flows[side][i]) })
			}
		}
		for _, s := range []*decode.Sheet{&down, &across} {
			s.Index()
			got, pages := readBook("bench/x.xlsx", &decode.Book{Sheets: []decode.Sheet{*s}}, demoShop())
			if left := pages[0].Unclaimed(); len(left) > 0 {
				t.Fatalf("nobody accounts for %d cells, the first %q", len(left), left[0].Text)
			}
			if len(got.Tests) != 2 {
				t.Fatalf("%d tests instead of 2\n%s", len(got.Tests), describe(got))
			}
			for side, test := range got.Tests {
				if len(test.Readings) != len(lifts) {
					t.Fatalf("%d readings instead of %d", len(test.Readings), len(lifts))
				}
				for _, r := range test.Readings {
					i := int(math.Round(r.Lift.Value.In()*10)) - 1
					if r.Status != head.Used || r.Flow.Value.CFM() != flows[side][i] {
						t.Fatalf("wrong reading at %v: %s", r.Lift.Value, show(test))
					}
				}
			}
		}
	})
}
