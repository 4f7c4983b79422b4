//! Tells the program from which commit it was built, where that is known: a source archive has none. What is handed out is
//! linked small.

use std::env::var;
use std::path::Path;
use std::process::Command;

fn main() {
    // A twentieth of the file are places that the loader mends; packed, they are nearly nothing. Needs glibc 2.36.
    let is = |key: &str, value: &str| var(key).is_ok_and(|told| told == value);
    if is("PROFILE", "release") && is("CARGO_CFG_TARGET_OS", "linux") && is("CARGO_CFG_TARGET_ENV", "gnu") {
        println!("cargo::rustc-link-arg-bins=-Wl,-z,pack-relative-relocs");
        // Functions that came out the same lie onto one another, where the compiler brings the linker that can do that.
        if brings_linker().unwrap_or(false) {
            println!("cargo::rustc-link-arg-bins=-Wl,--icf=all,-O2");
        }
    }
    println!("cargo::rerun-if-changed=../../.git/HEAD");
    println!("cargo::rerun-if-changed=../../.git/index");
    let told = Command::new("git").args(["rev-parse", "--short=12", "HEAD"]).output();
    let commit = told.ok().filter(|told| told.status.success()).map(|told| told.stdout);
    if let Some(commit) = commit.and_then(|commit| String::from_utf8(commit).ok()) {
        println!("cargo::rustc-env=LOADCAIRN_COMMIT={}", commit.trim());
    }
}

/// Whether the compiler links with what it brings along, as it does on this kind of machine where it has it.
fn brings_linker() -> Option<bool> {
    let told = Command::new(var("RUSTC").ok()?).args(["--print", "sysroot"]).output().ok()?;
    let root = String::from_utf8(told.stdout).ok()?;
    let target = var("TARGET").ok()?;
    let linker = Path::new(root.trim()).join("lib/rustlib").join(&target).join("bin/gcc-ld/ld.lld");
    Some(target == "x86_64-unknown-linux-gnu" && linker.exists())
}
