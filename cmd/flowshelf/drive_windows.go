package main

import (
	"path/filepath"

	"golang.org/x/sys/windows"
)

// mappedDrive reports whether a path begins with a letter that one user has
// mapped to a share: services do not see it.
func mappedDrive(path string) bool {
	const drive = 2 // as in "Z:"
	volume := filepath.VolumeName(path)
	if len(volume) != drive {
		return false
	}
	root, err := windows.UTF16PtrFromString(volume + `\`)
	return err == nil && windows.GetDriveType(root) == windows.DRIVE_REMOTE
}
