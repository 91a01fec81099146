package flowsheet

import (
	"path"
	"slices"
	"strings"

	"flowshelf/analysis/head"
)

// whose decides how near a test is to the shop's own bench, and by whom it is.
// Words over the column decide first, then words on the sheet, then the bench
// or supplier the sheet names, then the folder the book lies in. The second
// result is empty when nobody can tell.
func (r *reader) class(f, own, around facts, filePath string) (head.Class, string) {
	over := len(own.class) > 0
	ours, bench := r.ownBench(f, filePath)
	supplier := r.supplierOf(f, filePath)
	class, said := f.class.one()
	switch {
	case said && class.Value == head.Advertised && !over && len(f.own) > 0:
		return head.ClassUnknown, bench // a line speaks of a claim, another of the shop's bench
	case said && class.Value == head.Advertised:
		if supplier == "" {
			supplier = r.makerOf(f)
		}
		return head.Advertised, supplier
	case ours && supplier != "" && !r.surelyOurs(bench, filePath):
		return head.ClassUnknown, supplier // "our bench" on a supplier's sheet is the supplier's
	case ours:
		return head.Own, bench
	case bench != "" && supplier == "" && !r.names.knowsBench(bench):
		return head.ClassUnknown, bench // perhaps who ran the shop's own
	case bench != "":
		return r.foreign(around), bench
	case supplier != "" && len(f.flownBy) > 0:
		return head.Supplier, supplier // his own test, and the sheet says so
	case supplier != "":
		return r.foreign(around), supplier
	case said:
		return head.Own, bench
	default:
		return head.ClassUnknown, ""
	}
}

// foreign grades a sheet that is not the shop's: with pressure, bore, and pipe
// or entry stated it is a supplier's sheet, else a claim.
func (r *reader) foreign(around facts) head.Class {
	if len(around.pressure)+len(around.bare) > 0 && len(around.bore)+len(around.over) > 0 && len(around.pipe)+len(around.entry) > 0 {
		return head.Supplier
	}
	return head.Advertised
}

// ownBench returns whether the sheet is of the shop's own bench, and the bench
// it names.
func (r *reader) ownBench(f facts, filePath string) (own bool, name string) {
	if b, ok := f.bench.one(); ok {
		name = b.Value
	}
	if len(f.own) > 0 {
		return true, name
	}
	if name != "" {
		return false, name
	}
	for _, b := range r.about.Shop.Benches {
		if b.Folder != "" && inFolder(filePath, b.Folder) {
			return r.names.own[b.Name], b.Name
		}
	}
	return false, ""
}

// surelyOurs reports whether a sheet names a bench that the shop lists as its
// own, or lies in the folder of one.
func (r *reader) surelyOurs(bench, filePath string) bool {
	return r.names.own[bench] || slices.ContainsFunc(r.about.Shop.Benches, func(b head.Bench) bool {
		return r.names.own[b.Name] && b.Folder != "" && inFolder(filePath, b.Folder)
	})
}

// supplierOf returns the supplier a sheet names, else the one whose folder the
// book lies in.
func (r *reader) supplierOf(f facts, filePath string) string {
	if s, ok := f.supplier.one(); ok {
		return s.Value
	}
	for _, s := range r.about.Shop.Suppliers {
		if s.Folder != "" && inFolder(filePath, s.Folder) {
			return s.Name
		}
	}
	return ""
}

// makerOf returns the supplier the shop lists for the head.
func (r *reader) makerOf(f facts) string {
	h, ok := f.head.one()
	if !ok {
		return ""
	}
	return r.names.listed[h.Value].Supplier
}

// inFolder reports whether a book lies in a folder or beneath it.
func inFolder(filePath, folder string) bool {
	folder = strings.Trim(path.Clean(strings.ReplaceAll(folder, `\`, "/")), "/")
	if folder == "." || folder == "" {
		return false
	}
	return strings.HasPrefix(strings.ToLower(filePath), strings.ToLower(folder)+"/")
}
