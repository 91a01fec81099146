package compare

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// averaged is a session's curve: runs averaged within a port, then ports with
// one another, the levels kept apart.
type averaged struct {
	points []LiftPoint
	each   []PortCurve // the ports behind it, when there are several
	ports  int
	runs   int
	spread Maybe
	pc     Maybe
	worst  string
	asked  source.Problems
}

// average takes the mean of a session's columns.
func (f *family) average(b *bundle, s session) averaged {
	var out averaged
	var ports [][]LiftPoint
	var marks []string
	for _, all := range byMark(s.cols) {
		group, noted := f.dropAnswered(b, all)
		out.asked = append(out.asked, noted...)
		runs := make([][]LiftPoint, len(group))
		stated := 1
		for i, c := range group {
			runs[i] = c.points
			stated = max(stated, c.test.Ports)
		}
		mean := meanOf(runs)
		if len(runs) > 1 {
			out.asked = append(out.asked, f.oddRun(b, group, mean)...)
		}
		out.runs = max(out.runs, len(runs))
		out.ports += stated
		ports = append(ports, mean)
		marks = append(marks, mark(group[0].test, s))
	}
	out.points = meanOf(ports)
	if len(ports) > 1 {
		f.spread(&out, ports, marks)
	}
	return out
}

// mark names a port of a session, with its sample where the session has several.
func mark(t *head.Test, s session) string {
	several := slices.ContainsFunc(s.cols, func(c *column) bool { return c.test.Sample != t.Sample })
	switch {
	case !several:
		return t.PortMark
	case t.PortMark == "":
		return "sample " + t.Sample
	}
	return "sample " + t.Sample + " port " + t.PortMark
}

func byMark(cols []*column) [][]*column {
	var groups [][]*column
	for _, c := range cols {
		i := slices.IndexFunc(groups, func(g []*column) bool {
			return g[0].test.PortMark == c.test.PortMark && g[0].test.Sample == c.test.Sample
		})
		if i < 0 {
			groups = append(groups, []*column{c})
			continue
		}
		groups[i] = append(groups[i], c)
	}
	slices.SortStableFunc(groups, func(a, b []*column) int {
		return cmp.Or(cmp.Compare(a[0].test.Sample, b[0].test.Sample), cmp.Compare(a[0].test.PortMark, b[0].test.PortMark))
	})
	return groups
}

// meanOf averages several curves at every lift that one of them measured and all
// of them cover. A curve without a reading there is read between its own
// readings; beyond the shortest curve there is no mean.
func meanOf(curves [][]LiftPoint) []LiftPoint {
	if len(curves) == 1 {
		return curves[0]
	}
	lines := make([]curve.Curve, len(curves))
	for i, points := range curves {
		line, err := curve.New(plain(points))
		if err != nil {
			return nil
		}
		lines[i] = line
	}
	var out []LiftPoint
	for _, lift := range allLifts(curves) {
		if p, ok := meanAt(lift, curves, lines); ok {
			out = append(out, p)
		}
	}
	return out
}

func meanAt(lift quantity.Length, curves [][]LiftPoint, lines []curve.Curve) (LiftPoint, bool) {
	p := LiftPoint{Lift: lift}
	for i, points := range curves {
		j := slices.IndexFunc(points, func(q LiftPoint) bool { return q.Lift.Near(lift, sameLift) })
		if j >= 0 {
			p.Flow += points[j].Flow
			p.From = append(p.From, points[j].From...)
			p.Remark = joinRemarks(p.Remark, points[j].Remark)
			continue
		}
		flow, ok := lines[i].At(lift)
		if !ok {
			return p, false
		}
		p.Flow += flow
		p.Remark = joinRemarks(p.Remark, "partly read between readings")
	}
	p.Flow /= quantity.Flow(len(curves))
	return p, true
}

func allLifts(curves [][]LiftPoint) []quantity.Length {
	var lifts []quantity.Length
	for _, points := range curves {
		for _, p := range points {
			lifts = append(lifts, p.Lift)
		}
	}
	slices.Sort(lifts)
	return slices.CompactFunc(lifts, func(a, b quantity.Length) bool { return a.Near(b, sameLift) })
}

func plain(points []LiftPoint) []curve.Point {
	out := make([]curve.Point, len(points))
	for i, p := range points {
		out[i] = curve.Point{Lift: p.Lift, Flow: p.Flow}
	}
	return out
}

// spread finds the widest difference between the ports and the worst of them.
func (f *family) spread(out *averaged, ports [][]LiftPoint, marks []string) {
	for i := range out.points {
		p := out.points[i]
		low, high := quantity.Flow(0), quantity.Flow(0)
		for _, port := range ports {
			j := slices.IndexFunc(port, func(q LiftPoint) bool { return q.Lift.Near(p.Lift, sameLift) })
			if j < 0 {
				continue
			}
			if low == 0 || port[j].Flow < low {
				low = port[j].Flow
			}
			high = max(high, port[j].Flow)
		}
		// Of equal differences the one at the highest lift is told: there the
		// port, not the valve, makes it.
		if wide := (high - low).CFM(); wide >= out.spread.Value {
			out.spread = known(wide)
			out.pc = known(100 * wide / p.Flow.CFM())
		}
	}
	worst := 0.0
	for i, port := range ports {
		each := f.portCurve(marks[i], port)
		out.each = append(out.each, each)
		if i == 0 || each.Working.Value < worst {
			worst, out.worst = each.Working.Value, marks[i]
		}
	}
}

func (f *family) portCurve(mark string, points []LiftPoint) PortCurve {
	each := PortCurve{Mark: mark, Points: points}
	line, err := curve.New(plain(points))
	if err != nil {
		each.Working.Why = err.Error()
		return each
	}
	mean, _ := line.Mean(f.RangeFrom, f.RangeTo)
	each.Working = known(mean.CFM())
	each.Words = curve.Stall(plain(points), f.noise).Words()
	return each
}

// oddRunLimit is how far one run may lie off the mean of its repeats, over the
// whole curve, before it is asked about. Common practice, no source.
const oddRunLimit = 0.02

// oddRun asks about a run that lies off the others. It stays in the mean until
// somebody says otherwise: no reading is dropped for being unwelcome.
func (f *family) oddRun(b *bundle, group []*column, mean []LiftPoint) source.Problems {
	var asked source.Problems
	for _, c := range group {
		sum, all, n := 0.0, 0.0, 0
		for _, p := range mean {
			j := slices.IndexFunc(c.points, func(q LiftPoint) bool { return q.Lift.Near(p.Lift, sameLift) })
			if j >= 0 {
				sum += c.points[j].Flow.CFM()
				all += p.Flow.CFM()
				n++
			}
		}
		if n == 0 || sum/all-1 < oddRunLimit && sum/all-1 > -oddRunLimit {
			continue
		}
		p := f.runProblem(b, c)
		p.Message = fmt.Sprintf("%s lies %+.1f %% off the mean of its repeats over the whole curve", runOf(c), 100*(sum/all-1))
		p.Question.Evidence = fmt.Sprintf("%+.1f %% against the mean of %d runs", 100*(sum/all-1), len(group))
		p, _, _ = f.answered(p)
		asked.Add(p)
	}
	return asked
}

// runProblem is what is asked about a run that lies off the others.
func (f *family) runProblem(b *bundle, c *column) source.Problem {
	return source.Problem{
		At: c.test.At, Severity: source.Asked, Kind: "odd-run", Head: b.listed.Name, Family: f.Name,
		Message: runOf(c) + " lies off the mean of its repeats", Hint: "say whether to leave the run out",
		Question: &source.Question{
			Key: "odd-run|" + c.test.At.String() + "|" + c.test.Run, Text: fmt.Sprintf("%s, %s: leave %s out?", b.listed.Name, c.test.Port, runOf(c)),
			Choices: []string{"keep it", leaveOut}, Changes: "the curve of " + b.listed.Name,
		},
	}
}

func runOf(c *column) string { return strings.TrimSpace("run " + c.test.Run) }

func known(v float64) Maybe { return Maybe{Value: v, Known: true} }

func unknown(format string, args ...any) Maybe { return Maybe{Why: fmt.Sprintf(format, args...)} }
