package publish

import (
	"fmt"
	"path"
	"strings"
	"time"
)

// mostNumbered is the highest number a copy gets. Beyond it something is wrong
// that another copy does not mend.
const mostNumbered = 9

// Names are those that a workbook may stand under, the best first: its own, and
// where that is held, "Name (2).xlsx" and so on.
func Names(name string) []string {
	out := []string{name}
	for n := 2; n <= mostNumbered; n++ {
		out = append(out, numbered(name, n))
	}
	return out
}

// numbered returns "Name (2).xlsx".
func numbered(name string, n int) string { return amend(name, fmt.Sprintf("(%d)", n)) }

// keptName returns "Name (kept 2026-03-16).xlsx", and from the second of a day
// on "Name (kept 2026-03-16, 2).xlsx".
func keptName(name string, date time.Time, n int) string {
	mark := "kept " + date.Format(time.DateOnly)
	if n > 1 {
		mark += fmt.Sprintf(", %d", n)
	}
	return amend(name, "("+mark+")")
}

func amend(name, mark string) string {
	ext := path.Ext(name)
	return strings.TrimSuffix(name, ext) + " " + mark + ext
}
