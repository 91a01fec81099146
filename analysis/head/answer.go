package head

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/source"
)

// Answer is what a person has said to one question.
type Answer struct {
	Key  string // of the question
	Text string // as typed
	By   string // name or initials, "" when nobody signed
	On   time.Time
	At   source.Ref // the cell it was typed in

	Question string     // as it was put
	Head     string     // the head concerned, "" for none
	About    source.Ref // the place asked about
}

// Per names who answered and when: "per JT 2026-03-14".
func (a Answer) Per() string {
	who := a.By
	if who == "" {
		who = "answer of"
	}
	return "per " + who + " " + a.On.Format(time.DateOnly)
}

// Answers are all answers in force. The zero Answers holds none; a value is
// never changed once made.
type Answers struct {
	byKey map[string]Answer
	asked func(key string) // told of each look, nil for nobody
}

// NewAnswers returns the answers by their keys. Of two with one key the later
// in the list stands.
func NewAnswers(given []Answer) Answers {
	a := Answers{byKey: make(map[string]Answer, len(given))}
	for _, answer := range given {
		a.byKey[answer.Key] = answer
	}
	return a
}

// To returns the answer to the question with the key.
func (a Answers) To(key string) (Answer, bool) {
	a.note(key)
	answer, ok := a.byKey[key]
	return answer, ok
}

// Noting returns the same answers. Asked is told the key of each question that an
// answer is looked for to from now on, whether or not there is one: what is made
// of a value depends on no other answer.
func (a Answers) Noting(asked func(key string)) Answers { return Answers{a.byKey, asked} }

func (a Answers) note(key string) {
	if a.asked != nil {
		a.asked(key)
	}
}

// every stands for the keys of all answers, those still to be given among them.
const every = "*"

// Only returns the answers to the questions with these keys, as noted.
func (a Answers) Only(keys []string) Answers {
	if slices.Contains(keys, every) {
		return Answers{byKey: a.byKey}
	}
	some := Answers{byKey: make(map[string]Answer, len(keys))}
	for _, key := range keys {
		if answer, ok := a.byKey[key]; ok {
			some.byKey[key] = answer
		}
	}
	return some
}

// Len returns how many answers there are.
func (a Answers) Len() int {
	a.note(every)
	return len(a.byKey)
}

// Equal reports whether both hold the same answers.
func (a Answers) Equal(b Answers) bool { return slices.Equal(a.All(), b.All()) }

// All returns the answers in order of their keys.
func (a Answers) All() []Answer {
	a.note(every)
	out := make([]Answer, 0, len(a.byKey))
	for _, answer := range a.byKey {
		out = append(out, answer)
	}
	slices.SortFunc(out, func(x, y Answer) int { return cmp.Compare(x.Key, y.Key) })
	return out
}

// Fingerprint changes when any answer does: what was read under other answers
// must be read again.
func (a Answers) Fingerprint() string {
	h := sha256.New()
	for _, answer := range a.All() {
		fmt.Fprintf(h, "%q %q %q %q\n", answer.Key, answer.Text, answer.By, answer.On.Format(time.DateOnly))
	}
	return hex.EncodeToString(h.Sum(nil))
}

// IgnoreFile is the answer that every question takes: the file it is about is
// set aside as a whole.
const IgnoreFile = "ignore this file"

// IgnoreKey is the key under which a file is ignored.
func IgnoreKey(file string) string { return "ignore|" + file }

// Ignores returns the answer by which a file is ignored.
func (a Answers) Ignores(file string) (Answer, bool) {
	return a.To(IgnoreKey(file))
}

// Refusals tells of the answers that leave their questions open because they are
// none that the question takes.
func (a Answers) Refusals(problems source.Problems) source.Problems {
	var out source.Problems
	seen := make(map[string]bool)
	for _, p := range problems {
		if p.Severity != source.Asked || p.Question == nil || seen[p.Question.Key] {
			continue
		}
		answer, given := a.To(p.Question.Key)
		if !given {
			continue
		}
		seen[p.Question.Key] = true
		out.Add(source.Problem{
			At: answer.At, Also: []source.Ref{p.At}, Severity: source.Refused, Kind: "answer-not-understood", Head: p.Head, Family: p.Family,
			Found: answer.Text, Message: fmt.Sprintf("this does not settle the question “%s”", p.Question.Text),
			Hint: "answer with " + p.Question.Takes() + ", or “" + IgnoreFile + "”",
		})
	}
	return out
}

// Worded returns the answers in the words of the questions they settle, so that
// "April 1" and the choice it means are one answer. What was asked when it was given
// stays on record: another book may raise the question today. Those that leave their
// question open are left out; those that nothing asks now stay as they are.
func (a Answers) Worded(problems source.Problems) Answers {
	worded := Answers{byKey: maps.Clone(a.byKey)}
	for _, p := range problems {
		if p.Question == nil {
			continue
		}
		answer, given := a.byKey[p.Question.Key]
		reply, ok := a.Reply(*p.Question)
		switch {
		case !given:
		case p.Severity == source.Asked || !ok:
			delete(worded.byKey, p.Question.Key)
		default:
			answer.Text = reply.Said()
			if answer.Question == "" {
				answer.Question, answer.Head, answer.About = p.Question.Text, p.Head, p.At
			}
			worded.byKey[p.Question.Key] = answer
		}
	}
	return worded
}

// AnotherHead is the choice that a name is none of those it looks like.
const AnotherHead = "another head"

// DayOrderKey is the key of the question in which order a supplier writes day and
// month. It holds no file: it is a habit, of his lists and of his flow sheets.
func DayOrderKey(supplier string) string {
	return strings.ToLower("price list|" + supplier + "|order of day and month")
}

// NameKey is the key of the question which head a sender means by a name. It
// holds no file: a sender's names stay the same.
func NameKey(sender, name string) string {
	return strings.ToLower("head name|" + sender + "|" + strings.TrimSpace(name))
}
