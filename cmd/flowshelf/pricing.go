package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	analysis "flowshelf/analysis/pricing"
	"flowshelf/export/pricing"
)

// addPricing lays out the what-if of each family, with the figures that somebody
// has typed into the one that stands in the folder.
func (a *app) addPricing(docs *documents, p pass, families []compare.Comparison, shop head.Shop) {
	for _, c := range families {
		name := plainName(pricing.FileName(c.Family.Name))
		docs.add(name, func() ([]byte, error) {
			typed, err := typedPrices(p.files, path.Join(a.config.Output.Folder, name), c.Family.Name)
			if err != nil {
				return nil, fmt.Errorf("the figures typed into it cannot be read, so it stays as it is: %w", err)
			}
			return pricing.Write(analysis.Start(c, shop.Currency).Apply(typed), pricing.Options{Up: up})
		})
	}
}

// typedPrices are the figures typed into an earlier what-if. Where its name is
// taken by a stranger's file, ours stands beside under a number.
func typedPrices(files fs.FS, name, family string) (analysis.Typed, error) {
	ext := path.Ext(name)
	stem := name[:len(name)-len(ext)]
	const mostNumbered = 9 // as the publisher numbers
	for n := 1; n <= mostNumbered; n++ {
		if n > 1 {
			name = fmt.Sprintf("%s (%d)%s", stem, n, ext)
		}
		content, err := fs.ReadFile(files, name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return analysis.Typed{}, err
		}
		typed, ours, err := pricing.Typed(content, family)
		if ours {
			return typed, err
		}
		// A file that is not ours, or no workbook at all, holds nothing typed for us.
	}
	return analysis.Typed{}, nil
}
