package journal

import "syscall"

// shares are the file systems that are on another machine, by the number that
// statfs(2) gives. The numbers are those of the kernel's
// include/uapi/linux/magic.h; where another source is named, that one's.
var shares = map[uint32]string{
	0x6969:     "NFS",    // NFS_SUPER_MAGIC
	0x517B:     "SMB",    // SMB_SUPER_MAGIC
	0xFF534D42: "CIFS",   // CIFS_SUPER_MAGIC
	0xFE534D42: "SMB2",   // SMB2_SUPER_MAGIC
	0x564C:     "NCP",    // NCP_SUPER_MAGIC
	0x5346414F: "AFS",    // AFS_SUPER_MAGIC
	0x6B414653: "AFS",    // AFS_FS_MAGIC
	0x73757245: "Coda",   // CODA_SUPER_MAGIC
	0x01021997: "9P",     // V9FS_MAGIC
	0x00C36400: "Ceph",   // CEPH_SUPER_MAGIC
	0x0BD00BD0: "Lustre", // statfs(2) does not list it; from memory
}

func shareOf(path string) string {
	var fs syscall.Statfs_t
	if err := syscall.Statfs(path, &fs); err != nil {
		return ""
	}
	return shareByNumber(int64(fs.Type))
}

// shareByNumber takes the number as statfs has it, which is a signed word of
// the machine: on 32 bits the two that begin with FF and FE are negative.
func shareByNumber(number int64) string { return shares[uint32(number)] }
