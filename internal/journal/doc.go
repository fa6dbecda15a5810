// Package journal keeps an append-only log in one file that several processes
// share. Each entry carries the SHA-256 of the entry before it, so that a
// changed, missing or moved entry shows.
//
// It is the only package that knows bbolt. It knows nothing of what the
// entries mean: kinds and bodies belong to the caller, and so do the rules of
// entry, which the caller checks inside Update.
//
// # The file
//
// A bbolt file with four buckets:
//
//	meta        format -> "bathside-journal/1", id -> random text,
//	            head -> sequence (8 bytes, big-endian) and SHA-256 of the newest entry
//	entries     sequence (8 bytes, big-endian) -> the entry as JSON
//	ids         entry ID -> sequence
//	checkpoint  a folded state of the caller's, which may be thrown away
//
// and one more for each side table that the caller has put something into: see
// Side.
//
// The bytes that are hashed are the bytes that are stored. The chain cannot
// vouch for its newest entry, so the head is kept beside it and is written in
// the same transaction.
//
// # Sharing
//
// The file is opened for each transaction and closed again. Writers and
// readers queue on a lock file beside it, named after it with ".lock" added;
// that file is empty, is never removed, and need not be copied in a backup.
//
// Create makes the file for one account. Where several accounts of a
// workstation share it, give the directory a group of theirs (chmod 2770) and
// the journal to that group (chmod 660); the lock file takes both over from
// the journal when it is made.
package journal
