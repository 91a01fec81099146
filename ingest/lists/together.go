package lists

import (
	"fmt"
	"math"
	"regexp"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// askTogether asks about sizes of one head that cannot be true together: a throat
// as wide as its valve, a narrowest section larger than the valve it leads to. Neither of two such sizes is used before somebody has said which is
// right.
func (r *reader) askTogether(l line, d *head.Dimensions) {
	if d.IntakeValve.Known && d.Throat.Known && d.Throat.Value >= d.IntakeValve.Value {
		valve, throat := "the intake valve", "the throat"
		switch r.which(l, "throat", fmt.Sprintf("the throat (%.3f in) is not smaller than the intake valve (%.3f in)", d.Throat.Value.In(), d.IntakeValve.Value.In()), valve, throat) {
		case valve:
			d.Throat = source.Stated[quantity.Length]{}
		case throat:
			d.IntakeValve = source.Stated[quantity.Length]{}
		default:
			d.Throat, d.IntakeValve = source.Stated[quantity.Length]{}, source.Stated[quantity.Length]{}
		}
	}
	if !d.IntakeValve.Known || !d.MinSection.Known {
		return
	}
	// A circle of diameter d has the area pi d2/4.
	whole := math.Pi / 4 * d.IntakeValve.Value.In() * d.IntakeValve.Value.In()
	if d.MinSection.Value.In2() <= whole {
		return
	}
	valve, section := "the intake valve", "the section"
	why := fmt.Sprintf("the narrowest section (%.2f in²) is larger than the intake valve (%.2f in²)", d.MinSection.Value.In2(), whole)
	switch r.which(l, "section", why, section, valve) {
	case section:
		d.IntakeValve = source.Stated[quantity.Length]{}
	case valve:
		d.MinSection = source.Stated[quantity.Area]{}
	default:
		d.MinSection, d.IntakeValve = source.Stated[quantity.Area]{}, source.Stated[quantity.Length]{}
	}
}

// which asks which of two sizes is right; "" until somebody has said it.
func (r *reader) which(l line, matter, why, one, other string) string {
	p := r.newProblem(l.key, source.Asked, "sizes-disagree", l.name(), why, "measure it again and correct the sheet")
	p.Found = ""
	p.Question = r.questionHere(matter+" of "+plain(l.name()), "Which of the two is right for "+l.name()+": "+why+"?", one, other, "neither")
	answer, ok := r.askOnce(p)
	if !ok {
		return ""
	}
	return answer.Choice
}

var (
	atTheLobe  = regexp.MustCompile(`(?i)\b(lobe|cam)\b`)
	atTheValve = regexp.MustCompile(`(?i)\bvalve\b|\bventil`)
	speaksLift = regexp.MustCompile(`(?i)\blifts?\b|\bhub\b`)
)

// liftSaid says once at what the lifts of enquiries are taken. One at the lobe is
// not the valve's, and the rocker's ratio is not known here, so it is not used.
func (r *reader) liftSaid() {
	c := r.find("lift")
	if c == nil || len(c.cells) == 0 {
		return
	}
	valve, lobe := atTheValve.MatchString(c.title), atTheLobe.MatchString(c.title)
	for _, n := range r.notes {
		if speaksLift.MatchString(n.text) && (atTheValve.MatchString(n.text) || atTheLobe.MatchString(n.text)) {
			valve, lobe = valve || atTheValve.MatchString(n.text), lobe || atTheLobe.MatchString(n.text)
			r.use(n.cell, "says where the lift is taken")
		}
	}
	switch {
	case valve:
	case lobe:
		r.problem(c.cells[0], source.Refused, "lobe-lift", "", "this is the lift at the lobe; without the rocker's ratio the valve's is not known", "write the lift at the valve")
		c.role = ""
	default:
		r.problem(c.cells[0], source.Noted, "lift-at-valve", "", "the lift is taken as that at the valve, lash taken off", "write valve lift over the column")
	}
}
