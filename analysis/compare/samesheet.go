package compare

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"flowshelf/analysis/source"
)

// sameSheets asks about two heads whose every reading is the same on both ports:
// a sheet copied and renamed.
func (f *family) sameSheets(all []built) {
	seen := make(map[string]int)
	for i := range all {
		e := &all[i].entry
		if e.Intake == nil || e.Exhaust == nil || len(e.Intake.Points) < 6 || e.Grade == GradeD {
			continue
		}
		key := fingerprint(e.Intake.Points) + "|" + fingerprint(e.Exhaust.Points)
		j, twice := seen[key]
		if !twice {
			seen[key] = i
			continue
		}
		other := &all[j].entry
		if other.Head == e.Head {
			continue
		}
		x, y := e.Intake.Tests[0].At, other.Intake.Tests[0].At
		p := f.ask(all[i].bundle, sheetOf(x), "same-sheet", fmt.Sprintf("%s and %s read the same at every lift on both ports", e.Label, other.Label), "say whose test it is")
		p.Also = []source.Ref{sheetOf(y)}
		p.Question.Text = fmt.Sprintf("%s. Whose test is it?", capital(p.Message))
		p.Question.Choices = []string{"both", e.Label, other.Label}
		noted, answer, ok := f.answered(*p)
		all[i].problems.Add(noted)
		switch {
		case !ok:
		case answer.Choice == e.Label:
			all[j].standsOut(answer)
			continue
		case answer.Choice == other.Label:
			all[i].standsOut(answer)
			continue
		default:
			continue
		}
		e.flag("?", "reads the same as "+other.Label+" at every lift")
	}
}

func fingerprint(points []LiftPoint) string {
	var b strings.Builder
	for _, p := range points {
		b.WriteString(strconv.FormatInt(int64(math.Round(p.Lift.In()*1000)), 36))
		b.WriteByte(':')
		b.WriteString(strconv.FormatInt(int64(math.Round(p.Flow.CFM()*10)), 36))
		b.WriteByte(' ')
	}
	return b.String()
}
