package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// sound returns the rules with the default in the place of any figure that
// cannot be one. The reader of the setup refuses those with a message; this
// keeps the sums whole when rules come from elsewhere or were never set.
func sound(r head.Rules) head.Rules {
	d := head.DefaultRules()
	if !(r.Reference > 0) || math.IsInf(r.Reference.InH2O(), 1) {
		return d
	}
	share := func(x *float64, def float64) {
		if !(*x >= 0 && *x < 1) {
			*x = def
		}
	}
	share(&r.Repeatability, d.Repeatability)
	share(&r.PortSpread, d.PortSpread)
	share(&r.TargetMargin, d.TargetMargin)
	share(&r.TieUntil, d.TieUntil)
	share(&r.BenchFlag, d.BenchFlag)
	share(&r.BenchHold, d.BenchHold)
	if !(r.MinimumCoverage >= 0 && r.MinimumCoverage <= 1) {
		r.MinimumCoverage = d.MinimumCoverage
	}
	if !(r.LiftZero >= 0 && r.LiftZero < 1) {
		r.LiftZero = d.LiftZero
	}
	if !(r.BoreClass >= 0 && r.BoreClass < 1) {
		r.BoreClass = d.BoreClass
	}
	return r
}

// settings lists every figure the comparison used and where it comes from.
func (f *family) settings(w Worth) []Setting {
	d := head.DefaultRules()
	origin := func(same bool) string {
		if same {
			return "default"
		}
		return "set by the shop"
	}
	r := f.rules
	set := func(name, value string, same bool) Setting { return Setting{name, value, origin(same)} }
	pc := func(x float64) string { return number(100*x) + " %" }
	worth := Setting{"worth of a cfm", "not known", w.Origin}
	if w.Known {
		worth.Value = f.cents(w.PerCFM) + " a set"
	}
	lazy, choked := f.airLimits()
	law := map[head.PressureLaw]string{head.SquareRoot: "square root", head.Isentropic: "isentropic"}
	estimate := map[head.BoreEstimate]string{head.NeverEstimate: "never", head.MayEstimate: "allowed"}
	out := []Setting{
		worth,
		{"heads a set", fmt.Sprint(f.HeadsPerSet), "set by the shop"},
		{"reference bore", f.size(f.ReferenceBore), "set by the shop"},
		{"working range", span(f.RangeFrom, f.RangeTo), "set by the shop"},
		{"mid-lift band", span(f.BandFrom, f.BandTo), "set by the shop"},
		{"base head", f.BaseHead, "set by the shop"},
		set("reference test pressure", number(r.Reference.InH2O())+" inH2O", r.Reference == d.Reference),
		set("pressure law", law[r.PressureLaw], r.PressureLaw == d.PressureLaw),
		set(repeatabilityName, pc(r.Repeatability), r.Repeatability == d.Repeatability),
		set("smallest change that counts", number(r.SmallestStep.CFM())+" cfm", r.SmallestStep == d.SmallestStep),
		set("lift past a level-off", inches(r.StallSpan), r.StallSpan == d.StallSpan),
		set("spread of ports and castings", pc(r.PortSpread), r.PortSpread == d.PortSpread),
		set("lift zero", inches(r.LiftZero), r.LiftZero == d.LiftZero),
		set("tied until", pc(r.TieUntil), r.TieUntil == d.TieUntil),
		set("same bore class", "within "+inches(r.BoreClass), r.BoreClass == d.BoreClass),
		set("bore estimate", estimate[r.EstimateBore], r.EstimateBore == d.EstimateBore),
		set("least coverage of the range", pc(r.MinimumCoverage), r.MinimumCoverage == d.MinimumCoverage),
		set("target margin of the sale", pc(r.TargetMargin), r.TargetMargin == d.TargetMargin),
		set("impossible above the ceiling", "x "+number(r.ImpossibleCurt)+", with a pipe x "+number(r.ImpossiblePipe),
			r.ImpossibleCurt == d.ImpossibleCurt && r.ImpossiblePipe == d.ImpossiblePipe),
		set("bench drift that flags a day, holds it", pc(r.BenchFlag)+", "+pc(r.BenchHold), r.BenchFlag == d.BenchFlag && r.BenchHold == d.BenchHold),
		set("air speed lazy below, choked above", fmt.Sprintf("%.0f, %.0f ft/s", lazy, choked), !f.Lazy.Known && !f.Choked.Known),
	}
	if f.repeats.enough() && r.Repeatability == f.repeats.limit {
		i := slices.IndexFunc(out, func(s Setting) bool { return s.Name == repeatabilityName })
		out[i].Origin = f.repeats.words()
	}
	out = append(out, f.engineSettings()...)
	if f.Anchors.Known {
		out = append(out, Setting{"shape anchors", f.anchorWords(), "set by the shop"})
	}
	return out
}

// span is a window of lifts in words.
func span(from, to quantity.Length) string {
	if to == 0 {
		return "not stated"
	}
	return inches(from) + " to " + inches(to)
}

const repeatabilityName = "repeatability of a reading"

// engineSettings are the cam and the power wanted, where the shop states them.
func (f *family) engineSettings() []Setting {
	var out []Setting
	if words := f.camWords(); words != "" {
		out = append(out, Setting{"cam of the averages over time", words, "set by the shop"})
	}
	if f.TargetPower.Known {
		out = append(out, Setting{"target power", number(f.TargetPower.Value) + " hp", "set by the shop"})
	}
	return out
}

func (f *family) anchorWords() string {
	a := f.Anchors
	return strings.Join([]string{
		fmt.Sprintf("mid-lift %.0f to %.0f cfm", a.MidLow.CFM(), a.MidHigh.CFM()),
		fmt.Sprintf("stall %s to 1 of the range's top", number(a.StallLow)),
		fmt.Sprintf("peak %.0f to %.0f cfm", a.PeakLow.CFM(), a.PeakHigh.CFM()),
		fmt.Sprintf("weights %s, %s, %s", number(a.WMid), number(a.WStall), number(a.WPeak)),
	}, "; ")
}
