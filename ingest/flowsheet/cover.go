package flowsheet

import (
	"fmt"
	"math"

	"flowshelf/analysis/head"
	"flowshelf/ingest/parse"
)

// How far apart two statements of one thing may be: 104.8 mm is 4 1/8 in.
const (
	sameBoreIn = 0.005
	sameInH2O  = 0.05
)

// againstCover notes what the book's cover states otherwise than the tab: the
// tab is nearer to the test and stands.
func (b *builder) againstCover(t *head.Test) {
	cover := b.around.cover.any()
	if bore, ok := cover.bore.one(); ok && t.Bore.Known && math.Abs((bore.Value-t.Bore.Value).In()) > sameBoreIn {
		b.p.note(t.Bore.Trace.At, kindCoverDiffers, t.Head, t.Bore.Trace.Text,
			fmt.Sprintf("the cover states a bore of %s in; the tab's own stands", parse.Digits(bore.Value.In())))
	}
	if p, ok := cover.pressure.one(); ok && t.Pressure.Known && math.Abs((p.Value-t.Pressure.Value).InH2O()) > sameInH2O {
		b.p.note(t.Pressure.Trace.At, kindCoverDiffers, t.Head, t.Pressure.Trace.Text,
			fmt.Sprintf("the cover states a test pressure of %s inH2O; the tab's own stands", parse.Digits(p.Value.InH2O())))
	}
}
