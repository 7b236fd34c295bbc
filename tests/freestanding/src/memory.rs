//! The four functions that compiled Rust may call and that a C library or the
//! `compiler_builtins` of a bare target brings along.
//!
//! Byte by byte and volatile: an optimiser that recognised such a loop would
//! replace it by a call of the very function it is in.

use core::ptr::{read_volatile, write_volatile};

/// # Safety
/// `to` and `from` point to `n` bytes that do not overlap.
#[unsafe(no_mangle)]
unsafe extern "C" fn memcpy(to: *mut u8, from: *const u8, n: usize) -> *mut u8 {
    for i in 0..n {
        // SAFETY: `i < n`, and the caller vouches for `n` bytes.
        unsafe { write_volatile(to.add(i), read_volatile(from.add(i))) };
    }
    to
}

/// # Safety
/// `to` and `from` point to `n` bytes.
#[unsafe(no_mangle)]
unsafe extern "C" fn memmove(to: *mut u8, from: *const u8, n: usize) -> *mut u8 {
    if to.cast_const() <= from {
        // SAFETY: copied forwards, no byte is overwritten before it was read.
        return unsafe { memcpy(to, from, n) };
    }
    for i in (0..n).rev() {
        // SAFETY: `i < n`, and the caller vouches for `n` bytes.
        unsafe { write_volatile(to.add(i), read_volatile(from.add(i))) };
    }
    to
}

/// # Safety
/// `to` points to `n` bytes.
#[unsafe(no_mangle)]
unsafe extern "C" fn memset(to: *mut u8, byte: i32, n: usize) -> *mut u8 {
    for i in 0..n {
        // SAFETY: `i < n`, and the caller vouches for `n` bytes. C counts in the
        // low byte.
        unsafe { write_volatile(to.add(i), byte as u8) };
    }
    to
}

/// # Safety
/// `a` and `b` point to `n` bytes.
#[unsafe(no_mangle)]
unsafe extern "C" fn memcmp(a: *const u8, b: *const u8, n: usize) -> i32 {
    for i in 0..n {
        // SAFETY: `i < n`, and the caller vouches for `n` bytes.
        let (x, y) = unsafe { (read_volatile(a.add(i)), read_volatile(b.add(i))) };
        if x != y {
            return i32::from(x) - i32::from(y);
        }
    }
    0
}
