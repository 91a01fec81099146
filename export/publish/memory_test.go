package publish_test

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"flowshelf/export/book"
	"flowshelf/export/publish"
)

// memory is what a run leaves behind for the next.
type memory map[string]string

func (m memory) Whole(name, hash string) bool { return m[name] == hash }

func (m memory) FoundWhole(name, hash string) { m[name] = hash }

func (f folder) restarted(t testing.TB, m publish.Memory) *publish.Publisher {
	p := f.publisher(t, publish.Options{})
	p.Remember(m)
	return p
}

func (f folder) hash(t testing.TB, name string) string {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// A restart comes to the same with and without a memory: what stands as we wrote
// it stands, and what somebody changed is kept.
func TestARestart(t *testing.T) {
	content := workbook(t, "a", "one")
	stamp, _, err := book.StampOf(content)
	if err != nil {
		t.Fatal(err)
	}
	for what, m := range map[string]publish.Memory{"with a memory": memory{}, "without": nil} {
		t.Run(what, func(t *testing.T) {
			f := newFolder(t)
			doc := publish.Document{Name: name, Content: content}
			check(t, f.restarted(t, m).Publish(t.Context(), doc), publish.Outcome{Name: name, State: publish.Written, At: name})
			if _, ok := f.restarted(t, m).Stands(publish.Document{Name: name}, stamp); !ok {
				t.Error("it does not stand")
			}
			f.edit(t, name, "typed here")
			if _, ok := f.restarted(t, m).Stands(publish.Document{Name: name}, stamp); ok {
				t.Error("an edited one stands")
			}
			check(t, f.restarted(t, m).Publish(t.Context(), doc),
				publish.Outcome{Name: name, State: publish.Written, At: name, Kept: "Heads ranked - Small Eight (kept 2026-03-16).xlsx"})
			f.edit(t, name, "one") // the same cells, saved by another program
			if _, ok := f.restarted(t, m).Stands(publish.Document{Name: name}, stamp); !ok {
				t.Error("it does not stand once it was saved again")
			}
			if got, ok := m.(memory); ok {
				if stands := f.hash(t, name); got[name] != stands {
					t.Errorf("the memory holds %v, want %s", got, stands)
				}
			}
		})
	}
}

// What the memory knows is not decoded: an edit that it takes for ours is not
// found.
func TestWhatIsRememberedIsNotDecoded(t *testing.T) {
	f := newFolder(t)
	content := workbook(t, "a", "one")
	f.put(t, name, content)
	f.edit(t, name, "typed here")
	stamp, _, err := book.StampOf(content)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := f.restarted(t, memory{name: f.hash(t, name)}).Stands(publish.Document{Name: name}, stamp); !ok {
		t.Error("it was decoded")
	}
}
