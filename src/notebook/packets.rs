//! What stands on the shelf, looked up once: the packets and `ingredient` blocks of a material, by its id in the pantry.

use std::collections::BTreeMap;

use crate::pantry::{Lookup, Pantry, Strength};

use super::settings::Packet;
use super::{Block, Body};

/// Packets and `ingredient` blocks by the material that they are.
#[derive(Debug, Clone, Default)]
pub struct Packets {
    materials: BTreeMap<String, Of>,
    /// The material of each packet, in the order of the settings, and the strength in its name.
    shelf: Vec<Option<(String, Option<Strength>)>>,
}

/// What there is of one material, as places in the settings and among the blocks.
#[derive(Debug, Clone, Default)]
struct Of {
    packets: Vec<usize>,
    blocks: Vec<usize>,
}

impl Packets {
    /// Looks everything up.
    pub(super) fn of(pantry: &Pantry, shelf: &[Packet], blocks: &[Block]) -> Self {
        let mut packets = Self::default();
        for (at, packet) in shelf.iter().enumerate() {
            let known = packet.material.get().and_then(|name| known(pantry, &name.value));
            if let Some((id, _)) = &known {
                packets.materials.entry(id.clone()).or_default().packets.push(at);
            }
            packets.shelf.push(known);
        }
        for (at, block) in blocks.iter().enumerate() {
            if let Body::Ingredient(ingredient) = &block.body
                && let Some(name) = ingredient.material.get()
                && let Some((id, _)) = known(pantry, &name.value)
            {
                packets.materials.entry(id).or_default().blocks.push(at);
            }
        }
        packets
    }

    /// The id of the material in the packet at this place of the shelf, and the strength in its name.
    pub fn material(&self, at: usize) -> Option<(&str, Option<Strength>)> {
        let (id, strength) = self.shelf.get(at)?.as_ref()?;
        Some((id, *strength))
    }

    /// The places on the shelf of the packets of the material with this id.
    pub fn on_shelf(&self, id: &str) -> &[usize] {
        self.materials.get(id).map_or(&[], |of| &of.packets)
    }

    /// The places among the notebook's blocks of the `ingredient` blocks of the material with this id.
    pub fn blocks(&self, id: &str) -> &[usize] {
        self.materials.get(id).map_or(&[], |of| &of.blocks)
    }
}

fn known(pantry: &Pantry, name: &str) -> Option<(String, Option<Strength>)> {
    match pantry.look_up(name) {
        Lookup::Found { material, strength } => Some((material.id.clone(), strength)),
        _ => None,
    }
}
