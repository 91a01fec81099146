package parse

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
)

// Count is a number of heads or sets as written.
type Count struct {
	N    int
	Unit head.Basis // Each for heads, Set for sets, BasisNotStated when not written
	Odd  int        // "4 sets + 1"
}

var countText = regexp.MustCompile(`(?i)^([+-]?\d{1,5})\s*(heads?|pcs?|ea|each|pairs?|sets?|stk)?\.?(?:\s*\+\s*(\d)(?:\s*(?:odd|heads?))*)?$`)

// ReadCount reads "9", "9 heads", "4 sets", "4 sets + 1". A minus sign is kept:
// it is for the caller to say what a negative count means.
func ReadCount(text string) (Count, bool) {
	m := countText.FindStringSubmatch(Squeeze(text))
	if m == nil {
		return Count{}, false
	}
	c := Count{N: number(strings.TrimPrefix(m[1], "-"))}
	if strings.HasPrefix(m[1], "-") {
		c.N = -c.N
	}
	switch word := strings.ToLower(m[2]); {
	case strings.HasPrefix(word, "set"):
		c.Unit = head.Set
	case strings.HasPrefix(word, "pair"):
		c.Unit = head.Pair
	case word != "":
		c.Unit = head.Each
	}
	if m[3] != "" {
		c.Odd = number(m[3])
	}
	return c, true
}
