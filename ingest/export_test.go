package ingest

// Guarded lets a test fail inside the reading of a file.
func Guarded(path string, read func(*FileRead)) FileRead {
	return FileRead{Path: path}.guarded(read)
}
