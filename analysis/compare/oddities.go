package compare

import (
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// oddities looks for readings that cannot be, which are refused, and for those
// that are hardly ever right, which are asked about. Nothing is corrected.
func (f *family) oddities(b *bundle, c *column) source.Problems {
	found := slices.Clone(c.answered)
	for _, bad := range c.impossible {
		found = append(found, f.refused(b, c, bad)...)
	}
	if len(c.points) < fewestLifts || c.test.Class == head.Advertised {
		return found
	}
	found = append(found, f.kinks(b, c)...)
	found = append(found, f.lowPressure(b, c)...)
	found = append(found, f.high(b, c)...)
	if eyeballed(c) {
		found.Add(f.noted(b, c.test.At, "eyeballed", "every reading ends in 0 or 5: read by eye, to no better than 2.5 cfm"))
	}
	if leak, peak := c.test.Leak, highest(c.points); leak.Known && (leak.Value > f.rules.LeakLimit || leak.Value > quantity.Flow(leakShare)*peak) {
		found.Add(f.noted(b, leak.Trace.At, "leak", fmt.Sprintf("%.1f cfm leaked with the valve shut", leak.Value.CFM())))
	}
	return found
}

// Shares of the ceiling above which a reading is high, and the flow a square
// inch of the smallest section passes at most. Common practice, no source; 147
// is the physical limit.
const (
	highIntake  = 0.85
	highExhaust = 0.90
	highSection = 140 // cfm/in2 at 28 inH2O
)

// high notes readings that are possible and hardly ever right: more of the
// valve's ceiling, or of the smallest section, than good ports reach.
func (f *family) high(b *bundle, c *column) source.Problems {
	var found source.Problems
	share := highIntake
	if c.test.Port == head.Exhaust {
		share = highExhaust
	}
	valve := f.valveOf(b, c.test)
	for _, p := range c.points {
		if ceiling, ok := airflow.CeilingOf(valve, p.Lift, f.rules.Reference); ok && float64(p.Flow) > share*float64(ceiling.Flow)*float64(valvesOf(b)) {
			found.Add(f.noted(b, p.From[0].Reading.Flow.Trace.At, "high-for-valve", fmt.Sprintf("%s %s reads %.0f cfm, %.0f %% of what the valve can pass: check valve size, unit and pressure",
				inches(p.Lift), c.test.Port, p.Flow.CFM(), 100*p.Flow.CFM()/ceiling.Flow.CFM()/float64(valvesOf(b)))))
			break
		}
	}
	d := b.dimensions
	if c.test.Port == head.Intake && d != nil && d.MinSection.Known && d.MinSection.Value > 0 {
		limit := highSection * math.Sqrt(f.rules.Reference.InH2O()/28)
		if per := highest(c.points).CFM() / d.MinSection.Value.In2(); per > limit {
			found.Add(f.noted(b, d.MinSection.Trace.At, "section-doubted", fmt.Sprintf("the peak is %.0f cfm a square inch of the smallest section: measure the section again", per)))
		}
	}
	return found
}

// valvesOf is how many intake or exhaust valves a port feeds at once.
func valvesOf(b *bundle) int {
	if b.dimensions == nil {
		return 1
	}
	return max(1, b.dimensions.Valves.Value)
}

// leakShare is the leak, as a share of the peak flow, above which a test is
// marked. Common practice, no source.
const leakShare = 0.015

func highest(points []LiftPoint) quantity.Flow {
	var q quantity.Flow
	for _, p := range points {
		q = max(q, p.Flow)
	}
	return q
}

func (f *family) noted(b *bundle, at source.Ref, kind, message string) source.Problem {
	return source.Problem{At: at, Severity: source.Noted, Kind: kind, Head: b.listed.Name, Family: f.Name, Message: message}
}

// bulge is how far a reading lies above the line through its neighbours at most
// on a healthy curve, where the steps are no wider than bulgeStep of the valve;
// it grows with the square of the step. drop is the same below the line. Common
// practice, no source.
const (
	bulge     = 0.12
	drop      = 0.10
	bulgeStep = 0.065
)

// kinks asks about readings far off the line through their neighbours: a slip of
// the key that is still possible. Dips of the port are smaller.
func (f *family) kinks(b *bundle, c *column) source.Problems {
	var found source.Problems
	valve := f.valveOf(b, c.test)
	if valve <= 0 {
		return nil
	}
	for i := 1; i+1 < len(c.points); i++ {
		before, here, after := c.points[i-1], c.points[i], c.points[i+1]
		step := max(here.Lift-before.Lift, after.Lift-here.Lift)
		t := float64((here.Lift - before.Lift) / (after.Lift - before.Lift))
		line := float64(before.Flow)*(1-t) + float64(after.Flow)*t
		wide := max(1, math.Pow(float64(step/valve)/bulgeStep, 2))
		off := here.Flow.CFM()/line - 1
		if off <= bulge*wide && off >= -drop {
			continue
		}
		r := here.From[0].Reading
		if c.isSettled(r.Flow.Trace.At) {
			continue
		}
		p := source.Problem{
			At: r.Flow.Trace.At, Severity: source.Asked, Kind: "odd-reading", Head: b.listed.Name, Family: f.Name, Found: reading(r),
			Message: fmt.Sprintf("%s %s lies %+.0f %% off the line through its neighbours", inches(here.Lift), c.test.Port, 100*off),
			Hint:    "compare it with the bench sheet",
			Question: &source.Question{
				Key:     fmt.Sprintf("odd-reading|%s|%s|%s|%s", b.listed.Name, c.test.Port, r.Flow.Trace.At, reading(r)),
				Text:    fmt.Sprintf("%s, %s at %s reads %s: is that right?", b.listed.Name, c.test.Port, inches(here.Lift), reading(r)),
				Choices: []string{"it is right", leaveOut}, Changes: "the curve of " + b.listed.Name,
				Evidence: fmt.Sprintf("%.0f, %.0f, %.0f cfm at %s, %s, %s", before.Flow.CFM(), here.Flow.CFM(), after.Flow.CFM(),
					inches(before.Lift), inches(here.Lift), inches(after.Lift)),
			},
		}
		typedReading(p.Question)
		found.Add(p)
	}
	return found
}

func (f *family) valveOf(b *bundle, t *head.Test) quantity.Length {
	switch {
	case t.Valve.Known:
		return t.Valve.Value
	case b.dimensions == nil:
		return 0
	case t.Port == head.Intake:
		return b.dimensions.IntakeValve.Value
	}
	return b.dimensions.ExhaustValve.Value
}

// lowPressure asks whether a whole curve that is too low for its valve was
// taken at a lower test pressure than stated, or in another unit.
func (f *family) lowPressure(b *bundle, c *column) source.Problems {
	if slices.ContainsFunc(c.answered, func(p source.Problem) bool { return p.Kind == "pressure-doubted" }) {
		return nil
	}
	port := airflow.Port{Valve: f.valveOf(b, c.test), Test: f.rules.Reference}
	lifts, flows := make([]quantity.Length, len(c.points)), make([]quantity.Flow, len(c.points))
	for i, p := range c.points {
		lifts[i], flows[i] = p.Lift, p.Flow
	}
	if !port.LooksLikeLowPressure(lifts, flows) {
		return nil
	}
	return source.Problems{{
		At: c.test.At, Severity: source.Asked, Kind: "pressure-doubted", Head: b.listed.Name, Family: f.Name,
		Message: fmt.Sprintf("every %s reading at low lift is too low for the valve", c.test.Port),
		Hint:    "say at what pressure and in what unit it was taken",
		Question: &source.Question{
			Key:     fmt.Sprintf("pressure-doubted|%s|%s|%s", b.listed.Name, c.test.Port, c.test.At),
			Text:    fmt.Sprintf("%s, %s: was this taken at the pressure and in the unit stated?", b.listed.Name, c.test.Port),
			Choices: []string{"yes", "at 10 inH2O", "in L/s"}, Changes: "the curve of " + b.listed.Name,
			Evidence: "curtain coefficients below 0.45 at every lift below .15 of the valve; 10 inH2O passes 0.60 of what 28 does",
		},
	}}
}

// eyeballed reports whether every reading of a longer column ends in 0 or 5.
func eyeballed(c *column) bool {
	const enough = 6
	if len(c.points) < enough {
		return false
	}
	for _, p := range c.points {
		q := p.From[0].Reading.Flow.Value.CFM()
		if math.Abs(q/5-math.Round(q/5)) > 1e-6 {
			return false
		}
	}
	return true
}
