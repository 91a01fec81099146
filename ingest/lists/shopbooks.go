package lists

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

func benchLog() kind {
	return kind{
		name: "bench log",
		columns: []column{
			{role: "date", titles: regexp.MustCompile(`(?i)^(date|day|datum)$`)},
			{role: "nominal", titles: regexp.MustCompile(`(?i)\bnominal\b|\bshould\b|\bsoll\b|\bplate cfm\b`)},
			{role: "read", titles: regexp.MustCompile(`(?i)\bread(ing)?\b|\bactual\b|\bist\b`)},
			{role: "leak", titles: regexp.MustCompile(`(?i)\bleak(age)?\b|\bleck`)},
			{role: "operator", titles: regexp.MustCompile(`(?i)^(operator|by|who|initials?)$`)},
			{role: "bench", titles: regexp.MustCompile(`(?i)^bench$`)},
			{role: "remark", titles: regexp.MustCompile(`(?i)^(remarks?|notes?|bemerkung(en)?)$`)},
		},
		needs: []role{"date", "read", "nominal"},
		flows: true,
		proof: checkPlate,
		read:  readBenchLog,
	}
}

var plateWord = regexp.MustCompile(`(?i)\b(plate|orifice|bench|cfm|blende)\b`)

func checkPlate(t *table, _ layout.Context) bool {
	for _, c := range t.columns {
		if plateWord.MatchString(c.title) {
			return true
		}
	}
	for _, n := range t.loose {
		if plateWord.MatchString(n.text) {
			return true
		}
	}
	return false
}

func readBenchLog(r *reader) {
	bench := benchOf(r)
	for _, l := range r.lines {
		check := head.BenchCheck{Bench: firstOf(r.words(l, "bench"), bench), At: r.ref(l.key)}
		check.Date = r.day(l, "date")
		check.Nominal, check.Read, check.Leak = r.cfm(l, "nominal"), r.cfm(l, "read"), r.cfm(l, "leak")
		check.Operator, check.Remark = r.words(l, "operator"), r.words(l, "remark")
		r.records.Bench = append(r.records.Bench, check)
	}
}

// benchOf finds the bench by name in the notes, else by the folder.
func benchOf(r *reader) string {
	for _, n := range r.notes {
		for _, b := range r.about.Shop.Benches {
			if b.Name != "" && hasWords(plain(n.text), plain(b.Name)) {
				r.use(n.cell, "the bench")
				return b.Name
			}
		}
	}
	for _, b := range r.about.Shop.Benches {
		if below(r.page.Path, b.Folder) {
			return b.Name
		}
	}
	return ""
}

// cfm reads a flow of the check plate; the title or a note must name the unit.
func (r *reader) cfm(l line, want role) source.Stated[quantity.Flow] {
	x := r.number(l, want, "cfm")
	if !x.Known {
		return source.Stated[quantity.Flow]{}
	}
	if !strings.Contains(strings.ToLower(r.find(want).title), "cfm") && !r.notesSay("cfm") {
		if c := r.find(want); len(c.cells) > 0 {
			return r.askFlowUnit(c, x)
		}
		return source.Stated[quantity.Flow]{}
	}
	return source.Say(quantity.CFM(x.Value), x.Trace)
}

// askFlowUnit asks for the unit of a column of flows.
func (r *reader) askFlowUnit(c *titled, x source.Stated[float64]) source.Stated[quantity.Flow] {
	p := r.newProblem(c.cells[0], source.Asked, "flow-unit-not-stated", "", "the unit of "+c.title+" is not stated", "write cfm into the title")
	p.Question = r.question("unit of "+c.title, "In which unit is "+c.title+"?", "cfm", "L/s", "m3/h", "m3/min")
	answer, ok := r.askOnce(p)
	if !ok {
		return source.Stated[quantity.Flow]{}
	}
	unit, _ := parse.FindFlowUnit(answer.Choice)
	flow, step, _ := unit.Flow(x.Value)
	trace := x.Trace
	trace.Unit, trace.Answered = unit.String(), answer.Per()
	if step != "" {
		trace = trace.Then(step)
	}
	return source.Say(flow, trace)
}

func (r *reader) notesSay(word string) bool {
	for _, n := range r.notes {
		if hasWords(plain(n.text), word) {
			r.use(n.cell, "states the unit")
			return true
		}
	}
	return false
}

func noteList() kind {
	return kind{
		name: "notes",
		columns: []column{
			{role: key, titles: regexp.MustCompile(`(?i)^(heads?|our name|casting|kopf)$`)},
			{role: "text", titles: regexp.MustCompile(`(?i)^(findings?|notes?|remarks?|what|bemerkung(en)?)$`)},
			{role: "side", titles: regexp.MustCompile(`(?i)\bfor\b.*\bagainst\b|^(side|\+/-|pro/con(tra)?)$`)},
			{role: "by", titles: regexp.MustCompile(`(?i)^(by|who|initials?|von)$`)},
			{role: "date", titles: regexp.MustCompile(`(?i)^(date|when|datum)$`)},
		},
		needs: []role{key, "text"},
		any:   []role{"side", "by", "date"}, least: 1,
		proof: headsKnown,
		read: func(r *reader) {
			for _, l := range r.lines {
				n := head.Note{Text: r.words(l, "text"), For: r.side(l), By: r.words(l, "by"), Date: r.day(l, "date")}
				n.Head, n.HeadAt = r.head(l)
				n.At = n.HeadAt
				if cell, _, ok := r.cell(l, "text"); ok {
					n.At = r.ref(cell)
				}
				r.records.Notes = append(r.records.Notes, n)
			}
		},
	}
}

func (r *reader) side(l line) head.Side {
	switch text := strings.ToLower(r.words(l, "side")); text {
	case "for", "+", "pro", "good":
		return head.For
	case "against", "con", "contra", "bad":
		return head.Against
	case "":
		return head.Neither
	default:
		cell, _, _ := r.cell(l, "side")
		r.problem(cell, source.Noted, "side-unclear", l.name(), "this is neither for nor against", "type for or against")
		return head.Neither
	}
}

func matchingKey() kind {
	return kind{
		name: "matching key",
		columns: []column{
			{role: key, titles: regexp.MustCompile(`(?i)^(our (name|head|number|no\.?)|ours)$`)},
			{role: "supplier", titles: regexp.MustCompile(`(?i)^(suppliers?|from|maker|lieferant)$`)},
			{role: "theirs", titles: regexp.MustCompile(`(?i)^(their (name|number|no\.?|part ?(no|number)?\.?)|theirs|(supplier'?s? |part )(number|no\.?)|castings?( (number|no\.?))?|also( called)?|old name)$`), many: true},
		},
		needs: []role{key, "theirs"},
		proof: headsKnown,
		read:  readKey,
	}
}

func readKey(r *reader) {
	for _, l := range r.lines {
		ours, _ := r.head(l)
		supplier, before := r.words(l, "supplier"), len(r.records.Aliases)
		for i := range r.columns {
			c := &r.columns[i]
			if c.role != "theirs" {
				continue
			}
			if cell, ok := r.value(l, c); ok {
				r.records.Aliases = append(r.records.Aliases, head.Alias{
					Name: parse.Squeeze(textOf(cell)), Ours: ours, Supplier: supplier, At: r.ref(cell)})
			}
		}
		if len(r.records.Aliases) == before {
			r.problem(l.key, source.Noted, "key-without-name", ours, "this line of the matching key names nothing that "+ours+" is called elsewhere", "")
		}
	}
}
