package decode

import "strings"

// readProperties reads the writing program's name and the custom properties.
func readProperties(p *opc, rels []relationship, book *Book) error {
	book.Custom = make(map[string]string)
	if rel, ok := ofKind(rels, "extended-properties", "extendedProperties"); ok {
		s, err := p.scan(rel.target)
		if err != nil {
			return err
		}
		for s.next() {
			if s.kind == startTag && s.depth() == 2 && string(s.name) == "Application" {
				book.Creator = strings.TrimSpace(string(s.content()))
			}
		}
		if s.err != nil {
			return s.err
		}
	}
	if rel, ok := ofKind(rels, "custom-properties", "customProperties"); ok {
		s, err := p.scan(rel.target)
		if err != nil {
			return err
		}
		return readCustom(s, book.Custom)
	}
	return nil
}

func readCustom(s *scanner, into map[string]string) error {
	s.next()
	root := s.depth()
	for s.child(root) {
		name := string(s.attr("name"))
		property := s.depth()
		for s.child(property) {
			into[name] = string(s.content())
		}
	}
	return s.drain()
}
