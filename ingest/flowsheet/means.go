package flowsheet

import (
	"math"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// meansByFigures unmasks averages that no word gives away: a column under words
// of its own that is, at every lift, the mean of the columns before it.
func meansByFigures(_ *builder, t *table) {
	for i, ln := range t.lanes {
		named := restText(ln.facts)
		if ln.role != laneFlow && ln.role != laneUnknown || named == "" || i == 0 || named == restText(t.lanes[i-1].facts) {
			continue
		}
		if t.meanOfBefore(i) {
			ln.role, ln.why = laneSummary, "the mean of the columns before it, by its figures"
		}
	}
}

// meanOfBefore reports whether a lane is the mean of at least two lanes that
// stand right before it.
func (t *table) meanOfBefore(at int) bool {
	if t.opensGroup(at) {
		return false
	}
	for from := at - 2; from >= 0; from-- {
		if first := t.lanes[from].role; first != laneFlow && first != laneUnknown || t.anotherHead(at, from) {
			return false
		}
		if t.isMean(t.lanes[at], t.lanes[from:at]) {
			return true
		}
	}
	return false
}

// opensGroup reports whether a banner begins over a lane that also stands over the
// next one, beside another banner: a group of readings, and no mean of the last.
func (t *table) opensGroup(at int) bool {
	banner := func(i int) decode.Cell { return firstCell(t.lanes[i].headers, []decode.Cell{{}}) }
	same := func(a, b decode.Cell) bool { return a.Row == b.Row && a.Col == b.Col && !a.Blank() }
	return at > 0 && at+1 < len(t.lanes) && same(banner(at), banner(at+1)) && !same(banner(at), banner(at-1))
}

// anotherHead reports whether two lanes are named for two heads: the figures of one
// head are no mean of another's.
func (t *table) anotherHead(at, before int) bool {
	a, b := t.lanes[at].facts, t.lanes[before].facts
	mine, theirs := a.head.and(a.loose), b.head.and(b.loose)
	return len(mine) > 0 && len(theirs) > 0 && !anyOf(mine, theirs)
}

// isMean reports whether a lane is the mean of others at every lift, as far as
// the decimals that are written tell.
func (t *table) isMean(mean *lane, of []*lane) bool {
	rows := 0
	for _, e := range t.axis.entries {
		c := t.plane().At(e.row, mean.col)
		given, ok := figure(c)
		if !ok {
			continue
		}
		sum, loose := 0.0, lastDigit(c)
		for _, ln := range of {
			m := t.plane().At(e.row, ln.col)
			x, ok := figure(m)
			if !ok {
				return false
			}
			sum, loose = sum+x, max(loose, lastDigit(m))
		}
		if math.Abs(sum/float64(len(of))-given) > (loose+lastDigit(c))/2+1e-9 {
			return false
		}
		rows++
	}
	return rows >= fewestPoints
}

// lastDigit is the worth of the last decimal that a figure is written with.
func lastDigit(c decode.Cell) float64 {
	text := cellText(c)
	if x, ok := figure(c); ok {
		text = parse.Digits(x)
	}
	_, decimals, _ := strings.Cut(text, ".")
	return math.Pow(10, -float64(len(decimals)))
}
