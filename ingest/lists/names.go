package lists

import (
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/parse"
)

// plain is how names are compared: case and runs of white space do not matter,
// anything else does.
func plain(name string) string { return strings.ToLower(parse.Squeeze(name)) }

func knownHead(shop head.Shop, name string) bool {
	_, ok := listed(shop, name)
	return ok
}

// listed finds a head by one of its names in the setup.
func listed(shop head.Shop, name string) (head.Listed, bool) {
	name = plain(name)
	for _, h := range shop.Heads {
		for _, called := range h.Called() {
			if plain(called) == name {
				return h, true
			}
		}
	}
	return head.Listed{}, false
}

// headsASet returns how many heads the family of a head takes, 0 when it is not
// known.
func headsASet(shop head.Shop, name string) int {
	h, ok := listed(shop, name)
	if !ok {
		return 0
	}
	for _, f := range shop.Families {
		if plain(f.Name) == plain(h.Family) {
			return f.HeadsPerSet
		}
	}
	return 0
}

// familyIn finds the one family of the setup that a text names, "" for none.
func familyIn(shop head.Shop, text string) string {
	text, found := plain(text), ""
	for _, f := range shop.Families {
		if f.Name != "" && hasWords(text, plain(f.Name)) {
			if found != "" {
				return ""
			}
			found = f.Name
		}
	}
	return found
}

// supplierIn finds the one supplier of the setup that a text names.
func supplierIn(shop head.Shop, text string) string {
	text, found := plain(text), ""
	for _, s := range shop.Suppliers {
		if s.Name != "" && hasWords(text, plain(s.Name)) {
			if found != "" {
				return ""
			}
			found = s.Name
		}
	}
	return found
}

// hasWords reports whether words stand in text as whole words.
func hasWords(text, words string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], words)
		if i < 0 {
			return false
		}
		start := from + i
		end := start + len(words)
		if (start == 0 || !letter(text[start-1])) && (end == len(text) || !letter(text[end])) {
			return true
		}
		from = end
	}
}

func letter(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= '0' && b <= '9' || b >= 0x80
}

// supplierOf decides whose list a table is: by the folder, by what the page,
// the sheet and the file say, by the heads that only one supplier makes.
func supplierOf(t *table, shop head.Shop) string {
	for _, s := range shop.Suppliers {
		if below(t.page.Path, s.Folder) {
			return s.Name
		}
	}
	for _, n := range t.notes {
		if name := supplierIn(shop, n.text); name != "" {
			return name
		}
	}
	for _, text := range []string{t.page.Sheet.Name, t.page.Path} {
		if name := supplierIn(shop, text); name != "" {
			return name
		}
	}
	found := ""
	for _, l := range t.lines {
		h, ok := listed(shop, l.name())
		if !ok || found != "" && h.Supplier != found {
			return ""
		}
		found = h.Supplier
	}
	return found
}

// below reports whether a path lies below a folder of the setup.
func below(path, folder string) bool {
	folder = strings.Trim(strings.ReplaceAll(folder, `\`, "/"), "/ ")
	return folder != "" && strings.HasPrefix(strings.ToLower(path), strings.ToLower(folder)+"/")
}
