package words

import (
	"slices"
	"sync"
)

// The roles.
const (
	None Role = iota
	Lift
	LiftOverDiameter
	Opening // how far something is open: a lift where ports stand beside it
	Intake
	Exhaust
	AmbiguousPort // EV, AV, E, IN: the neighbours decide, or somebody is asked
	BothPorts     // E/I ratio

	Cylinder
	PortNo
	Run
	LongPort
	ShortPort
	LeftPort
	RightPort
	UnlikePort // the good or the bad one of two ports that are not alike

	Average
	Minimum
	Maximum
	Spread
	Peak
	Total
	Gain
	Percent
	Ratio
	Velocity
	Swirl
	Power
	Area
	Rank

	Range
	PercentOfRange
	Calibration
	TestPressure
	Observed
	Corrected
	NotCorrected
	Manometer
	Orifice // which orifice, not what was read across it

	Bore
	Valve
	Pipe
	NoPipe
	NoEntry
	Radius
	Clay
	Manifold
	NoManifold
	BarePort

	Advertised
	Tested
	OwnBench

	AsDelivered
	Rework
	Before
	After

	Head
	Supplier
	Bench
	Serial
	Sample
	Port
	Side
	Date
	Operator
	Note
	Leak
	State
	Flow
	Valves
	EntryCaption
	OtherQuantity // a temperature, a humidity: no flow
	Supposed      // a target, a simulation: nobody measured it
	Old
	PortCount
	Family

	Template
	Cover
	Filler // words that say nothing of themselves: "and", "the", "flow"
)

// FlowSheet is the lexicon of flow sheets. A word is listed where the trade
// uses it (common practice, no source); where two entries hold one phrase, the
// first stands.
func FlowSheet() *Lexicon { return flowSheet() }

// It is built when it is first asked for: the process that marks a copy never does.
var flowSheet = sync.OnceValue(func() *Lexicon { //nolint:gochecknoglobals // built once from constants and never written
	return NewLexicon(slices.Concat(ports(), columns(), summaries(), conditions(), identity(), states()))
})
