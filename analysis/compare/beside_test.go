package compare_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Tolerances against scipy's adaptive quadrature, relative.
const quadTol = 1e-6

// withCam states a cam of .370 in x 1.6, 242 degrees, and 450 hp.
func withCam(_ *head.Records, s *head.Shop) {
	s.Families = slices.Clone(s.Families)
	f := &s.Families[0]
	f.CamLobe, f.RockerRatio = source.Say(quantity.Inches(.370), source.Trace{}), source.Say(1.6, source.Trace{})
	f.CamDuration, f.TargetPower = source.Say(242.0, source.Trace{}), source.Say(450.0, source.Trace{})
}

// TestCamAverageAndMachIndex: scipy 1.10.1, PchipInterpolator through the
// readings and (0, 0), integrate.quad over the harmonic lift between the .050
// points; the index by its definition at 28 inH2O, 1.225 kg/m3 and 20 C.
func TestCamAverageAndMachIndex(t *testing.T) {
	c := smallEight(withCam)
	for _, want := range []struct {
		label                 string
		mean, index, at5, at6 float64
	}{
		{"LKC-12", 198.0636348855767, 0.48954187168658503, 6638.860101594574, 7966.63212191349},
		{"PW-33", 196.80402355158225, 0.4926751028010376, 6596.639411089712, 7915.9672933076545},
		{"OB-4", 217.9938199484681, 0.44478528133437095, 7306.896465300942, 8768.27575836113},
		{"LKC-07", 165.8684785375472, 0.5845621988567583, 5559.716325065321, 6671.659590078386},
	} {
		e := find(c, want.label)
		near(t, want.label+" cam average", e.Intake.CamMean.Value, want.mean, quadTol*want.mean)
		near(t, want.label+" Mach index", e.Demand.Mach.Value, want.index, quadTol)
		near(t, want.label+" rpm at 0.5", e.Demand.At50.Value, want.at5, quadTol*want.at5)
		near(t, want.label+" rpm at 0.6", e.Demand.At60.Value, want.at6, quadTol*want.at6)
	}
	if want := "lobe .370 x 1.6, .592 at the valve, 242 degrees at .050 (318 from seat to seat by the profile)"; c.Cam != want {
		t.Errorf("cam %q, want %q", c.Cam, want)
	}
	if len(c.Warnings) > 0 {
		t.Errorf("warnings %q: no two heads change their order by more than the noise", c.Warnings)
	}
}

func TestNoCamStated(t *testing.T) {
	c := smallEight(nil)
	e := find(c, "LKC-12")
	if e.Intake.CamMean.Known || c.Cam != "" || e.Orders.Cam != 0 || e.Orders.Working != 3 {
		t.Errorf("cam average %+v, cam %q, orders %+v", e.Intake.CamMean, c.Cam, e.Orders)
	}
	// The working average leaves the low lifts out, so the index reads low.
	if !strings.Contains(e.Demand.Rests, "reads low") || e.Demand.Mach.Value >= 0.48954 {
		t.Errorf("index %+v rests on %q", e.Demand.Mach, e.Demand.Rests)
	}
	one := smallEight(func(_ *head.Records, s *head.Shop) {
		s.Families = slices.Clone(s.Families)
		s.Families[0].CamLobe = source.Say(quantity.Inches(.370), source.Trace{})
	})
	if m := find(one, "LKC-12").Intake.CamMean; m.Known || m.Why != "the setup states no rocker ratio" {
		t.Errorf("cam average of a lobe without a ratio: %+v", m)
	}
}

// A cam that lifts past the readings gives no average to a curve that climbs
// there, and holds the last flow of one that levels off.
func TestCamBeyondTheReadings(t *testing.T) {
	c := smallEight(func(r *head.Records, s *head.Shop) {
		withCam(r, s)
		s.Families[0].RockerRatio.Value = 1.9
	})
	if m := find(c, "LKC-12").Intake.CamMean; !m.Known {
		t.Errorf("levels off: %+v", m)
	}
	if m := find(c, "OB-4").Intake.CamMean; m.Known || !strings.Contains(m.Why, "still climbing") {
		t.Errorf("still climbing: %+v", m)
	}
}

// TestAveragesDiffer gives PW-33 more flow above the range: the cam then puts it
// before LKC-12, which the lifts of the range put ahead of it.
func TestAveragesDiffer(t *testing.T) {
	c := smallEight(func(r *head.Records, s *head.Shop) {
		withCam(r, s)
		s.Families[0].CamLobe.Value = quantity.Inches(.400)
		tests(r, "PW-33", head.Intake, func(t *head.Test) {
			for i, q := range []float64{60, 117, 171, 214, 240, 262, 290, 318, 340} {
				t.Readings[i].Flow.Value = quantity.CFM(q)
			}
		})
	})
	a, b := find(c, "LKC-12"), find(c, "PW-33")
	if !(a.Intake.Working.Value > b.Intake.Working.Value && a.Intake.CamMean.Value < b.Intake.CamMean.Value) {
		t.Fatalf("working %.1f, %.1f, cam %.1f, %.1f: no reversal to warn of", a.Intake.Working.Value, b.Intake.Working.Value, a.Intake.CamMean.Value, b.Intake.CamMean.Value)
	}
	if !slices.ContainsFunc(c.Summary.Warnings, func(w string) bool {
		return strings.HasPrefix(w, "The choice of average matters for LKC-12 and PW-33: over the lifts .200 to .560 LKC-12 flows more")
	}) {
		t.Errorf("warnings %q", c.Summary.Warnings)
	}
	if a.Orders.Working > b.Orders.Working || a.Orders.Cam < b.Orders.Cam {
		t.Errorf("orders %+v, %+v", a.Orders, b.Orders)
	}
}

// TestWhereAHeadLeads: at each lift the difference in cfm against the larger of
// 2 cfm and 1.645 x the two standard uncertainties combined, by hand.
func TestWhereAHeadLeads(t *testing.T) {
	c := smallEight(nil)
	for _, want := range []struct {
		label string
		words []string
	}{
		{"LKC-12", []string{"ahead of LKC-07 from .100 to .650 (+8 to +47 cfm)"}},
		{"PW-33", []string{"ahead of LKC-12 from .450 to .650 (+7 to +15 cfm); behind LKC-12 from .100 to .300 (-10 to -17 cfm)",
			"ahead of LKC-07 from .300 to .650 (+9 to +59 cfm)"}},
		{"VR-84 + valve job + blend", []string{"level with LKC-12 at every lift: inside the noise", "ahead of LKC-07 from .100 to .650 (+8 to +50 cfm)"}},
		{"LKC-07", []string{"behind LKC-12 from .100 to .650 (-8 to -47 cfm)"}},
	} {
		var got []string
		for _, a := range find(c, want.label).Against {
			got = append(got, a.Words)
		}
		if !slices.Equal(got, want.words) {
			t.Errorf("%s: %q, want %q", want.label, got, want.words)
		}
	}
}

// TestMoreCamIsWasted: the lift at which the curve reaches its peak over 1.02,
// by scipy's PchipInterpolator and brentq, and rounded up to .010 in.
func TestMoreCamIsWasted(t *testing.T) {
	c := smallEight(nil)
	for label, want := range map[string]float64{"LKC-12": 0.4906, "PW-33": 0.4820, "LKC-07": 0.4596} {
		m := find(c, label).Intake.MoreCam
		near(t, label, m.Value, math.Ceil(want*100)/100, 1e-9)
	}
	if m := find(c, "LKC-12").Intake.MoreCam; m.Words != "past .500 it gains less than 2 %" {
		t.Errorf("words %q", m.Words)
	}
	if m := find(c, "OB-4").Intake.MoreCam; m.Known || !strings.HasPrefix(m.Words, "can't say") {
		t.Errorf("a curve that climbs to its end: %+v", m)
	}
}

// TestEngineNeeds: 331 in3 by geometry, displacement x speed / 3456 for the
// air, and the trade's rule turned round for the flow.
func TestEngineNeeds(t *testing.T) {
	c := smallEight(withCam)
	n := c.Engine
	near(t, "displacement", n.Displacement.In3(), math.Pi/4*4.03*4.03*3.25*8, 1e-9)
	near(t, "air", n.Air.Value, 623.7534266188524, 1e-9)
	near(t, "flow for 450 hp", n.Wanted.Value, 450/(0.257*8), 1e-9)
	near(t, "its range, low", n.WantedLow.Value, 450/(0.257*8)/1.12, 1e-9)
	near(t, "its range, high", n.WantedHigh.Value, 450/(0.257*8)/0.88, 1e-9)
	if got := find(c, "LKC-07").Demand.Wanted; got != "within what is wanted" {
		t.Errorf("LKC-07 peaks at 205: %q", got)
	}
	e := find(c, "LKC-12")
	near(t, "mean port speed, the trade's over 1.618", e.Demand.MeanSpeed.Value, e.Air.Speed.Value/1.618, 0.2)
	if none := smallEight(nil).Engine; none.Wanted.Known || none.Power.Known {
		t.Errorf("a flow wanted without a target: %+v", none)
	}
	bare := smallEight(func(_ *head.Records, s *head.Shop) {
		s.Families = slices.Clone(s.Families)
		s.Families[0].EngineStroke.Known, s.Families[0].EngineStroke.Value = false, 0
	})
	if bare.Engine.Known || find(bare, "LKC-12").Demand.Mach.Known {
		t.Errorf("an engine without a stroke: %+v, %+v", bare.Engine, find(bare, "LKC-12").Demand)
	}
}

func TestExhaustWithAndWithoutPipe(t *testing.T) {
	e := find(smallEight(nil), "PW-31")
	// Means of the two exhausts over the intake's, scipy PchipInterpolator.
	if !e.EI.Known || !e.EINoPipe.Known || e.EI.Value <= e.EINoPipe.Value || e.EI.Unusual {
		t.Errorf("with a pipe %+v, without %+v", e.EI, e.EINoPipe)
	}
}

// TestSizes: steel of 7.85 mg/mm3 times the difference of two circles.
func TestSizes(t *testing.T) {
	c := smallEight(func(r *head.Records, _ *head.Shop) {
		r.Dimensions = slices.Clone(r.Dimensions)
		for i := range r.Dimensions {
			if d := &r.Dimensions[i]; d.Head == "OB-4" {
				d.PortLength = source.Say(quantity.Inches(5.0), source.Trace{})
				d.StemLength = source.Say(quantity.Inches(4.9), source.Trace{})
				d.Other = []head.Fact{{Name: "Port window", Value: "1.25 x 2.20 oval"}}
			}
		}
	})
	s := find(c, "OB-4").Sizes
	near(t, "throat ratio", s.Throat.Value, 1.84/2.055, 1e-9)
	near(t, "mean section", s.MeanSection.Value, 195/16.387064/5.0, 1e-9)
	near(t, "over the smallest", s.SectionRatio.Value, 195/16.387064/5.0/2.20, 1e-9)
	big, small := 11.0/32*25.4, 5.0/16*25.4
	near(t, "stem, g a mm", s.StemLighter.Value, 7.85e-3*math.Pi/4*(big*big-small*small), 1e-9)
	length := 4.9 * 25.4
	near(t, "whole stem, g", s.StemMass.Value, 7.85e-3*math.Pi/4*small*small*length, 1e-9)
	if want := fmt.Sprintf("%.1f g of stem, %.1f g lighter than one as thick as LKC-07's, computed for steel",
		s.StemMass.Value, s.StemLighter.Value*length); s.StemWords != want {
		t.Errorf("stem %q, want %q", s.StemWords, want)
	}
	if s.PortShape != "1.25 x 2.20 oval" || s.ThroatWords != "usual" || s.SectionWords != "usual" {
		t.Errorf("sizes %+v", s)
	}
	if other := find(c, "LKC-12").Sizes; other.MeanSection.Known || other.StemWords != "as LKC-07's" {
		t.Errorf("LKC-12 %+v", other)
	}
}

// Neither cam, power nor dimensions may move a place.
func TestWhatStandsBesideMovesNoPlace(t *testing.T) {
	r, s, d := comparetest.Shelf()
	before := compare.All(r, s, d)
	for i := range s.Families {
		s.Families[i].CamLobe, s.Families[i].RockerRatio = source.Say(quantity.Inches(.340), source.Trace{}), source.Say(1.5, source.Trace{})
		s.Families[i].TargetPower = source.Say(300.0, source.Trace{})
	}
	for i, c := range compare.All(r, s, d) {
		for k, e := range c.Ranked {
			if was := before[i].Ranked[k]; e.Label != was.Label || e.Place.Number != was.Place.Number || e.Value != was.Value || e.Shape != was.Shape {
				t.Errorf("%s moved: %+v, was %+v", e.Label, e.Place, was.Place)
			}
		}
	}
}
