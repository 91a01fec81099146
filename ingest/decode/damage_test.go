package decode_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"flowshelf/ingest/decode"
)

// sameGrid compares decoded books by what they hold.
var sameGrid = cmp.Options{cmpopts.IgnoreUnexported(decode.Sheet{}), cmpopts.EquateEmpty()}

// damages are the ways in which copies go wrong.
var damages = []struct {
	name  string
	retry bool // looks like a copy that is not finished
	apply func(rng *rand.Rand, content []byte) []byte
}{
	{"bit flip", false, func(rng *rand.Rand, content []byte) []byte {
		content[rng.IntN(len(content))] ^= 1 << rng.IntN(8)
		return content
	}},
	{"truncated", true, func(rng *rand.Rand, content []byte) []byte {
		return content[:rng.IntN(len(content))]
	}},
	{"hole of zeros", true, func(rng *rand.Rand, content []byte) []byte {
		// 64 KiB in a large file; in these small ones, anything from a byte to
		// half of the file.
		size := min(64<<10, 1+rng.IntN(len(content)/2))
		at := rng.IntN(len(content) - size)
		clear(content[at : at+size])
		return content
	}},
	{"piece twice", false, func(rng *rand.Rand, content []byte) []byte {
		from, to := rng.IntN(len(content)), rng.IntN(len(content))
		return append(bytes.Clone(content[:max(from, to)]), content[min(from, to):]...)
	}},
}

// TestDamagedCopies damages each book at random places. A damaged copy must be
// refused, or decode to the very grid of the original because the damage hit
// nothing that counts: a short read must not pass.
func TestDamagedCopies(t *testing.T) {
	const trials = 400
	contents := map[string][]byte{"large": largeBook(t, 4000)}
	names := []string{"openpyxl.xlsx", "xlsxwriter.xlsx", "large", "formulas.xlsx", "styles.ods"}
	originals := make(map[string]*decode.Book)
	for _, name := range names {
		if contents[name] == nil {
			contents[name] = fixture(t, name)
		}
		originals[name] = mustDecode(t, contents[name])
	}
	for _, damage := range damages {
		t.Run(damage.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1, 1))
			refused, same := 0, 0
			for trial := range trials {
				name := names[trial%len(names)]
				copied := damage.apply(rng, bytes.Clone(contents[name]))
				book, err := decode.Open(context.Background(), name, copied, decode.Defaults())
				var refusal *decode.Refusal
				switch {
				case errors.As(err, &refusal):
					refused++
					if damage.retry && !refusal.Retry {
						t.Errorf("%s, trial %d: not to be retried: %v", name, trial, err)
					}
				case err != nil:
					t.Errorf("%s, trial %d: %v", name, trial, err)
				default:
					same++
					if diff := cmp.Diff(originals[name], book, sameGrid); diff != "" {
						t.Errorf("%s, trial %d: a damaged copy reads differently (-original +copy):\n%s", name, trial, diff)
					}
				}
			}
			t.Logf("%d copies: %d refused, %d read the same", trials, refused, same)
			if refused < trials*9/10 {
				t.Errorf("only %d of %d damaged copies were refused", refused, trials)
			}
		})
	}
}

// TestBitsOfASmallBook flips one bit after the other, in steps that meet every
// part of the file.
func TestBitsOfASmallBook(t *testing.T) {
	const step = 11
	content := fixture(t, "inline.xlsx")
	original := mustDecode(t, content)
	refused, same := 0, 0
	for bit := 0; bit < len(content)*8; bit += step {
		content[bit/8] ^= 1 << (bit % 8)
		book, err := decode.Open(context.Background(), "book", content, decode.Defaults())
		content[bit/8] ^= 1 << (bit % 8)
		if err != nil {
			refused++
			continue
		}
		same++
		if diff := cmp.Diff(original, book, sameGrid); diff != "" {
			t.Fatalf("byte %d, bit %d (-original +copy):\n%s", bit/8, bit%8, diff)
		}
	}
	t.Logf("%d flips: %d refused, %d read the same", refused+same, refused, same)
}

func TestUnfinishedCopiesAreRetried(t *testing.T) {
	book := fixture(t, "xlsxwriter.xlsx")
	holed := bytes.Clone(book)
	clear(holed[2000:6000])
	for name, content := range map[string][]byte{
		"nothing yet":       {},
		"one byte":          book[:1],
		"beginning to come": append(make([]byte, 6000), book[6000:]...),
		"all zeros":         make([]byte, 4096),
		"first half":        book[:len(book)/2],
		"end missing":       book[:len(book)-10],
		"hole":              holed,
		"preallocated tail": append(bytes.Clone(book[:len(book)/2]), make([]byte, len(book)-len(book)/2)...),
		"text with zeros":   append([]byte("lift,cfm\n.100,60\n"), make([]byte, 100)...),
		"open quote":        []byte("head,note\nLKC-12,\"tested twi"),
	} {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, content, decode.Defaults()); !r.Retry {
				t.Errorf("%s: not to be retried", r.Message)
			}
		})
	}
}
