package flowsheet

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// What the setup says of a bench stands in where a sheet of that bench says
// nothing, and never against what it says. Each is told with the setup's cell.

// benchOfTest is the setup's bench on which a test was run: the one it names, else
// the one whose folder the book lies in, else the shop's only one.
func (b *builder) benchOfTest(out *head.Test) (head.Bench, bool) {
	if out.Class != head.Own && out.Class != head.Supplier {
		return head.Bench{}, false
	}
	benches := b.r.about.Shop.Benches
	var own []head.Bench
	for _, bench := range benches {
		switch {
		case out.By != "" && bench.Name == out.By:
			return bench, true
		case out.By == "" && out.Class == head.Own && bench.Own:
			own = append(own, bench)
		}
	}
	if i := slices.IndexFunc(own, func(bench head.Bench) bool { return bench.Folder != "" && inFolder(b.page.Path, bench.Folder) }); i >= 0 {
		return own[i], true
	}
	if len(own) == 1 {
		return own[0], true
	}
	return head.Bench{}, false
}

// usualEntry takes the bench's entry to the intake.
func (b *builder) usualEntry(s *series, out *head.Test) {
	bench, ok := b.benchOfTest(out)
	said := []words.Role{words.BarePort, words.NoManifold}
	if out.Entry != "" || out.Port != head.Intake || !ok || !bench.Entry.Known || len(s.around.entry) > 0 || s.facts.says(said...) || s.blockFacts.says(said...) {
		return
	}
	out.Entry = entryValue(bench.Entry.Value) + " (setup)"
	b.noteUsual(s, kindEntryUsual, "the entry to the intake", bench.Entry.Value, bench.Name, bench.Entry.Trace.At)
}

// usualPipe takes what the bench's exhaust usually wears, and reports whether it
// did.
func (b *builder) usualPipe(s *series, out *head.Test) bool {
	bench, ok := b.benchOfTest(out)
	if !ok || !bench.Pipe.Known || len(s.around.pipe) > 0 {
		return false
	}
	out.Pipe, out.PipeAt = pipeValue(bench.Pipe.Value), bench.Pipe.Trace.Then("as usual on "+bench.Name+", by the setup; the sheet does not say")
	b.noteUsual(s, kindPipeUsual, "whether the exhaust wore a pipe", bench.Pipe.Value, bench.Name, bench.Pipe.Trace.At)
	return true
}

// onlyFixture takes the bore of the one fixture that the bench has, and reports
// whether it did.
func (b *builder) onlyFixture(s *series, out *head.Test) bool {
	bench, ok := b.benchOfTest(out)
	if !ok || len(bench.Fixtures.Value) != 1 {
		return false
	}
	bore := bench.Fixtures.Value[0]
	out.Bore = source.Say(bore, bench.Fixtures.Trace.Then("the only fixture of "+bench.Name+", by the setup; the sheet does not say"))
	b.noteUsual(s, kindBoreUsual, "the fixture bore", parse.Digits(bore.In())+" in, its only fixture", bench.Name, bench.Fixtures.Trace.At)
	return true
}

func (b *builder) noteUsual(s *series, kind, what, value, bench string, at source.Ref) {
	b.p.add(source.Problem{At: b.tableRef(s), Severity: source.Noted, Kind: kind, Found: value,
		Message: "the sheet does not state " + what + "; the setup's for " + bench + " is taken: " + value + " (" + at.String() + ")", Hint: "write it on the sheet where it was another"})
}

// sameFixture is how near a stated bore must come to a fixture's.
const sameFixture = 0.02 // in, common practice, no source

// fixtureOf tells of a bore for which the bench has no fixture.
func (b *builder) fixtureOf(bore source.Stated[quantity.Length], out *head.Test) {
	bench, ok := b.benchOfTest(out)
	if !ok || !bench.Fixtures.Known || slices.ContainsFunc(bench.Fixtures.Value, func(l quantity.Length) bool { return l.Near(bore.Value, quantity.Inches(sameFixture)) }) {
		return
	}
	b.p.add(source.Problem{At: bore.Trace.At, Severity: source.Noted, Kind: kindNoFixture, Head: out.Head, Found: bore.Trace.Text,
		Message: "the setup lists no fixture of this bore for " + bench.Name + " (" + bench.Fixtures.Trace.At.String() + "); it is taken as written", Hint: "check the bore, or add the fixture to the sheet Benches of the setup"})
}
