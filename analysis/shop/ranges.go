package shop

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// window is one of a family's two windows of lifts, with the titles of its ends.
type window struct {
	kind, name, lost string
	from, to         quantity.Length
	titles           [2]string
}

// checkRange tells of a working range without a beginning or an end at the very
// cell: a family is compared over nothing that nobody has stated.
func (r *Reading) checkRange(f head.Family) {
	w := window{"setup-range", "working range", "no head of this family is ranked", f.RangeFrom, f.RangeTo, [2]string{rangeFrom, rangeTo}}
	if f.RangeFrom == 0 && f.RangeTo == 0 {
		r.windowProblem(f, w, r.at(f.At, rangeFrom), "no working range is stated, so "+w.lost, "type the lift it begins at under Range from and the lift it ends at under Range to")
		return
	}
	r.checkWindow(f, w)
}

// checkBand does the same for the mid-lift band, which a family may do without.
func (r *Reading) checkBand(f head.Family) {
	w := window{"setup-band", "mid-lift band", "no mid-lift average is given", f.BandFrom, f.BandTo, [2]string{bandFrom, bandTo}}
	if f.BandFrom == 0 && f.BandTo == 0 {
		r.Problems.Add(source.Problem{At: r.at(f.At, bandFrom), Family: f.Name, Severity: source.Noted, Kind: "setup-no-band",
			Message: "the mid-lift band is blank, so " + w.lost})
		return
	}
	r.checkWindow(f, w)
}

func (r *Reading) checkWindow(f head.Family, w window) {
	switch {
	case w.from == 0:
		r.windowProblem(f, w, r.at(f.At, w.titles[0]), "the "+w.name+" has no beginning, so "+w.lost, "type the lift it begins at, such as .100 or 2.5 mm")
	case w.to == 0:
		r.windowProblem(f, w, r.at(f.At, w.titles[1]), "the "+w.name+" has no end, so "+w.lost, "type the lift it ends at, such as .600 or 15 mm")
	case !(w.from < w.to):
		r.windowProblem(f, w, r.at(f.At, w.titles[0]), "the "+w.name+" does not run upward, so "+w.lost, "type the lower lift under from and the higher one under to")
	}
}

func (r *Reading) windowProblem(f head.Family, w window, at source.Ref, message, hint string) {
	r.Problems.Add(source.Problem{At: at, Family: f.Name, Severity: source.Refused, Kind: w.kind, Message: message, Hint: hint})
}

// dropHalves leaves nothing of a window that lacks an end: a mean from zero lift up
// would be one that nobody has asked for.
func dropHalves(f *head.Family) {
	if f.RangeFrom == 0 || f.RangeTo == 0 {
		f.RangeFrom, f.RangeTo = 0, 0
	}
	if f.BandFrom == 0 || f.BandTo == 0 {
		f.BandFrom, f.BandTo = 0, 0
	}
}
