package cluster

import "syscall"

// attributes make a child the owner's, end it when we end (SIGINT is the fast
// stop), and keep the terminal's signals from it: we stop it ourselves, after
// our own sessions.
func attributes(owner *account) *syscall.SysProcAttr {
	attr := &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGINT}
	if owner != nil {
		attr.Credential = &syscall.Credential{Uid: owner.uid, Gid: owner.gid}
	}
	return attr
}
