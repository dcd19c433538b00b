//! Every test that enters the project through its public doors.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test fails by panicking"
)]

mod export;
mod mesh;
mod moved;
mod outside;
mod params;
mod published;
mod samples;
mod scenarios;
mod support;
mod tidy;
