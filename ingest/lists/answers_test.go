package lists_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/lists"
)

var answerDay = time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)

func recogniseAnswered(path string, s *decode.Sheet, said map[string]string) head.Records {
	var given []head.Answer
	for key, text := range said {
		given = append(given, head.Answer{Key: key, Text: text, By: "JT", On: answerDay, At: source.Ref{File: "Ranked/Questions.xlsx"}})
	}
	page := layout.NewPage(path, &decode.Book{Format: "xlsx", Sheets: []decode.Sheet{*s}}, s)
	var out head.Records
	for _, r := range lists.Recognisers() {
		out.Append(r.Recognise(page, layout.Context{Shop: theShop(), Path: path, Answers: head.NewAnswers(given)}))
	}
	return out
}

// everything prints what was read, one record a line.
func everything(r head.Records) string {
	lines := bookLines(r)
	for _, p := range r.Prices {
		lines = append(lines, priceLine(p))
	}
	for _, s := range r.Stock {
		lines = append(lines, stockLine(s))
	}
	for _, d := range r.Dimensions {
		lines = append(lines, fmt.Sprintf("%s: intake %s, section %.2f, %.2f lb", d.Head, inches(d.IntakeValve), d.MinSection.Value.In2(), d.Weight.Value.Lb()))
	}
	return strings.Join(lines, "\n")
}

// TestAnswersAreApplied answers each kind of question that a list asks and holds
// what the answer comes to: the question is gone, noted with who answered, and
// the value is as told.
func TestAnswersAreApplied(t *testing.T) {
	const larkmoor, stock = "Larkmoor.xlsx", "stock 2026-02-28.xlsx"
	for _, c := range []struct{ kind, path, drawing, text, want string }{
		{"list-date-ambiguous", "Pellworth list.xlsx", "PELLWORTH FOUNDRY||Eff. 4/1\nPart|Net each $\nPW-31|400", "April 1", "from 2026-04-01, used"},
		{"list-date-ambiguous", "Pellworth list.xlsx", "PELLWORTH FOUNDRY||Eff. 4/1\nPart|Net each $\nPW-31|400", "4 January", "from 2026-01-04, used"},
		{"list-date-ambiguous", "Pellworth list.xlsx", "PELLWORTH FOUNDRY||Eff. 4/1/2026\nPart|Net each $\nPW-31|400", "day first", "from 2026-01-04, used"},
		{"list-date-ambiguous", "Pellworth list.xlsx", "PELLWORTH FOUNDRY||Eff. 4/1\nPart|Net each $\nPW-31|400", "2025-04-01", "from 2025-04-01, used"},
		{"date-ambiguous", larkmoor, "Part|Net each $|Effective\nLKC-07|268|4/1/2026", "month first", "from 2026-04-01, used"},
		{"price-basis-not-stated", larkmoor, "Part|Price $\nLKC-07|268", "pair", "268 USD per pair"},
		{"placeholder-price", larkmoor, "Part|List each $\nLKC-07|9999", "the price", "9999 USD per each, any build, freight ?, from ?, used"},
		{"placeholder-price", larkmoor, "Part|List each $\nLKC-07|9999", "a placeholder", "set_aside"},
		{"currency-not-stated", larkmoor, "Part|Net each\nLKC-07|268,50", "EUR", "268.5 EUR per each, any build, freight ?, from ?, used"},
		{"tax-included", larkmoor, "Preise inkl. MwSt, EUR\nPart|Preis je Stück\nLKC-07|238", "19", "200 EUR per each, any build, freight ?, from ?, used"},
		{"tax-included", larkmoor, "Preise inkl. MwSt, EUR\nPart|Preis je Stück\nLKC-07|238", "as they stand", "238 EUR per each, any build, freight ?, from ?, used"},
		{"discount-unclear", larkmoor, "Part|List each $|Discount\nLKC-07|500|40", "40", "500 USD per each -40, any build, freight ?, from ?, used"},
		{"discount-unclear", larkmoor, "Part|List each $|Discount\nLKC-07|500|40", "a code", "500 USD per each, any build, freight ?, from ?, used"},
		{"quantity-break", larkmoor, "Dealer prices each, USD\nPart|1-3\nLKC-07|268", "2", "from ?, used"},
		{"quantity-break", larkmoor, "Dealer prices each, USD\nPart|1-3\nLKC-07|268", "5", "from ?, set_aside"},
		{"struck-through", larkmoor, "Part|Net each $\nLKC-07|~268", "yes", "from ?, used"},
		{"struck-through", larkmoor, "Part|Net each $\nLKC-07|~268", "no", "from ?, set_aside"},
		{"stock-date-not-stated", "stock.xlsx", "Head|On hand (heads)|Cost $\nLKC-12|9|452", "2026-02-28", "2026-02-28 LKC-12: 9 on hand"},
		{"stock-date-differs", stock, "Stock at 2026-01-31\nHead|On hand (heads)|Cost each\nLKC-12|9|452", "2026-02-28", "2026-02-28 LKC-12: 9 on hand, sold ?/?, last ?, cost 452 USD per each, sell ? per not stated, ? wk, used"},
		{"stock-unit-not-stated", stock, "Head|On hand|Cost each\nLKC-12|9|452", "sets", "LKC-12: 18 on hand"},
		{"sold-unit-not-stated", stock, "Head|On hand (heads)|Sold 12 m\nLKC-12|9|31", "sets", "9 on hand, sold 31/?"},
		{"negative-stock", stock, "Head|On hand (heads)|Cost each\nLKC-12|-1|452", "3", "LKC-12: 3 on hand, sold ?/?, last ?, cost 452 USD per each, sell ? per not stated, ? wk, used"},
		{"blank-month", stock, "On hand (heads), sold in sets\nHead|On hand (heads)|Mar 25|Apr 25|May 25|Jun 25|Jul 25|Aug 25|Sep 25|Oct 25|Nov 25|Dec 25|Jan 26|Feb 26\nLKC-12|9|3|4|5|4|3|2|1|1||2|3|4", "none was sold", "9 on hand, sold 32/?"},
		{"sold-unit-not-stated", stock, "Head|On hand (heads)|Mar 25|Apr 25|May 25|Jun 25|Jul 25|Aug 25|Sep 25|Oct 25|Nov 25|Dec 25|Jan 26|Feb 26\nLKC-12|9|3|4|5|4|3|2|1|1|1|2|3|5", "heads", "9 on hand, sold 17/?"},
		{"stock-not-new", stock, "Head|Remarks|On hand (heads)|Cost each\nLKC-12|second hand|1|200", "yes", "1 on hand, sold ?/?, last ?, cost 200 USD per each, sell ? per not stated, ? wk, used"},
		{"stock-not-new", stock, "Head|Remarks|On hand (heads)|Cost each\nLKC-12|second hand|1|200", "no", "? wk, set_aside"},
		{"sizes-disagree", "dimensions.xlsx", "Head|Intake valve, in|Throat, in|Runner cc\nLKC-12|2.02|2.10|178", "the intake valve", "intake 2.020"},
		{"sizes-disagree", "dimensions.xlsx", "Head|Intake valve, in|Throat, in|Min CSA in²\nLKC-12|2.02|1.79|3.40", "the section", "section 3.40"},
		{"price-basis-not-stated", "extras.xlsx", "Head|Item|Needed when|$|Per\nLKC-12|push rods|always|20|", "set", "20 USD per set, springs false, used"},
		{"price-basis-not-stated", "rework.xlsx", "Work|Price $|Internal cost $|Hours\nvalve job|260|148|3\nshort-side blend|320|185|4", "set", "valve job: 260 USD (148 USD) per set"},
		{"size-is-a-date", "dimensions.xlsx", "Head|Intake valve, in|Stem|Runner cc\nLKC-12|2.02|@2026-07-20|178\nPW-31|2.02|5/16|195", ".3125", "LKC-12: intake 2.020"},
		{"area-unit-not-stated", "dimensions.xlsx", "Head|Intake valve, in|Runner cc|CSA\nLKC-12|2.02|178|3.1\nPW-31|2.02|195|3.2", "cm²", "section 0.48"},
		{"weight-unit-not-stated", "dimensions.xlsx", "Head|Intake valve, in|Runner cc|Weight\nLKC-12|2.02|178|20\nPW-31|2.02|195|22", "kg", "44.09 lb"},
	} {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			s := sheet("Sheet1", c.drawing)
			var q *source.Question
			for _, p := range recogniseAnswered(c.path, s, nil).Problems {
				if p.Kind == c.kind && p.Severity == source.Asked && q == nil {
					q = p.Question
				}
			}
			if q == nil {
				t.Fatalf("nothing is asked: %v", kinds(recogniseAnswered(c.path, s, nil).Problems))
			}
			after := recogniseAnswered(c.path, s, map[string]string{q.Key: c.text})
			if got := everything(after); !strings.Contains(got, c.want) {
				t.Errorf("no %q in\n%s", c.want, got)
			}
			noted := false
			for _, p := range after.Problems {
				if p.Question != nil && p.Question.Key == q.Key {
					noted = p.Severity == source.Noted && strings.HasSuffix(p.Message, "per JT 2026-03-14")
				}
			}
			if !noted {
				t.Errorf("the answer is not noted: %v", after.Problems)
			}
		})
	}
}

// TestSameQuestionNextMonth holds that a question about how a sender writes has
// the same key in his next book, and one about single lines has not.
func TestSameQuestionNextMonth(t *testing.T) {
	for _, c := range []struct {
		name, march, april, marchDrawing, aprilDrawing string
		same                                           bool
	}{
		{"basis of a supplier", "Larkmoor march.xlsx", "new/Larkmoor april.xlsx", "Part|Price $\nLKC-07|268", "Part|Price $\nLKC-12|455", true},
		{"basis of two suppliers", "a.xlsx", "b.xlsx", "Part|Price $\nLKC-07|268", "Part|Price $\nPW-31|455", false},
		{"order of day and month", "Pellworth 4.xlsx", "Pellworth 5.xlsx", "PELLWORTH||Eff. 4/1/2026\nPart|Net each $\nPW-31|4", "PELLWORTH||Eff. 5/2/2026\nPart|Net each $\nPW-31|5", true},
		{"a year that is not written", "Pellworth 4.xlsx", "Pellworth 5.xlsx", "PELLWORTH||Eff. 4/1\nPart|Net each $\nPW-31|4", "PELLWORTH||Eff. 4/1\nPart|Net each $\nPW-31|5", false},
		{"unit of a stock book", "stock 2026-02-28.xlsx", "stock 2026-03-31.xlsx", "Head|On hand|Cost each\nLKC-12|9|452", "Head|On hand|Cost each\nPW-31|8|452", true},
		{"a struck line", "Larkmoor 1.xlsx", "Larkmoor 2.xlsx", "Part|Net each $\nLKC-07|~268", "Part|Net each $\nLKC-07|~268", false},
	} {
		one, two := firstKey(t, c.march, c.marchDrawing), firstKey(t, c.april, c.aprilDrawing)
		if (one == two) != c.same {
			t.Errorf("%s: keys %q and %q, want the same %v", c.name, one, two, c.same)
		}
	}
}

func firstKey(t *testing.T, path, drawing string) string {
	t.Helper()
	for _, p := range recogniseAnswered(path, sheet("Sheet1", drawing), nil).Problems {
		if p.Severity == source.Asked && p.Question != nil {
			return p.Question.Key
		}
	}
	t.Fatalf("%s asks nothing", path)
	return ""
}

// TestAnOrderOnceTold holds that the answer to one list's date decides the next
// list's.
func TestAnOrderOnceTold(t *testing.T) {
	key := firstKey(t, "Pellworth 4.xlsx", "PELLWORTH||Eff. 4/1/2026\nPart|Net each $\nPW-31|4")
	if want := head.DayOrderKey("Pellworth"); key != want { // under which his flow sheets are asked about too
		t.Errorf("the key is %q, want %q", key, want)
	}
	for _, day := range []string{"2026-04-01", "April 1, 2026", "month first"} { // one day of the first list's
		first := recogniseAnswered("Pellworth 4.xlsx", sheet("S", "PELLWORTH||Eff. 4/1/2026\nPart|Net each $\nPW-31|4"), map[string]string{key: day})
		if got := everything(first); !strings.Contains(got, "from 2026-04-01, used") {
			t.Errorf("answered %q: %s", day, got)
		}
	}
	other := recogniseAnswered("Pellworth 5.xlsx", sheet("S", "PELLWORTH||Eff. 5/2/2026\nPart|Net each $\nPW-31|5"), map[string]string{key: "2026-04-01"})
	if got := everything(other); strings.Contains(got, "2026-04-01") {
		t.Errorf("a list of May is dated by the day of another list: %s", got)
	}
	next := recogniseAnswered("Pellworth 5.xlsx", sheet("S", "PELLWORTH||Eff. 5/2/2026\nPart|Net each $\nPW-31|5"),
		map[string]string{key: "month first: 1 April 2026"})
	if got := everything(next); !strings.Contains(got, "from 2026-05-02, used") {
		t.Errorf("the next list: %s", got)
	}
}
