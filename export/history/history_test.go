package history_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	write "flowshelf/export/history"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
)

// sheetDigits is what a spreadsheet keeps of a number, 15 digits.
const sheetDigits = 1e-14

// untraced compares facts without where they stood.
var untraced = cmp.Options{
	cmpopts.IgnoreTypes(source.Trace{}), cmpopts.EquateEmpty(), cmpopts.EquateApprox(sheetDigits, 0),
	cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) }),
}

func back(t interface {
	Helper()
	Fatal(...any)
}, workbook []byte) (history.Facts, source.Problems) {
	t.Helper()
	facts, problems, err := ingest.ReadHistory(context.Background(), "History/2026-03.xlsx", workbook, decode.Defaults())
	if err != nil {
		t.Fatal(err)
	}
	return facts, problems
}

// TestMonthComesBack keeps the demo's month and reads it back.
func TestMonthComesBack(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	facts := review.Facts(review.Now{Records: records, Shop: shop, Families: compare.All(records, shop, date), Date: date})
	if len(facts.Heads) < 10 || len(facts.Places) < 10 || len(facts.Settings) < 40 {
		t.Fatalf("too little is kept: %d heads, %d places, %d settings", len(facts.Heads), len(facts.Places), len(facts.Settings))
	}
	out, err := write.Write(facts, head.Letter)
	if err != nil {
		t.Fatal(err)
	}
	got, problems := back(t, out)
	if diff := cmp.Diff(facts, got, untraced); diff != "" || len(problems) > 0 {
		t.Errorf("what was kept came back otherwise (-kept +read): %s\n%v", diff, problems)
	}
	if stamp, ok, edited, err := book.Identity(out); !ok || edited || err != nil || stamp.ID != "history/2026-03" {
		t.Errorf("stamp %+v, ok %v, edited %v, %v", stamp, ok, edited, err)
	}
	// LibreOffice saves it and the facts stay; a person's change shows.
	got, _ = back(t, booktest.Resave(t, out))
	if diff := cmp.Diff(facts, got, untraced); diff != "" {
		t.Errorf("after LibreOffice saved it: %s", diff)
	}
}

// TestAnyMonthComesBack keeps facts of all kinds.
func TestAnyMonthComesBack(t *testing.T) {
	words := rapid.StringMatching(`[A-Za-z0-9äé€=.,;:+\-]([A-Za-z0-9äé€=.,;:+\- ]{0,20}[A-Za-z0-9äé€=.,;:+\-])?`)
	number := rapid.Custom(func(t *rapid.T) source.Stated[float64] {
		return source.Stated[float64]{Value: rapid.Float64Range(-1e6, 1e6).Draw(t, "x"), Known: true}
	})
	money := rapid.Custom(func(t *rapid.T) source.Stated[quantity.Money] {
		return source.Say(quantity.Of(decimal.New(rapid.Int64Range(-1e9, 1e9).Draw(t, "amount"), -3), "USD"), source.Trace{})
	})
	rapid.Check(t, func(t *rapid.T) {
		f := history.Facts{Shop: words.Draw(t, "shop"), Date: time.Date(2026, 3, rapid.IntRange(1, 31).Draw(t, "day"), 0, 0, 0, 0, time.UTC), Currency: "USD"}
		f.Heads = []history.Head{{Name: words.Draw(t, "head"), Net: money.Draw(t, "net"), Sold12: number.Draw(t, "sold"),
			OnHand: source.Say(rapid.IntRange(-5, 500).Draw(t, "on hand"), source.Trace{})}}
		f.Places = []history.Place{{Label: words.Draw(t, "label"), Standing: history.Ranked, Number: rapid.IntRange(0, 9).Draw(t, "place"),
			Shared: rapid.Bool().Draw(t, "shared"), Working: number.Draw(t, "working"), Usable: money.Draw(t, "usable")}}
		f.Settings = []history.Setting{{Scope: "Shop", Name: words.Draw(t, "name"), Value: words.Draw(t, "value")}}
		out, err := write.Write(f, head.Letter)
		if err != nil {
			t.Fatal(err)
		}
		got, problems := back(t, out)
		if diff := cmp.Diff(f, got, untraced); diff != "" || len(problems) > 0 {
			t.Fatalf("(-kept +read): %s\n%v", diff, problems)
		}
	})
}

// TestOnlyOurMonths refuses what is not a month of ours, in plain words.
func TestOnlyOurMonths(t *testing.T) {
	f := history.Facts{Shop: "Shop", Date: time.Date(2026, 2, 16, 0, 0, 0, 0, time.UTC)}
	month, err := write.Write(f, head.Letter)
	if err != nil {
		t.Fatal(err)
	}
	other := book.New(book.Properties{ID: "questions"})
	other.Sheet("Month").Say(1, 1, "no month", book.Body)
	stranger, err := other.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		content []byte
		says    string
	}{
		{"another workbook of ours", stranger, "was not written by us as a month's facts"},
		{"half a workbook", month[:len(month)/2], ""},
		{"a month without its day", booktest.With(t, month, "Month", map[string]string{"B5": "some day"}), "no month's facts"},
	} {
		_, _, err := ingest.ReadHistory(context.Background(), "History/2026-02.xlsx", c.content, decode.Defaults())
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
	}
	f.Heads = []history.Head{{Name: "LKC-12", OnHand: source.Say(9, source.Trace{})}}
	if month, err = write.Write(f, head.Letter); err != nil {
		t.Fatal(err)
	}
	got, problems := back(t, booktest.With(t, month, "Heads", map[string]string{"E5": "nine"}))
	if len(problems) != 1 || problems[0].At.Cell != "E5" || got.Heads[0].OnHand.Known {
		t.Errorf("a count typed as a word: %v, %+v", problems, got.Heads)
	}
}
