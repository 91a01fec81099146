package history_test

import (
	"context"
	"testing"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/source"
	write "flowshelf/export/history"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
)

// FuzzReadHistory reads broken months: an error or facts of a day, never a panic.
func FuzzReadHistory(f *testing.F) {
	month, err := write.Write(history.Facts{Shop: "Shop", Date: time.Date(2026, 2, 16, 0, 0, 0, 0, time.UTC),
		Heads: []history.Head{{Name: "LKC-12", OnHand: source.Say(9, source.Trace{})}}}, head.Letter)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(month)
	f.Add(month[:len(month)/2])
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, content []byte) {
		facts, _, err := ingest.ReadHistory(context.Background(), "History/2026-02.xlsx", content, decode.Defaults())
		if err == nil && facts.Date.IsZero() {
			t.Error("facts of no day")
		}
	})
}
