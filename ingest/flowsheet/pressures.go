package flowsheet

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// Test pressures a flow can be brought to 28 inH2O from.
const lowestInH2O, highestInH2O = 3, 60

// unusualInH2O is a test pressure below which a figure is more likely misread
// than meant (common practice, no source).
const unusualInH2O = 5

func unusual(p source.Stated[quantity.Pressure]) bool {
	return p.Value.InH2O() < unusualInH2O && p.Trace.Answered == ""
}

func pressureOf(p source.Stated[quantity.Pressure]) string {
	return parse.Digits(math.Round(10*p.Value.InH2O())/10) + " inH2O"
}

// pressure settles the test pressure of a whole column. A pressure that is not
// stated is never taken to be 28: the readings wait, except for a claim, which
// is never ranked and only carries a remark.
func (b *builder) pressure(s *series, out *head.Test) {
	p, ok := s.facts.pressure.one()
	if !ok && len(s.facts.pressure) == 0 {
		p, ok = b.barePressure(s)
	}
	if means, known := b.r.learned(b.sender, "pressure"); !ok && known {
		if found := parse.FindPressures(means); len(found) == 1 {
			p, ok = source.Say(found[0].Unit.Of(found[0].Value), source.Trace{Text: means, Answered: "an earlier answer"}), true
		}
	}
	switch {
	case ok && (p.Value.InH2O() < lowestInH2O || p.Value.InH2O() > highestInH2O):
		b.p.refuse(p.Trace.At, kindPressureRange, out.Head, p.Trace.Text, "a flow at this pressure cannot be brought to 28 inH2O (3 to 60 inH2O)", "check the pressure and its unit")
		b.hold(out, "its test pressure is out of range")
	case ok && b.unsurePressure(s, p, out):
	case ok:
		out.Pressure = p
	case s.pressures != nil:
	case len(s.facts.pressure) > 1:
		b.askPressure(b.page.Ref(s.at), kindPressureClash, out, "two test pressures are stated for this column", "two test pressures are stated")
	case out.Class == head.Advertised:
		b.p.note(b.tableRef(s), kindPressureMissed, "", "", "a claim without a test pressure")
	case len(s.facts.bare) > 0:
		b.hold(out, "the unit of its test pressure is not sure")
	default:
		b.askPressure(b.tableRef(s), kindPressureMissed, out, "the test pressure is not stated", "its test pressure is not stated")
	}
}

// askPressure asks for the pressure of a column; until it is answered its
// readings wait. One answer serves the sender's sheets of the same layout.
func (b *builder) askPressure(at source.Ref, kind string, out *head.Test, message, why string) {
	q := source.Question{Key: key("pressure", b.sender, b.form), Text: "At which test pressure were these flows read?",
		Choices: []string{"28 inH2O", "25 inH2O", "10 inH2O"}, Wants: source.AFigure, Unit: "inH2O", Least: lowestInH2O, Most: highestInH2O,
		Evidence: "no pressure on the sheet, its tab or its cover", Changes: "every reading of the sheet waits for it"}
	if kind == kindPressureClash { // of this sheet alone
		q.Key, q.Evidence = key("pressure", b.sender, b.page.Path, b.page.Sheet.Name), message
	}
	answer, ok := b.p.ask(at, kind, out.Head, "", message, q)
	if !ok {
		b.hold(out, why)
		return
	}
	out.Pressure = source.Say(quantity.InchesOfWater(answer.Figure), answer.Trace("inH2O"))
}

// hold makes every used reading of a test wait.
func (b *builder) hold(out *head.Test, why string) {
	for i := range out.Readings {
		demote(&out.Readings[i], head.Asked, why)
	}
}

// contradicts reports whether a figure without a unit stands beside a stated
// pressure that is another one.
func (s *series) contradicts(p source.Stated[quantity.Pressure]) bool {
	bare, ok := s.facts.bare.one()
	return ok && len(s.facts.pressure) == 1 && math.Abs(bare.Value-p.Value.InH2O()) > 0.2 && !strings.Contains(p.Trace.Text, parse.Digits(bare.Value))
}

func (b *builder) tabDiffers(s *series, p source.Stated[quantity.Pressure]) bool {
	tab, ok := b.around.tab.any().pressure.one()
	return ok && len(s.own.pressure) == 0 && math.Abs(tab.Value.InH2O()-p.Value.InH2O()) > 0.1
}

// barePressure decides a pressure written without a unit, when the figure and
// the flow unit leave one reading; else it is asked.
func (b *builder) barePressure(s *series) (source.Stated[quantity.Pressure], bool) {
	bare, ok := s.facts.bare.one()
	if !ok {
		return source.Stated[quantity.Pressure]{}, false
	}
	if unit, ok := s.facts.presUnit.one(); ok {
		trace := bare.Trace
		trace.Unit = unit.Value.String() + ", stated beside it"
		return source.Say(unit.Value.Of(bare.Value), trace), true
	}
	unit, _ := s.facts.flowUnit.one()
	if p, ok := parse.BarePressure(bare.Value); ok && unit.Value == parse.CFM {
		if bare.Value != 28 {
			b.p.note(bare.Trace.At, kindPressureNoted, "", bare.Trace.Text, "a test pressure without a unit on a sheet in cfm is taken as inches of water")
		}
		trace := bare.Trace
		trace.Unit = "inH2O, the only unit this figure is a test pressure in"
		return source.Say(p, trace), true
	}
	figure := parse.Digits(bare.Value)
	answer, ok := b.p.ask(bare.Trace.At, kindPressureUnit, "", bare.Trace.Text, fmt.Sprintf("the test pressure %s has no unit", figure), source.Question{
		Key: key("pressure unit", b.sender, figure), Text: fmt.Sprintf("In which unit is the test pressure %s?", figure),
		Choices: pressureUnits(), Evidence: "no unit on the sheet", Changes: "every reading of the sheet waits for it"})
	if !ok {
		return source.Stated[quantity.Pressure]{}, false
	}
	named, _ := parse.FindPressureUnit(answer.Choice)
	trace := bare.Trace
	trace.Unit, trace.Answered = named.String(), answer.Per()
	return source.Say(named.Of(bare.Value), trace), true
}

// pressureUnits are the units a test pressure without one may be in.
func pressureUnits() []string { return []string{"inH2O", "mbar", "kPa", "mmH2O"} }

// rowPressures gives each reading the pressure of its own row. Unless the
// sheet says that the flows are as read, a pressure that sags is asked: the
// flows may be corrected already.
func (b *builder) rowPressures(s *series, col *column, out *head.Test) {
	if s.pressures == nil {
		return
	}
	unit, ok := b.columnUnit(s)
	if !ok {
		for i := range col.set {
			if !s.values[i].Blank() {
				demote(&col.set[i], head.Asked, "the unit of its test pressure is not sure")
			}
		}
		return
	}
	high, low := 0.0, math.Inf(1)
	for _, c := range s.pressures {
		if x, ok := pressureFigure(c); ok {
			high, low = max(high, x), min(low, x)
		}
	}
	sags := low < 0.98*high
	asRead := s.asRead()
	corrected := false
	if sags && !asRead {
		asRead, corrected = b.askSag(s, out, low, high)
	}
	for i, c := range s.pressures {
		if s.values[i].Blank() {
			continue
		}
		x, ok := pressureFigure(c)
		if !ok {
			demote(&col.set[i], head.Asked, "its row states no test pressure")
			continue
		}
		trace := b.r.trace(b.page, c)
		trace.Unit = unit.String()
		if step := pressureSteps(unit); step != nil {
			trace = trace.Then(step[0])
		}
		if corrected {
			x, trace = high, trace.Then("flows corrected to the column's full pressure, as answered")
		}
		own := source.Say(unit.Of(x), trace)
		col.set[i].Row = &own
		if sags && !asRead && x < 0.98*high {
			demote(&col.set[i], head.Asked, "the test pressure sags here, and the sheet does not say whether the flow is corrected for it")
		}
		if x < 0.9*high {
			b.p.note(b.page.Ref(c), kindBenchOutOfAir, out.Head, cellText(c), "the bench is out of air here: the test pressure is more than 10 % down")
		}
	}
}

// asRead reports whether the sheet says that nothing was corrected. A manometer
// shows what it shows.
func (s *series) asRead() bool {
	return s.drop || s.facts.says(words.NotCorrected, words.Observed) || s.blockFacts.says(words.NotCorrected, words.Observed) || s.noted.is(words.NotCorrected)
}

// askSag asks whether the flows of a pressure that sags are as read.
func (b *builder) askSag(s *series, out *head.Test, low, high float64) (asRead, corrected bool) {
	answer, ok := b.p.ask(b.page.Ref(s.pressures[len(s.pressures)-1]), kindCorrectedOdd, out.Head, "", "the test pressure sags, and the sheet does not say whether the flows are corrected for it", source.Question{
		Key: key("sag", b.sender, b.form), Text: "The test pressure sags: are the flows as read, or corrected to the full pressure?",
		Choices: []string{"as read", "corrected"}, Evidence: "pressures from " + parse.Digits(high) + " down to " + parse.Digits(low), Changes: "the readings where the pressure sags"})
	if ok {
		s.answeredBy(answer.Trace(""))
	}
	return ok && answer.Is("as read"), ok && answer.Is("corrected")
}

func pressureFigure(c decode.Cell) (float64, bool) {
	switch c.Kind {
	case decode.Number:
		return c.Num, c.Num > 0
	case decode.Text:
		if found := parse.FindPressures(c.Text); len(found) == 1 {
			return found[0].Value, true
		}
		x, ok := parse.Plain(c.Text, markOf(c.Text))
		return x, ok && x > 0
	default:
		return 0, false
	}
}

// columnUnit settles the unit of a column of pressures.
func (b *builder) columnUnit(s *series) (parse.PressureUnit, bool) {
	if unit, ok := s.pressCap.presUnit.one(); ok {
		return unit.Value, true
	}
	if unit, ok := s.facts.presUnit.one(); ok {
		return unit.Value, true
	}
	high := 0.0
	for _, c := range s.pressures {
		if found := parse.FindPressures(c.Text); c.Kind == decode.Text && len(found) == 1 {
			return found[0].Unit, true
		}
		if x, ok := pressureFigure(c); ok {
			high = max(high, x)
		}
	}
	flow, _ := s.facts.flowUnit.one()
	if _, ok := parse.BarePressure(high); ok && flow.Value == parse.CFM {
		return parse.InH2O, true
	}
	at := b.page.Ref(s.pressures[0])
	answer, ok := b.p.ask(at, kindPressureUnit, "", cellText(s.pressures[0]), "the column of test pressures has no unit", source.Question{
		Key: key("pressure unit", b.sender, b.form), Text: "In which unit are the test pressures of this column?",
		Choices: pressureUnits(), Evidence: "highest " + parse.Digits(high), Changes: "every reading of the sheet waits for it"})
	if !ok {
		return parse.PressureNotStated, false
	}
	s.answeredBy(answer.Trace(""))
	return parse.FindPressureUnit(answer.Choice)
}

// usualBehind is the usual test pressure at the end of the name of a tab.
var usualBehind = regexp.MustCompile(`^ +28\s*$`)

// pressureBehind takes the 28 right behind the bore on a tab for the test pressure,
// which has no unit: "PW-33 4.030 28". No other figure is read so.
func (l *line) pressureBehind(b parse.BoreText) {
	if l.place == onTab && len(l.facts.pressure)+len(l.facts.bare) == 0 && usualBehind.MatchString(l.rest()[b.End:]) {
		l.facts.bare.add(28, l.said("28"))
		l.strike(b.End, len(l.text))
	}
}
