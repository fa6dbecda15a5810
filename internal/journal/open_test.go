package journal_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"bathside/internal/journal"
)

func TestFilesThatAreNotOurs(t *testing.T) {
	tests := []struct {
		name string
		make func(path string) error
		want error
	}{
		{"missing", func(string) error { return nil }, journal.ErrNotExist},
		{"empty", func(path string) error { return os.WriteFile(path, nil, 0o600) }, journal.ErrNotOurs},
		{"directory", func(path string) error { return os.Mkdir(path, 0o700) }, journal.ErrNotOurs},
		{"text", func(path string) error {
			return os.WriteFile(path, []byte(strings.Repeat("day 3: pH 9.8\n", 3000)), 0o600)
		}, journal.ErrNotOurs},
		{"another program's bbolt file", otherBolt, journal.ErrNotOurs},
		{"newer format", newerFormat, journal.ErrNewer},
		{"cut short", cutShort, journal.ErrDamaged},
		{"cut within the headers", func(path string) error {
			return errors.Join(fresh(path), os.Truncate(path, 5000))
		}, journal.ErrDamaged},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "station.db")
			if err := test.make(path); err != nil {
				t.Fatal(err)
			}
			before, _ := os.ReadFile(path)
			if _, err := journal.Open(path); !errors.Is(err, test.want) || !strings.Contains(err.Error(), path) {
				t.Errorf("open: got %v, want %v with the path", err, test.want)
			}
			if _, err := journal.Verify(path); !errors.Is(err, test.want) {
				t.Errorf("verify: got %v, want %v", err, test.want)
			}
			if after, _ := os.ReadFile(path); string(after) != string(before) {
				t.Error("the file was changed")
			}
		})
	}
}

// A console that is open while another process brings the file to a newer
// format must write nothing more.
func TestWriterMeetsNewerFormat(t *testing.T) {
	path := filepath.Join(t.TempDir(), "station.db")
	j, err := journal.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := putRaw(path, "meta", []byte("format"), []byte("bathside-journal/2")); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := appendTo(j, "a"); !errors.Is(err, journal.ErrNewer) {
		t.Errorf("got %v, want ErrNewer", err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file was changed")
	}
}

func fresh(path string) error {
	_, err := journal.Create(path)
	return err
}

func newerFormat(path string) error {
	return errors.Join(fresh(path), putRaw(path, "meta", []byte("format"), []byte("bathside-journal/2")))
}

func otherBolt(path string) error {
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		return err
	}
	defer db.Close()
	return db.Update(func(tx *bolt.Tx) error {
		_, err := tx.CreateBucket([]byte("meta"))
		return err
	})
}

func cutShort(path string) error {
	j, err := journal.Create(path)
	if err != nil {
		return err
	}
	if err := appendTo(j, numbered(200)...); err != nil {
		return err
	}
	return os.Truncate(path, 3*int64(os.Getpagesize()))
}

// putRaw changes a journal behind its back. A nil value deletes the key.
func putRaw(path, bucket string, key, value []byte) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{NoSync: true})
	if err != nil {
		return err
	}
	defer db.Close()
	return db.Update(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(bucket))
		if value == nil {
			return b.Delete(key)
		}
		return b.Put(key, value)
	})
}
