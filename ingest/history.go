package ingest

import (
	"context"
	"fmt"

	"flowshelf/analysis/history"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// The largest sheet of a month: ours stay far below it, and a stranger's cannot
// use up the machine.
const (
	historyRows = 20_000
	historyCols = 100
)

// ReadHistory reads back what was kept of a month. The error says in plain words
// why a content is no month of ours; a cell that cannot be understood is a
// problem and counts as not known.
func ReadHistory(ctx context.Context, path string, content []byte, limits decode.Limits) (history.Facts, source.Problems, error) {
	limits.Rows, limits.Cols = min(limits.Rows, historyRows), min(limits.Cols, historyCols)
	book, err := decode.Open(ctx, path, content, limits)
	if err != nil {
		return history.Facts{}, nil, err
	}
	month, ours := history.MonthOf(book.Custom[OutputProperty])
	if !ours {
		return history.Facts{}, nil, fmt.Errorf("%s was not written by us as a month's facts", path)
	}
	var sheets []shop.Rows
	for i := range book.Sheets {
		s := &book.Sheets[i]
		width := 0
		for _, c := range s.Row(history.HeaderRow) {
			width = max(width, c.Col)
		}
		rows := shop.Rows{Sheet: s.Name, At: source.Ref{File: path, Sheet: s.Name}, Titles: plainRow(path, s, history.HeaderRow, width)}
		for n := history.FirstRow; n <= s.Rows(); n++ {
			rows.Rows = append(rows.Rows, plainRow(path, s, n, width))
		}
		sheets = append(sheets, rows)
	}
	facts, problems, err := history.Read(sheets)
	if err != nil {
		return history.Facts{}, problems, fmt.Errorf("%s: %w", path, err)
	}
	if is := history.Month(facts.Date); is != month {
		return history.Facts{}, problems, fmt.Errorf("%s is marked as %s and says that it stands for %s", path, month, is)
	}
	return facts, problems, nil
}
