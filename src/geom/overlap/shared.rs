//! The measure of an overlap.

/// What two bodies have in common.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overlap {
    /// Volume in cubic millimetres.
    ///
    /// Exact for two swept shapes; for a tube and a swept shape an integral of exact
    /// cross-sections; for two tubes that of one tube with facets inscribed in the other, so a
    /// little too small, and 0 when the overlap is thinner than the facets show.
    pub volume: f64,
    /// How far one has to be pushed out of the other, in millimetres.
    ///
    /// For two convex swept shapes the smallest move that parts them; for shapes of several convex
    /// pieces the largest of the pieces' smallest moves, so the whole may need more. For a tube the
    /// smallest of the moves along faces, ends and edges that part the tube, its bore filled, from
    /// the other.
    pub depth: f64,
}
