package cli

import "syscall"

// shares are the file systems that other machines keep, by their magic number
// (statfs(2) and linux/magic.h). FUSE may be anything, and often is a share.
var shares = map[uint32]string{
	0x6969:     "NFS",
	0x517b:     "SMB",
	0xff534d42: "CIFS",
	0xfe534d42: "SMB2",
	0x73757245: "Coda",
	0x5346414f: "AFS",
	0x01021997: "9P",
	0x00c36400: "Ceph",
	0x564c:     "NCP",
	0x65735546: "FUSE, which may be one",
}

func diskOf(dir string) diskState {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return diskState{}
	}
	return diskState{free: s.Bavail * uint64(s.Bsize), network: shares[uint32(s.Type)], known: true}
}
