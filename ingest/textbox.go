package ingest

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// noteTextBoxes says of each text that floats over the cells that it is not
// used. No cell holds it and it may mean any of the tables around it, so that
// nothing is taken from it; where it speaks of the conditions of a test, on a
// sheet that somebody has read something from, it counts as something that could
// not be used, and waits for a person.
func (f *FileRead) noteTextBoxes(sheet *decode.Sheet, readBy []string) {
	for _, box := range sheet.TextBoxes {
		p := source.Problem{
			At: source.Ref{File: f.Path, Sheet: sheet.Name}, Severity: source.Noted, Kind: "text-box",
			Found: parse.Squeeze(box.Text), Hint: "type it into a cell if it matters",
		}
		near := ""
		if box.Row > 0 {
			p.At = source.At(f.Path, sheet.Name, box.Row, box.Col)
			near = " near " + p.At.Cell
		}
		p.Message = fmt.Sprintf("a text box%s is not used: only cells are read", near)
		if len(readBy) > 0 && ofTheTrade(box.Text) {
			p.Severity = source.Refused
			p.Message = fmt.Sprintf("a text box%s says something of the heads or the test, and is not used: only cells are read", near)
			p.Hint = "type it into a cell, above the table that it belongs to"
		}
		f.Records.Problems.Add(p)
	}
}

// ofTheTrade reports whether a text may say something of a test or of a price:
// it holds a measure with its unit, or a figure and a word of the trade.
func ofTheTrade(text string) bool {
	if len(parse.FindPressures(text)) > 0 || len(parse.FindBores(text)) > 0 {
		return true
	}
	if _, flow := parse.FindFlowUnit(text); flow {
		return true
	}
	figure := strings.ContainsAny(text, "0123456789")
	for _, hit := range words.FlowSheet().Find(words.Tokens(text)) {
		if figure || slices.Contains(saidInWords(), hit.Role) {
			return true
		}
	}
	return figure && parse.Currency(text) != ""
}

// saidInWords are the conditions that need no figure.
func saidInWords() []words.Role {
	return []words.Role{words.Pipe, words.NoPipe, words.Radius, words.NoEntry, words.Corrected}
}
