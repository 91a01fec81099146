package book_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
)

// TestADateInTheFooterIsNoSizeOfLetters: without the shop's name the footer begins
// with a digit, which must not carry on the size before it.
func TestADateInTheFooterIsNoSizeOfLetters(t *testing.T) {
	for shop, want := range map[string]string{"": "&L&8 2026-03-16", "4 Stroke Heads": "&L&8 4 Stroke Heads, 2026-03-16"} {
		b := book.New(book.Properties{ID: "footer", Shop: shop, Dated: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)})
		s := b.Sheet("One")
		s.Say(1, 1, "a text", book.Body)
		s.Print(book.Print{Basis: "what it is"})
		content, err := b.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(content))
		if err != nil {
			t.Fatal(err)
		}
		foot, err := f.GetHeaderFooter("One")
		if err != nil || !strings.HasPrefix(foot.OddFooter, want) {
			t.Errorf("%q: %v, %v; want it to begin with %q", shop, foot, err, want)
		}
	}
}
