//! The kit list by place, to tick at each shelf.

use serde::Serialize;

use crate::packet::model::Packet;
use crate::page::kit::{ShelfView, ThingView, shelf_views};
use crate::page::packet::{SignsView, gear_sign};
use crate::plan::kit::Fetching;

/// A place, with the signs of what is worn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Place {
    /// What lies there.
    shelf: ShelfView,
    /// Signs of each thing of each group.
    signs: Vec<Vec<SignsView>>,
    /// How many things.
    count: usize,
}

/// The kit of one packet, by place.
pub(super) fn places(packet: &Packet) -> Vec<Place> {
    let job = Fetching { packet, starts: None };
    let sign = |thing: &ThingView| match thing.is_worn {
        true => gear_sign(&thing.name, packet.language),
        false => SignsView::default(),
    };
    let place = |shelf: ShelfView| Place {
        signs: shelf.groups.iter().map(|own| own.things.iter().map(sign).collect()).collect(),
        count: shelf.groups.iter().map(|group| group.things.len()).sum(),
        shelf,
    };
    shelf_views(packet.language, &[job]).into_iter().map(place).collect()
}
