package parse_test

import (
	"testing"
	"time"

	"flowshelf/ingest/parse"
)

func TestReadMonth(t *testing.T) {
	for title, want := range map[string]parse.Month{
		"Jan": {0, time.January}, "SEPT.": {0, time.September}, "Feb 26": {2026, time.February}, "Mar-26": {2026, time.March}, "Dec '25": {2025, time.December},
		"März 2026": {2026, time.March}, "Dez": {0, time.December}, "août 2025": {2025, time.August}, "févr. 26": {2026, time.February},
		"gen 2026": {2026, time.January}, "enero": {0, time.January}, "2026-02": {2026, time.February}, "02/2026": {2026, time.February},
	} {
		if got, ok := parse.ReadMonth(title); !ok || got != want {
			t.Errorf("%q is %v, %v, want %v", title, got, ok, want)
		}
	}
	for _, title := range []string{"", "Margin", "Mayor", "Marge", "Decision", "13/2026", "2026-13", "Total", "1/2/2026", "Jan 1 2026", "1926-00", "Septic"} {
		if got, ok := parse.ReadMonth(title); ok {
			t.Errorf("%q is read as %v", title, got)
		}
	}
}

func TestMonthsAreCounted(t *testing.T) {
	jan := parse.Month{Year: 2026, Month: time.January}
	if got := jan.Add(-11).String(); got != "Feb 2025" {
		t.Errorf("eleven months before January 2026: %s", got)
	}
	if got := (parse.Month{Year: 2024, Month: time.February}).End().Format(time.DateOnly); got != "2024-02-29" {
		t.Errorf("the end of February 2024: %s", got)
	}
	if jan.Compare(jan.Add(1)) >= 0 || jan.Add(2).Compare(jan) <= 0 {
		t.Error("January is not before February, or March not after it")
	}
}
