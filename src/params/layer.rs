//! Layers of the low platform.

use crate::catalog::Lumber;
use crate::units::Length;

/// One layer of the platform, from the slab up.
#[derive(Debug, Clone, PartialEq)]
pub enum Layer {
    /// Sticks lying flat.
    Flat(Lumber),
    /// Sticks standing on edge.
    OnEdge(Lumber),
    /// A panel of this thickness.
    Panel(Length),
}

impl Layer {
    /// What the layer adds to the platform's height.
    pub fn height(&self) -> Length {
        match self {
            Self::Flat(lumber) => lumber.plate(),
            Self::OnEdge(lumber) => lumber.depth(),
            Self::Panel(thickness) => *thickness,
        }
    }
}
