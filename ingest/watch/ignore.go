package watch

import (
	"path"
	"strings"
)

// Ignored reports whether the file or folder at a slash-separated path below
// the watched folder is none of our business: what we write ourselves (the
// reserved folder), what a program keeps beside an open workbook, and what an
// editor or a sync client has not finished writing. Such a file is not listed
// anywhere; everything else is either read or listed with a reason.
//
// The names are those seen when the programs were run; there is no standard.
func Ignored(name, reserved string) bool {
	for part := range strings.SplitSeq(name, "/") {
		if temporary(part) {
			return true
		}
	}
	top, _, _ := strings.Cut(name, "/")
	return reserved != "" && strings.EqualFold(top, reserved)
}

// temporary reports whether one name is that of a temporary or hidden file.
func temporary(name string) bool {
	lower := strings.ToLower(name)
	switch {
	case strings.HasPrefix(lower, "."): // hidden; LibreOffice locks .~lock.x#; rsync .x.AbCd12
		return true
	case strings.HasPrefix(lower, "~$"): // owner file of an open workbook
		return true
	case strings.HasPrefix(lower, "lu") && strings.HasSuffix(lower, ".tmp"): // LibreOffice while saving
		return true
	case lower == "desktop.ini" || lower == "thumbs.db":
		return true
	}
	switch path.Ext(lower) {
	case ".tmp", ".partial", ".part", ".crdownload", ".filepart":
		return true
	}
	return strings.HasSuffix(lower, "~") // an editor's backup
}
