//! What somebody who fills in a table wants to read first; `explain TABLE` shows it.

/// The guide of each table that has one.
const GUIDES: &[(&str, &str)] = &[
    ("project", include_str!("guide/project.md")),
    ("room", include_str!("guide/room.md")),
    ("ceiling", include_str!("guide/ceiling.md")),
    ("rafters", include_str!("guide/rafters.md")),
    ("fireplace_wall", include_str!("guide/fireplace_wall.md")),
    ("behind", include_str!("guide/behind.md")),
    ("chase", include_str!("guide/chase.md")),
    ("front", include_str!("guide/front.md")),
    ("skins", include_str!("guide/skins.md")),
    ("appliance", include_str!("guide/appliance.md")),
    ("vent", include_str!("guide/vent.md")),
    ("mantel", include_str!("guide/mantel.md")),
    ("outside", include_str!("guide/outside.md")),
    ("blocking", include_str!("guide/blocking.md")),
    ("visits", include_str!("guide/visits.md")),
    ("stock", include_str!("guide/stock.md")),
    ("fasteners", include_str!("guide/fasteners.md")),
];

/// The guide of a table, in paragraphs; nothing where its keys say it all.
pub fn guide(table: &str) -> Option<&'static str> {
    let found = GUIDES.iter().find(|(name, _)| *name == table);
    found.map(|(_, text)| *text)
}
