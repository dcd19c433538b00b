//! Every test that enters the project through its public doors.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test fails by panicking"
)]

mod export;
mod mesh;
mod outside;
mod params;
mod picture;
mod samples;
mod support;
