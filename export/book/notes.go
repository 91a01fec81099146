package book

import (
	"cmp"
	"path"
	"slices"
	"strings"
)

// relations are what a part refers to.
type relations struct {
	R []relation `xml:"Relationship"`
}

type relation struct {
	ID     string `xml:"Id,attr"`
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
}

// part is the part that a relationship of one in a folder leads to.
func (r relation) part(folder string) string {
	if strings.HasPrefix(r.Target, "/") {
		return strings.TrimPrefix(path.Clean(r.Target), "/")
	}
	return strings.TrimPrefix(path.Join("/", folder, r.Target), "/")
}

// comment is a note, or an answer in a thread of them.
type comment struct {
	Ref  string `xml:"ref,attr"`
	Text struct {
		richText
		Plain string `xml:",chardata"` // of a thread
	} `xml:"text"`
}

// notes adds the notes on a sheet's cells, by place and text alone: who wrote
// them, how they look and in which part they lie is up to the program that saved
// the workbook last.
func (r *reader) notes(s sheetPart) error {
	dir, base := path.Split(s.part)
	var rels relations
	if err := r.decode(dir+"_rels/"+base+".rels", &rels); err != nil {
		return err
	}
	var out []Content
	for _, rel := range rels.R {
		var found struct {
			Notes   []comment `xml:"commentList>comment"`
			Threads []comment `xml:"threadedComment"`
		}
		if kind := path.Base(rel.Type); kind != "comments" && kind != "threadedComment" {
			continue
		}
		if err := r.decode(rel.part(dir), &found); err != nil {
			return err
		}
		for _, c := range slices.Concat(found.Notes, found.Threads) {
			text := strings.TrimSpace(c.Text.String() + c.Text.Plain)
			out = append(out, Content{Sheet: s.name, On: c.Ref, Value: text})
		}
	}
	slices.SortFunc(out, func(a, b Content) int { return cmp.Or(cmp.Compare(a.On, b.On), cmp.Compare(a.Value, b.Value)) })
	r.out = append(r.out, out...)
	return nil
}
