package publish_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"flowshelf/export/book"
	"flowshelf/export/publish"
)

// victim names the folder that a killed copy of this test publishes into.
const victim = "PUBLISH_VICTIM_FOLDER"

// atWork is what the copy says after each round.
const atWork = "published"

// TestVictim publishes without end when it is started to be killed.
func TestVictim(t *testing.T) {
	path := os.Getenv(victim)
	if path == "" {
		return
	}
	root, err := os.OpenRoot(path)
	if err != nil {
		t.Fatal(err)
	}
	p := publish.New(publish.Options{})
	p.Open(root, march)
	one, two := workbook(t, "a", "one"), workbook(t, "a", "two")
	for {
		for _, content := range [][]byte{one, two} {
			// The one before was killed with either of them in place.
			if out := p.Publish(t.Context(), publish.Document{Name: name, Content: content}); out.State != publish.Written && out.State != publish.Unchanged {
				t.Fatalf("%+v", out)
			}
		}
		fmt.Println(atWork)
	}
}

// TestKilledAtAnyMoment kills a publisher again and again: what stands under
// the name is a whole workbook every time, and no leftovers survive the next
// start.
func TestKilledAtAnyMoment(t *testing.T) {
	f := newFolder(t)
	f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "one")})
	random := rand.New(rand.NewPCG(1, 2))
	const kills = 15
	for i := range kills {
		cmd := exec.Command(os.Args[0], "-test.run=^TestVictim$")
		cmd.Env = append(os.Environ(), victim+"="+f.path)
		said, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if line, err := bufio.NewReader(said).ReadString('\n'); line != atWork+"\n" {
			t.Fatalf("it says %q, %v", line, err)
		}
		time.Sleep(time.Duration(random.IntN(80)) * time.Millisecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // killed, as it should be
		content, err := os.ReadFile(filepath.Join(f.path, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, ours, edited, err := book.Identity(content); err != nil || !ours || edited {
			t.Fatalf("after kill %d: ours %v, edited %v, %v", i, ours, edited, err)
		}
	}
	f.publisher(t, publish.Options{})
	if names := f.names(t); fmt.Sprint(names) != fmt.Sprint([]string{name}) {
		t.Errorf("left behind: %v", names)
	}
}
