package lists

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// looseText accounts for the words around the lists of a page that state
// nothing: titles, greetings, remarks. It comes last and looks only at pages on
// which a list was read.
type looseText struct {
	lists []string // names of the recognisers of lists
}

// Name implements layout.Recogniser.
func (looseText) Name() string { return "text around lists" }

// Recognise implements layout.Recogniser.
func (l looseText) Recognise(page *layout.Page, _ layout.Context) head.Records {
	if !l.hasList(page) {
		return head.Records{}
	}
	for _, c := range page.Unclaimed() {
		if c.Kind == decode.Text || c.Kind == decode.Date {
			page.Claim(c.Row, c.Col, layout.Claim{By: l.Name(), Why: "words that state nothing for a list"})
		}
	}
	return head.Records{}
}

// hasList reports whether a list has used a cell of the page.
func (l looseText) hasList(page *layout.Page) bool {
	for _, c := range page.Sheet.Cells {
		if claim, ok := page.ClaimedBy(c.Row, c.Col); ok && claim.Used && slices.Contains(l.lists, claim.By) {
			return true
		}
	}
	return false
}
