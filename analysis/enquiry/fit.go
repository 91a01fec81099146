package enquiry

import (
	"fmt"
	"regexp"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/engine"
	"flowshelf/analysis/head"
)

// fits says what the books tell of whether a head goes on the customer's block:
// room for the valves in his bore, what its chamber does to the compression, and
// whatever else a dimension sheet states of fit.
func (a *Answer) fits(e *compare.Entry, base *compare.Entry) []string {
	if e.Dimensions == nil {
		return []string{"no dimensions of it are in the books: smallest bore, bolt pattern and chamber must be asked"}
	}
	out := []string{a.wall(e.Dimensions)}
	out = append(out, a.compression(e, base))
	stated := false
	for _, fact := range e.Dimensions.Other {
		if fitFact.MatchString(fact.Name) {
			out, stated = append(out, fmt.Sprintf("%s: %s, as the sheet states", fact.Name, fact.Value)), true
		}
	}
	if !stated {
		out = append(out, "smallest bore and bolt pattern are not stated in the books: ask")
	}
	return out
}

// fitFact are the facts of a dimension sheet that bear on fit.
var fitFact = regexp.MustCompile(`(?i)\bmin(imum)? bore\b|\bbolt|\bpattern\b|\bdeck\b|\bport location\b|\bplug\b`)

// wall is the room between intake valve and cylinder wall on his bore:
//
//	clearance measured + (his bore - the bore it was measured on)/2,
//
// all in inches, the valve staying where it is on the head.
func (a *Answer) wall(d *head.Dimensions) string {
	bore := a.Family.EngineBore
	switch {
	case !bore.Known:
		return "his bore is not known"
	case d.WallClearance.Known && d.WallBore.Known:
		room := d.WallClearance.Value + (bore.Value-d.WallBore.Value)/2
		if room <= 0 {
			return fmt.Sprintf("the intake valve does not clear the wall of a %.3f bore (%.3f in short)", bore.Value.In(), -room.In())
		}
		return fmt.Sprintf("%.3f in from intake valve to wall on his %.3f bore (%.3f measured on %.3f)",
			room.In(), bore.Value.In(), d.WallClearance.Value.In(), d.WallBore.Value.In())
	case d.IntakeValve.Known && d.ExhaustValve.Known:
		return fmt.Sprintf("valve to wall was never measured: valves %.3f and %.3f in a bore of %.3f, intake valve %.2f of the bore",
			d.IntakeValve.Value.In(), d.ExhaustValve.Value.In(), bore.Value.In(), float64(d.IntakeValve.Value/bore.Value))
	}
	return "valve to wall was never measured"
}

// asItStands is the compression ratio that the effect of a chamber is told for.
const asItStands = 10.0

// compression tells what the chamber does against that of the family's base
// head, gasket, deck and piston left as they are:
//
//	ratio = (V + v)/v, V the swept volume of a cylinder, v all that is left above,
//
// v being V/(10 - 1) for an engine that stands at 10 to 1 with the base head.
func (a *Answer) compression(e, base *compare.Entry) string {
	chamber := e.Dimensions.Chamber
	if !chamber.Known {
		return "its chamber is not stated: work the compression out before ordering"
	}
	words := fmt.Sprintf("chamber %.0f cc", chamber.Value.CC())
	if base == nil || base.Dimensions == nil || !base.Dimensions.Chamber.Known || base.Head == e.Head || !a.Family.EngineStroke.Known {
		return words + ": work the compression out with gasket, deck and piston"
	}
	one := engine.Engine{Bore: a.Family.EngineBore.Value, Stroke: a.Family.EngineStroke.Value, Cylinders: 1}
	swept := one.Displacement().CC()
	left := swept/(asItStands-1) + chamber.Value.CC() - base.Dimensions.Chamber.Value.CC()
	if left <= 0 || swept <= 0 {
		return words + ": far from that of " + base.Label + ", work the compression out"
	}
	return fmt.Sprintf("%s, %.0f with %s: an engine that stands at %.1f to 1 with that one comes to %.1f, gasket, deck and piston as they are",
		words, base.Dimensions.Chamber.Value.CC(), base.Label, asItStands, (swept+left)/left)
}
