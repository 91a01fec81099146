package watch

import (
	"io/fs"
	"os"
)

// Dir returns the folder at a path as a file system that stays inside it:
// links that lead out are refused. Unlike os.DirFS and os.Root it keeps nothing
// open, so that a share that was unmounted and mounted again is seen as it is.
func Dir(path string) fs.FS { return dir(path) }

type dir string

// Open implements fs.FS.
func (d dir) Open(name string) (fs.File, error) {
	root, err := os.OpenRoot(string(d))
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return root.FS().Open(name)
}
