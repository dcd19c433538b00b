//! Every test that enters the project through its public doors.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test fails by panicking"
)]

mod circles;
mod cli;
mod corpus;
mod crooked;
mod cut_outs;
mod datum;
mod declared;
mod distances;
mod drawing;
mod export;
mod flush;
mod gap_over_plates;
mod generate;
mod geometry;
mod growing;
mod headers;
mod heights;
mod interference;
#[cfg(target_os = "linux")]
mod interrupt;
mod knowing_less;
mod licenses;
mod mesh;
mod mirror;
mod moved;
mod numbers;
mod odd_frames;
mod one_number;
mod outside;
mod packet;
mod params;
mod picture;
mod placements;
mod plan;
mod proved;
mod published;
mod raising;
mod random_pairs;
mod readings;
mod remedies;
mod ridge;
mod rules;
mod rules_of_attachment;
mod rules_of_parameters;
mod rules_of_sticks;
mod sample;
mod samples;
mod scale;
mod scenarios;
mod seeded_faults;
mod sheets;
mod steel;
mod support;
mod support_of_sticks;
mod takeoff;
mod tidy;
mod told;
mod true_surfaces;
mod turns;
mod units;
mod vent;
mod writing;
