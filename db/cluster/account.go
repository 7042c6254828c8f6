package cluster

import (
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
	"syscall"
)

// An account is whom the server runs as; nil is whoever runs us. Postgres
// refuses to run as root.
type account struct {
	name     string
	uid, gid uint32
}

// findAccount returns whom a process of root drops to: postgres, else nobody.
func findAccount() (*account, error) {
	if os.Geteuid() != 0 {
		return nil, nil // whoever runs us
	}
	for _, name := range []string{"postgres", "nobody"} {
		u, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, uidErr := strconv.ParseUint(u.Uid, 10, 32)
		gid, gidErr := strconv.ParseUint(u.Gid, 10, 32)
		if err := errors.Join(uidErr, gidErr); err != nil {
			return nil, fmt.Errorf("the user %s: %w", name, err)
		}
		return &account{name, uint32(uid), uint32(gid)}, nil
	}
	return nil, errors.New("Postgres does not run as root, and there is neither a user postgres nor nobody to run it as")
}

// own gives a file or folder of ours to the account.
func (a *account) own(path string) error {
	if a == nil {
		return nil
	}
	if err := os.Chown(path, int(a.uid), int(a.gid)); err != nil {
		return fmt.Errorf("giving %s to %s: %w", path, a.name, err)
	}
	return nil
}

// canReach complains about a folder on the way to dir that the account cannot
// pass.
func (a *account) canReach(dir string) error {
	if a == nil {
		return nil
	}
	for ; ; dir = filepath.Dir(dir) {
		info, err := os.Stat(dir)
		if err != nil {
			return fmt.Errorf("looking at %s: %w", dir, err)
		}
		if !a.passes(info) {
			return fmt.Errorf("the user %s, whom Postgres runs as, cannot pass the folder %s: name another folder by --data, or let it pass (chmod o+x %s)", a.name, dir, dir)
		}
		if dir == filepath.Dir(dir) {
			return nil
		}
	}
}

func (a *account) passes(info os.FileInfo) bool {
	owner, ok := info.Sys().(*syscall.Stat_t)
	switch mode := info.Mode(); {
	case ok && owner.Uid == a.uid:
		return mode&0o100 != 0
	case ok && owner.Gid == a.gid:
		return mode&0o010 != 0
	default:
		return mode&0o001 != 0
	}
}
