//! Tags of a job: one for each isolating device, to print, cut out and tie on beside the lock.
//!
//! Made from the packet alone, so that a tag says what the signed packet says. Must never say that a
//! tag holds a device: it warns, the lock holds.

use serde::Serialize;

use super::{Frame, JobLine, Page};
use crate::packet::model::{EnergySource, Packet};
use crate::page::{paths, words};

/// The tags of a job.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct TagsView {
    /// Frame.
    pub frame: Frame,
    /// The job's line.
    pub line: JobLine,
    /// First digits of the packet's digest.
    pub digest: String,
    /// Where the machine stands.
    pub location: String,
    /// Tags, device by device in the order of isolation.
    pub tags: Vec<TagView>,
}

/// One tag.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct TagView {
    /// Number among the tags of the job, from 1.
    pub number: usize,
    /// The isolating device.
    pub device: String,
    /// Where it stands.
    pub place: String,
    /// Its safe position.
    pub safe: String,
    /// How it is locked.
    pub lock: String,
    /// The sources it holds, with kind and magnitude.
    pub sources: Vec<String>,
}

impl TagsView {
    /// One tag for each device: the people of a crew lock the group box and not the devices.
    pub fn new(frame: Frame, line: JobLine, packet: &Packet, digest: &str) -> TagsView {
        let tags = devices(&packet.energy).into_iter();
        TagsView {
            frame,
            line,
            digest: words::short_digest(digest),
            location: packet.machine.location.clone(),
            tags: tags.zip(1..).map(|(tag, number)| TagView { number, ..tag }).collect(),
        }
    }
}

/// A tag for each device; one device may hold several sources.
pub(super) fn devices(sources: &[EnergySource]) -> Vec<TagView> {
    let mut tags: Vec<TagView> = Vec::new();
    for source in sources {
        let what = format!("{}: {}, {}", source.name, source.kind, words::bound(&source.magnitude));
        let same =
            |tag: &&mut TagView| (&tag.device, &tag.place) == (&source.device, &source.place);
        match tags.iter_mut().find(same) {
            Some(tag) => tag.sources.push(what),
            None => tags.push(TagView {
                number: 0,
                device: source.device.clone(),
                place: source.place.clone(),
                safe: source.safe.clone(),
                lock: source.lock.clone(),
                sources: vec![what],
            }),
        }
    }
    tags
}

/// The tags of a job, for [`paths::tags`].
pub fn tags_html(view: &TagsView) -> String {
    let title = view.frame.language.text("tags-title", &[("id", (&view.line.id).into())]);
    Page::new(&view.frame, view, &title, paths::JOBS).under("site-title-jobs").html("tags.html")
}

#[cfg(test)]
mod tests {
    use super::{TagsView, devices, tags_html};
    use crate::page::sample;

    #[test]
    fn two_sources_behind_one_device_share_a_tag() {
        let mut sources = sample::packet().energy;
        let count = sources.len();
        let mut twin = sources[0].clone();
        twin.name = "Heating supply".to_owned();
        sources.push(twin);
        let tags = devices(&sources);
        assert_eq!(tags.len(), count);
        assert!(tags[0].sources[1].starts_with("Heating supply: "), "{:?}", tags[0].sources);
    }

    #[test]
    fn each_device_has_one_tag_with_its_number() {
        let packet = sample::packet();
        let view = TagsView::new(Default::default(), Default::default(), &packet, "");
        let numbers: Vec<usize> = view.tags.iter().map(|tag| tag.number).collect();
        assert_eq!(numbers, (1..=devices(&packet.energy).len()).collect::<Vec<_>>());
    }

    #[test]
    fn every_tag_warns_and_says_that_the_lock_holds() {
        let packet = sample::packet();
        let view = TagsView::new(Default::default(), Default::default(), &packet, "");
        let page = tags_html(&view);
        for words in
            ["DO NOT OPERATE", "This tag warns. It does not hold the device: the lock does."]
        {
            assert_eq!(page.matches(words).count(), view.tags.len(), "{words}");
        }
    }
}
