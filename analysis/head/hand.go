package head

import "slices"

// Hand says on which side of an engine a part goes, where a head comes as two
// parts with numbers of their own.
type Hand uint8

// The hands.
const (
	EitherSide Hand = iota
	LeftHand
	RightHand
)

// String returns "left", "right" or "".
func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// Called returns every name the head goes by, the shop's own first.
func (l Listed) Called() []string { return slices.Concat([]string{l.Name}, l.Also, l.Left, l.Right) }

// Handed reports whether the line stands for parts of two hands.
func (s *StockItem) Handed() bool { return s.Left.Known || s.Right.Known }

// Sets returns how many whole sets the heads on hand make, and how many heads
// are left over. Of handed parts a set takes as many left as right ones, so that
// 3 left and 2 right make 2 sets of 2 and one odd head. Without a count, or less
// than nothing, there are none.
func (s *StockItem) Sets(perSet int) (sets, odd int) {
	if !s.OnHand.Known || s.OnHand.Value < 0 || perSet < 1 {
		return 0, 0
	}
	sets = s.OnHand.Value / perSet
	if s.Handed() {
		sets = min(s.Left.Value, s.Right.Value) / max(perSet/2, 1)
	}
	return sets, s.OnHand.Value - sets*perSet
}
