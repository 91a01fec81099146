package ingest_test

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

// withTextBox is a flow sheet on which a text floats over a cell.
func withTextBox(t *testing.T, cell, text string) *fstest.MapFile {
	t.Helper()
	return withTextBoxOver(t, [][]any{{"LKC-12", "bore 4.030", "28 inH2O", "2026-03-02"}, nil, {"lift, in", "intake, cfm"},
		{0.1, 60.0}, {0.2, 118.0}, {0.3, 170.0}, {0.4, 205.0}, {0.5, 225.0}}, cell, text)
}

func withTextBoxOver(t *testing.T, rows [][]any, cell, text string) *fstest.MapFile {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range rows {
		if err := f.SetSheetRow("Sheet1", "A"+string(rune('1'+i)), &row); err != nil {
			t.Fatal(err)
		}
	}
	if text != "" {
		err := f.AddShape("Sheet1", &excelize.Shape{Cell: cell, Type: "rect", Paragraph: []excelize.RichTextRun{{Text: text}}})
		if err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return file(b.String())
}

// A text that floats over the cells is never used and never ignored: it is told
// where it is, and what may be a condition of the test waits for a person.
func TestTextBoxes(t *testing.T) {
	for _, c := range []struct {
		text     string
		severity source.Severity
		state    ingest.State
	}{
		{"tested at 25 inH2O", source.Refused, ingest.PartlyRead},
		{"bore 4.125, pipe on", source.Refused, ingest.PartlyRead},
		{"with radius plate", source.Refused, ingest.PartlyRead},
		{"all flows in l/s", source.Refused, ingest.PartlyRead},
		{"$452 each", source.Refused, ingest.PartlyRead},
		{"please ring Joan", source.Noted, ingest.Read},
	} {
		got := read(t, withSetup(t, fstest.MapFS{"bench/a.xlsx": withTextBox(t, "C3", c.text)}))
		var boxes source.Problems
		for _, p := range got.Problems {
			if p.Kind == "text-box" {
				boxes = append(boxes, p)
			}
		}
		if len(boxes) != 1 || boxes[0].Severity != c.severity || boxes[0].At.Cell != "C3" || boxes[0].Found != c.text || !strings.Contains(boxes[0].Message, "near C3") {
			t.Errorf("%q: problems %v", c.text, boxes)
		}
		for _, f := range got.Files {
			if f.Path == "bench/a.xlsx" && f.State != c.state {
				t.Errorf("%q: the file is %s, %s", c.text, f.State, f.Reason)
			}
		}
	}
	lone := read(t, withSetup(t, fstest.MapFS{"minutes.xlsx": withTextBoxOver(t, [][]any{{"Minutes"}}, "C3", "with radius plate")}))
	for _, p := range lone.Problems {
		if p.Kind == "text-box" && p.Severity != source.Noted {
			t.Errorf("on a sheet of something else: %v", p)
		}
	}
	plain := read(t, withSetup(t, fstest.MapFS{"bench/a.xlsx": withTextBox(t, "", "")}))
	for _, p := range plain.Problems {
		if p.Kind == "text-box" {
			t.Errorf("without one: %v", p)
		}
	}
}

// What a format cannot vouch for is said.
func TestUnproved(t *testing.T) {
	got := read(t, withSetup(t, fstest.MapFS{"bench/a.xlsx": withTextBox(t, "", ""), "prices.csv": file(pricesCSV)}))
	for _, f := range got.Files {
		if unproved := f.Unproved() != ""; unproved != (f.Path == "prices.csv") {
			t.Errorf("%s, %s: %q", f.Path, f.Format, f.Unproved())
		}
	}
}
