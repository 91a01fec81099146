package flowsheet

import (
	"path"
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

// senderName is the sender in words: where only the folder tells him, the bench or
// the supplier whose books the setup says lie there. Keys keep the folder, so that
// a name which is set later asks nothing anew.
func (b *builder) senderName() string {
	if b.sender != path.Dir(b.page.Path) {
		return b.sender
	}
	for _, bench := range b.r.about.Shop.Benches {
		if bench.Name != "" && inFolder(b.page.Path, bench.Folder) {
			return bench.Name
		}
	}
	for _, s := range b.r.about.Shop.Suppliers {
		if s.Name != "" && inFolder(b.page.Path, s.Folder) {
			return s.Name
		}
	}
	return b.sender
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
	return source.Question{Key: key("row", b.sender, oneCell("", b.page.Ref(c), cellText(c))),
		Text: "What is the row of numbers here? If it is readings, type their lift as the others are written.", Choices: []string{"a summary", "leave it out"},
		Wants: source.AFigure, Changes: "whether the row is used"}
}
