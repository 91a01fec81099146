package main

import (
	"cmp"
	"fmt"
	"path"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/source"
	"flowshelf/export/counter"
	"flowshelf/export/customer"
	"flowshelf/export/enquiries"
	"flowshelf/export/headcard"
	"flowshelf/export/supplier"
	"flowshelf/ingest"
)

// addSheets lays out what people carry away: answers to enquiries, a page for
// each customer, the counter's pages, a sheet for each supplier, head cards. It
// returns the enquiries that no head meets.
func (d *documents) addSheets(r result, read ingest.Reading) source.Problems {
	shop := read.Shop
	for i, c := range r.families {
		if len(c.Ranked)+len(c.Unpriced)+len(c.BelowLine) > 0 {
			d.add(plainName(counter.FileName(c.Family.Name)), r.sums[i], func() ([]byte, error) { return counter.Write(c) })
		}
	}
	answers := enquiry.All(read.Records, shop, r.date)
	if len(answers) > 0 {
		d.add(enquiries.FileName, []any{shop, r.date, answers}, func() ([]byte, error) { return enquiries.Write(shop, r.date, answers) })
	}
	for _, a := range answers {
		if sheet, ok := a.Customer(); ok {
			file := d.free(customer.Folder, "Heads for "+a.Enquiry.Name)
			d.add(path.Join(customer.Folder, file), []any{sheet, file}, func() ([]byte, error) { return customer.Write(sheet, file) })
		}
	}
	for _, g := range supplier.Of(r.families) {
		d.add(path.Join(supplier.Folder, d.free(supplier.Folder, g.Supplier)), g, func() ([]byte, error) { return supplier.Write(g) })
	}
	cards := headcard.Of(r.families, compare.Shelf(read.Records, shop, r.date), shop.Currency, up+up)
	for _, c := range cards {
		d.add(path.Join(headcard.Folder, d.free(headcard.Folder, c.Listed.Name)), c, func() ([]byte, error) { return headcard.Write(c) })
	}
	return enquiry.Unmet(answers)
}

// longestName keeps a file's whole path within what old shares accept.
const longestName = 80

// free makes a file name of what somebody typed, other than those taken already
// in the folder; shares do not tell upper from lower case.
func (d *documents) free(folder, typed string) string {
	name := fileStem(typed)
	for n := 1; ; n++ {
		file := name + ".xlsx"
		if n > 1 {
			file = fmt.Sprintf("%s (%d).xlsx", name, n)
		}
		if !d.has(path.Join(folder, file)) {
			return file
		}
	}
}

// fileStem makes a name without an extension of what somebody typed.
func fileStem(typed string) string {
	name := strings.Trim(plainName(strings.Join(strings.Fields(typed), " ")), " .")
	if runes := []rune(name); len(runes) > longestName {
		name = strings.TrimSpace(string(runes[:longestName]))
	}
	return cmp.Or(name, "unnamed")
}

func (d *documents) has(name string) bool {
	for _, doc := range d.ready {
		if strings.EqualFold(doc.Name, name) {
			return true
		}
	}
	return false
}
