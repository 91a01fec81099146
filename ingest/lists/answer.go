package lists

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// Choices that several questions share.
const (
	useIt    = "yes, use it"
	leaveOut = "no, leave it out"
)

// askOnce puts a question of a table once, however many lines raise it; the
// other places are named with it. It returns the answer that somebody has
// given: the question is then noted with it, and whoever asked uses it.
func (r *reader) askOnce(p source.Problem) (head.Reply, bool) {
	answer, answered := r.about.Answers.Reply(*p.Question)
	if answered {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
	}
	i, asked := r.asked[p.Question.Key]
	if !asked {
		r.asked[p.Question.Key] = len(r.records.Problems)
		r.records.Problems.Add(p)
		return answer, answered
	}
	first := &r.records.Problems[i]
	if first.At == p.At || slices.Contains(first.Also, p.At) {
		return answer, answered
	}
	first.Also = append(first.Also, p.At)
	if first.Head != p.Head {
		first.Head = "" // of several heads
	}
	return answer, answered
}

// question is one about how a sender writes this kind of list: its answer serves
// the next book too.
func (r *reader) question(matter, text string, choices ...string) *source.Question {
	return &source.Question{Key: strings.ToLower(strings.Join([]string{r.kind.name, r.sender(), matter}, "|")), Text: text, Choices: choices}
}

// questionHere is one about these very cells: its answer serves no other book.
func (r *reader) questionHere(matter, text string, choices ...string) *source.Question {
	return &source.Question{Key: strings.Join([]string{r.kind.name, r.page.Path, r.page.Sheet.Name, matter}, "|"), Text: text, Choices: choices}
}

var changing = regexp.MustCompile(`[\d\W_]+`)

// sender is whose list it is: a price list's supplier, else whoever's books carry
// the same name but for its date.
func (r *reader) sender() string {
	if r.kind.name == priceList().name {
		if name := supplierOf(r.table, r.about.Shop); name != "" {
			return name
		}
	}
	name := strings.TrimSuffix(r.page.Path, path.Ext(r.page.Path))
	return strings.TrimSpace(changing.ReplaceAllString(name, " "))
}

// markAnswered shows with every value that is read from a cell who answered a
// question about it.
func (r *reader) markAnswered(c decode.Cell, answer head.Reply) {
	r.answered[[2]int{c.Row, c.Col}] = answer.Per()
}

// decide lets an answer use a line or leave it out; without one it waits.
func decide(answer head.Reply, answered bool, why string) (head.Status, string) {
	switch {
	case !answered:
		return head.Asked, why
	case answer.Is("yes"):
		return head.Used, ""
	}
	return head.SetAside, why + "; left out, " + answer.Per()
}

// basisIn returns the basis that a choice names: each or heads, pair, set.
func basisIn(answer head.Reply) head.Basis {
	switch {
	case answer.Is("each"), answer.Is("heads"):
		return head.Each
	case answer.Is("pair"):
		return head.Pair
	case answer.Is("set"):
		return head.Set
	}
	return head.BasisNotStated
}

// whichDay asks which date is meant. The order of day and month is a habit of
// the sender's and its answer serves his next book; a year that is not written
// is asked for each book.
func (r *reader) whichDay(cell decode.Cell, d parse.Day, headName string) source.Problem {
	form, message := "2 January 2006", fmt.Sprintf("the date %s does not say its year", d.Text)
	if d.NoYear {
		form = "2 January"
	}
	q := r.questionHere("date "+d.Text, "Which date is "+d.Text+"?")
	q.Wants = source.ADay
	if d.Ambiguous {
		if !d.NoYear {
			q.Key = r.question("order of day and month", "").Key
			q.Wants = source.AChoice // any other day would date his next list too
		}
		first, second := d.Date.Format(form), d.Other.Format(form)
		q.Choices = []string{"month first: " + first, "day first: " + second}
		message = fmt.Sprintf("the date %s can be %s or %s", d.Text, first, second)
	}
	p := r.newProblem(cell, source.Asked, "date-ambiguous", headName, message, "answer the question or write the date as 2026-03-16")
	p.Question = q
	return p
}

// dayAnswered is the date that an answer means. A year that neither the book nor
// the answer names is the one that brings the date nearest to the day of the
// answer.
func dayAnswered(answer head.Reply, d parse.Day, trace source.Trace) source.Stated[time.Time] {
	trace.Answered = answer.Per()
	day := answer.Day
	switch {
	case answer.Is("month first"):
		day = d.Date
	case answer.Is("day first"):
		day = d.Other
	}
	step := "read as " + day.Format(time.DateOnly)
	if d.NoYear && answer.Choice != "" {
		day = nearest(day, answer.On)
		step = "read as " + day.Format(time.DateOnly) + ", the year nearest to the day of the answer"
	}
	return source.Say(day, trace.Then(step))
}

// nearest puts a day and month into the year in which it lies nearest to a date.
func nearest(day, to time.Time) time.Time {
	best := day
	for year := to.Year() - 1; year <= to.Year()+1; year++ {
		tried := time.Date(year, day.Month(), day.Day(), 0, 0, 0, 0, time.UTC)
		if year == to.Year()-1 || tried.Sub(to).Abs() < best.Sub(to).Abs() {
			best = tried
		}
	}
	return best
}
