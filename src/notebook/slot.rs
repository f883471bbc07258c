//! A place in a block for one value: written, not written, or written and unreadable.

/// What became of a key. Later layers treat the three cases differently: what is absent may be computed or missed, what
/// is broken has a finding already and everything that needs it stays quiet.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Slot<T> {
    /// Nothing was written.
    #[default]
    Absent,
    /// Something was written that a finding speaks of.
    Broken,
    /// The value.
    Is(T),
}

impl<T> Slot<T> {
    /// The value, if there is one.
    pub fn get(&self) -> Option<&T> {
        match self {
            Self::Is(value) => Some(value),
            Self::Absent | Self::Broken => None,
        }
    }

    /// Whether nothing was written.
    pub fn is_absent(&self) -> bool {
        matches!(self, Self::Absent)
    }

    /// Whether something unreadable was written.
    pub fn is_broken(&self) -> bool {
        matches!(self, Self::Broken)
    }

    /// The same case with another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Slot<U> {
        match self {
            Self::Absent => Slot::Absent,
            Self::Broken => Slot::Broken,
            Self::Is(value) => Slot::Is(change(value)),
        }
    }

    /// The value turned into another, or broken where that fails.
    pub fn and_then<U>(self, change: impl FnOnce(T) -> Option<U>) -> Slot<U> {
        match self {
            Self::Absent => Slot::Absent,
            Self::Broken => Slot::Broken,
            Self::Is(value) => change(value).map_or(Slot::Broken, Slot::Is),
        }
    }

    /// What was written, or broken where reading it failed.
    pub(super) fn read(value: Option<T>) -> Self {
        value.map_or(Self::Broken, Self::Is)
    }
}
