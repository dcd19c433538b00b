//! What the crates may be used under that the program and its tests are built from.
//!
//! Read from the crates' own manifests, for the platform that the test runs on; names of licenses and the words
//! between them are those of SPDX.

use std::collections::BTreeSet;
use std::fs;
use std::process::Command;

use serde_json::Value;

/// A crate is under one of these, or offers one of them beside others.
const ALLOWED: [&str; 2] = ["MIT", "Apache-2.0"];

/// Every other crate: its name, its license, and why it may stay. README.md names them too.
const NAMED: [(&str, &str, &str); 12] = [
    (
        "arrayref",
        "BSD-2-Clause",
        "asks for its notice to be kept, as MIT does",
    ),
    (
        "boolmesh",
        "MPL-2.0",
        "binds changes to its own files, and there are none; the program that uses it stays free",
    ),
    ("earcut", "ISC", "asks for its notice to be kept"),
    (
        "foldhash",
        "Zlib",
        "asks that nothing else be passed off as it",
    ),
    ("hmac-sha256", "ISC", "asks for its notice to be kept"),
    (
        "tiny-skia-path",
        "BSD-3-Clause",
        "asks for its notice to be kept, and that its authors' names advertise nothing",
    ),
    (
        "unicode-ident",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        "its tables are the Unicode Consortium's, whose notice is to be kept",
    ),
    ("yoke", "Unicode-3.0", "asks for its notice to be kept"),
    (
        "yoke-derive",
        "Unicode-3.0",
        "asks for its notice to be kept",
    ),
    ("zerofrom", "Unicode-3.0", "asks for its notice to be kept"),
    (
        "zerofrom-derive",
        "Unicode-3.0",
        "asks for its notice to be kept",
    ),
    (
        "zlib-rs",
        "Zlib",
        "asks that nothing else be passed off as it",
    ),
];

/// Crates that are built on other platforms only, each of which offers MIT or Apache-2.0: looked up, since their
/// manifests are not here.
const ELSEWHERE: [&str; 26] = [
    "block2",
    "crunchy",
    "dispatch2",
    "encode_unicode",
    "futures-core",
    "futures-task",
    "futures-util",
    "js-sys",
    "objc2",
    "objc2-encode",
    "pin-project-lite",
    "r-efi",
    "redox_syscall",
    "rustversion",
    "slab",
    "wasi",
    "wasm-bindgen",
    "wasm-bindgen-macro",
    "wasm-bindgen-macro-support",
    "wasm-bindgen-shared",
    "winapi",
    "winapi-i686-pc-windows-gnu",
    "winapi-util",
    "winapi-x86_64-pc-windows-gnu",
    "windows-link",
    "windows-sys",
];

/// The crates built here: name and license.
fn crates() -> Vec<(String, String)> {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--locked", "--offline", "--format-version=1"])
        .args(["--filter-platform", "host-tuple"])
        .output()
        .expect("cargo runs");
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{told}");
    let metadata: Value = serde_json::from_slice(&output.stdout).expect("it answers in JSON");
    let packages = metadata["packages"].as_array().expect("packages");
    let text = |value: &Value| value.as_str().unwrap_or("none").to_owned();
    let read = packages
        .iter()
        .map(|it| (text(&it["name"]), text(&it["license"])));
    read.collect()
}

/// Whether a license offers one of those allowed, with nothing else to be met beside it.
fn is_allowed(license: &str) -> bool {
    // A stroke is how manifests wrote "OR" before SPDX.
    license
        .split(" OR ")
        .flat_map(|it| it.split('/'))
        .any(|it| ALLOWED.contains(&it))
}

#[test]
fn every_crate_is_under_a_license_that_is_allowed_or_named() {
    let crates = crates();
    for (name, license) in &crates {
        let named = NAMED.iter().any(|it| it.0 == name && it.1 == license);
        assert!(named || is_allowed(license), "{name} is under {license}");
    }
    for (name, license, _) in NAMED {
        let used = crates.iter().any(|it| it.0 == name && it.1 == license);
        assert!(used, "{name} under {license} is no longer used");
    }
}

#[test]
fn only_offers_are_allowed() {
    for license in ["MIT", "Zlib OR Apache-2.0 OR MIT", "MIT/Apache-2.0"] {
        assert!(is_allowed(license), "{license}");
    }
    for license in [
        "none",
        "MIT AND Zlib",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        "GPL-3.0-only",
    ] {
        assert!(!is_allowed(license), "{license}");
    }
}

#[test]
fn every_crate_of_the_lock_file_is_read_or_looked_up() {
    let lock = fs::read_to_string("Cargo.lock").expect("Cargo.lock");
    let locked: BTreeSet<&str> = lock
        .lines()
        .filter_map(|it| it.strip_prefix("name = \"")?.strip_suffix('"'))
        .collect();
    let crates = crates();
    for name in &locked {
        let read = crates.iter().any(|it| it.0 == *name);
        assert!(read || ELSEWHERE.contains(name), "{name}: its license");
    }
    for name in ELSEWHERE {
        assert!(locked.contains(name), "{name} is no longer used anywhere");
    }
}

#[test]
fn the_reader_is_told_what_is_under_another_license() {
    let readme = fs::read_to_string("README.md").expect("README.md");
    let (_, said) = readme.split_once("## License").expect("its last section");
    for (name, license, _) in NAMED {
        let short = license.rsplit(' ').next().unwrap_or(license);
        let told = said.contains(&format!("`{name}`")) && said.contains(short);
        assert!(told, "{name}, {license}");
    }
}
