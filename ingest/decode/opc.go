package decode

import (
	"path"
	"slices"
	"strings"
)

// opc is a container in the Open Packaging Conventions (ECMA-376 part 2): parts
// with content types, tied together by relationships.
type opc struct {
	*container
	byExtension map[string]string
	byName      map[string]string
}

// relationship ties a part to another one. Kind is the last element of the type
// URI, which is the same in the strict and the transitional variant.
type relationship struct {
	id, kind, target string
	external         bool
}

const contentTypesPart = "[Content_Types].xml"

// openPackage reads the content types of a container.
func openPackage(c *container) (*opc, error) {
	p := &opc{container: c, byExtension: make(map[string]string), byName: make(map[string]string)}
	s, err := p.scan(contentTypesPart)
	if err != nil {
		return nil, err
	}
	for s.next() {
		if s.kind != startTag || s.depth() != 2 {
			continue
		}
		kind := strings.ToLower(string(s.attr("ContentType")))
		switch string(s.name) {
		case "Default":
			p.byExtension[strings.ToLower(string(s.attr("Extension")))] = kind
		case "Override":
			p.byName[fold(string(s.attr("PartName")))] = kind
		}
	}
	return p, s.err
}

// scan opens a part for reading as XML.
func (p *opc) scan(name string) (*scanner, error) {
	data, err := p.read(name)
	if err != nil {
		return nil, err
	}
	s := newScanner(name, data)
	return s, s.err
}

// contentType returns the declared type of a part, "" when none is declared.
func (p *opc) contentType(name string) string {
	name = fold(name)
	if kind, ok := p.byName[name]; ok {
		return kind
	}
	return p.byExtension[strings.TrimPrefix(path.Ext(name), ".")]
}

// isXML reports whether a part is declared as XML. Old drawings (VML) are not:
// they are written in a looser syntax.
func (p *opc) isXML(name string) bool {
	kind := p.contentType(name)
	return strings.HasSuffix(kind, "+xml") || strings.HasSuffix(kind, "/xml")
}

// relationships returns what a part refers to, in file order; "" stands for
// the package itself.
func (p *opc) relationships(part string) ([]relationship, error) {
	dir, base := path.Split(part)
	name := dir + "_rels/" + base + ".rels"
	if !p.has(name) {
		return nil, nil
	}
	s, err := p.scan(name)
	if err != nil {
		return nil, err
	}
	var all []relationship
	for s.next() {
		if s.kind != startTag || string(s.name) != "Relationship" {
			continue
		}
		uri := string(s.attr("Type"))
		rel := relationship{
			id:       string(s.attr("Id")),
			kind:     uri[strings.LastIndexByte(uri, '/')+1:],
			target:   string(s.attr("Target")),
			external: string(s.attr("TargetMode")) == "External",
		}
		if !rel.external {
			rel.target = resolveTarget(dir, rel.target)
		}
		all = append(all, rel)
	}
	return all, s.err
}

// resolveTarget turns a target, relative to the folder of its source, into a
// part name. It cannot leave the container: names above its root do not exist.
func resolveTarget(dir, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	if strings.HasPrefix(target, "/") {
		return path.Clean(target)[1:]
	}
	return strings.TrimPrefix(path.Join("/", dir, target), "/")
}

// ofKind returns the first relationship inside of the package that has one of
// the kinds; the strict and the transitional variant spell a few differently.
func ofKind(rels []relationship, kinds ...string) (relationship, bool) {
	for _, rel := range rels {
		if slices.Contains(kinds, rel.kind) && !rel.external {
			return rel, true
		}
	}
	return relationship{}, false
}
