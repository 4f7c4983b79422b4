//! Locks: a file that one program alone writes.

use std::fs::{File, TryLockError};
use std::time::Duration;

/// How often and how long a lock is waited for.
const LOCK_TRIES: u32 = 10;
const LOCK_WAIT: Duration = Duration::from_millis(20);

/// Locks a file for this program alone, until the file is closed. Another's lock is waited for a
/// fifth of a second: a program that is just ending, or one that is just being started from the same
/// process, holds it a moment longer than it means to.
///
/// # Errors
/// That another holds it, or the system's.
pub fn lock(file: &File) -> Result<(), TryLockError> {
    for _ in 1..LOCK_TRIES {
        match file.try_lock() {
            Err(TryLockError::WouldBlock) => std::thread::sleep(LOCK_WAIT),
            settled => return settled,
        }
    }
    file.try_lock()
}
