//! Every test that enters the project through its public doors.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test fails by panicking"
)]

mod agreement;
mod caps;
mod circles;
mod cli;
mod corpus;
mod crooked;
mod cut_outs;
mod datum;
mod decided;
mod declared;
mod distances;
mod drawing;
mod export;
mod false_fails;
mod flush;
mod follows;
mod gap_over_plates;
mod gas_stub;
mod generate;
mod geometry;
mod growing;
mod hammer_room;
mod headers;
mod heights;
mod holding;
mod interference;
#[cfg(target_os = "linux")]
mod interrupt;
mod knowing_less;
mod licenses;
mod likely;
mod mesh;
mod mirror;
mod moved;
mod numbers;
mod odd_frames;
mod one_number;
mod one_truth;
mod outside;
mod packet;
mod params;
mod picture;
mod placements;
mod plan;
mod products_agree;
mod proved;
mod published;
mod raising;
mod random_pairs;
mod readings;
mod remedies;
mod ridge;
mod rules;
mod rules_of_answers;
mod rules_of_attachment;
mod rules_of_parameters;
mod rules_of_sticks;
mod sample;
mod samples;
mod scale;
mod scenarios;
mod seeded_faults;
mod sheets;
mod square_cuts;
mod steel;
mod support;
mod support_of_sticks;
mod takeoff;
mod terminal;
mod tidy;
mod told;
mod true_surfaces;
mod turns;
mod units;
mod vent;
mod walk;
mod weights;
mod writing;
