package main

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"
	"reflect"
	"strconv"
	"time"
)

// fingerprint is a hash over everything that a value holds or points to, fields
// that are not exported among them.
func fingerprint(facts any) string {
	sum := sha256.Sum256(printing{}.appendFacts(nil, reflect.ValueOf(facts)))
	return hex.EncodeToString(sum[:])
}

// printing holds the hash of all that was pointed to so far: every lift of a
// curve points to the tests that it was read from, which would be walked through
// once for each.
type printing map[pointed][sha256.Size]byte

type pointed struct {
	to reflect.Type
	at uintptr
}

// appendPointed appends the hash of what a pointer points to. Two pointers to the
// same and two to equal facts look alike.
func (p printing) appendPointed(b []byte, v reflect.Value) []byte {
	key := pointed{v.Type(), v.Pointer()}
	sum, known := p[key]
	if !known {
		sum = sha256.Sum256(p.appendFacts(nil, v.Elem()))
		p[key] = sum
	}
	return append(append(b, '*'), sum[:]...)
}

// appendFacts appends a value in a form of its own for each value of its type.
func (p printing) appendFacts(b []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Invalid:
		return append(b, '-')
	case reflect.Struct:
		if t, ok := moment(v); ok {
			return t.UTC().AppendFormat(b, time.RFC3339Nano)
		}
		for i := range v.NumField() {
			b = p.appendFacts(b, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		b = append(strconv.AppendInt(b, int64(v.Len()), 10), '[')
		for i := range v.Len() {
			b = p.appendFacts(b, v.Index(i))
		}
	case reflect.Map: // a sum over the entries does not depend on their order
		var sum [sha256.Size]byte
		for entries := v.MapRange(); entries.Next(); {
			one := sha256.Sum256(p.appendFacts(p.appendFacts(nil, entries.Key()), entries.Value()))
			for i := range sum {
				sum[i] ^= one[i]
			}
		}
		b = append(append(strconv.AppendInt(b, int64(v.Len()), 10), '{'), sum[:]...)
	case reflect.Pointer:
		if v.IsNil() {
			return append(b, '-')
		}
		return p.appendPointed(b, v)
	case reflect.Interface:
		return p.appendFacts(append(b, '*'), v.Elem())
	case reflect.String:
		b = append(strconv.AppendInt(b, int64(v.Len()), 10), ':')
		b = append(b, v.String()...)
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool())
	case reflect.Float32, reflect.Float64:
		b = binary.BigEndian.AppendUint64(b, math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		b = append(strconv.AppendInt(b, v.Int(), 10), ';')
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		b = append(strconv.AppendUint(b, v.Uint(), 10), ';')
	default: // functions and channels are no facts
		return append(b, '?')
	}
	return b
}

// moment returns the time that a struct is.
func moment(v reflect.Value) (time.Time, bool) {
	if v.Type() != reflect.TypeFor[time.Time]() || !v.CanInterface() {
		return time.Time{}, false
	}
	t, ok := v.Interface().(time.Time)
	return t, ok
}
