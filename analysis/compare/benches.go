package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/bench"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// BenchRecord is how a supplier's figures of one class and port read against our
// own bench, by the heads that both have flowed, over all families.
type BenchRecord struct {
	Bench string
	Class head.Class
	Port  head.Port
	Pairs []BenchPair
	Other int // heads flowed there and not here, or not comparable

	Linked     bool // some chain of heads ties it to our bench
	Indicative bool // fewer than three heads: a hint, not a calibration
	Percent    Maybe
	Low, High  Maybe // 95 % interval of Percent
	// Drawn is Percent drawn toward zero for how little is known of it, DrawnU
	// its standard uncertainty: what a correction would use. None is made.
	Drawn, DrawnU Maybe
	Words         string // "reads +3.2 % (95 % +0.3 to +6.2, n = 5)"
	Bores         string // where the bores differ, which the figure then holds too

	paired bench.Paired
}

// BenchPair is one head on both benches: means over the head's working range at
// the reference pressure, each on the bore it was flowed on.
type BenchPair struct {
	Head, Family        string
	Theirs, Ours        quantity.Flow
	TheirBore, OurBore  string
	Percent             float64
	SameBore, BoreKnown bool
}

// Equivalent is what a supplier's figure comes to on our bench by the supplier's
// record: a range, and never a place among tested heads.
type Equivalent struct {
	Maybe             // working average, cfm
	Low, High float64 // 95 %
	Words     string
}

// enoughLinked is how many heads make a calibration. Common practice, no source.
const enoughLinked = 3

// flowed is one head on a bench that is not ours, with our own figure where the
// two can be held together.
type flowed struct {
	key  benchKey
	pair BenchPair
	both bool
}

type benchKey struct {
	bench string
	class head.Class
	port  head.Port
}

// benchKeyOf names the bench behind a test that is not ours: one that the setup
// knows, else the head's supplier, else whoever sent it.
func (s *shelf) benchKeyOf(supplier string, t *head.Test) benchKey {
	key := benchKey{cmp.Or(supplier, t.By), t.Class, t.Port}
	for _, b := range s.shop.Benches {
		if !b.Own && b.Name != "" && strings.EqualFold(b.Name, t.By) {
			key.bench = b.Name
		}
	}
	return key
}

// flowedElsewhere lists the curves of the family's heads from other benches, one
// a head, class and port.
func (f *family) flowedElsewhere(heads []*bundle) []flowed {
	var out []flowed
	for _, b := range heads {
		for _, port := range []head.Port{head.Intake, head.Exhaust} {
			best := make(map[benchKey]*column)
			for _, c := range usableColumns(f.columns(b, f.testsOf(b, head.Advertised, head.Supplier), port)) {
				key := f.benchKeyOf(b.supplier(), c.test)
				if was := best[key]; was == nil || cmp.Or(compareDates(c.test.Date, was.test.Date), cmp.Compare(len(c.points), len(was.points))) > 0 {
					best[key] = c
				}
			}
			for key, c := range best {
				if x, ok := f.onBoth(b, port, key, c); ok && key.bench != "" {
					out = append(out, x)
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b flowed) int {
		return cmp.Or(a.key.compare(b.key), cmp.Compare(a.pair.Head, b.pair.Head))
	})
	return out
}

func (k benchKey) compare(o benchKey) int {
	return cmp.Or(cmp.Compare(k.bench, o.bench), cmp.Compare(k.class, o.class), cmp.Compare(k.port, o.port))
}

// onBoth takes the means of a curve from elsewhere and of our own. They are held
// together when both cover the working range at one class of test pressure with
// no reading of ours refused, and for exhausts with the same pipe. False when the curve itself has no mean.
func (f *family) onBoth(b *bundle, port head.Port, key benchKey, c *column) (flowed, bool) {
	theirs := f.meanOfPoints(c.points)
	x := flowed{key: key, pair: BenchPair{Head: b.listed.Name, Family: f.Name, TheirBore: f.conditions(c.test).Bore}}
	if !theirs.Known {
		return x, false
	}
	x.pair.Theirs = quantity.CFM(theirs.Value)
	own := f.testedLike(b, port, c.test)
	if len(own) == 0 {
		return x, true
	}
	here := own[0].cols[0]
	ours := f.meanOfPoints(f.average(b, own[0]).points)
	refused := slices.ContainsFunc(own[0].cols, func(c *column) bool { return len(c.impossible) > 0 })
	if !ours.Known || refused || (c.lowest < comparableStall) != (here.lowest < comparableStall) ||
		port == head.Exhaust && c.test.Pipe != here.test.Pipe {
		return x, true
	}
	x.both = true
	x.pair.Ours, x.pair.OurBore = quantity.CFM(ours.Value), f.conditions(here.test).Bore
	x.pair.Percent = percent(theirs.Value, ours.Value)
	x.pair.BoreKnown = c.test.Bore.Known && own[0].bore.Known
	x.pair.SameBore = x.pair.BoreKnown && math.Abs(float64(c.test.Bore.Value-own[0].bore.Value)) <= float64(f.rules.BoreClass)+1e-9
	return x, true
}

func (f *family) meanOfPoints(points []LiftPoint) Maybe {
	line, err := curve.New(plain(points))
	if err != nil {
		return unknown("%v", err)
	}
	return f.mean(line, f.RangeFrom, f.RangeTo)
}

// ourBench stands for the shop's own benches in the comparison of benches.
const ourBench = "\x00own"

// node is the bench's name in that comparison: claims and sheets of one supplier
// are two, and so are the ports.
func (k benchKey) node() string { return fmt.Sprintf("%s|%s|%s", k.bench, k.class, k.port) }

// recordBenches works out each bench's record over all families and gives every
// comparison those of its own heads, and its untested heads their range.
func recordBenches(shop *shelf, all []Comparison, seen []flowed) {
	slices.SortStableFunc(seen, func(a, b flowed) int { return a.key.compare(b.key) })
	var records []BenchRecord
	for i := 0; i < len(seen); {
		j := i
		for j < len(seen) && seen[j].key == seen[i].key {
			j++
		}
		records = append(records, newBenchRecord(seen[i:j]))
		i = j
	}
	chained(records, seen)
	for i := range all {
		c := &all[i]
		for _, r := range records {
			if slices.ContainsFunc(seen, func(x flowed) bool { return x.pair.Family == c.Family.Name && x.key == r.key() }) {
				c.Benches = append(c.Benches, r)
			}
		}
		for _, list := range [][]Entry{c.BelowLine, c.Advertised} {
			for k := range list {
				shop.equivalent(c, &list[k])
			}
		}
	}
}

func (r BenchRecord) key() benchKey { return benchKey{r.Bench, r.Class, r.Port} }

// newBenchRecord sums up the heads of one bench that were flowed here too.
func newBenchRecord(seen []flowed) BenchRecord {
	k := seen[0].key
	r := BenchRecord{Bench: k.bench, Class: k.class, Port: k.port}
	var ours, theirs []quantity.Flow
	for _, x := range seen {
		if !x.both {
			r.Other++
			continue
		}
		r.Pairs = append(r.Pairs, x.pair)
		ours, theirs = append(ours, x.pair.Ours), append(theirs, x.pair.Theirs)
	}
	none := unknown("no head of theirs was flowed here")
	r.Percent, r.Low, r.High, r.Drawn, r.DrawnU = none, none, none, none, none
	p, err := bench.Pair(ours, theirs)
	if err != nil {
		return r
	}
	r.paired, r.Linked, r.Indicative = p, true, p.Heads < enoughLinked
	r.Percent = known(p.Percent())
	if low, high, ok := p.Interval(); ok {
		r.Low, r.High = known(low), known(high)
	}
	r.Drawn, r.DrawnU = known(100*math.Expm1(p.Shrunk)), known(100*p.SDShrunk)
	r.Words = r.reads(p.Heads)
	r.Bores = boresDiffer(r.Pairs)
	return r
}

// reads says the record in the trade's words.
func (r BenchRecord) reads(heads int) string {
	words := fmt.Sprintf("reads %+.1f %% ", r.Percent.Value)
	if r.Low.Known {
		words += fmt.Sprintf("(95 %% %+.1f to %+.1f, n = %d)", r.Low.Value, r.High.Value, heads)
	} else {
		words += fmt.Sprintf("(n = %d)", heads)
	}
	if r.Indicative {
		words += ": indicative, fewer than three heads"
	}
	return words
}

func boresDiffer(pairs []BenchPair) string {
	differ := 0
	for _, p := range pairs {
		if !p.SameBore {
			differ++
		}
	}
	if differ == 0 {
		return ""
	}
	return fmt.Sprintf("on %d of %s the bores differ or are not stated: part of it may be the bore", differ, count(len(pairs), "head"))
}

// chained finds, for benches without a head in common with ours, whether a chain
// of heads and other benches ties them to it, and what that says.
func chained(records []BenchRecord, seen []flowed) {
	var readings []bench.Reading
	for _, x := range seen {
		name := fmt.Sprintf("%s|%s|%s", x.pair.Family, x.pair.Head, x.key.port)
		readings = append(readings, bench.Reading{Head: name, Bench: x.key.node(), Mean: x.pair.Theirs})
		if x.both {
			readings = append(readings, bench.Reading{Head: name, Bench: ourBench, Mean: x.pair.Ours})
		}
	}
	fit, err := bench.Compare(readings, ourBench, bench.DefaultPrior())
	for i := range records {
		r := &records[i]
		if r.Linked {
			continue
		}
		r.Words = "not linked: no head of theirs was flowed here, nor does a chain of heads tie them to us"
		j := slices.IndexFunc(fit.Offsets, func(o bench.Offset) bool { return o.Bench == r.key().node() })
		if err != nil || j < 0 {
			continue
		}
		o := fit.Offsets[j]
		r.Linked, r.Indicative = true, o.Indicative()
		r.Percent, r.Drawn, r.DrawnU = known(o.Percent()), known(100*math.Expm1(o.Shrunk)), known(100*o.SD)
		r.Words = r.reads(o.Heads) + ", through other benches"
	}
}

// equivalent is the range a supplier's working average comes to on our bench.
func (s *shelf) equivalent(c *Comparison, e *Entry) {
	if e.Intake == nil || !e.Intake.Working.Known || len(e.Intake.Tests) == 0 {
		e.Equivalent.Maybe = unknown("no working average")
		return
	}
	key := s.benchKeyOf(e.Supplier, e.Intake.Tests[0])
	i := slices.IndexFunc(c.Benches, func(r BenchRecord) bool { return r.key() == key })
	if i < 0 || len(c.Benches[i].Pairs) == 0 {
		e.Equivalent.Maybe = unknown("no head of %s was flowed on both benches: nothing is implied", key.bench)
		e.Equivalent.Words = "can't say: " + e.Equivalent.Why
		return
	}
	r := c.Benches[i]
	flow, low, high := r.paired.OnShop(quantity.CFM(e.Intake.Working.Value))
	e.Equivalent = Equivalent{Maybe: known(flow.CFM()), Low: low.CFM(), High: high.CFM()}
	e.Equivalent.Words = fmt.Sprintf("%.0f to %.0f cfm on our bench by the record of %s on %s", low.CFM(), high.CFM(), key.bench, count(r.paired.Heads, "head"))
	if r.Indicative {
		e.Equivalent.Words += " (indicative)"
	}
}
