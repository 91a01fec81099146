package flowsheet

import (
	"fmt"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// twoNumbers asks about 262/258 in one cell.
func (b *builder) twoNumbers(c decode.Cell, text *parse.ReadingText, r *head.Reading, headName string) {
	at := b.page.Ref(c)
	answer, ok := b.p.ask(at, kindTwoNumbers, headName, c.Text, text.Unsure, source.Question{
		Key: key("two numbers", oneCell(headName, at, c.Text)), Text: "Two numbers stand in one cell: two runs or two ports?",
		Choices: []string{"two runs: use the mean", "two ports: use the mean", parse.Digits(text.Either[0]), parse.Digits(text.Either[1])},
		Changes: "the curve at this lift"})
	if !ok {
		r.Status, r.Why = head.Asked, text.Unsure
		return
	}
	value := (text.Either[0] + text.Either[1]) / 2
	if answer.Number {
		value = answer.Figure
	}
	read(text, value)
	mark(r, answer, "read as "+parse.Digits(value))
}

// unsure asks what the reading in a cell is.
func (b *builder) unsure(c decode.Cell, text *parse.ReadingText, r *head.Reading, headName string) {
	at := b.page.Ref(c)
	answer, ok := b.p.ask(at, kindNotANumber, headName, cellText(c), "the reading cannot be read for sure: "+text.Unsure, source.Question{
		Key: key("reading", oneCell(headName, at, cellText(c))), Text: fmt.Sprintf("What is the reading in this cell (%q)?", cellText(c)),
		Choices: []string{leaveOut}, Wants: source.AFigure, Evidence: text.Unsure, Changes: "the curve at this lift"})
	switch {
	case !ok:
		r.Status, r.Why = head.Asked, text.Unsure
	case answer.Is(leaveOut):
		r.Status, r.Why = head.SetAside, text.Unsure+"; left out, "+answer.Per()
	default:
		read(text, answer.Figure)
		mark(r, answer, "read as "+parse.Digits(answer.Figure))
	}
}

// leaveOut is the choice by which a reading or a row is not used.
const leaveOut = "leave it out"

func read(text *parse.ReadingText, value float64) {
	text.Value, text.Known, text.Unsure, text.Either = value, true, "", [2]float64{}
}

// answeredRows takes a row without a lift for readings where somebody has told
// its lift.
func (b *builder) answeredRows(t *table) {
	var rest []extra
	for _, x := range t.extras {
		answer, ok := b.r.about.Answers.Reply(b.rowQuestion(t.firstOf(x)))
		if !ok || !answer.Number || x.summary || x.caption.role != words.None || t.sumsUp(x.row) {
			rest = append(rest, x)
			continue
		}
		b.askRow(t, x)
		cell := t.plane().At(x.row, t.axis.col)
		t.axis.entries = append(t.axis.entries, entry{row: x.row, cell: cell, text: parse.LiftText{Value: answer.Figure}, answered: answer.Per()})
	}
	t.extras = rest
}

// firstOf returns the first cell of a row that says something.
func (t *table) firstOf(x extra) decode.Cell {
	at := x.label
	for _, ln := range t.lanes {
		if c := t.plane().At(x.row, ln.col); at.Blank() && !c.Blank() {
			at = c
		}
	}
	return at
}
