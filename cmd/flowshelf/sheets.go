package main

import (
	"fmt"
	"path"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/enquiry"
	"flowshelf/export/counter"
	"flowshelf/export/customer"
	"flowshelf/export/enquiries"
	"flowshelf/export/headcard"
	"flowshelf/export/supplier"
	"flowshelf/ingest"
)

// addSheets lays out what people carry away: answers to enquiries, a page for
// each customer, the counter's pages, a sheet for each supplier, head cards.
func (d *documents) addSheets(r result, read ingest.Reading) {
	shop := read.Shop
	for _, c := range r.families {
		if len(c.Ranked)+len(c.Unpriced)+len(c.BelowLine) > 0 {
			d.add(plainName(counter.FileName(c.Family.Name)), func() ([]byte, error) { return counter.Write(c) })
		}
	}
	answers := enquiry.All(read.Records, shop, r.date)
	if len(answers) > 0 {
		d.add(enquiries.FileName, func() ([]byte, error) { return enquiries.Write(shop.Name, r.date, answers) })
	}
	for i, a := range answers {
		if sheet, ok := a.Customer(); ok {
			number := fmt.Sprint(i + 1)
			d.add(path.Join(customer.Folder, d.free(customer.Folder, "Heads for "+a.Enquiry.Name)), func() ([]byte, error) { return customer.Write(sheet, number) })
		}
	}
	for _, g := range supplier.Of(r.families) {
		d.add(path.Join(supplier.Folder, d.free(supplier.Folder, g.Supplier)), func() ([]byte, error) { return supplier.Write(g) })
	}
	cards := headcard.Of(r.families, compare.Shelf(read.Records, shop, r.date), shop.Currency, up+up)
	for _, c := range cards {
		d.add(path.Join(headcard.Folder, d.free(headcard.Folder, c.Listed.Name)), func() ([]byte, error) { return headcard.Write(c) })
	}
}

// longestName keeps a file's whole path within what old shares accept.
const longestName = 80

// free makes a file name of what somebody typed, other than those taken already
// in the folder; shares do not tell upper from lower case.
func (d *documents) free(folder, typed string) string {
	name := strings.Trim(plainName(strings.Join(strings.Fields(typed), " ")), " .")
	if runes := []rune(name); len(runes) > longestName {
		name = strings.TrimSpace(string(runes[:longestName]))
	}
	if name == "" {
		name = "unnamed"
	}
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

func (d *documents) has(name string) bool {
	for _, doc := range d.ready {
		if strings.EqualFold(doc.Name, name) {
			return true
		}
	}
	return false
}
