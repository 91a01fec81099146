package flowsheet

import (
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// A sheet names much that is no head: the cam, the customer, the order. What stands
// behind a label that is none of the head's labels is never a head's name, unless the
// shop lists it.

// besideThing reports whether a name in a line is another thing's by the words right
// before or behind it.
func (l *line) besideThing(start, end int) bool { return l.behindThing(start) || l.beforeThing(end) }

// behindThing reports whether what begins at a place of a line stands behind a word for
// another thing than a head, or behind a label that nobody knows.
func (l *line) behindThing(start int) bool {
	before := l.text[l.clauseStart(start):start]
	if endsInThing(before) {
		return true
	}
	label, colon := strings.CutSuffix(strings.TrimSpace(before), ":")
	return colon && label != "" && !isHeading(label)
}

// clauseStart returns where the clause begins that holds a place of the line.
func (l *line) clauseStart(at int) int {
	return strings.LastIndexAny(l.text[:at], ",;|()[]") + 1
}

// endsInThing reports whether a text ends in a word for another thing than a head, or
// tells by or for whom something was done.
func endsInThing(before string) bool {
	tokens := words.Tokens(before)
	hits := words.Besides().Find(tokens)
	if len(hits) == 0 || hits[len(hits)-1].At+hits[len(hits)-1].Tokens != len(tokens) {
		return false
	}
	switch hits[len(hits)-1].Role {
	case words.Thing, words.Whose, words.By:
		return true
	case words.For: // "Flow test for" leads to the head
		return len(tokens) == 1 || endsInWork(tokens[:len(tokens)-1])
	default:
		return false
	}
}

// endsInWork reports whether the last word tells what was done.
func endsInWork(tokens []words.Token) bool {
	hits := words.FlowSheet().Find(tokens)
	if len(hits) == 0 {
		return false
	}
	last := hits[len(hits)-1]
	return last.At+last.Tokens == len(tokens) && (last.Role == words.Tested || last.Role == words.Rework || last.Role == words.After)
}

// beforeThing reports whether a name ends right before a word for another thing than a
// head, which has no figure of its own: "the MT 305 manifold".
func (l *line) beforeThing(end int) bool {
	behind := l.text[end:]
	if at := titleGaps.FindStringIndex(behind); at != nil {
		behind = behind[:at[0]]
	}
	hits := words.Besides().Find(words.Tokens(behind))
	return len(hits) > 0 && hits[0].At == 0 && hits[0].Role == words.Thing && !aFigure.MatchString(behind)
}

// opensWithThing reports whether a text begins with a word for another thing than a head.
func opensWithThing(text string) bool {
	hits := words.Besides().Find(words.Tokens(text))
	return len(hits) > 0 && hits[0].At == 0 && (hits[0].Role == words.Thing || hits[0].Role == words.Whose)
}

// isThing reports whether all of a cell is the label of another thing than a head.
func isThing(c decode.Cell) bool {
	if c.Kind != decode.Text {
		return false
	}
	tokens, covered := words.Tokens(c.Text), 0
	for _, hit := range words.Besides().Find(tokens) {
		if hit.Role == words.Thing || hit.Role == words.Whose || hit.Role == words.Label {
			covered += hit.Tokens
		}
	}
	return covered > 0 && covered == len(tokens)
}

// isHeading reports whether what stands before a colon tells what the sheet is, and
// not what the value behind it is: "Flow test", "Report".
func isHeading(label string) bool {
	tokens := words.Tokens(label)
	known := make([]bool, len(tokens))
	for _, hit := range words.FlowSheet().Find(tokens) {
		if !headsSheet(hit.Role) {
			return false
		}
		for i := range hit.Tokens {
			known[hit.At+i] = true
		}
	}
	for i, token := range tokens {
		if !known[i] && !ofPaper.MatchString(label[token.Start:token.End]) {
			return false
		}
	}
	return true
}

// headsSheet reports whether a word of a role can stand in the title of a sheet.
func headsSheet(role words.Role) bool {
	return slices.Contains([]words.Role{words.Head, words.Flow, words.Tested, words.Filler, words.Intake, words.Exhaust, words.Port, words.Cover, words.Run,
		words.OwnBench, words.Bench, words.Sample, words.Advertised, words.AsDelivered, words.Rework, words.Before, words.After, words.Operator}, role)
}

// valueOfThing reads a label of another thing and its value in the next cell: what it
// says of the test counts, a name in it does not.
func (r *reader) valueOfThing(page *layout.Page, value decode.Cell) []statement {
	out := r.cellStatements(page, value)
	for i := range out {
		out[i].facts = r.listedOnly(out[i].facts)
	}
	return out
}

// listedOnly keeps of the names of heads those that the shop lists.
func (r *reader) listedOnly(f facts) facts {
	f.head = slices.DeleteFunc(slices.Clone(f.head), func(name source.Stated[string]) bool {
		_, listed := r.names.listed[name.Value]
		return !listed
	})
	f.unclear = nil
	return f
}

// whoseOf lists what lines tell of whom a head belongs to or on which paper it came:
// "Customer | Marsh 2", "Order: 4471".
func whoseOf(lines []layout.Line) []string {
	var out []string
	for _, l := range lines {
		for i, c := range l.Cells {
			label, value, _ := strings.Cut(c.Text, ":")
			if value = strings.TrimSpace(value); value == "" && i+1 < len(l.Cells) {
				value = cellText(l.Cells[i+1])
			}
			tokens := words.Tokens(label)
			hits := words.Besides().Find(tokens)
			if c.Kind == decode.Text && value != "" && len(hits) == 1 && hits[0].Role == words.Whose && hits[0].Tokens == len(tokens) {
				out = append(out, value)
			}
		}
	}
	return out
}

// tellsOfOthers reports whether the lines over a table tell of a customer or a paper that
// those over the first one do not: the head is another one's, or may be.
func tellsOfOthers(first, lines []layout.Line) bool {
	known := whoseOf(first)
	return slices.ContainsFunc(whoseOf(lines), func(value string) bool { return !slices.Contains(known, value) })
}
