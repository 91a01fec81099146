package flowsheet

import (
	"flowshelf/analysis/source"
)

// said is what one place of a sheet says of one matter: nothing, one value, or
// values that contradict one another.
type said[T comparable] []source.Stated[T]

// add records a value; saying the same twice is saying it once.
func (s *said[T]) add(value T, trace source.Trace) {
	for _, have := range *s {
		if have.Value == value {
			return
		}
	}
	*s = append(*s, source.Say(value, trace))
}

// one returns the value when exactly one was said.
func (s said[T]) one() (source.Stated[T], bool) {
	if len(s) != 1 {
		return source.Stated[T]{}, false
	}
	return s[0], true
}

// or returns what the inner place says, else what the outer one says.
func (s said[T]) or(outer said[T]) said[T] {
	if len(s) > 0 {
		return s
	}
	return outer
}

// and joins what two places of equal rank say.
func (s said[T]) and(more said[T]) said[T] {
	out := append(said[T](nil), s...)
	for _, m := range more {
		out.add(m.Value, m.Trace)
	}
	return out
}

// has reports whether the value is among those said.
func (s said[T]) has(value T) bool {
	for _, have := range s {
		if have.Value == value {
			return true
		}
	}
	return false
}
