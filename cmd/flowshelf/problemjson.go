package main

import "flowshelf/analysis/source"

// problemJSON is one problem for a script. Kind is a stable word.
type problemJSON struct {
	Kind     string `json:"kind"`
	Severity string `json:"severity"`
	File     string `json:"file"`
	Sheet    string `json:"sheet"`
	Cell     string `json:"cell"`
	Head     string `json:"head"`
	Family   string `json:"family"`
	Found    string `json:"found"`
	Message  string `json:"message"`
	Hint     string `json:"hint"`
	Question string `json:"question"`
}

func problemsOf(ps source.Problems) []problemJSON {
	out := []problemJSON{}
	for _, p := range ps.Sorted() {
		j := problemJSON{
			Kind: p.Kind, Severity: p.Severity.String(), File: p.At.File, Sheet: p.At.Sheet, Cell: p.At.Cell,
			Head: p.Head, Family: p.Family, Found: p.Found, Message: p.Message, Hint: p.Hint,
		}
		if p.Question != nil {
			j.Question = p.Question.Text
		}
		out = append(out, j)
	}
	return out
}
