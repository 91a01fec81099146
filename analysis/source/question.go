package source

import (
	"fmt"
	"strings"
)

// Question is what an Asked problem wants to know. A Noted problem that carries
// one has been answered: what was answered has been used.
type Question struct {
	Key      string   // sender + layout + matter: the same question is never asked twice
	Text     string   // in one sentence
	Choices  []string // what can be answered; words before a colon name the choice
	Wants    Want     // what may be typed instead of a choice
	Unit     string   // of a figure that may be typed: "in", "cfm"; "" for a bare number
	Least    float64  // of a figure that may be typed
	Most     float64  // 0 for no limit
	Evidence string
	Changes  string // what the answer would change
	Reach    Reach  // how far a change can go
}

// Want is what may be typed in answer to a question beside its choices.
type Want uint8

// The wants.
const (
	AChoice Want = iota // nothing else
	AFigure             // a number in the question's unit
	ADay                // a date with its year
	Words               // anything, such as a head's name
)

// Reach is how far an answer can change the results.
type Reach uint8

// The reaches.
const (
	ReachesPlace Reach = iota // a price, a curve, and so a place
	ReachesWords              // only what is said about a head
)

// Takes says in words what can be answered.
func (q Question) Takes() string {
	ways := make([]string, 0, len(q.Choices)+1)
	for _, c := range q.Choices {
		ways = append(ways, "“"+c+"”")
	}
	if typed := q.Typed(); typed != "" {
		ways = append(ways, typed)
	}
	return strings.Join(ways, ", ")
}

// Typed says in words what may be typed instead of a choice, "" for nothing.
func (q Question) Typed() string {
	return [...]string{"", q.figure(), "a date such as 2026-03-16", "your own words"}[q.Wants]
}

func (q Question) figure() string {
	words := "a number"
	if q.Unit != "" {
		words += " (" + q.Unit + ")"
	}
	if q.Most > 0 {
		words += fmt.Sprintf(" from %g to %g", q.Least, q.Most)
	}
	return words
}
