package compare_test

import (
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/source"
)

func hasFlagCode(e compare.Entry, code string) bool {
	for _, f := range e.Flags {
		if f.Code == code {
			return true
		}
	}
	return false
}

func hasFlag(e compare.Entry, code, words string) bool {
	for _, f := range e.Flags {
		if f.Code == code && strings.Contains(f.Words, words) {
			return true
		}
	}
	return false
}

func questions(c compare.Comparison) source.Problems {
	var out source.Problems
	for _, p := range c.Problems {
		if p.Severity == source.Asked || p.Question != nil {
			out = append(out, p)
		}
	}
	return out
}

func kinds(ps source.Problems) map[string]int {
	out := make(map[string]int)
	for _, p := range ps {
		out[p.Kind]++
	}
	return out
}
