package head

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"flowshelf/analysis/source"
)

// Reply is an answer that its question takes.
type Reply struct {
	Answer
	Choice string  // the choice as the question words it, "" when something else was typed
	Figure float64 // in the question's unit; also where a choice is a number
	Number bool    // whether Figure is one
	Day    time.Time
}

// Said is the choice, or what was typed instead.
func (r Reply) Said() string {
	if r.Choice != "" {
		return r.Choice
	}
	return r.Text
}

// Trace is the way of a value that the answer gives. It names the workbook and
// no cell, for an answer moves to the record once it has been read.
func (r Reply) Trace(unit string) source.Trace {
	return source.Trace{At: source.Ref{File: r.At.File}, Text: r.Said(), Unit: unit, Answered: r.Per()}
}

// Is reports whether the choice begins with the words.
func (r Reply) Is(words string) bool {
	return r.Choice != "" && strings.HasPrefix(strings.ToLower(r.Choice), strings.ToLower(words))
}

// Reply returns the answer to a question when the question takes it: one of its
// choices, in full or by words that fit no other, or what it lets people type.
// Anything else leaves the question open.
func (a Answers) Reply(q source.Question) (Reply, bool) {
	given, ok := a.To(q.Key)
	if !ok {
		return Reply{}, false
	}
	r := Reply{Answer: given}
	if r.Choice = chosen(given.Text, q.Choices); r.Choice != "" {
		r.Figure, r.Number = figure(r.Choice, q.Unit)
		return r, true
	}
	if day, ok := dayTyped(given.Text); ok {
		if i := slices.IndexFunc(q.Choices, func(c string) bool { return onDay(c, day) }); i >= 0 {
			r.Choice = q.Choices[i]
			return r, true
		}
	}
	switch q.Wants {
	case source.AChoice:
	case source.AFigure:
		r.Figure, r.Number = figure(given.Text, q.Unit)
		return r, r.Number && r.Figure >= q.Least && (q.Most <= 0 || r.Figure <= q.Most)
	case source.ADay:
		r.Day, ok = dayTyped(given.Text)
		return r, ok
	case source.Words:
		return r, strings.TrimSpace(given.Text) != ""
	}
	return Reply{}, false
}

// chosen returns the one choice that an answer means: the same words, its first
// words, all words on one side of its colon in any order, the year left out or
// not, or the same words before the colon. "" when none or several would do.
func chosen(text string, choices []string) string {
	words := wordsOf(text)
	if len(words) == 0 {
		return ""
	}
	name, _, named := strings.Cut(text, ":")
	for _, same := range []func(choice string) bool{
		func(choice string) bool { return slices.Equal(wordsOf(choice), words) },
		func(choice string) bool { return begins(wordsOf(choice), words) },
		func(choice string) bool { return slices.ContainsFunc(sides(choice), sameWords(words)) },
		func(choice string) bool { return named && slices.Equal(wordsOf(sides(choice)[0]), wordsOf(name)) },
	} {
		var found []string
		for _, choice := range choices {
			if same(choice) {
				found = append(found, choice)
			}
		}
		if len(found) > 0 {
			if len(found) == 1 {
				return found[0]
			}
			return ""
		}
	}
	return ""
}

var wordText = regexp.MustCompile(`[\p{L}\p{N}.]+`)

func wordsOf(text string) []string {
	out := wordText.FindAllString(strings.ToLower(text), -1)
	for i := range out {
		out[i] = strings.TrimRight(out[i], ".")
	}
	return slices.DeleteFunc(out, func(w string) bool { return w == "" })
}

// begins reports whether an answer is the first words of a choice. A number
// alone is not enough: it may be the beginning of a date or an amount.
func begins(choice, answer []string) bool {
	letter := slices.ContainsFunc(answer, func(w string) bool { return strings.ContainsFunc(w, unicode.IsLetter) })
	return letter && len(answer) < len(choice) && slices.Equal(choice[:len(answer)], answer)
}

func sides(choice string) []string {
	before, after, _ := strings.Cut(choice, ":")
	return []string{before, after}
}

var yearText = regexp.MustCompile(`^(19|20)\d\d$`)

// sameWords compares in any order: "April 1" is "1 April 2026".
func sameWords(answer []string) func(side string) bool {
	sorted := slices.Sorted(slices.Values(answer))
	return func(side string) bool {
		words := wordsOf(side)
		slices.Sort(words)
		bare := slices.DeleteFunc(slices.Clone(words), yearText.MatchString)
		return len(words) > 0 && (slices.Equal(words, sorted) || len(bare) > 0 && slices.Equal(bare, sorted))
	}
}

var typedFigure = regexp.MustCompile(`^[$€£]?\s*(\d*[.,]?\d+|\d+[.,])\s*(.*)$`)

// thousands is a comma that may separate thousands: "1,249" is no figure that
// can be read for sure.
var thousands = regexp.MustCompile(`,\d{3}$`)

// figure reads a number with or without the unit that was asked for.
func figure(text, unit string) (float64, bool) {
	m := typedFigure.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || thousands.MatchString(m[1]) || m[2] != "" && !strings.EqualFold(strings.TrimSpace(m[2]), unit) {
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", "."), 64)
	return x, err == nil
}

// onDay reports whether a choice is a day: "month first: 1 April 2026".
func onDay(choice string, day time.Time) bool {
	named, ok := dayTyped(sides(choice)[1])
	return ok && named.Equal(day)
}

// dayTyped reads a date that can be read in one way only.
func dayTyped(text string) (time.Time, bool) {
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, ",", " ")), " ")
	for _, form := range []string{time.DateOnly, "2 January 2006", "January 2 2006", "2 Jan 2006", "Jan 2 2006"} {
		if day, err := time.Parse(form, text); err == nil {
			return day, true
		}
	}
	return time.Time{}, false
}
