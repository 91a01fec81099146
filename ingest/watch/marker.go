package watch

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
)

// markerName is the file, in the reserved folder, that shows that a folder is
// the one it was: an unmounted share leaves an empty folder without it.
const markerName = ".flowshelf"

// ErrNoMarker says that a folder was never set up, or is not the folder that
// was.
var ErrNoMarker = errors.New("the folder does not carry the mark of its set-up")

// Mark gives a folder its identity and returns it. A mark that is there
// already stays.
func Mark(folder *os.Root, reserved string) (string, error) {
	if id, err := Marker(folder.FS(), reserved); !errors.Is(err, ErrNoMarker) {
		return id, err
	}
	if err := folder.MkdirAll(reserved, 0o777); err != nil {
		return "", err
	}
	id := rand.Text()
	f, err := folder.OpenFile(path.Join(reserved, markerName), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return "", err
	}
	_, err = fmt.Fprintf(f, "%s\nThis file shows flowshelf that the folder is the one it was set up in. Please leave it here.\n", id)
	return id, errors.Join(err, f.Sync(), f.Close())
}

// Marker returns the identity of a folder, ErrNoMarker when it has none.
func Marker(folder fs.FS, reserved string) (string, error) {
	content, err := fs.ReadFile(folder, path.Join(reserved, markerName))
	if errors.Is(err, fs.ErrNotExist) {
		return "", ErrNoMarker
	}
	if err != nil {
		return "", err
	}
	id, _, _ := strings.Cut(string(content), "\n")
	return id, nil
}

// Carries reports why a folder is not the one with an identity.
func Carries(folder fs.FS, reserved, identity string) error {
	id, err := Marker(folder, reserved)
	if err == nil && id != identity {
		err = fmt.Errorf("%w: it carries another one's", ErrNoMarker)
	}
	return err
}
