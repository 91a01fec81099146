package decode_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"flowshelf/ingest/decode"
)

// patched replaces bytes of a fixture in the old format; the old ones must be
// there once.
func patched(t *testing.T, name string, old, replacement []byte) []byte {
	t.Helper()
	content := fixture(t, name)
	if bytes.Count(content, old) != 1 || len(old) != len(replacement) {
		t.Fatalf("%x is there %d times", old, bytes.Count(content, old))
	}
	return bytes.Replace(content, old, replacement, 1)
}

func TestOldBooksThatAreRefused(t *testing.T) {
	protected := excelize.NewFile()
	var encrypted bytes.Buffer
	if err := protected.Write(&encrypted, excelize.Options{Password: "x"}); err != nil {
		t.Fatal(err)
	}
	// The record of the code page, turned into one of another kind.
	codePage := []byte{0x42, 0, 2, 0, 0xb0, 4}
	withRecord := func(id byte) []byte {
		return patched(t, "styles.xls", codePage, append([]byte{id}, codePage[1:]...))
	}
	workbook := utf16Name("Workbook")
	for name, test := range map[string]struct {
		content []byte
		kind    string
	}{
		"password, new format":                             {encrypted.Bytes(), decode.Encrypted},
		"password, old format":                             {withRecord(0x2f), decode.Encrypted},
		"a record of no kind":                              {withRecord(0), decode.Damaged},
		"older than 1997":                                  {patched(t, "styles.xls", []byte{9, 8, 16, 0, 0, 6, 5, 0}, []byte{9, 8, 16, 0, 0, 5, 5, 0}), decode.OldFormat},
		"a text document":                                  {patched(t, "styles.xls", workbook, utf16Name("Document")), decode.UnknownFormat},
		"too many FAT sectors":                             {withHeaderField(t, 44, 1<<30), decode.Damaged},
		"too many DIFAT sectors, so that their size wraps": {withHeaderField(t, 72, 1<<25), decode.Damaged},
		"signature only":                                   {fixture(t, "styles.xls")[:8], decode.Damaged},
	} {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, test.content, decode.Defaults()); r.Kind != test.kind {
				t.Errorf("refused as %s: %s", r.Kind, r.Message)
			}
		})
	}
}

// withHeaderField returns an old workbook with a number of the compound file's
// header replaced.
func withHeaderField(t *testing.T, offset int, value uint32) []byte {
	t.Helper()
	content := bytes.Clone(fixture(t, "styles.xls"))
	binary.LittleEndian.PutUint32(content[offset:], value)
	return content
}

func utf16Name(name string) []byte {
	var out []byte
	for _, r := range name {
		out = binary.LittleEndian.AppendUint16(out, uint16(r))
	}
	return out
}

// TestDamagedOldBooks: the old format has no checksums, but a block that is
// missing or zero shows. Bit flips may not, they must not do worse than change
// a value.
func TestDamagedOldBooks(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for _, name := range []string{"formulas.xls", "styles.xls", "texts.xls"} {
		content := fixture(t, name)
		original := mustDecode(t, content)
		refused, same, changed := 0, 0, 0
		for trial := range 300 {
			copied := bytes.Clone(content)
			switch trial % 3 {
			case 0:
				copied = copied[:rng.IntN(len(copied))]
			case 1:
				size := 512 * (1 + rng.IntN(4))
				at := 512 * rng.IntN((len(copied)-size)/512+1)
				clear(copied[at : at+size])
			case 2:
				copied[rng.IntN(len(copied))] ^= 1 << rng.IntN(8)
			}
			book, err := decode.Open(context.Background(), name, copied, decode.Defaults())
			var refusal *decode.Refusal
			switch {
			case errors.As(err, &refusal):
				refused++
			case err != nil:
				t.Errorf("trial %d: %v", trial, err)
			case cmp.Equal(original, book, sameGrid):
				same++
			case trial%3 == 2:
				changed++
			default:
				t.Errorf("%s, trial %d: a damaged copy reads differently (-original +copy):\n%s",
					name, trial, cmp.Diff(original, book, sameGrid))
			}
		}
		t.Logf("%s: %d refused, %d read the same, %d bit flips changed a value", name, refused, same, changed)
	}
}

// FuzzXLS feeds any bytes as a compound file.
func FuzzXLS(f *testing.F) {
	for _, name := range []string{"formulas.xls", "styles.xls"} {
		f.Add(fixture(f, name))
	}
	limits := decode.Defaults()
	limits.UnzippedBytes, limits.Cells = 1<<20, 10_000
	f.Fuzz(func(t *testing.T, content []byte) {
		book, err := decode.XLS{}.Decode(context.Background(), "book", content, limits)
		var refused *decode.Refusal
		switch {
		case err == nil:
			checkGrid(t, book, limits)
		case !errors.As(err, &refused):
			t.Fatalf("not a Refusal: %v", err)
		}
	})
}

// Names in a compound file ignore case ([MS-CFB] 2.6.4).
func TestAnOldBookInCapitals(t *testing.T) {
	lower := mustDecode(t, fixture(t, "styles.xls"))
	capitals := mustDecode(t, patched(t, "styles.xls", utf16Name("Workbook"), utf16Name("WORKBOOK")))
	if diff := cmp.Diff(lower.Sheets[0].Cells, capitals.Sheets[0].Cells); diff != "" {
		t.Error(diff)
	}
}
