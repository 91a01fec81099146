package shop

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
)

// Names finds the shop's head by any name it goes by.
type Names struct {
	hands map[string]head.Hand
	exact map[string][]owner
	loose map[string][]string
	ours  map[string]string
}

type owner struct{ ours, supplier string }

// Match is what a name stands for.
type Match struct {
	Head string   // the shop's name; "" when it is not certain
	Near []string // heads it may mean, in the order of the setup
}

// NewNames takes the heads of the setup and the matching keys of the folder.
// A key always wins over a spelling in the setup.
func NewNames(shop head.Shop, keys []head.Alias) Names {
	n := Names{hands: make(map[string]head.Hand), exact: make(map[string][]owner), loose: make(map[string][]string), ours: make(map[string]string)}
	keyed := make(map[string]bool)
	for _, k := range keys {
		n.exact[strict(k.Name)] = append(n.exact[strict(k.Name)], owner{k.Ours, k.Supplier})
		keyed[strict(k.Name)] = true
	}
	for _, h := range shop.Heads {
		n.ours[strict(h.Name)] = h.Name
		for _, name := range h.Left {
			n.hands[strict(name)] = head.LeftHand
		}
		for _, name := range h.Right {
			n.hands[strict(name)] = head.RightHand
		}
		for _, name := range h.Called() {
			if key := strict(name); key != "" && !keyed[key] {
				n.exact[key] = append(n.exact[key], owner{h.Name, h.Supplier})
			}
			for _, key := range looser(name) {
				if !slices.Contains(n.loose[key], h.Name) {
					n.loose[key] = append(n.loose[key], h.Name)
				}
			}
		}
	}
	return n
}

// Match looks a name up. Case and white space do not matter; a name that two
// suppliers use is decided by the supplier. Anything less certain comes back as
// near only.
func (n Names) Match(name, supplier string) Match {
	owners := n.exact[strict(name)]
	if len(owners) > 1 && supplier != "" {
		owners = slices.DeleteFunc(slices.Clone(owners), func(o owner) bool {
			return o.supplier != "" && Normal(o.supplier) != Normal(supplier)
		})
	}
	var near []string
	for _, o := range owners {
		ours := o.ours
		if known, ok := n.ours[strict(ours)]; ok {
			ours = known
		}
		if !slices.Contains(near, ours) {
			near = append(near, ours)
		}
	}
	if len(near) == 1 {
		return Match{Head: near[0]}
	}
	if len(near) > 1 {
		return Match{Near: near}
	}
	for _, key := range looser(name) {
		if found := n.loose[key]; len(found) > 0 {
			return Match{Near: slices.Clone(found)}
		}
	}
	return Match{}
}

// Hand returns the side that a part of this number goes on.
func (n Names) Hand(name string) head.Hand { return n.hands[strict(name)] }

func strict(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

var (
	stateWords = regexp.MustCompile(`(?i)\b(assembled|assy|asm|bare|complete|heads?|pair|set|new|old|rev\.? ?\w)\b|\(.*?\)`)
	buildEnd   = regexp.MustCompile(`^([A-Z]+\d+)[A-Z]{1,2}$`)
)

// lookAlike makes letters equal to the digits they are mistaken for.
func lookAlike(name string) string {
	return strings.NewReplacer("O", "0", "I", "1", "L", "1").Replace(name)
}

// looser returns the keys under which a name is only similar: without
// punctuation and words of state, with letters that look like digits made
// equal, without a build suffix.
func looser(name string) []string {
	bare := strings.ToUpper(stateWords.ReplaceAllString(name, " "))
	bare = strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, bare)
	if len(bare) < 3 {
		return nil
	}
	keys := []string{lookAlike(bare)}
	if m := buildEnd.FindStringSubmatch(bare); m != nil {
		keys = append(keys, lookAlike(m[1]))
	}
	return keys
}
