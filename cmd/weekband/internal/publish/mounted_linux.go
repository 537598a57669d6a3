package publish

import "golang.org/x/sys/unix"

// mounted reports whether something is mounted on a folder (statx(2), since
// Linux 5.8; older kernels tell only by the device).
func mounted(parent, folder string) bool {
	var above, at unix.Statx_t
	const flags = unix.AT_SYMLINK_NOFOLLOW
	if unix.Statx(unix.AT_FDCWD, parent, flags, unix.STATX_TYPE, &above) != nil || unix.Statx(unix.AT_FDCWD, folder, flags, unix.STATX_TYPE, &at) != nil {
		return false
	}
	return at.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0 || above.Dev_major != at.Dev_major || above.Dev_minor != at.Dev_minor
}
