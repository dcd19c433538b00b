//! What a sheet shows.

/// What a sheet shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawing {
    /// Framing, platform, unit and vent as they stand.
    Assembled,
    /// From above.
    Plan,
    /// The finished front.
    Front,
    /// Cut across the chase.
    Section,
    /// Cut along a run of the vent.
    Run,
    /// A side.
    Side,
    /// The framing of one wall.
    Framing,
    /// Blocks in a wall of the room.
    BlocksInWall,
    /// Blocks over the ceiling.
    BlocksOverCeiling,
    /// The platform.
    Platform,
    /// Plumb lines on a wall of the room.
    PlumbLines,
    /// The framed hole through a wall.
    WallPass,
    /// The framed hole through ceiling and roof.
    RoofPass,
    /// The cap, from outside.
    Outside,
    /// How a wall is held under the ceiling and on the slab.
    Attachment,
    /// The end of a side wall at a wall of the room.
    EndStud,
    /// The framing pulled apart.
    Exploded,
    /// Boards and what is cut from each.
    Cutting,
    /// The board of one face.
    Board,
    /// Sheets and what is cut from each.
    Panels,
    /// A template of an angle, at full size.
    Template,
    /// A part of the story pole.
    Pole,
    /// The pieces of a scale model.
    Kit,
}
