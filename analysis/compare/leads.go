package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

// Beyond reports whether a difference of two flows in cfm, of standard
// uncertainties u1 and u2, is beyond the noise: larger than the smallest change
// that counts, and surer than the probability up to which heads are tied,
//
//	|d| > z sqrt(u1^2 + u2^2),  z the normal quantile of that probability.
//
// Source: JCGM 100:2008 (GUM), 5.1.2, for the sum.
func Beyond(r head.Rules, d, u1, u2 float64) bool {
	return math.Abs(d) > max(r.SmallestStep.CFM(), Sigmas(r)*math.Hypot(u1, u2))
}

// Sigmas is z of Beyond.
func Sigmas(r head.Rules) float64 {
	until := r.TieUntil
	if !(until > 0.5 && until < 1) {
		until = stats.Level
	}
	return quantile(until)
}

// Stretch is a run of neighbouring lifts at which one port flows more than
// another by more than the noise, with the least and the most it does.
type Stretch struct {
	From, To    quantity.Length
	Least, Most float64 // cfm
}

// Against is where an intake beats that of another head and where it is beaten,
// lift by lift, each by more than the noise.
type Against struct {
	Label         string // the other head
	Ahead, Behind []Stretch
	Words         string
}

// leads compares every tested head with the leader and with the base head.
func (f *family) leads(c *Comparison) {
	if len(c.Ranked) == 0 {
		return
	}
	others := []*Entry{&c.Ranked[0]}
	if base := baseOf(c.Ranked); base != nil && base.Label != others[0].Label {
		others = append(others, base)
	}
	for _, e := range testedOf(c) {
		for _, o := range others {
			if e.Label != o.Label {
				e.Against = append(e.Against, f.against(e.Intake, o))
			}
		}
	}
}

// against compares two intakes at every lift that one of them was read at and
// both cover.
func (f *family) against(a *PortResult, o *Entry) Against {
	out := Against{Label: o.Label}
	last, shared := 0, 0
	for _, lift := range allLifts([][]LiftPoint{a.Points, o.Intake.Points}) {
		x, okX := a.At(lift)
		y, okY := o.Intake.At(lift)
		if !okX || !okY {
			last = 0
			continue
		}
		shared++
		d := (x.Flow - y.Flow).CFM()
		sign := 0
		if Beyond(f.rules, d, x.U, y.U) {
			sign = int(math.Copysign(1, d))
		}
		add := begun
		if sign == last {
			add = extended
		}
		switch sign {
		case 1:
			out.Ahead = add(out.Ahead, lift, d)
		case -1:
			out.Behind = add(out.Behind, lift, -d)
		}
		last = sign
	}
	out.Words = out.words(shared)
	return out
}

// begun begins a stretch at a lift.
func begun(all []Stretch, lift quantity.Length, by float64) []Stretch {
	return append(all, Stretch{From: lift, To: lift, Least: by, Most: by})
}

// extended carries the last stretch on to a lift.
func extended(all []Stretch, lift quantity.Length, by float64) []Stretch {
	s := &all[len(all)-1]
	s.To, s.Least, s.Most = lift, min(s.Least, by), max(s.Most, by)
	return all
}

// words says the comparison in one sentence.
func (a Against) words(shared int) string {
	var parts []string
	for _, side := range []struct {
		word, sign string
		where      []Stretch
	}{{"ahead of ", "+", a.Ahead}, {"behind ", "-", a.Behind}} {
		if len(side.where) == 0 {
			continue
		}
		places := make([]string, len(side.where))
		for i, s := range side.where {
			places[i] = s.words(side.sign)
		}
		parts = append(parts, side.word+a.Label+" "+list(places))
	}
	switch {
	case shared == 0:
		return "no lift in common with " + a.Label
	case len(parts) == 0:
		return "level with " + a.Label + " at every lift: inside the noise"
	}
	return strings.Join(parts, "; ")
}

func (s Stretch) words(sign string) string {
	where := "at " + inches(s.From)
	if s.To > s.From {
		where = "from " + inches(s.From) + " to " + inches(s.To)
	}
	least, most := math.Round(s.Least), math.Round(s.Most)
	if least == most {
		return fmt.Sprintf("%s (%s%.0f cfm)", where, sign, most)
	}
	return fmt.Sprintf("%s (%s%.0f to %s%.0f cfm)", where, sign, least, sign, most)
}

// MoreCam is the lift from which more of it brings next to nothing.
type MoreCam struct {
	Maybe        // in, to the .010 above
	Words string // "past .520 it gains less than 2 %"
}

// littleGain is the gain below which more cam is called wasted. Common practice,
// no source.
const littleGain = 0.02

// moreCam finds the lowest lift from which the curve gains less than 2 % up to
// its highest point. It can only be told when the curve was measured far enough
// past that lift; at the end of a curve that climbs nobody knows.
func (f *family) moreCam(r *PortResult) MoreCam {
	can := func(format string, args ...any) MoreCam {
		m := unknown(format, args...)
		return MoreCam{m, "can't say: " + m.Why}
	}
	switch {
	case r.WithHeld != "":
		return can("%s", r.WithHeld)
	case r.Verdict.Status == curve.TooFew:
		return can("too few readings")
	}
	enough := r.PeakAll.Flow / (1 + littleGain)
	i := slices.IndexFunc(r.Points, func(p LiftPoint) bool { return p.Flow >= enough })
	if i < 0 {
		return can("no reading reaches the peak")
	}
	low, high := quantity.Length(0), r.Points[i].Lift
	if i > 0 {
		low = r.Points[i-1].Lift
	}
	const halvings = 30
	for range halvings { // the curve is monotone between two readings
		mid := (low + high) / 2
		if q, _ := r.Curve.At(mid); q >= enough {
			high = mid
		} else {
			low = mid
		}
	}
	past := quantity.Inches(math.Ceil(high.In()*100-1e-6) / 100)
	if r.Last-past < f.rules.StallSpan-sameLift {
		return can("it still gained more than %.0f %% over the last %s tested, up to %s", 100*littleGain, inches(f.rules.StallSpan), inches(r.Last))
	}
	return MoreCam{known(past.In()), fmt.Sprintf("past %s it gains less than %.0f %%", inches(past), 100*littleGain)}
}
