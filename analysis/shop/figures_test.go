package shop_test

import (
	"math"
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

// families lays the filled shop's family out with some cells typed over, by their
// titles; each stands in row 5 of a column.
func families(typed map[string]string) []shop.Rows {
	sheet := shop.Write(filled())[1]
	for i, title := range sheet.Titles {
		sheet.Rows[0][i].At = source.At(shop.FileName, "Families", 5, i+1)
		if text, ok := typed[title.Text]; ok {
			sheet.Rows[0][i].Kind, sheet.Rows[0][i].Text = shop.Text, text
			if text == "" {
				sheet.Rows[0][i].Kind = shop.Blank
			}
		}
	}
	return []shop.Rows{sheet, shop.Write(filled())[2], shop.Write(filled())[3]}
}

// TestFiguresAsTyped holds that a figure of the setup is read as one of a sheet is.
func TestFiguresAsTyped(t *testing.T) {
	bore := func(f head.Family) float64 { return f.ReferenceBore.In() }
	from := func(f head.Family) float64 { return f.RangeFrom.MM() }
	for _, c := range []struct {
		title, text string
		got         func(head.Family) float64
		want        float64 // 0: not read, and told
	}{
		{"Range from", "2,5 mm", from, 2.5},
		{"Range from", "2.5 mm", from, 2.5},
		{"Range from", "2,5mm", from, 2.5},
		{"Range from", "0,100", from, 2.54},
		{"Range from", ",100 in", from, 2.54},
		{"Range from", "100 thou", from, 2.54},
		{"Range from", "2,5 furlongs", from, 0},
		{"Range from", "2,5,1 mm", from, 0},
		{"Range from", "1/8", from, 3.175},
		{"Reference bore", "4,030", bore, 4.030}, // 4030 in is no bore
		{"Reference bore", `4,030"`, bore, 4.030},
		{"Reference bore", "102,36 mm", bore, 102.36 / 25.4},
		{"Reference bore", "4-1/8", bore, 4.125},
		{"Worth of a cfm", "22,50", func(f head.Family) float64 { return f.Worth.Value.Float() }, 22.5},
		{"Worth of a cfm", "$22.50", func(f head.Family) float64 { return f.Worth.Value.Float() }, 22.5},
		{"Worth of a cfm", "€22.50", func(f head.Family) float64 { return f.Worth.Value.Float() }, 0}, // the shop counts in dollars
		{"Worth of a cfm", "22,50 €", func(f head.Family) float64 { return f.Worth.Value.Float() }, 0},
		{"Worth of a cfm", "1,250", func(f head.Family) float64 { return f.Worth.Value.Float() }, 0}, // either
		{"Engine rpm", "6,500", func(f head.Family) float64 { return f.EngineRPM.Value }, 6500},
		{"Engine rpm", "6.500", func(f head.Family) float64 { return f.EngineRPM.Value }, 6500},
		{"Engine rpm", "6500 rpm", func(f head.Family) float64 { return f.EngineRPM.Value }, 6500},
		{"Mid-lift low", "160 cfm", func(f head.Family) float64 { return f.Anchors.MidLow.CFM() }, 160},
		{"Mid-lift low", "160 L/s", func(f head.Family) float64 { return f.Anchors.MidLow.CFM() }, 0},
		{"Rocker ratio", "1,500", func(f head.Family) float64 { return f.RockerRatio.Value }, 1.5},
	} {
		got := shop.Read(source.Ref{}, families(map[string]string{c.title: c.text}))
		if v := c.got(got.Shop.Families[0]); math.Abs(v-c.want) > 1e-9 {
			t.Errorf("%s %q is read as %v, want %v", c.title, c.text, v, c.want)
		}
		if told := at(got.Problems, c.text) != nil; told != (c.want == 0) {
			t.Errorf("%s %q: problems %v", c.title, c.text, got.Problems)
		}
	}
}

func at(problems source.Problems, found string) *source.Problem {
	for i := range problems {
		if problems[i].Kind == "setup-value" && problems[i].Found == found {
			return &problems[i]
		}
	}
	return nil
}

// TestRangeWithoutAnEnd holds that a family without a beginning or an end of its
// working range keeps none of it, and is told so at the very cell.
func TestRangeWithoutAnEnd(t *testing.T) {
	for name, c := range map[string]struct {
		typed   map[string]string
		cell    string
		kind    string
		message string
		band    bool
	}{
		"no beginning": {map[string]string{"Range from": ""}, "H5", "setup-range", "has no beginning", false},
		"unreadable":   {map[string]string{"Range from": "low"}, "H5", "setup-range", "has no beginning", false},
		"no end":       {map[string]string{"Range to": ""}, "I5", "setup-range", "has no end", false},
		"neither":      {map[string]string{"Range from": "", "Range to": ""}, "H5", "setup-range", "no working range is stated", false},
		"half a band":  {map[string]string{"Band from": ""}, "J5", "setup-band", "has no beginning", true},
		"no band":      {map[string]string{"Band from": "", "Band to": ""}, "J5", "setup-no-band", "blank", true},
	} {
		got := shop.Read(source.Ref{}, families(c.typed))
		f := got.Shop.Families[0]
		from, to := f.RangeFrom, f.RangeTo
		if c.band {
			from, to = f.BandFrom, f.BandTo
		}
		if from != 0 || to != 0 {
			t.Errorf("%s: the window runs from %v to %v", name, from, to)
		}
		found := 0
		for _, p := range got.Problems {
			if p.Kind == c.kind {
				found++
				if p.At.Cell != c.cell || !strings.Contains(p.Message, c.message) {
					t.Errorf("%s: %s", name, p)
				}
			}
			if strings.Contains(p.Message, "upward") {
				t.Errorf("%s: %s", name, p)
			}
		}
		if found != 1 {
			t.Errorf("%s: problems %v", name, got.Problems)
		}
	}
	if f := shop.Read(source.Ref{}, families(nil)).Shop.Families[0]; f.RangeFrom != quantity.Inches(.2) {
		t.Errorf("a whole range is read as %v", f.RangeFrom)
	}
}
