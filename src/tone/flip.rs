//! Whether a picture must be mirrored.

/// How a picture came to be and how it is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// Seen from the emulsion, as on a flatbed with the emulsion down; else through the base.
    pub from_emulsion: bool,
    /// How many mirrors the camera has.
    pub mirrors: u32,
    /// The capturing device mirrors by itself.
    pub capture_mirrors: bool,
    /// The paper was loaded with its emulsion away from the hole.
    pub reversed: bool,
    /// How many times it was contact printed face to face.
    pub face_to_face: u32,
}

impl Default for Way {
    /// A negative seen from its emulsion.
    fn default() -> Self {
        Self {
            from_emulsion: true,
            mirrors: 0,
            capture_mirrors: false,
            reversed: false,
            face_to_face: 0,
        }
    }
}

/// Whether to flip left and right after turning the picture upright.
///
/// Exclusive or of: seen from the emulsion, odd mirrors, a mirroring capture, paper loaded the wrong way round, and each contact
/// print face to face. The hole maps every direction to its opposite, which mirrors the image for every shape of paper. Source:
/// own derivation: the point reflection of space has determinant -1.
pub fn needs_flip(way: Way) -> bool {
    way.from_emulsion
        ^ (way.mirrors % 2 == 1)
        ^ way.capture_mirrors
        ^ way.reversed
        ^ (way.face_to_face % 2 == 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_turn_undoes_the_one_before() {
        let plain = Way::default();
        assert!(needs_flip(plain));
        assert!(!needs_flip(Way {
            from_emulsion: false,
            ..plain
        }));
        assert!(!needs_flip(Way {
            face_to_face: 1,
            ..plain
        }));
        assert!(needs_flip(Way {
            face_to_face: 2,
            ..plain
        }));
        assert!(!needs_flip(Way {
            reversed: true,
            ..plain
        }));
        assert!(needs_flip(Way {
            mirrors: 1,
            capture_mirrors: true,
            ..plain
        }));
    }
}
