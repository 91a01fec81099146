// Package answers is what the questions workbook and its readers agree on: its
// sheets and titles, and what the typed cells of its rows mean. It is pure; who
// writes the workbook and who opens it are elsewhere.
package answers

import (
	"time"

	"flowshelf/analysis/source"
)

// FileName is the workbook's name in the output folder.
const FileName = "Questions.xlsx"

// OutputID is by what the workbook names itself in its properties.
const OutputID = "questions"

// The sheets: what is asked, and what has been answered. The second one is the
// record of the answers; there is no other.
const (
	OpenSheet  = "Questions"
	GivenSheet = "Answered"
)

// The titles of the columns that are read back. Those from the key on are
// hidden: they say which question a row is, wherever a person has moved it.
const (
	AnswerTitle   = "Your answer"
	NameTitle     = "Your name (optional)"
	TakeBackTitle = "Take back"
	QuestionTitle = "Question"
	HeadTitle     = "Head"

	KeyTitle   = "Key (leave alone)"
	FileTitle  = "Asked of file"
	SheetTitle = "Asked of sheet"
	CellTitle  = "Asked of cell"
	FirstTitle = "Asked since"
	TakenTitle = "Answer as taken over"
	ByTitle    = "By as taken over"
	OnTitle    = "Taken over on"
)

// TakeBack is what is written into the column of that name to withdraw an
// answer.
const TakeBack = "take back"

// NoHead stands in the head's column of a question that is about no one head.
const NoHead = "-"

// Row is one row of either sheet, as texts.
type Row struct {
	Key, Question, Head string
	About               source.Ref
	First               string // the day it was first asked, "2026-03-16"

	Answer   string // as it stands in the yellow cell
	AnswerAt source.Ref
	Name     string
	TakeBack string

	Given  bool   // of the record: what follows is what was taken over earlier
	Taken  string // the answer
	By, On string
}

// Titles are the columns of a sheet that are read, for whoever looks for the
// header.
func Titles() []string {
	return []string{AnswerTitle, NameTitle, TakeBackTitle, QuestionTitle, HeadTitle, KeyTitle, FileTitle, SheetTitle,
		CellTitle, FirstTitle, TakenTitle, ByTitle, OnTitle}
}

func dayOf(text string) (time.Time, bool) {
	day, err := time.Parse(time.DateOnly, text)
	return day, err == nil
}
