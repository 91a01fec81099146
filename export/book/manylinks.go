package book

import (
	"encoding/xml"
	"fmt"

	"github.com/xuri/excelize/v2"
)

// outward collects the links of one sheet that lead out of the workbook. For each
// one that is added the library walks through all that the sheet has, which is
// most of the work on a sheet of 10,000. It is therefore shown the last one only,
// from which it numbers on, and is given all of them at the end.
type outward struct {
	part string // what the sheet refers to (ECMA-376 part 2, relationships part)
	all  []linkRelation
}

type linkRelation struct {
	ID     string `xml:"Id,attr"`
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
	Mode   string `xml:"TargetMode,attr"`
}

// mostShown is how many links the library sees at a time.
const mostShown = 200

func newOutward(sheet int) *outward {
	return &outward{part: fmt.Sprintf("xl/worksheets/_rels/sheet%d.xml.rels", sheet)}
}

func (o *outward) add(f *excelize.File, sheet, cell, target string) error {
	if n := len(o.all); n > 0 && n%mostShown == 0 {
		if err := o.show(f, o.all[n-1:]); err != nil {
			return err
		}
	}
	o.all = append(o.all, linkRelation{fmt.Sprintf("rId%d", len(o.all)+1), excelize.SourceRelationshipHyperLink, target, "External"})
	return f.SetCellHyperLink(sheet, cell, target, "External")
}

// end gives the library all links of the sheet.
func (o *outward) end(f *excelize.File) error {
	if len(o.all) <= mostShown {
		return nil
	}
	return o.show(f, o.all)
}

func (o *outward) show(f *excelize.File, some []linkRelation) error {
	content, err := xml.Marshal(struct {
		XMLName xml.Name       `xml:"http://schemas.openxmlformats.org/package/2006/relationships Relationships"`
		R       []linkRelation `xml:"Relationship"`
	}{R: some})
	if err != nil {
		return err
	}
	f.Relationships.Delete(o.part)
	f.Pkg.Store(o.part, append([]byte(xml.Header), content...))
	return nil
}
