//! The reader of parameter files.
use chasewright::params;
#[test]
fn good_files_are_read() {
    for text in [
        include_str!("../params/good/stepped.toml"),
        include_str!("../params/good/one_wall.toml"),
    ] {
        let read = params::read(text);
        assert!(read.is_ok(), "{read:#?}");
    }
}
