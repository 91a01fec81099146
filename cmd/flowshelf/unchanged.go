package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"reflect"
	"time"

	"flowshelf/export/book"
	"flowshelf/export/publish"
	"flowshelf/ingest/cache"
)

// made remembers which facts a workbook was last laid out from.
type made interface {
	Made(name string) (cache.Output, bool)
	Make(o cache.Output)
}

// addUnlessSame adds a workbook that depends on nothing but its facts. One that
// was laid out from the same facts before is laid out again only if it does not
// stand in the folder as it was.
func (d *documents) addUnlessSame(m made, name string, facts any, write func() ([]byte, error)) {
	if m == nil {
		d.add(name, write)
		return
	}
	input := fingerprint(facts)
	if was, ok := m.Made(name); ok && was.Input == input {
		d.ready = append(d.ready, publish.Document{Name: name, Stamp: book.Stamp{ID: was.ID, Content: was.Content}, Lay: write})
		return
	}
	before := len(d.ready)
	d.add(name, write)
	if len(d.ready) == before {
		return
	}
	if stamp, ok, err := book.StampOf(d.ready[before].Content); ok && err == nil {
		m.Make(cache.Output{Name: name, Input: input, ID: stamp.ID, Content: stamp.Content})
	}
}

// fingerprint is a hash over everything that a value holds or points to, fields
// that are not exported among them.
func fingerprint(facts any) string {
	h := sha256.New()
	digest(h, reflect.ValueOf(facts))
	return hex.EncodeToString(h.Sum(nil))
}

func digest(h hash.Hash, v reflect.Value) {
	if !v.IsValid() {
		fmt.Fprint(h, "none;")
		return
	}
	if v.Type() == reflect.TypeFor[time.Time]() && v.CanInterface() {
		fmt.Fprintf(h, "%v;", v.Interface())
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			digest(h, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		fmt.Fprintf(h, "%d[", v.Len())
		for i := range v.Len() {
			digest(h, v.Index(i))
		}
	case reflect.Map: // a sum over the entries does not depend on their order
		var sum [sha256.Size]byte
		for entries := v.MapRange(); entries.Next(); {
			one := sha256.New()
			digest(one, entries.Key())
			digest(one, entries.Value())
			for i, b := range one.Sum(nil) {
				sum[i] ^= b
			}
		}
		fmt.Fprintf(h, "%d{%x", v.Len(), sum)
	case reflect.Pointer, reflect.Interface:
		digest(h, v.Elem())
	case reflect.Func:
		fmt.Fprintf(h, "func %v;", v.IsNil())
	case reflect.String:
		fmt.Fprintf(h, "%q;", v.String())
	default:
		fmt.Fprintf(h, "%v;", v)
	}
}
