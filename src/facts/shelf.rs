//! The shelf: which packet a material is weighed from, and how much of that packet does the work.

use std::collections::BTreeMap;

use crate::notebook::{Notebook, Packet};
use crate::pantry::{Basis, Figure, Form, Material, Strength};
use crate::scale::forms;
use crate::units::{Dimension, Range};

use super::dose::Dose;

/// Strengths nearer to each other than this part of them are one.
const SAME_STRENGTH: f64 = 1e-6;

/// A packet whose material is known.
#[derive(Debug, Clone, Copy)]
pub struct Shelved<'n> {
    /// What the shelf calls it.
    pub name: &'n str,
    /// What it is.
    pub material: &'n Material,
    /// The packet.
    pub packet: &'n Packet,
    /// The strength in its name.
    named: Option<Strength>,
}

/// The packets at hand, in the order of the settings.
#[derive(Debug, Clone, Default)]
pub struct Shelf<'n> {
    packets: Vec<Shelved<'n>>,
    /// The places of the packets of a material, and of those of a family of forms.
    of_material: BTreeMap<&'n str, Vec<usize>>,
    of_family: BTreeMap<&'n str, Vec<usize>>,
    /// The places of packets of tablets.
    tablets: Vec<usize>,
}

/// How a material of a recipe is taken from the shelf.
#[derive(Debug, Clone, Copy)]
pub enum Way<'s, 'n> {
    /// As written, from this packet.
    Same(&'s Shelved<'n>),
    /// Another form of the same substance: so many grams of it for a gram as written.
    OtherForm(&'s Shelved<'n>, f64),
    /// The same liquid in another strength: so many millilitres of it for a millilitre as written.
    OtherStrength(&'s Shelved<'n>, f64),
    /// Tablets, each with so many grams of what is written.
    Tablets(&'s Shelved<'n>, f64),
    /// The shelf has none of it.
    Absent,
}

impl<'s, 'n> Way<'s, 'n> {
    /// The packet, where there is one.
    pub fn packet(self) -> Option<&'s Shelved<'n>> {
        match self {
            Self::Same(packet)
            | Self::OtherForm(packet, _)
            | Self::OtherStrength(packet, _)
            | Self::Tablets(packet, _) => Some(packet),
            Self::Absent => None,
        }
    }
}

impl<'n> Shelf<'n> {
    /// Every packet whose material is known.
    pub fn of(notebook: &'n Notebook) -> Self {
        let known = |(at, packet): (usize, &'n Packet)| {
            let (id, named) = notebook.packets.material(at)?;
            Some(Shelved {
                name: &packet.material.get()?.value,
                material: notebook.pantry.get(id)?,
                packet,
                named,
            })
        };
        let shelf = notebook.settings.shelf.iter().enumerate();
        let mut found = Self {
            packets: shelf.filter_map(known).collect(),
            ..Self::default()
        };
        for (at, packet) in found.packets.iter().enumerate() {
            let material = packet.material;
            found.of_material.entry(&material.id).or_default().push(at);
            if let Some(family) = &material.of {
                found.of_family.entry(family).or_default().push(at);
            }
            if material.tablet_active.is_some() {
                found.tablets.push(at);
            }
        }
        found
    }

    fn at<'s>(&'s self, places: Option<&'s Vec<usize>>) -> impl Iterator<Item = &'s Shelved<'n>> {
        let places = places.into_iter().flatten();
        places.filter_map(|&at| self.packets.get(at))
    }

    fn of_material(&self, id: &str) -> impl Iterator<Item = &Shelved<'n>> {
        self.at(self.of_material.get(id))
    }

    fn of_family(&self, family: Option<&String>) -> impl Iterator<Item = &Shelved<'n>> {
        self.at(family.and_then(|family| self.of_family.get(family.as_str())))
    }

    /// All packets.
    pub fn packets(&self) -> &[Shelved<'n>] {
        &self.packets
    }

    /// How a material of a recipe is taken from here: as written where that is at hand, else in another form, strength
    /// or shape of the same substance.
    pub fn way(&self, dose: &Dose) -> Way<'_, 'n> {
        let Some(written) = dose.material() else {
            return Way::Absent;
        };
        let wanted = dose.strength_grams_per_litre();
        let liquid = dose.amount.dimension == Dimension::Volume;
        if let Some(packet) = self.of_material(&written.id).next() {
            return match (wanted.filter(|_| liquid), packet.grams_per_litre()) {
                (Some(wanted), Some(there)) if (wanted.best / there.best - 1.0).abs() > SAME_STRENGTH => {
                    Way::OtherStrength(packet, wanted.best / there.best)
                }
                _ => Way::Same(packet),
            };
        }
        for packet in self.of_family(written.of.as_ref()) {
            if let (Some(own), Some(other)) = (&written.formula, &packet.material.formula)
                && own != other
                && let Some(grams) = forms::same_substance(Range::exact(1.0), own, other)
            {
                return Way::OtherForm(packet, grams.best);
            }
            if let (true, Some(wanted), Some(there)) = (liquid, wanted, packet.grams_per_litre()) {
                return Way::OtherStrength(packet, wanted.best / there.best);
            }
        }
        let tablets = self.at(Some(&self.tablets)).find_map(|packet| {
            let active = packet.material.tablet_active.as_ref()?.best();
            let holds = packet
                .material
                .contains
                .iter()
                .any(|share| share.material == written.id);
            (holds && active > 0.0 && !liquid).then_some(Way::Tablets(packet, active))
        });
        tablets.unwrap_or(Way::Absent)
    }

    /// The place among [`Shelf::packets`] of the packet that a dose is taken from.
    pub fn place(&self, dose: &Dose) -> Option<usize> {
        let packet = self.way(dose).packet()?;
        self.packets.iter().position(|other| std::ptr::eq(other, packet))
    }

    /// What a dose takes of its packet for a bath of `litres`, before any rounding: grams, litres of a liquid, or tablets.
    pub fn takes(&self, dose: &Dose, litres: Range) -> Option<(Range, Dimension)> {
        let amount = &dose.amount.amount;
        let counted = |packet: &Shelved<'_>| {
            let figure = packet.packet.left.get().or(packet.packet.pack.get());
            figure.is_some_and(|figure| figure.dimension == Dimension::Count)
        };
        Some(match (self.way(dose), amount.dimension) {
            (Way::Same(packet), Dimension::Count) if counted(packet) => (amount.range, Dimension::Count),
            (Way::Tablets(_, active), _) => (dose.grams(litres)?.scale(1.0 / active), Dimension::Count),
            (Way::OtherStrength(_, factor), Dimension::Volume) => {
                (amount.range.scale(factor), Dimension::Volume)
            }
            (Way::OtherForm(_, factor), _) => (dose.grams(litres)?.scale(factor), Dimension::Mass),
            // The bottle holds such a solution; else it is made from the solid.
            (Way::Same(packet), Dimension::Volume)
                if dose.known.solution().is_some() && packet.grams_per_litre().is_some() =>
            {
                (amount.range, Dimension::Volume)
            }
            (_, Dimension::Volume) if dose.material().is_some_and(is_liquid) => {
                (amount.range, Dimension::Volume)
            }
            (_, Dimension::VolumeFraction) if dose.known.solution().is_none() => {
                (amount.range * litres, Dimension::Volume)
            }
            (_, Dimension::Count) => match dose.grams(litres) {
                Some(grams) => (grams, Dimension::Mass),
                None => (amount.range, Dimension::Count),
            },
            _ => (dose.grams(litres)?, Dimension::Mass),
        })
    }

    /// Other strengths of the liquid that a dose names, as packet and grams per litre.
    pub fn strengths(&self, dose: &Dose) -> Vec<(&Shelved<'n>, f64)> {
        let Some(written) = dose.material() else {
            return Vec::new();
        };
        let other = |packet: &&Shelved<'n>| packet.material.id != written.id;
        let others = self.of_family(written.of.as_ref()).filter(other);
        self.of_material(&written.id)
            .chain(others)
            .filter_map(|packet| Some((packet, packet.grams_per_litre()?.best)))
            .collect()
    }
}

impl Shelved<'_> {
    /// Its strength in grams to the litre: as the shelf says it, as its name does, or as its contents do.
    pub fn grams_per_litre(&self) -> Option<Range> {
        if let Some(written) = self.packet.strength.get() {
            return Strength::of_amount(written.range, written.dimension)?.grams_per_litre();
        }
        let held = || match self.material.contains.as_slice() {
            [only] if only.basis == Basis::GramsPerLitre => Some(only.amount.range()),
            _ => None,
        };
        let pure = |strength: &Strength| *strength != Strength::PURE;
        let named = self.named.filter(pure);
        named.and_then(Strength::grams_per_litre).or_else(held)
    }

    /// What is left in it, counted in a dimension: as written, else a full pack.
    pub fn there_in(&self, dimension: Dimension) -> Option<Range> {
        let figure = self.packet.left.get().or(self.packet.pack.get())?;
        counted_in(self.material, figure.range, figure.dimension, dimension)
    }

    /// What a full pack holds, counted in a dimension.
    pub fn pack_in(&self, dimension: Dimension) -> Option<Range> {
        let figure = self.packet.pack.get()?;
        counted_in(self.material, figure.range, figure.dimension, dimension)
    }
}

/// An amount of a material in another dimension: of liquids millilitres and grams by their density.
pub(super) fn counted_in(material: &Material, range: Range, from: Dimension, to: Dimension) -> Option<Range> {
    let density = || material.density.as_ref().map(Figure::best);
    match (from, to) {
        _ if from == to => Some(range),
        (Dimension::Mass, Dimension::Volume) => Some(range.scale(0.001 / density()?)),
        (Dimension::Volume, Dimension::Mass) => Some(range.scale(1000.0 * density()?)),
        _ => None,
    }
}

/// Whether it is poured: then a spoon of it holds its own volume and no more.
pub fn is_liquid(material: &Material) -> bool {
    material.form == Some(Form::Liquid) || material.density.is_some()
}
