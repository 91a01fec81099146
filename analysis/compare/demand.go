package compare

import (
	"fmt"
	"math"

	"flowshelf/analysis/engine"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// EngineNeeds is what the family's reference engine asks of any head.
type EngineNeeds struct {
	Known        bool
	Why          string // why not
	Words        string // "331 in³, 8 cylinders, 6,500 rpm"
	Displacement quantity.Volume
	RPM          float64
	Air          Maybe // cfm the whole engine takes in at a volumetric efficiency of 1
	Power        Maybe // hp that a flow is wanted for
	// Wanted is the peak intake flow of a port that goes with Power, and the
	// range of it at one standard deviation of the rule. Flow is not power.
	Wanted, WantedLow, WantedHigh Maybe
}

// Demand is how a head meets the reference engine. It is shown, never scored.
type Demand struct {
	MeanSpeed Maybe  // ft/s at the smallest section, the piston at its mean speed
	Mach      Maybe  // inlet Mach index at the engine's speed
	Rests     string // which average the index rests on; CamMean.Why says why not the cam's
	At50      Maybe  // rpm at which the index reaches 0.5
	At60      Maybe  // rpm at which it reaches 0.6
	Words     string // where the engine's speed lies against that band
	Wanted    string // the peak in the range against the flow wanted
}

// The band of the inlet Mach index in which an engine's breathing falls off.
const bandFrom, bandTo = 0.5, 0.6

func (f *family) engine() engine.Engine {
	return engine.Engine{Bore: f.EngineBore.Value, Stroke: f.EngineStroke.Value, Cylinders: f.Cylinders.Value, RPM: f.EngineRPM.Value}
}

// engineNeeds works out what the reference engine asks.
func (f *family) engineNeeds() EngineNeeds {
	of := f.engine()
	if !(of.Bore > 0 && of.Stroke > 0 && of.RPM > 0 && of.Cylinders > 0) {
		return EngineNeeds{Why: "the setup does not state bore, stroke, cylinders and speed of the family's engine"}
	}
	n := EngineNeeds{Known: true, Displacement: of.Displacement(), RPM: of.RPM, Air: known(of.Demand(1).CFM())}
	n.Words = fmt.Sprintf("bore %s, stroke %s, %s, %.0f in³ (%.0f cc) at %s rpm",
		f.size(of.Bore), f.size(of.Stroke), count(of.Cylinders, "cylinder"), n.Displacement.In3(), n.Displacement.CC(), number(of.RPM))
	if !f.TargetPower.Known {
		n.Power = unknown("the setup states no target power")
		n.Wanted, n.WantedLow, n.WantedHigh = n.Power, n.Power, n.Power
		return n
	}
	n.Power = known(f.TargetPower.Value)
	rule := engine.DefaultPowerRule().AtPressure(f.rules.Reference)
	flow, low, high, err := rule.FlowFor(f.TargetPower.Value, of.Cylinders)
	if err != nil {
		n.Wanted = unknown("%v", err)
		n.WantedLow, n.WantedHigh = n.Wanted, n.Wanted
		return n
	}
	n.Wanted, n.WantedLow, n.WantedHigh = known(flow.CFM()), known(low.CFM()), known(high.CFM())
	return n
}

// demand is how a head meets the engine.
func (f *family) demand(e *Entry) Demand {
	d := Demand{MeanSpeed: f.meanSpeed(e.Dimensions), Wanted: f.wanted(e.Intake)}
	mean := e.Intake.CamMean
	d.Rests = "cam average"
	if !mean.Known {
		mean = e.Intake.Working
		d.Rests = "working average: reads low"
	}
	if !mean.Known {
		d.Rests = ""
		d.Mach = mean
		d.At50, d.At60 = mean, mean
		return d
	}
	of := f.engine()
	at := func(z float64) Maybe {
		rpm, err := of.RPMAt(z, quantity.CFM(mean.Value), f.rules.Reference, engine.SoundAt20C())
		if err != nil {
			return unknown("%v", err)
		}
		return known(rpm)
	}
	d.At50, d.At60 = at(bandFrom), at(bandTo)
	z, err := of.MachIndex(quantity.CFM(mean.Value), f.rules.Reference, engine.SoundAt20C())
	if err != nil {
		d.Mach = unknown("%v", err)
		return d
	}
	d.Mach = known(z)
	d.Words = machWords(z)
	return d
}

// machWords says where the index lies. The band's ends are good to about a tenth.
func machWords(z float64) string {
	switch {
	case z < bandFrom:
		return "below the band: breathes"
	case z <= bandTo:
		return "in the band where breathing falls off"
	}
	return "past the band: out of breath"
}

func (f *family) meanSpeed(d *head.Dimensions) Maybe {
	if d == nil || !d.MinSection.Known {
		return unknown("minimum cross-section not known")
	}
	v, err := f.engine().MeanPortSpeed(d.MinSection.Value)
	if err != nil {
		return unknown("%v", err)
	}
	return known(v.FtS())
}

// wanted holds a port's peak in the range against the flow wanted.
func (f *family) wanted(r *PortResult) string {
	n := f.needs
	q := r.PeakIn.Flow.CFM()
	switch {
	case !n.Wanted.Known || q == 0 || math.IsNaN(q):
		return ""
	case q < n.WantedLow.Value:
		return "below what is wanted"
	case q > n.WantedHigh.Value:
		return "above what is wanted"
	}
	return "within what is wanted"
}
