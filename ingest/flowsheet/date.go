package flowsheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// datesOf finds the first date. One whose order is not sure is kept apart: nothing
// is dated by a guess.
func datesOf(l *line) {
	d, ok := parse.Date(l.rest())
	if !ok {
		return
	}
	start := strings.Index(l.rest(), d.Text)
	if start < 0 {
		return
	}
	if d.NoYear && !d.Ambiguous && !strings.ContainsAny(d.Text, "/-") {
		return // "28 mar" may be anything
	}
	l.strike(start, start+len(d.Text))
	l.facts.roles[words.Date] = true
	switch {
	case d.NoYear:
	case d.Ambiguous:
		l.facts.unsure.add(d, l.said(d.Text))
	default:
		l.facts.date.add(d.Date, l.said(d.Text))
	}
}

// wholeDate is a date that no size looks like.
var wholeDate = regexp.MustCompile(`\b(?:\d{4}[-./]\d{1,2}[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./]\d{4})\b`)

// yearlessOf keeps the date that a key gives without its year. Elsewhere such
// figures may be anything.
func yearlessOf(l *line, value string) {
	if d, ok := parse.Date(value); ok && d.NoYear {
		l.facts.unsure.add(d, l.said(d.Text))
	}
}

// date settles the day of a test. What is not sure leaves it undated, and says so.
func (b *builder) date(s *series, out *head.Test) {
	if date, ok := s.facts.date.one(); ok {
		out.Date = date
		return
	}
	if len(s.facts.date) > 1 {
		var days []string
		for _, d := range s.facts.date {
			days = append(days, d.Value.Format(time.DateOnly))
		}
		b.p.note(s.facts.date[0].Trace.At, kindDateClash, out.Head, s.facts.date[0].Trace.Text,
			"more than one date is named here, "+strings.Join(days, " and ")+", so the test counts as undated")
		return
	}
	unsure, ok := s.facts.unsure.one()
	if !ok {
		return
	}
	d, trace := unsure.Value, unsure.Trace
	if d.NoYear {
		b.p.add(source.Problem{At: trace.At, Severity: source.Noted, Kind: kindDateUnsure, Head: out.Head, Found: trace.Text,
			Message: fmt.Sprintf("the date %s does not say its year, so the test counts as undated", d.Text), Hint: "write the date as 2026-03-16"})
		return
	}
	if order, why := b.dayOrder(); order != parse.OrderUnknown {
		day := d.In(order).Date
		out.Date = source.Say(day, trace.Then(why+": "+day.Format(time.DateOnly)))
		return
	}
	b.askDay(s, out, d, trace)
}

// dayOrder is which of day and month the book writes first, as its other dates or
// the setup's words of its sender tell, and which of both told it.
func (b *builder) dayOrder() (parse.Order, string) {
	var texts []string
	for i := range b.page.Book.Sheets {
		for _, c := range b.page.Book.Sheets[i].Cells {
			if c.Kind != decode.Text {
				continue
			}
			if d, ok := parse.Date(c.Text); ok && !d.NoYear { // 5/16 may be a size
				texts = append(texts, d.Text)
			}
		}
	}
	if order := parse.DateOrder(texts); order != parse.OrderUnknown {
		return order, "day and month as the book's other dates have them"
	}
	means, _ := b.r.learned(b.sender, dayOrderMatter)
	switch strings.ToLower(means) {
	case "month first":
		return parse.MonthFirst, "month first by the setup's words of the sender"
	case "day first":
		return parse.DayFirst, "day first by the setup's words of the sender"
	}
	return parse.OrderUnknown, ""
}

// dayOrderMatter is what the setup's words of a sender call the order of day and
// month.
const dayOrderMatter = "order of day and month"

// askDay asks in which order the sender writes day and month: it is a habit, and
// its answer serves his price lists too, and theirs this.
func (b *builder) askDay(s *series, out *head.Test, d parse.Day, trace source.Trace) {
	first, second := d.Date.Format("2 January 2006"), d.Other.Format("2 January 2006")
	message := fmt.Sprintf("the date %s can be %s or %s; the test counts as undated", d.Text, first, second)
	if out.Status.Out() {
		b.p.note(trace.At, kindDateUnsure, out.Head, trace.Text, message)
		return
	}
	answer, ok := b.p.ask(trace.At, kindDateUnsure, "", trace.Text, message+" until it is known, or written as "+d.Date.Format(time.DateOnly), source.Question{
		Key: b.dayOrderKey(), Text: "Which date is " + d.Text + "?", Choices: []string{"month first: " + first, "day first: " + second},
		Evidence: "dated so in " + trace.At.File, Changes: "which of two tests of a head is the newer"})
	if !ok {
		return
	}
	day, order := d.Date, "month first"
	if answer.Is("day first") {
		day, order = d.Other, "day first"
	}
	trace.Answered = answer.Per()
	out.Date = source.Say(day, trace.Then(order+": "+day.Format(time.DateOnly)))
	s.answeredBy(trace)
}

func (b *builder) dayOrderKey() string {
	known := slices.ContainsFunc(b.r.about.Shop.Suppliers, func(s head.SupplierRule) bool { return strings.EqualFold(s.Name, b.sender) })
	if known {
		return head.DayOrderKey(b.sender)
	}
	return key(dayOrderMatter, strings.ToLower(b.sender))
}
