package ingest

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// known reduces a setup to what the reading of a book may depend on: names,
// words, and how senders and benches write. Prices, worths, rules and rates are
// left out, so that changing them re-reads nothing; and because the recognisers
// are handed no more than this, they cannot come to depend on the rest unseen.
func known(s head.Shop) head.Shop {
	out := head.Shop{Name: s.Name, Currency: s.Currency, Heads: s.Heads, Words: s.Words, Orifices: s.Orifices, Found: s.Found}
	for _, f := range s.Families {
		out.Families = append(out.Families, head.Family{Name: f.Name, HeadsPerSet: f.HeadsPerSet,
			ReferenceBore: f.ReferenceBore, EngineBore: f.EngineBore})
	}
	for _, r := range s.Suppliers {
		out.Suppliers = append(out.Suppliers, head.SupplierRule{Name: r.Name, Currency: r.Currency, Basis: r.Basis, Folder: r.Folder,
			Discounts: r.Discounts, BuysAt: r.BuysAt})
	}
	for _, b := range s.Benches {
		b.Note = ""
		out.Benches = append(out.Benches, b)
	}
	return out
}

// fingerprint is a hash over all that a reading depends on beside the content,
// its place and the answers that it looks for.
func fingerprint(about layout.Context, limits decode.Limits) string {
	content, err := json.Marshal(struct {
		Shop   head.Shop
		Limits decode.Limits
	}{about.Shop, limits})
	if err != nil {
		return "" // a figure that is no number; what is remembered is then never asked for
	}
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}
