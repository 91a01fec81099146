package layout

import (
	"reflect"
	"sync"

	"flowshelf/analysis/head"
)

// Shared keeps what recognisers make of the shop, once for all pages of a folder:
// thousands of files would each index the same thousands of names. It belongs to
// one Shop.
type Shared struct{ made sync.Map }

// OfShop returns what a function makes of the shop, one of each type. Whoever gets
// it must not change it.
func OfShop[T any](about Context, from func(head.Shop) *T) *T {
	if about.Shared == nil {
		return from(about.Shop)
	}
	key := reflect.TypeFor[T]()
	made, there := about.Shared.made.Load(key)
	if !there {
		made, _ = about.Shared.made.LoadOrStore(key, from(about.Shop))
	}
	return made.(*T) //nolint:forcetypeassert // the key is the type
}
