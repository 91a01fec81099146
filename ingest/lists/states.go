package lists

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// apartFromNew are the words by which a stock book marks lines that are not new
// stock of the shop's own: worn, somebody else's, or changed by our work.
var apartFromNew = regexp.MustCompile(`(?i)\b(used|second.?hand|scratch( and |/| & )dent|damaged|consign(ment|ed)|customer('?s)?[- ]owned|customer'?s own|on loan|returned|reworked|gebraucht|kommission|beschädigt)\b`)

// notForSale asks, once for each such mark of whoever keeps the book, whether its
// lines are stock like any other. Until that is answered they are not counted in.
func (s *stockReader) notForSale(l line, out *head.StockItem) {
	if out.Status != head.Used {
		return
	}
	for _, want := range []role{"description", "build", "note"} {
		cell, _, ok := s.cell(l, want)
		if !ok {
			continue
		}
		mark := strings.ToLower(apartFromNew.FindString(textOf(cell)))
		if mark == "" {
			continue
		}
		why := "the line is marked “" + mark + "”"
		p := s.newProblem(cell, source.Asked, "stock-not-new", out.Head, why+", so it is not counted with the new heads", "")
		p.Question = s.question("marked "+mark, "Are lines marked “"+mark+"” stock like the new heads?", useIt, leaveOut)
		p.Question.Changes = "heads on hand, cash in stock, what to reorder"
		answer, ok := s.askOnce(p)
		out.Status, out.Why = decide(answer, ok, why)
		return
	}
}
