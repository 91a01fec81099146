package watch

import "golang.org/x/sys/unix"

// OnNetwork reports whether a folder lies on a network or behind a user-space
// file system, where the system announces no change made elsewhere. A folder
// that cannot be asked counts as one: it is looked at more often.
//
// The numbers are those of statfs(2), f_type.
func OnNetwork(path string) bool {
	var stat unix.Statfs_t
	if err := unix.Statfs(path, &stat); err != nil {
		return true
	}
	switch uint32(stat.Type) { //nolint:gosec // the field's width differs between machines; the magic is 32 bits
	case unix.NFS_SUPER_MAGIC, unix.SMB_SUPER_MAGIC, unix.CIFS_SUPER_MAGIC, unix.SMB2_SUPER_MAGIC,
		unix.FUSE_SUPER_MAGIC, unix.V9FS_MAGIC, unix.AFS_SUPER_MAGIC, unix.CEPH_SUPER_MAGIC:
		return true
	}
	return false
}
