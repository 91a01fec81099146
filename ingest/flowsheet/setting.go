package flowsheet

import (
	"cmp"
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// setting says how the port was flowed: bore, leak, valve, pipe, entry.
func (b *builder) setting(s *series, out *head.Test) {
	f := s.facts
	out.Leak, _ = f.leak.one()
	if f.is(words.Valves) || s.blockFacts.is(words.Valves) {
		b.p.note(b.tableRef(s), kindBothValves, out.Head, "", "the sheet says how many valves were open; the ceiling of the flow has to be taken for as many")
	}
	out.Valve, _ = f.valveOf()
	b.bore(s, out)
	if out.Port == head.Exhaust {
		b.pipe(s, out)
		return
	}
	out.Entry = entryText(f.entry)
	b.usualEntry(s, out)
	if out.Entry == "" && out.Port == head.Intake && out.Class == head.Supplier && out.Status == head.Used {
		b.askManifold(s, out)
	}
	if out.Entry == "" && out.Port == head.Intake && out.Class != head.Advertised {
		b.p.note(b.tableRef(s), kindEntryUnknown, "", "", "the entry to the intake (radius, clay, none) is not stated")
	}
}

// The ways a supplier can have flowed an intake.
const (
	barePort     = "the bare port"
	withManifold = "with a manifold"
)

// askManifold asks once a supplier whether the intakes of his sheets were flowed
// bare, where they do not say so: a manifold costs 3 to 15 % (common practice, no
// source).
func (b *builder) askManifold(s *series, out *head.Test) {
	bare := []words.Role{words.NoManifold, words.BarePort}
	if s.facts.says(bare...) || s.blockFacts.says(bare...) || b.around.tab.any().says(bare...) || b.around.cover.any().says(bare...) {
		return
	}
	supplier := cmp.Or(out.By, b.sender)
	answer, ok := b.p.ask(b.tableRef(s), kindManifold, "", "", "a supplier's sheet that does not say whether the intake wore a manifold", source.Question{
		Key: key("manifold", supplier), Text: "Does " + supplier + " flow the intake bare or with a manifold, where the sheet does not say?",
		Choices: []string{barePort, withManifold}, Evidence: "the entry to the intake is not stated", Changes: "what the supplier's curve is compared with",
		Reach: source.ReachesWords})
	if !ok {
		return
	}
	if answer.Is(withManifold) {
		out.Entry = "manifold"
	}
	s.answeredBy(answer.Trace(""))
}

func (b *builder) tableRef(s *series) source.Ref { return b.page.Ref(s.liftCells[0]) }

func entryText(entry said[string]) string {
	var out []string
	for _, e := range entry {
		out = append(out, e.Value)
	}
	return strings.Join(out, ", ")
}

func (b *builder) pipe(s *series, out *head.Test) {
	pipe, ok := s.facts.pipe.one()
	switch {
	case ok && len(s.rivals.pipe) > 0:
		b.askRivalPipe(s, pipe, out)
	case ok:
		out.Pipe, out.PipeAt = pipe.Value, pipe.Trace
	case len(s.facts.pipe) > 1:
		b.p.note(b.page.Ref(s.at), kindPipeClash, out.Head, "", "the sheet speaks of the exhaust with and without a pipe and does not say which this is")
	case out.Class == head.Advertised || b.usualPipe(s, out):
	default:
		b.p.note(b.tableRef(s), kindPipeUnknown, "", "", "the sheet does not say whether the exhaust wore a pipe")
	}
}

// bore settles the fixture bore. "Over" needs the family's own bore; a bore
// that no fixture has is refused.
func (b *builder) bore(s *series, out *head.Test) {
	at := b.page.Ref(s.at)
	if over, ok := s.facts.over.one(); ok && len(s.facts.bore) == 0 {
		base, known := b.r.familyBore(out.Head)
		if !known {
			answer, ok := b.p.ask(over.Trace.At, kindBoreMissed, out.Head, over.Trace.Text, "a bore over standard needs the family's own bore", boreQuestion(
				key("base bore", out.Head), "Which bore, in inches, is standard for this head?"))
			if !ok {
				return
			}
			base, over.Trace.Answered = quantity.Inches(answer.Figure), answer.Per()
		}
		out.Bore = source.Say(base+over.Value, over.Trace.Then("standard bore "+parse.Digits(base.In())+" in + "+parse.Digits(over.Value.In())))
		return
	}
	if len(s.facts.bore) == 0 {
		s.facts.bore = s.facts.engine
	}
	bore, ok := s.facts.bore.one()
	switch {
	case ok && len(s.facts.over) > 0 && parse.PlausibleBore(bore.Value):
		b.oversize(s, bore, out)
	case ok && !parse.PlausibleBore(bore.Value):
		b.p.refuse(bore.Trace.At, kindBoreImpossible, out.Head, bore.Trace.Text, "no fixture has this bore (60 to 135 mm)", "check the bore")
	case ok:
		out.Bore = bore
		b.fixtureOf(bore, out)
		if len(bore.Trace.Steps) > 0 && strings.HasPrefix(bore.Trace.Steps[0], mangledDate) {
			b.p.note(bore.Trace.At, kindBoreFromDate, out.Head, bore.Trace.Text, "the spreadsheet turned the bore into a date; it is read as the fraction")
		}
	case len(s.facts.bore) > 1:
		b.askBore(s, at, out)
	case out.Class == head.Advertised || b.onlyFixture(s, out):
	default:
		b.p.note(b.tableRef(s), kindBoreMissed, "", "", "the fixture bore is not stated")
	}
}

// ofEngine is a bore of the engine, which the fixture beside it need not have.
var ofEngine = regexp.MustCompile(`(?i)(?:\b(?:engine|block|motor) bore|\bmotor-?bohrung|\bal[ée]sage (?:du )?moteur|\balesaggio (?:del )?motore|\bdi[áa]metro (?:del )?motor)\W*$`)

// askBore asks which of the bores stated for a column it was flowed on.
func (b *builder) askBore(s *series, at source.Ref, out *head.Test) {
	q := boreQuestion(key("bore", oneCell(out.Head, at, cellText(s.at))), "On which bore, in inches, was this flowed?")
	q.Evidence = "the sheet states more than one"
	for _, bore := range s.facts.bore {
		q.Choices = append(q.Choices, bore.Trace.Text)
	}
	answer, ok := b.p.ask(at, kindBoreClash, out.Head, "", "two bores are stated for this column", q)
	if !ok {
		return
	}
	out.Bore = source.Say(quantity.Inches(answer.Figure), answer.Trace("in"))
	for _, bore := range s.facts.bore {
		if bore.Trace.Text == answer.Choice {
			out.Bore = bore
			out.Bore.Trace.Answered = answer.Per()
		}
	}
}

// boreQuestion asks for a bore that a fixture can have.
func boreQuestion(key, text string) source.Question {
	const least, most = 60 / 25.4, 135 / 25.4
	return source.Question{Key: key, Text: text, Wants: source.AFigure, Unit: "in", Least: least, Most: most, Changes: "the bore of the test"}
}

// familyBore returns the standard bore of the family a head belongs to.
func (r *reader) familyBore(headName string) (quantity.Length, bool) {
	listed, ok := r.names.listed[headName]
	if !ok {
		return 0, false
	}
	for _, f := range r.about.Shop.Families {
		if f.Name != listed.Family {
			continue
		}
		if f.EngineBore.Known {
			return f.EngineBore.Value, true
		}
		return f.ReferenceBore, f.ReferenceBore > 0
	}
	return 0, false
}
