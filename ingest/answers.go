package ingest

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"syscall"
	"time"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// Replies is what people have written into the questions workbook.
type Replies struct {
	answers.Taken
	Read []string // SHA-256, in hex, of each workbook that was read
}

// ReadAnswers reads the answers in the questions workbook of the output folder, by
// each of the names that it may stand under, on a day. Nothing but the yellow cells and
// the hidden record beside them is read. The error is for a workbook that is
// there and cannot be read: going on would take every answer back.
func ReadAnswers(ctx context.Context, fsys fs.FS, names []string, opt Options, on time.Time) (Replies, error) {
	var out Replies
	var rows []answers.Row
	for _, name := range names {
		name = path.Join(opt.Reserved, name)
		if !mayHoldAnswers(fsys, opt.Reserved, name) {
			continue
		}
		content, there, err := contentOf(fsys, name)
		if err != nil {
			return Replies{}, fmt.Errorf("the answers cannot be read: %w", err)
		}
		if !there {
			continue
		}
		book, err := decode.Open(ctx, name, content, opt.Limits)
		if err != nil {
			return Replies{}, fmt.Errorf("the answers in %s cannot be read: %w", name, err)
		}
		found := answerRows(name, book)
		if len(found) > 0 || book.Custom[OutputProperty] == answers.OutputID {
			out.Read = append(out.Read, hashOf(content))
		}
		rows = append(rows, found...)
	}
	out.Taken = answers.Take(rows, on)
	return out, nil
}

// mayHoldAnswers is false where a folder stands in the way of the workbook, or a
// file in that of the output folder: nobody can have typed anything there, and
// the publisher says that it is blocked.
func mayHoldAnswers(fsys fs.FS, reserved, name string) bool {
	if folder, err := fs.Stat(fsys, reserved); err == nil && !folder.IsDir() {
		return false
	}
	file, err := fs.Stat(fsys, name)
	return err != nil || !file.IsDir()
}

// contentOf reads a file that may not be there; a folder of that name is none.
func contentOf(fsys fs.FS, name string) (content []byte, there bool, err error) {
	info, err := fs.Stat(fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return nil, false, nil
	case err != nil:
		return nil, false, err
	case !info.Mode().IsRegular():
		return nil, false, nil
	}
	content, err = fs.ReadFile(fsys, name)
	return content, err == nil, err
}

// answerRows finds the rows by their titles: a person may have moved, sorted or
// hidden any of them.
func answerRows(name string, book *decode.Book) []answers.Row {
	var out []answers.Row
	for i := range book.Sheets {
		sheet := &book.Sheets[i]
		header, columns := answerColumns(sheet)
		if columns == nil {
			continue
		}
		_, given := columns[answers.TakenTitle]
		for n := header + 1; n <= sheet.Rows(); n++ {
			text := func(title string) string {
				col, ok := columns[title]
				if !ok {
					return ""
				}
				return typed(sheet.At(n, col))
			}
			out = append(out, answers.Row{
				Key: text(answers.KeyTitle), Question: text(answers.QuestionTitle), Head: text(answers.HeadTitle), First: text(answers.FirstTitle),
				About:    source.Ref{File: text(answers.FileTitle), Sheet: text(answers.SheetTitle), Cell: text(answers.CellTitle)},
				Answer:   text(answers.AnswerTitle),
				AnswerAt: source.At(name, sheet.Name, n, columns[answers.AnswerTitle]),
				Name:     text(answers.NameTitle), TakeBack: text(answers.TakeBackTitle),
				Given: given, Taken: text(answers.TakenTitle), By: text(answers.ByTitle), On: text(answers.OnTitle),
			})
		}
	}
	return out
}

// answerColumns finds the header of a sheet of questions: the row that holds
// both an answer's title and a key's.
func answerColumns(sheet *decode.Sheet) (row int, columns map[string]int) {
	for n := 1; n <= sheet.Rows(); n++ {
		found := make(map[string]int)
		for _, c := range sheet.Row(n) {
			for _, title := range answers.Titles() {
				if c.Kind == decode.Text && strings.EqualFold(parse.Squeeze(c.Text), title) {
					found[title] = c.Col
				}
			}
		}
		_, answer := found[answers.AnswerTitle]
		_, key := found[answers.KeyTitle]
		if answer && key {
			return n, found
		}
	}
	return 0, nil
}

// typed is what a person sees in a cell: a program may have turned "1 April"
// into a date.
func typed(c decode.Cell) string {
	switch c.Kind {
	case decode.Text:
		return strings.TrimSpace(c.Text)
	case decode.Number:
		return parse.Digits(c.Num)
	case decode.Bool:
		return map[bool]string{true: "yes", false: "no"}[c.Num != 0]
	case decode.Date:
		if day, ok := parse.Serial(c.Num); ok {
			return day.Format("2 January 2006")
		}
	case decode.Empty, decode.Failed:
	}
	return ""
}
