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
