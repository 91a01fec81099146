package decode

import (
	"context"
	"strings"
)

// CSV reads text tables: comma, semicolon, tab or bar between the fields.
// The one sheet of the book has no name.
type CSV struct{}

// Decode implements Decoder.
//
// A field is Text unless it is a plain number like 123, 12.5 or .550: digits
// with at most one point, no grouping, no sign but minus, no leading zeros.
// What a comma means is for the reader of the columns to decide; in a file
// where a decimal comma occurs, a point could be a grouping mark, so there
// fields with a point stay Text as well.
func (CSV) Decode(ctx context.Context, _ string, content []byte, limits Limits) (*Book, error) {
	text, err := plainText(content)
	if err != nil {
		return nil, err
	}
	delimiter, body := namedDelimiter(text)
	if delimiter == 0 {
		delimiter = guessDelimiter(text, limits.Cols)
	}
	b := newBudget(limits)
	if err := b.takeBytes(int64(len(text))); err != nil {
		return nil, err
	}
	sheet := Sheet{HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}
	sheet.Cells = make([]Cell, 0, min(limits.Cells, strings.Count(body, string(delimiter))+strings.Count(body, "\n")+1))
	records := recordReader{text: body, delimiter: delimiter, most: limits.Cols}
	for row := 1; ; row++ {
		if row%1024 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		fields, err := records.next()
		if err != nil {
			return nil, err
		}
		if fields == nil {
			break
		}
		if err := addRecord(&sheet, row, fields, b); err != nil {
			return nil, err
		}
	}
	if len(sheet.Cells) == 0 {
		return nil, &Refusal{Kind: EmptyFile, Retry: true, Message: "This file holds no text.", Hint: hintCopyAgain}
	}
	recogniseNumbers(sheet.Cells)
	sheet.Index()
	if delimiter == ',' && splitsDecimals(&sheet) {
		return nil, &Refusal{Kind: Ambiguous,
			Message: "This text file has commas both in its numbers and between them; save it with semicolons, or as .xlsx, and drop that."}
	}
	format := "csv"
	if delimiter == '\t' {
		format = "tsv"
	}
	return &Book{Format: format, Sheets: []Sheet{sheet}, Custom: map[string]string{}}, nil
}

func addRecord(sheet *Sheet, row int, fields []string, b *budget) error {
	for i, field := range fields {
		if strings.TrimSpace(field) == "" {
			continue
		}
		if err := b.checkText(len(field)); err != nil {
			return err
		}
		if err := b.takeCell(row, i+1); err != nil {
			return err
		}
		sheet.Cells = append(sheet.Cells, Cell{Row: row, Col: i + 1, Kind: Text, Text: field, Stored: true})
	}
	return nil
}
