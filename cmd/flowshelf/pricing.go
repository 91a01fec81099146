package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"

	"flowshelf/analysis/head"
	analysis "flowshelf/analysis/pricing"
	"flowshelf/export/pricing"
	"flowshelf/export/publish"
)

// addPricing lays out the what-if of each family, with the figures that somebody
// has typed into the one that stands in the folder.
func (a *app) addPricing(docs *documents, p pass, r result, shop head.Shop) {
	for i, c := range r.families {
		name := plainName(pricing.FileName(c.Family.Name))
		// What was typed is not among the facts: it makes of the workbook one that is
		// not as we wrote it, and so one that is laid out again.
		var stood standing
		docs.add(name, []any{r.sums[i], shop.Currency}, func() ([]byte, error) {
			earlier, content, err := typedPrices(p.files, path.Join(a.config.Output.Folder, name), c.Family.Name)
			if err != nil {
				return nil, fmt.Errorf("the figures typed into it cannot be read, so it stays as it is: %w", err)
			}
			stood = standing{content, earlier.Whole}
			return pricing.Write(analysis.Start(c, shop.Currency).Apply(earlier.Typed), pricing.Options{Up: up})
		})
		docs.ready[len(docs.ready)-1].took = func(d *publish.Document) { stood.note(d) }
	}
}

// standing is the workbook that what was typed was taken from.
type standing struct {
	content []byte
	whole   bool // it holds nothing else that somebody did
}

// note tells the publisher which version is in the new one.
func (s standing) note(d *publish.Document) {
	if len(s.content) == 0 {
		return
	}
	sum := sha256.Sum256(s.content)
	d.Read = []string{hex.EncodeToString(sum[:])}
	if s.whole {
		d.Carried = d.Read
	}
}

// typedPrices are the figures typed into an earlier what-if, and that workbook.
// Where its name is taken by a stranger's file, ours stands beside under a number.
func typedPrices(files fs.FS, name, family string) (earlier pricing.Earlier, content []byte, err error) {
	for _, name := range publish.Names(name) {
		content, err := fs.ReadFile(files, name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return pricing.Earlier{}, nil, err
		}
		earlier, ours, err := pricing.Read(content, family)
		if ours {
			return earlier, content, err
		}
		// A file that is not ours, or no workbook at all, holds nothing typed for us.
	}
	return pricing.Earlier{}, nil, nil
}
