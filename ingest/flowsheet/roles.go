package flowsheet

import (
	"flowshelf/ingest/words"
)

// laneRole is what a column beside the lifts holds.
type laneRole uint8

const (
	laneUnknown  laneRole = iota // numbers without a header that says what they are
	laneFlow                     // readings
	laneAverage                  // the mean of other lanes, or of what the sheet does not show
	laneBand                     // smallest, largest, spread
	laneObserved                 // before a correction that stands beside it
	lanePressure                 // the test pressure of each row
	laneRange                    // which range the bench was on
	lanePercent                  // percent of that range
	laneRaw                      // a manometer
	laneDrop                     // the differential of an orifice that the shop may have registered
	laneSummary                  // gain, per cent, velocity: not a flow
	laneNote                     // words
	laneFact                     // a date, an operator: one a row
)

// headerRule gives lanes a role from what their headers say. Rules are tried
// in order; the first that knows the lane decides.
type headerRule struct {
	role laneRole
	why  string
	is   func(f facts, ranged bool) bool
}

func headerRules() []headerRule {
	return []headerRule{
		{laneNote, "a note", func(f facts, _ bool) bool { return f.is(words.Note) && len(f.port) == 0 }},
		{laneRaw, "a manometer reading", func(f facts, _ bool) bool { return f.says(words.Manometer, words.Orifice) }},
		{lanePercent, "percent of range", func(f facts, ranged bool) bool {
			return (f.is(words.PercentOfRange) || ranged && f.is(words.Percent)) && !f.says(words.Gain, words.Ratio, words.BothPorts)
		}},
		{laneSummary, "the sheet's own comparison", func(f facts, _ bool) bool {
			return f.says(words.Gain, words.Percent, words.Ratio, words.BothPorts, words.Rank)
		}},
		{laneSummary, "not a flow", func(f facts, _ bool) bool {
			return f.says(words.Velocity, words.Swirl, words.Power, words.Area, words.OtherQuantity)
		}},
		{laneSummary, "a figure that nobody measured", func(f facts, _ bool) bool {
			return f.is(words.Supposed)
		}},
		{laneSummary, "the sheet's own summary", func(f facts, _ bool) bool { return f.says(words.Total, words.Peak) }},
		{laneRange, "which range the bench was on", func(f facts, _ bool) bool { return f.is(words.Range) && len(f.flowUnit) == 0 }},
		{lanePressure, "the test pressure of each row", func(f facts, _ bool) bool {
			named := f.is(words.TestPressure) || len(f.presUnit) > 0 && len(f.port) == 0 // `H2O"` alone
			return named && len(f.flowUnit) == 0 && len(f.pressure) == 0 && !f.is(words.Corrected)
		}},
		{laneFact, "leakage", func(f facts, _ bool) bool { return f.is(words.Leak) }},
		{laneFact, "one a row", func(f facts, _ bool) bool {
			dated := len(f.date)+len(f.unsure) > 0 // "2026-02-10" heads the readings of that day
			return !dated && f.says(words.Date, words.Operator, words.Serial) && len(f.port)+len(f.flowUnit)+len(f.head) == 0
		}},
		{laneSummary, "a second column of lifts", func(f facts, _ bool) bool {
			return f.says(words.Lift, words.LiftOverDiameter, words.Opening) && len(f.port) == 0
		}},
		{laneBand, "the smallest, the largest or the spread", func(f facts, _ bool) bool {
			return f.says(words.Minimum, words.Maximum, words.Spread)
		}},
		{laneAverage, "the sheet's own average", func(f facts, _ bool) bool { return f.is(words.Average) && len(f.ports) == 0 }},
		{laneObserved, "as observed", func(f facts, _ bool) bool { return f.is(words.Observed) }},
		{laneFlow, "", func(f facts, _ bool) bool {
			return len(f.port)+len(f.mark)+len(f.run)+len(f.class)+len(f.state)+len(f.pipe)+len(f.head)+len(f.loose)+
				len(f.bore)+len(f.over)+len(f.pressure)+len(f.bare)+len(f.flowUnit)+len(f.entry)+len(f.supplier)+
				len(f.serial)+len(f.sample)+len(f.date)+len(f.unsure) > 0 || f.ambiguous != "" || f.says(words.Flow, words.Corrected, words.Run)
		}},
	}
}

// assignRoles gives every lane of a table its role. Ranges counts as present
// when a lane is headed "Rng" or the page holds a calibration.
func (t *table) assignRoles(calibrated bool) {
	t.settleAverages()
	ranged := calibrated
	for _, ln := range t.lanes {
		ranged = ranged || ln.facts.is(words.Range) && len(ln.facts.flowUnit) == 0
	}
	rules := headerRules()
	for _, ln := range t.lanes {
		ln.role, ln.why = laneUnknown, "no header says what this is"
		for _, rule := range rules {
			if rule.is(ln.facts, ranged) {
				ln.role, ln.why = rule.role, rule.why
				break
			}
		}
		if numbers, _ := t.contents(ln.col); numbers == 0 && ln.role <= laneFlow && len(ln.facts.port)+len(ln.facts.flowUnit) == 0 && ln.facts.ambiguous == "" {
			ln.role, ln.why = laneNote, "words beside the readings"
		}
	}
}
