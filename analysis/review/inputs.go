package review

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
)

// inputs compares the inputs of one family in two months.
type inputs struct {
	before, after *history.Facts
	family        string
}

// touches says which drivers a setting of the shop or a family bears on. What is
// not listed bears on no place.
func touches(scope, title string) []driver {
	if scope == rateScope {
		return []driver{sell}
	}
	switch title {
	case "Reference test pressure", "Convert pressure by", "Repeatability", "Casting spread per port", "Lift zero uncertainty",
		"Same bore class within", "Estimate flow at another bore", "Reference bore", "Range from":
		return []driver{flow, listing}
	case "Range to":
		return []driver{flow, listing, springs, extras}
	case "Bench day held above", "Reading impossible above", "Reading with pipe impossible above", "Range tested at least",
		"Springs are a must", "Air speed is a must", "Lazy below", "Choked above", "Engine stroke", "Engine rpm":
		return []driver{flow, listing}
	case "Engine bore":
		return []driver{extras, listing}
	case "Tie until":
		return []driver{ties}
	case "Worth of a cfm":
		return []driver{worth}
	case "Target margin", "Default freight a head", "Our cost is", "Discount chain", "Freight a head", "Price basis":
		return []driver{sell, listing}
	case "Currency", "Heads a set":
		return []driver{sell, extras, springs, rework, listing}
	}
	return nil
}

// settings lists the changed settings that bear on a driver of a head.
func (in *inputs) settings(d driver, supplier string) []Cause {
	var out []Cause
	for _, scope := range []string{shopScope, familyScope + " / " + in.family, supplierScope + " / " + supplier, rateScope} {
		for _, name := range in.names(scope) {
			was, before := in.before.Setting(scope, name)
			is, after := in.after.Setting(scope, name)
			if was == is && before == after || !slices.Contains(touches(scope, name), d) {
				continue
			}
			c := Cause{RuleChanged, scope + ": " + name, fmt.Sprintf("the setting %s (%s) is %s, was %s", name, scope, orNone(is), orNone(was))}
			if scope == rateScope {
				c = Cause{RateChanged, name, fmt.Sprintf("the rate of %s is %s, was %s", name, orNone(is), orNone(was))}
			}
			out = append(out, c)
		}
	}
	return out
}

func (in *inputs) names(scope string) []string {
	var out []string
	for _, f := range []*history.Facts{in.before, in.after} {
		for _, s := range f.Settings {
			if s.Scope == scope && !slices.Contains(out, s.Name) {
				out = append(out, s.Name)
			}
		}
	}
	return out
}

func orNone(s string) string {
	if s == "" {
		return "blank"
	}
	return s
}

// answers lists the answers about a head that were given or taken back.
func (in *inputs) answers(name string) []Cause {
	heads := make(map[string]string)
	for _, a := range slices.Concat(in.before.Answers, in.after.Answers) {
		heads[a.Key] = a.Head
	}
	return slices.DeleteFunc(in.changedAnswers(), func(c Cause) bool { return heads[c.Subject] != name })
}

func (in *inputs) changedAnswers() []Cause {
	var out []Cause
	given := make(map[string]string)
	for _, a := range in.before.Answers {
		given[a.Key] = a.Answer
	}
	for _, a := range in.after.Answers {
		if was, before := given[a.Key]; !before || was != a.Answer {
			out = append(out, Cause{AnswerGiven, a.Key, fmt.Sprintf("the question %s was answered: %s", about(a), a.Answer)})
		}
		delete(given, a.Key)
	}
	for _, a := range in.before.Answers {
		if _, gone := given[a.Key]; gone {
			out = append(out, Cause{AnswerGiven, a.Key, fmt.Sprintf("the answer to the question %s was taken back", about(a))})
		}
	}
	return out
}

func about(a history.Answer) string {
	if file, ignored := strings.CutPrefix(a.Key, head.IgnoreKey("")); ignored {
		return "on " + file
	}
	if a.Head != "" {
		return "about " + a.Head
	}
	return a.Key
}

// items splits "valve job 260; blend 320" into names and amounts.
func items(needs string) map[string]string {
	out := make(map[string]string)
	for part := range strings.SplitSeq(needs, "; ") {
		if i := strings.LastIndexByte(part, ' '); i > 0 {
			out[part[:i]] = part[i+1:]
		}
	}
	return out
}

func union(a, b map[string]string) []string {
	var out []string
	for _, m := range []map[string]string{a, b} {
		for k := range m {
			if !slices.Contains(out, k) {
				out = append(out, k)
			}
		}
	}
	slices.Sort(out)
	return out
}
