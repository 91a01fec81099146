package flowsheet

import (
	"path"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// problemBook collects the problems of one page and knows who sent the book.
type problemBook struct {
	r        *reader
	problems source.Problems
	asked    map[string]bool
}

func (b *problemBook) add(p source.Problem) {
	key := p.At.String() + "|" + p.Kind + "|" + p.Head
	if b.asked == nil {
		b.asked = map[string]bool{}
	}
	if b.asked[key] {
		return
	}
	b.asked[key] = true
	b.problems.Add(p)
}

// note records something that was used and should be seen.
func (b *problemBook) note(at source.Ref, kind, headName, found, message string) {
	b.add(source.Problem{At: at, Severity: source.Noted, Kind: kind, Head: headName, Found: found, Message: message})
}

// setAside records something that was understood and is no data.
func (b *problemBook) setAside(at source.Ref, kind, headName, found, message string) {
	b.add(source.Problem{At: at, Severity: source.SetAside, Kind: kind, Head: headName, Found: found, Message: message})
}

// refuse records something that cannot be used.
func (b *problemBook) refuse(at source.Ref, kind, headName, found, message, hint string) {
	b.add(source.Problem{At: at, Severity: source.Refused, Kind: kind, Head: headName, Found: found, Message: message, Hint: hint})
}

// ask records a question. Its key holds the sender, so that one answer serves
// all books of that sender.
func (b *problemBook) ask(at source.Ref, kind, headName, found, message string, q source.Question) {
	for i := range b.problems {
		if have := &b.problems[i]; have.Question != nil && have.Question.Key == q.Key && have.Kind == kind {
			if have.At != at && !slices.Contains(have.Also, at) {
				have.Also = append(have.Also, at)
			}
			return
		}
	}
	p := source.Problem{At: at, Severity: source.Asked, Kind: kind, Head: headName, Found: found, Message: message,
		Hint: "answer in the questions workbook, or write it on the sheet"}
	p.Question = &q
	b.add(p)
}

// key names a question by its matter, the sender and what else it hangs on.
func key(matter, sender string, more ...string) string {
	return strings.Join(append([]string{matter, sender}, more...), "|")
}

// sender names who a book comes from as far as anybody can tell: the supplier
// or bench it names, else its folder, else the file.
func (r *reader) sender(f facts, filePath string) string {
	if s, ok := f.supplier.one(); ok {
		return s.Value
	}
	if s, ok := f.bench.one(); ok {
		return s.Value
	}
	if dir := path.Dir(filePath); dir != "." && dir != "/" {
		return dir
	}
	return strings.TrimSuffix(path.Base(filePath), path.Ext(filePath))
}

// learned returns what somebody has answered before about a sender's habit.
func (r *reader) learned(sender, matter string) (string, bool) {
	for _, w := range r.about.Shop.Words {
		if strings.EqualFold(w.Word, matter) && (w.Sender == "" || strings.EqualFold(w.Sender, sender)) {
			return parse.Squeeze(w.Means), true
		}
	}
	return "", false
}

func (b *builder) rowQuestion(c decode.Cell) source.Question {
	return source.Question{Key: key("row", b.sender, b.page.Path, b.page.Sheet.Name, source.CellName(c.Row, c.Col)),
		Text: "What is the row of numbers here?", Choices: []string{"readings: the lift is missing", "a summary", "ignore it"},
		Changes: "whether the row is used"}
}
