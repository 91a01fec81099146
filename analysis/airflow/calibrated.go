package airflow

import (
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// CalibratedOrifice is a bench's orifice as its owner calibrated it: the flow
// through it at one pressure difference across it, the bench at one test
// pressure.
type CalibratedOrifice struct {
	Flow quantity.Flow
	Drop quantity.Pressure // across the orifice
	Test quantity.Pressure // at which the bench was run
}

// Read returns the flow at a pressure difference across the orifice,
//
//	q = Flow sqrt(drop/Drop),
//
// the equation of ISO 5167-1:2003, 5.1 (clause from memory) with the coefficient
// and the expansibility of the calibration; down to a fifth of its difference a
// plate of that standard is within 1 % of it. Port and orifice share one stream,
// so that the weather cancels: the flow is that of the calibration's air. Domain:
// all positive; an error outside.
func (o CalibratedOrifice) Read(drop quantity.Pressure) (quantity.Flow, error) {
	if !(o.Flow > 0 && o.Drop > 0 && drop > 0) {
		return 0, fmt.Errorf("%g inH2O across an orifice of %g cfm at %g inH2O cannot be", drop.InH2O(), o.Flow.CFM(), o.Drop.InH2O())
	}
	return o.Flow * quantity.Flow(math.Sqrt(float64(drop/o.Drop))), nil
}

// OffAt returns by how much of itself a flow may be off where the bench is run at
// another test pressure than at its calibration,
//
//	|sqrt((p - Test)/(p - test)) - 1|, p the standard atmosphere:
//
// an orifice behind a port that is sucked at takes in thinner air than the room's.
// It is a bound, for how a bench is piped is not known: in front of the port, or
// blown, it is less. Domain: both below the atmosphere; NaN outside.
func (o CalibratedOrifice) OffAt(test quantity.Pressure) float64 {
	p := StandardAtmosphere()
	return math.Abs(math.Sqrt(float64((p-o.Test)/(p-test))) - 1)
}
