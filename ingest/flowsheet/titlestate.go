package flowsheet

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/words"
)

// A state often stands right behind a head's name in a title: "Heron 224 Stage 2,
// bore 4.125, JT". There it is the head's, whatever else the line says; where the
// name goes on behind it ("Heron 224 CNC Pro") it belongs to the name.

// isWordyName reports whether all of a part of a title is a word and a figure, and
// short words that a name goes on with.
func isWordyName(part string) bool {
	at := wordyName.FindStringIndex(part)
	return at != nil && tailOf(part, at[1], nameWord) == len(part) && !countsOrPlaces(part) && looksLikeHead(part[:at[1]])
}

// isWordyNameAroundState reports whether a part of a title is such a name that goes
// on behind a state.
func isWordyNameAroundState(part string) bool {
	at := wordyName.FindStringIndex(part)
	return at != nil && isWordyName(part[:at[1]]) && isNameAroundState(part)
}

// namesAroundState returns the parts of a line that are such names, where it names
// no head otherwise. Over a column the state is the column's.
func (l *line) namesAroundState() said[string] {
	var out said[string]
	if l.place == inHeader || len(l.names) > 0 {
		return nil
	}
	for _, part := range titleGaps.Split(l.text, -1) {
		if part = strings.TrimSpace(part); isWordyNameAroundState(part) {
			out.add(part, l.said(part))
		}
	}
	return out
}

// partOf returns the part of a line around a place.
func (l *line) partOf(place int) span {
	part := span{end: len(l.text)}
	for _, gap := range partGap.FindAllStringIndex(l.text, -1) {
		if gap[1] <= place {
			part.start = gap[1]
		} else if gap[0] >= place {
			part.end = gap[0]
			break
		}
	}
	return part
}

// behindName reports whether the words of a rework stand between a head's name and
// the end of its part of a title.
func (l *line) behindName(work span) bool {
	part := l.partOf(work.start)
	if l.place != inTitle || work.end > part.end || len(wordsIn(l.rest()[work.end:part.end])) > 0 {
		return false
	}
	before := strings.TrimSpace(l.text[part.start:work.start])
	return isWordyName(before) || isNumberedName(before) || isCasting(before) || slices.ContainsFunc(l.names, func(n nameSpan) bool { return l.text[n.start:n.end] == before })
}

// inName leaves the words of a rework to the name that goes on behind them.
func (l *line) inName(work span) bool {
	part := l.partOf(work.start)
	if l.place != inTitle || !isWordyNameAroundState(strings.TrimSpace(l.text[part.start:part.end])) {
		return false
	}
	delete(l.facts.roles, words.Rework)
	delete(l.facts.roles, words.AsDelivered)
	return true
}

// beyondStates asks about a name with a state behind it over columns that have states
// of their own, "Heron 224 CNC" over "Stock" and "3-angle": the state may belong to the
// name, and what is left of it would be another head. "Before" and "after" tell of the
// title's work.
func (b *builder) beyondStates(s *series, out *head.Test) {
	if out.Status != head.Used || len(s.own.state) == 0 || s.own.says(words.Before, words.After) {
		return
	}
	for _, state := range s.blockFacts.state {
		if state.Value != "" && state.Trace.At == out.HeadAt && !s.own.state.has(state.Value) {
			s.mayBe = s.mayBe.and(said[string]{source.Say(out.Head, state.Trace), source.Say(out.Head+" "+state.Value, state.Trace)})
			b.askHead(s, out, kindHeadUnclear, fmt.Sprintf("it is not sure whether %q belongs to the name %s: the columns have states of their own", state.Value, out.Head))
			return
		}
	}
}
