package flowsheet_test

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

const datedTwoWays = "path: %s\n-- tab Flow --\nOB-4 flow, 4.030 bore, 28 inH2O, 3/9/2026\nLift | Int\n.200 | 121\n.300 | 178\n.400 | 226\n"

// TestDayOrderOfTheSender holds that the setup's words of a sender settle his order
// of day and month, and that his price lists and his flow sheets share one answer.
func TestDayOrderOfTheSender(t *testing.T) {
	path, shop, book := fixture(t, txtar.Parse([]byte(strings.Replace(datedTwoWays, "%s", "bench/d.xlsx", 1))))
	for means, want := range map[string]string{"month first": "2026-03-09", "Day first": "2026-09-03", "backwards": ""} {
		shop.Words = []head.Word{{Sender: "bench", Word: "order of day and month", Means: means}}
		got := readAnswered(path, book, shop, nil)
		day := ""
		if date := got.Tests[0].Date; date.Known {
			day = date.Value.Format("2006-01-02")
		}
		if day != want {
			t.Errorf("%q: dated %q, want %q", means, day, want)
		}
	}
	path, shop, book = fixture(t, txtar.Parse([]byte(strings.Replace(datedTwoWays, "%s", "Oastbridge Machine/d.xlsx", 1))))
	got := readAnswered(path, book, shop, map[string]string{head.DayOrderKey("Oastbridge Machine"): "month first: 4 March 2026"})
	if date := got.Tests[0].Date; !date.Known || date.Value.Format("2006-01-02") != "2026-03-09" {
		t.Errorf("by the answer to the supplier's list: %v, problems %v", date, got.Problems)
	}
}

// TestSenderInWords holds that a question names the bench whose books lie in a
// folder, and keeps the folder in its key.
func TestSenderInWords(t *testing.T) {
	path, shop, book := fixture(t, txtar.Parse([]byte("path: bench/u.xlsx\n-- tab Flow --\nOB-4, 4.030 bore, 28 inH2O\nLift in | Int | Exh\n.200 | 121 | 88\n.300 | 178 | 130\n.400 | 226 | 160\n")))
	var q *source.Question
	for _, p := range readAnswered(path, book, shop, nil).Problems {
		if p.Kind == "flow-unit-not-stated" {
			q = p.Question
		}
	}
	if q == nil || !strings.Contains(q.Text, "the flows of Saltmarsh shop bench") || q.Key != "flow unit|bench" {
		t.Errorf("asked %+v", q)
	}
}
