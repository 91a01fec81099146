//go:build !windows

package main

// mappedDrive reports whether a path begins with a mapped drive letter, which
// there are none of here.
func mappedDrive(string) bool { return false }
