package book

import (
	"net/url"
	"strings"

	"flowshelf/analysis/source"
)

// Link is where a cell leads.
type Link struct {
	target string
	inside bool
}

// Inside returns a link to a place in the same workbook.
func Inside(to Range) Link {
	return Link{target: quoted(to.Sheet) + "!" + to.local(), inside: true}
}

// ToSource returns a link to the cell of a user's file. It is relative, so that
// it survives the folder being moved: up is the way from the output's own folder
// to the watched folder ("../" for Ranked/).
func ToSource(up string, at source.Ref) Link {
	if at.File == "" {
		return Link{}
	}
	steps := strings.Split(at.File, "/")
	for i := range steps {
		steps[i] = url.PathEscape(steps[i])
	}
	target := up + strings.Join(steps, "/")
	if at.Sheet != "" {
		cell := at.Cell
		if cell == "" {
			cell = "A1"
		}
		target += "#" + fragment.Replace(quoted(at.Sheet)) + "!" + cell
	}
	return Link{target: target}
}

// fragment encodes what would end or break the part of a link after "#".
// Spaces and quotes stay as they are: spreadsheets read a place, not an URL.
var fragment = strings.NewReplacer("%", "%25", "#", "%23", `"`, "%22", "<", "%3C", ">", "%3E")
