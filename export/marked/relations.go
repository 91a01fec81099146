package marked

import (
	"fmt"
	"path"
	"slices"
	"strings"
)

// The kinds of relationships that matter here: the last step of their URI,
// which the two dialects of the format share but for one.
const (
	workbookKind = "officeDocument"
	sheetKind    = "worksheet"
	stylesKind   = "styles"
	notesKind    = "comments"
	threadKind   = "threadedComment"
	drawingKind  = "vmlDrawing"
	customKind   = "custom-properties"
	strictCustom = "customProperties" // the same in the strict dialect
)

// relations are the relationships of one part to others.
type relations struct {
	*document
	list []relation
}

type relation struct {
	id, kind, target string
	external         bool
}

const noRelations = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"/>`

// relations reads the relationships of a part, "" for those of the workbook as
// a whole. A part without any gets an empty list to add to.
func (c *container) relations(part string) (*relations, error) {
	dir, base := path.Split(part)
	name := dir + "_rels/" + base + ".rels"
	data := []byte(noRelations)
	if c.has(name) {
		var err error
		if data, err = c.read(name); err != nil {
			return nil, err
		}
	}
	doc, err := parse(name, data, 2)
	if err != nil {
		return nil, err
	}
	r := &relations{document: doc}
	for _, e := range doc.root.named("Relationship") {
		id, _ := doc.attr(e, "Id")
		uri, _ := doc.attr(e, "Type")
		target, _ := doc.attr(e, "Target")
		mode, _ := doc.attr(e, "TargetMode")
		rel := relation{id: id, kind: uri[strings.LastIndexByte(uri, '/')+1:], target: target, external: mode == "External"}
		if !rel.external {
			rel.target = resolve(dir, target)
		}
		r.list = append(r.list, rel)
	}
	return r, nil
}

// resolve turns a target into the name of a part.
func resolve(dir, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	if !strings.HasPrefix(target, "/") {
		target = path.Join("/", dir, target)
	}
	return strings.TrimPrefix(path.Clean(target), "/")
}

// of returns the first relationship of a kind to a part of the workbook.
func (r *relations) of(kind string) (relation, bool) {
	for _, rel := range r.list {
		if rel.kind == kind && !rel.external {
			return rel, true
		}
	}
	return relation{}, false
}

// byID returns the relationship of an id to a part of the workbook.
func (r *relations) byID(id string) (relation, bool) {
	for _, rel := range r.list {
		if rel.id == id && !rel.external {
			return rel, true
		}
	}
	return relation{}, false
}

// add ties a part to the list's own and returns the new id.
func (r *relations) add(base, kind, part string) string {
	id := r.freeID()
	r.list = append(r.list, relation{id: id, kind: kind, target: part})
	r.root.tail += fmt.Sprintf(`<%sRelationship Id="%s" Type="%s/%s" Target="/%s"/>`, r.prefix, id, base, kind, escape(part))
	return id
}

func (r *relations) freeID() string {
	for n := len(r.list) + 1; ; n++ {
		id := fmt.Sprintf("rId%d", n)
		if !slices.ContainsFunc(r.list, func(rel relation) bool { return strings.EqualFold(rel.id, id) }) {
			return id
		}
	}
}

const contentTypes = "[Content_Types].xml"

// The types of the parts that are added (ISO/IEC 29500-1, 12.3).
const (
	sheetType   = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
	notesType   = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
	stylesType  = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
	customType  = "application/vnd.openxmlformats-officedocument.custom-properties+xml"
	drawingType = "application/vnd.openxmlformats-officedocument.vmlDrawing"
)

// typeList says which part is what.
type typeList struct{ *document }

func (c *container) types() (typeList, error) {
	doc, err := c.document(contentTypes, 2)
	return typeList{doc}, err
}

// of returns the declared type of a part, "" for none.
func (t typeList) of(part string) string {
	byExtension := ""
	for _, e := range t.root.children {
		kind, _ := t.attr(e, "ContentType")
		if name, ok := t.attr(e, "PartName"); ok && fold(name) == fold(part) {
			return kind
		}
		if extension, ok := t.attr(e, "Extension"); ok && strings.EqualFold("."+extension, path.Ext(part)) {
			byExtension = kind
		}
	}
	return byExtension
}

// declare gives a new part its type.
func (t typeList) declare(part, kind string) {
	if t.of(part) == kind {
		return
	}
	t.root.tail += fmt.Sprintf(`<%sOverride PartName="/%s" ContentType="%s"/>`, t.prefix, escape(part), kind)
}

// declareDrawing gives a new drawing of notes its type, through its extension
// where that is still free.
func (t typeList) declareDrawing(part string) {
	if t.of(part) == "" {
		t.root.place(fmt.Sprintf(`<%sDefault Extension="vml" ContentType="%s"/>`, t.prefix, drawingType), "Default", "Override")
		return
	}
	t.declare(part, drawingType)
}
