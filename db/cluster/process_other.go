//go:build unix && !linux

package cluster

import "syscall"

// attributes make a child the owner's and keep the terminal's signals from it.
// Only Linux ends it with us after a kill.
func attributes(owner *account) *syscall.SysProcAttr {
	attr := &syscall.SysProcAttr{Setpgid: true}
	if owner != nil {
		attr.Credential = &syscall.Credential{Uid: owner.uid, Gid: owner.gid}
	}
	return attr
}
