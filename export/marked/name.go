package marked

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode/utf8"
)

// Folder is where the copies go, below the output folder.
const Folder = "Marked copies"

// Extension returns how the name of a copy must end, from what the content is:
// ".xlsx", or ".xlsm" with macros. The error is for what gets no marked copy:
// text files, old and open-document workbooks, and what cannot be opened.
func Extension(content []byte) (string, error) {
	const mostTypes = 1 << 20
	c, err := directory(content, Limits{UnzippedBytes: mostTypes})
	if err != nil {
		return "", errNoWorkbook
	}
	types, err := c.types()
	if err != nil {
		return "", errNoWorkbook
	}
	top, err := c.relations("")
	if err != nil {
		return "", errNoWorkbook
	}
	main, _ := top.of(workbookKind)
	if ext := extension(types.of(main.target)); ext != "" {
		return ext, nil
	}
	return "", errNoWorkbook
}

// Names returns what the copies of files are called, without extension: the
// path with its folders in front, "bench - PW-46". Where two files would share
// a name, all but the first in order of path get some letters of their own.
func Names(paths []string) map[string]string {
	out := make(map[string]string, len(paths))
	taken := make(map[string]bool, len(paths))
	sorted := slices.Clone(paths)
	slices.SortFunc(sorted, func(a, b string) int {
		return cmp.Or(cmp.Compare(strings.Count(a, "/"), strings.Count(b, "/")), cmp.Compare(a, b))
	})
	for _, p := range slices.Compact(sorted) {
		name := plain(p)
		if taken[strings.ToLower(name)] {
			name = fmt.Sprintf("%s (%.3x)", name, sha256.Sum256([]byte(p)))
		}
		taken[strings.ToLower(name)] = true
		out[p] = name
	}
	return out
}

// plain makes one name of a path, without what a file system may refuse.
func plain(p string) string {
	const longest = 180 // bytes: what comes behind must fit into 255
	name := strings.TrimSuffix(p, path.Ext(p))
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.ReplaceAll(strings.ToValidUTF8(name, "-"), "/", " - "))
	if len(name) > longest {
		at := longest
		for !utf8.RuneStart(name[at]) {
			at--
		}
		name = fmt.Sprintf("%s (%.3x)", strings.TrimSpace(name[:at]), sha256.Sum256([]byte(p)))
	}
	return strings.TrimRight(name, " .")
}
