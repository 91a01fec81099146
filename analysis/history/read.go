package history

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

// ErrMonth is returned for sheets that do not hold a month's facts.
var ErrMonth = errors.New("the sheets hold no month's facts")

// Read understands the sheets of a month's workbook. Columns are found by their
// titles, so that a later version may add some; a cell that cannot be understood
// is a problem and counts as not known. The error is for sheets that do not even
// say which day they stand for.
func Read(sheets []shop.Rows) (Facts, source.Problems, error) {
	var f Facts
	var problems source.Problems
	for _, s := range sheets {
		switch strings.TrimSpace(s.Sheet) {
		case monthSheet:
			if months := readSheet(s, monthFields(), &problems); len(months) > 0 {
				f.Shop, f.Date, f.Currency = months[0].Shop, months[0].Date, months[0].Currency
			}
		case headSheet:
			f.Heads = readSheet(s, headFields(), &problems)
		case placeSheet:
			f.Places = readSheet(s, placeFields(), &problems)
		case settingSheet:
			f.Settings = readSheet(s, settingFields(), &problems)
		case answerSheet:
			f.Answers = readSheet(s, answerFields(), &problems)
		}
	}
	if f.Date.IsZero() || f.Date.Equal(time.Time{}) {
		return Facts{}, problems, ErrMonth
	}
	return f, problems, nil
}

func readSheet[T any](s shop.Rows, fields []field[T], problems *source.Problems) []T {
	columns := make([]*field[T], len(s.Titles))
	for i, title := range s.Titles {
		for j := range fields {
			if strings.EqualFold(strings.TrimSpace(title.Text), fields[j].title) {
				columns[i] = &fields[j]
			}
		}
	}
	var out []T
	for _, row := range s.Rows {
		var record T
		found := false
		for i, cell := range row {
			if i >= len(columns) || columns[i] == nil || cell.Kind == shop.Blank {
				continue
			}
			found = true
			if err := columns[i].read(&record, cell); err != nil {
				problems.Add(source.Problem{At: cell.At, Severity: source.Noted, Kind: "history-cell", Found: cell.Text,
					Message: fmt.Sprintf("%s of the month cannot be understood and counts as not known: %v", columns[i].title, err)})
			}
		}
		if found {
			out = append(out, record)
		}
	}
	return out
}
